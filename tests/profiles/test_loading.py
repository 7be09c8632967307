from __future__ import annotations

from collections.abc import Iterator, Mapping

import pytest

from flatpack.errors import ProfileError, ReadError
from flatpack.parameters import BoardChoice
from flatpack.profile_files import profile_texts, read_text, shipped_folder
from flatpack.profiles import load

BOARD = """
name = "Oak 20 mm"
kind = "planed"
nominal = 20
thickness = 19.5
widths = [95]
lengths = ["2 m"]
material = "oak"
density = 700
source = "measured"
"""


class Counted(Mapping[str, str]):
    """Texts that remember which of them were asked for."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self.texts = dict(texts)
        self.asked: list[str] = []

    def __getitem__(self, path: str) -> str:
        self.asked.append(path)
        return self.texts[path]

    def __iter__(self) -> Iterator[str]:
        return iter(self.texts)

    def __len__(self) -> int:
        return len(self.texts)


def test_only_what_is_asked_for_is_read():
    texts = Counted({"p/boards/oak-20.toml": BOARD, "p/boards/broken.toml": "not = toml ="})
    profiles = load(texts)
    assert profiles.names("boards") == ("broken", "oak-20")
    assert texts.asked == []
    profiles.board("oak-20")
    profiles.board("oak-20")
    assert texts.asked == ["p/boards/oak-20.toml"]


def test_profiles_used_so_far():
    profiles = load({"boards/oak-20.toml": BOARD, "boards/ash-20.toml": BOARD})
    assert profiles.used() == ()
    made = profiles.board("oak-20")
    assert profiles.used() == (("boards", "oak-20", made),)


def test_later_folder_overrides():
    own = BOARD.replace("19.5", "19.1")
    profiles = load({"shipped/boards/oak-20.toml": BOARD, "own/boards/oak-20.toml": own})
    assert profiles.board("oak-20").thickness == 19.1
    assert profiles.path("boards", "oak-20") == "own/boards/oak-20.toml"


def test_measured_thickness_replaces_the_profiles():
    profiles = load({"boards/oak-20.toml": BOARD})
    assert profiles.board(BoardChoice("oak-20", 18.7)).thickness == 18.7
    assert profiles.board(BoardChoice("oak-20")).thickness == 19.5
    assert profiles.board(BoardChoice("oak-20", 18.7)).nominal == 20.0


def test_unknown_name_tells_the_nearest():
    with pytest.raises(ProfileError) as caught:
        load({"boards/oak-20.toml": BOARD}).board("oka-20")
    assert str(caught.value) == (
        'boards: no such name among the boards; found "oka-20"; allowed: "oak-20"; '
        'did you mean "oak-20"?'
    )


def test_faults_of_a_profile_stand_with_file_and_line():
    broken = BOARD.replace("thickness = 19.5", 'thicknes = "x"').replace('"planed"', '"plane"')
    with pytest.raises(ProfileError) as caught:
        load({"own/boards/oak-20.toml": broken}).board("oak-20")
    rows = str(caught.value).splitlines()
    assert rows[0].startswith("own/boards/oak-20.toml: thickness: missing")
    assert rows[1].startswith("own/boards/oak-20.toml:3: kind: not one of the choices")
    assert rows[1].endswith('did you mean "planed"?')
    assert rows[2].startswith("own/boards/oak-20.toml:5: thicknes: unknown key")


def test_key_comes_from_the_files_name():
    with pytest.raises(ProfileError, match="follows from the file's name"):
        load({"boards/oak-20.toml": 'key = "other"' + BOARD}).board("oak-20")


def test_unparsable_profile():
    with pytest.raises(ReadError, match=r"boards/x\.toml:1:\d+: not valid TOML"):
        load({"boards/x.toml": "a = = 1"}).board("x")


def test_stray_folder():
    with pytest.raises(ProfileError) as caught:
        load({"own/board/oak-20.toml": BOARD})
    assert 'did you mean "boards"?' in str(caught.value)


def test_hinge_names_a_screw_that_must_be_known():
    hinge = """
    name = "h"
    leaf_width = 30
    leaf_length = 30
    leaf_thickness = 2
    knuckle_diameter = 6
    axis_offset = 3
    opens = 180
    holes = [[15, 0]]
    screw = "wood-44"
    source = "s"
    """
    with pytest.raises(ProfileError, match="wood-44"):
        load({"hardware/hinges/h.toml": hinge}).hinge("h")


def test_own_folders_come_after_the_shipped(tmp_path):
    (tmp_path / "boards").mkdir()
    (tmp_path / "boards" / "ply-18.toml").write_text(BOARD)
    (tmp_path / "boards" / "notes.txt").write_text("not a profile")
    (tmp_path / ".git" / "boards").mkdir(parents=True)
    (tmp_path / ".git" / "boards" / "no.toml").write_text("")
    texts = profile_texts([tmp_path])
    assert [p for p in texts if p.startswith(tmp_path.as_posix())] == [
        f"{tmp_path.as_posix()}/boards/ply-18.toml"
    ]
    assert load(texts).board("ply-18").thickness == 19.5
    assert load(profile_texts()).board("ply-18").thickness != 19.5


def test_listing_is_sorted_and_repeats():
    shipped = [p for p in profile_texts() if p.startswith(shipped_folder().as_posix())]
    assert shipped == sorted(shipped)
    assert list(profile_texts()) == shipped


def test_missing_folder_and_unreadable_files(tmp_path):
    with pytest.raises(ReadError, match="no such folder"):
        profile_texts([tmp_path / "nowhere"])
    with pytest.raises(ReadError, match="No such file"):
        read_text(str(tmp_path / "no.toml"))
    (tmp_path / "latin.toml").write_bytes(b"# one\n# caf\xe9\n")
    with pytest.raises(ReadError, match=r"latin\.toml:2: not UTF-8 text"):
        read_text(str(tmp_path / "latin.toml"))
    with pytest.raises(KeyError):
        profile_texts()["nowhere"]


def test_a_byte_order_mark_is_dropped(tmp_path):
    (tmp_path / "a.toml").write_bytes(b"\xef\xbb\xbfa = 1\r\n")
    assert read_text(str(tmp_path / "a.toml")) == "a = 1\r\n"
