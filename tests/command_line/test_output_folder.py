"""An output folder is written whole or not at all, and never over anybody else's files."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from flatpack import manifest, output_folder
from flatpack.errors import OutputError
from flatpack.manifest import File

AS_ROOT = hasattr(os, "geteuid") and os.geteuid() == 0


def files(**contents: str) -> dict[str, bytes]:
    """Files named by keyword ("_" stands for "."), with their manifest."""
    made = {k.replace("_", "."): File(v.encode(), "test") for k, v in contents.items()}
    made["list/cutting.csv"] = File(b"mark,length\n", "cutting list")
    plain = {name: file.content for name, file in made.items()}
    return {**plain, manifest.NAME: manifest.manifest(made, {})}


def held(folder: Path) -> dict[str, bytes]:
    """Everything below a folder."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_new_folder_and_its_parents_are_made(tmp_path: Path) -> None:
    output_folder.write(str(tmp_path / "a" / "b"), files(rail_dxf="1"))
    assert held(tmp_path / "a" / "b") == files(rail_dxf="1")
    assert sorted(os.listdir(tmp_path / "a")) == ["b"]  # nothing is left beside it


def test_empty_folder_is_filled(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    output_folder.write(str(tmp_path / "out"), files(rail_dxf="1"))
    assert held(tmp_path / "out") == files(rail_dxf="1")


def test_own_folder_is_replaced_without_leavings(tmp_path: Path) -> None:
    out = tmp_path / "out"
    output_folder.write(str(out), files(rail_dxf="1", old_dxf="2"))
    (out / ".DS_Store").write_bytes(b"dropped by a desktop")
    output_folder.write(str(out), files(rail_dxf="3"))
    assert held(out) == files(rail_dxf="3")
    assert os.listdir(tmp_path) == ["out"]


def test_own_folder_of_which_files_were_taken_away_is_replaced(tmp_path: Path) -> None:
    out = tmp_path / "out"
    output_folder.write(str(out), files(rail_dxf="1", old_dxf="2"))
    (out / "old.dxf").unlink()
    output_folder.write(str(out), files(rail_dxf="3"))
    assert held(out) == files(rail_dxf="3")


def _add_file(out: Path) -> None:
    (out / "notes.txt").write_text("mine")


def _add_folder(out: Path) -> None:
    (out / "photos").mkdir()


def _add_file_below(out: Path) -> None:
    (out / "list" / "notes.txt").write_text("mine")


def _add_link(out: Path) -> None:
    (out / "link").symlink_to(out.parent)


def _link_instead(out: Path) -> None:
    (out / "rail.dxf").rename(out.parent / "rail.dxf")
    (out / "rail.dxf").symlink_to(out.parent / "rail.dxf")


def _change(out: Path) -> None:
    (out / "rail.dxf").write_text("changed by hand")


def _lose_manifest(out: Path) -> None:
    (out / manifest.NAME).unlink()


def _other_manifest(out: Path) -> None:
    (out / manifest.NAME).write_text('{"name": "a web page", "icons": []}')


def _broken_manifest(out: Path) -> None:
    (out / manifest.NAME).write_text("{")


def _deep_manifest(out: Path) -> None:
    (out / manifest.NAME).write_text("[" * 100_000)


MEDDLED = [
    (_add_file, "notes.txt"),
    (_add_folder, "photos/"),
    (_add_file_below, "list/notes.txt"),
    (_add_link, "link (a link)"),
    (_link_instead, "rail.dxf (a link)"),
    (_change, "changed since flatpack wrote them (rail.dxf)"),
    (_lose_manifest, "list/cutting.csv, rail.dxf"),
    (_other_manifest, "list/cutting.csv"),
    (_broken_manifest, "list/cutting.csv"),
    (_deep_manifest, "list/cutting.csv"),
]


@pytest.mark.parametrize(("meddle", "named"), MEDDLED, ids=[m.__name__ for m, _ in MEDDLED])
def test_foreign_or_changed_files_are_left_alone(tmp_path: Path, meddle, named: str) -> None:
    out = tmp_path / "out"
    output_folder.write(str(out), files(rail_dxf="1"))
    meddle(out)
    before, beside = held(out), sorted(os.listdir(tmp_path))
    with pytest.raises(OutputError) as caught:
        output_folder.write(str(out), files(rail_dxf="2"))
    assert named in str(caught.value)
    assert str(out) in str(caught.value)
    assert held(out) == before
    assert sorted(os.listdir(tmp_path)) == beside


def test_file_that_comes_while_writing_is_kept(tmp_path: Path, monkeypatch) -> None:
    out = tmp_path / "out"
    output_folder.write(str(out), files(rail_dxf="1"))
    write_file = output_folder._write_file

    def meddling(path: Path, content: bytes) -> None:
        (out / "saved-just-now.txt").write_text("mine")
        write_file(path, content)

    monkeypatch.setattr(output_folder, "_write_file", meddling)
    with pytest.raises(OutputError, match=r"saved-just-now\.txt"):
        output_folder.write(str(out), files(rail_dxf="2"))
    assert held(out) == {**files(rail_dxf="1"), "saved-just-now.txt": b"mine"}
    assert os.listdir(tmp_path) == ["out"]


def test_file_in_place_of_the_folder(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine")
    with pytest.raises(OutputError, match="is a file"):
        output_folder.write(str(tmp_path / "out"), files(rail_dxf="1"))
    assert (tmp_path / "out").read_text() == "mine"


def test_file_in_place_of_a_parent(tmp_path: Path) -> None:
    (tmp_path / "a").write_text("mine")
    with pytest.raises(OutputError, match="a part of the path is a file"):
        output_folder.write(str(tmp_path / "a" / "out"), files(rail_dxf="1"))
    assert held(tmp_path) == {"a": b"mine"}


def test_link_to_a_folder_is_followed(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "out").symlink_to(tmp_path / "real")
    output_folder.write(str(tmp_path / "out"), files(rail_dxf="1"))
    assert held(tmp_path / "real") == files(rail_dxf="1")
    assert (tmp_path / "out").is_symlink()


def test_link_to_itself(tmp_path: Path) -> None:
    (tmp_path / "out").symlink_to(tmp_path / "out")
    with pytest.raises(OutputError):
        output_folder.write(str(tmp_path / "out"), files(rail_dxf="1"))


@pytest.mark.parametrize("inside", [".", "below/further"])
def test_folder_that_one_works_in_is_not_replaced(tmp_path: Path, monkeypatch, inside: str) -> None:
    (tmp_path / "out" / inside).mkdir(parents=True, exist_ok=True)
    monkeypatch.chdir(tmp_path / "out" / inside)
    with pytest.raises(OutputError, match="working inside it"):
        output_folder.write(str(tmp_path / "out"), files(rail_dxf="1"))


@pytest.mark.parametrize("folder", ["", "a\0b"])
def test_no_name_of_a_folder(folder: str) -> None:
    with pytest.raises(OutputError, match="not the name of a folder"):
        output_folder.write(folder, files(rail_dxf="1"))


@pytest.mark.skipif(AS_ROOT or os.name == "nt", reason="root may write everywhere")
def test_parent_that_may_not_be_written(tmp_path: Path) -> None:
    (tmp_path / "shut").mkdir(mode=0o555)
    with pytest.raises(OutputError, match="you may not write there"):
        output_folder.write(str(tmp_path / "shut" / "out"), files(rail_dxf="1"))


def test_device_without_folders() -> None:
    # /proc takes no new folders from anybody, root included.
    if not Path("/proc/self").is_dir():
        pytest.skip("this system has no /proc")
    with pytest.raises(OutputError, match="can't be written"):
        output_folder.write("/proc/flatpack", files(rail_dxf="1"))


def _failing(error: BaseException, after: int):
    written: list[Path] = []
    write_file = output_folder._write_file

    def write(path: Path, content: bytes) -> None:
        if len(written) == after:
            raise error
        written.append(path)
        write_file(path, content)

    return write


ENDINGS = [
    (OSError(errno.ENOSPC, "No space left on device"), OutputError),
    (OSError(errno.EDQUOT, "Disk quota exceeded"), OutputError),
    (KeyboardInterrupt(), KeyboardInterrupt),
    (SystemExit(143), SystemExit),
]


@pytest.mark.parametrize("after", [0, 2])
@pytest.mark.parametrize(("error", "raised"), ENDINGS, ids=["disk", "share", "ctrl-c", "ended"])
@pytest.mark.parametrize("there", [False, True])
def test_trouble_on_the_way_leaves_all_as_it_was(
    tmp_path: Path, monkeypatch, error: BaseException, raised, after: int, there: bool
) -> None:
    out = tmp_path / "a" / "out"
    if there:
        output_folder.write(str(out), files(rail_dxf="1"))
    before, folders = held(tmp_path), sorted(tmp_path.rglob("*"))
    monkeypatch.setattr(output_folder, "_write_file", _failing(error, after))
    with pytest.raises(raised) as caught:
        output_folder.write(str(out), files(rail_dxf="2"))
    if raised is OutputError:
        assert "full" in str(caught.value)
    assert held(tmp_path) == before
    assert sorted(tmp_path.rglob("*")) == folders


def test_renaming_that_fails_brings_the_old_folder_back(tmp_path: Path, monkeypatch) -> None:
    out = tmp_path / "out"
    output_folder.write(str(out), files(rail_dxf="1"))
    rename = os.rename

    def failing(source: Path, target: Path) -> None:
        if ".new-" in Path(source).name:
            raise OSError(errno.EBUSY, "Device or resource busy")
        rename(source, target)

    monkeypatch.setattr(os, "rename", failing)
    with pytest.raises(OutputError, match="in use"):
        output_folder.write(str(out), files(rail_dxf="2"))
    assert held(out) == files(rail_dxf="1")
    assert os.listdir(tmp_path) == ["out"]


BAD_NAMES = [
    "../out.dxf",
    "/etc/rail.dxf",
    "a//b.dxf",
    "a/./b.dxf",
    "a/../b.dxf",
    "a\\b.dxf",
    "c:rail.dxf",
    "",
    ".",
    "rail.dxf ",
    "rail.",
    "con",
    "NUL.dxf",
    "list/Com1.csv",
    "rail\n.dxf",
    "rail\0.dxf",
    "rail?.dxf",
    "x" * 121,
]


@pytest.mark.parametrize("name", BAD_NAMES)
def test_names_that_some_system_forbids(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="not to be written"):
        output_folder.write(str(tmp_path / "out"), {name: b""})
    assert os.listdir(tmp_path) == []


@pytest.mark.parametrize(
    "names",
    [("Rail.dxf", "rail.dxf"), ("list", "list/a.csv"), ("a", "a/b/c.csv"), ("STRASSE", "straße")],
)
def test_names_that_collide_on_some_system(names: tuple[str, str]) -> None:
    assert output_folder.names_fault(names)
    assert output_folder.names_fault(reversed(names))


@pytest.mark.parametrize("name", ["rail-left.dxf", "list/cutting list.csv", "Lüfter.svg", "aux1"])
def test_plain_names_are_fine(name: str) -> None:
    assert output_folder.names_fault([name]) == ""


SLOW_WRITER = """
import sys, time
from pathlib import Path
from flatpack import output_folder
write_file = output_folder._write_file
def slow(path: Path, content: bytes) -> None:
    write_file(path, content)
    print("writing", flush=True)
    time.sleep(30)
output_folder._write_file = slow
output_folder.write(sys.argv[1], {"a.dxf": b"1", "b.dxf": b"2"})
"""


@pytest.mark.skipif(os.name == "nt", reason="Ctrl-C can't be sent to one process there")
def test_real_interrupt(tmp_path: Path) -> None:
    command = [sys.executable, "-c", SLOW_WRITER, str(tmp_path / "out")]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"writing\n"
        assert [p.name.startswith(".out.new-") for p in tmp_path.iterdir()] == [True]
        process.send_signal(signal.SIGINT)
        assert process.wait(timeout=20) != 0
    assert os.listdir(tmp_path) == []


def test_interrupt_while_putting_in_place_waits_until_it_is_done(
    tmp_path: Path, monkeypatch
) -> None:
    out = tmp_path / "out"
    output_folder.write(str(out), files(rail_dxf="1"))
    rename = os.rename

    def interrupted(source: Path, target: Path) -> None:
        signal.raise_signal(signal.SIGINT)
        time.sleep(0.01)
        rename(source, target)

    monkeypatch.setattr(os, "rename", interrupted)
    with pytest.raises(KeyboardInterrupt):
        output_folder.write(str(out), files(rail_dxf="2"))
    assert held(out) == files(rail_dxf="2")
    assert os.listdir(tmp_path) == ["out"]
