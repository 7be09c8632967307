"""`check` and `draw` from end to end: exit status, refusals, marks, and what is written where."""

from __future__ import annotations

import hashlib
import json
import os
from pathlib import Path

import pytest

from flatpack import checks
from flatpack.__main__ import main
from flatpack.finding import Finding

FAULT = Finding("too-close", "fault", "Slat 1", "Slat 1 shares room with slat 2.", 0.2, 0.0)
MARK = "NOT FOR CUTTING"


@pytest.fixture(params=["bench", "lounger"])
def piece(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A parameter file as `new` writes it."""
    path = tmp_path / "piece.toml"
    assert main(["new", request.param, str(path)]) == 0
    return path


@pytest.fixture
def faulty(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every design has a fault more."""
    run = checks.run
    monkeypatch.setattr(checks, "run", lambda *given, **named: (*run(*given, **named), FAULT))


def held(folder: Path) -> dict[str, bytes]:
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def test_a_new_file_has_no_fault(piece: Path, capsys) -> None:
    assert main(["check", str(piece)]) == 0
    out, err = capsys.readouterr()
    assert "0 faults, " in out
    assert "checks not done" in out or "1 check not done" in out
    assert err == ""


def test_check_as_json(piece: Path, capsys) -> None:
    capsys.readouterr()
    assert main(["check", str(piece), "--json"]) == 0
    made = json.loads(capsys.readouterr().out)
    assert set(made["counts"]) == {"fault", "not done", "warning", "note"}
    assert sum(made["counts"].values()) == len(made["findings"])
    assert made["counts"]["fault"] == 0


@pytest.mark.usefixtures("faulty")
def test_check_of_a_faulty_design(piece: Path, capsys) -> None:
    assert main(["check", str(piece)]) == 1
    out = capsys.readouterr().out
    assert "1 fault, " in out
    assert FAULT.message in out
    assert main(["check", str(piece), "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["findings"][0]["code"] == "too-close"


def test_draw_writes_a_folder_that_its_manifest_describes(piece: Path, capsys) -> None:
    out = piece.parent / "out"
    assert main(["draw", str(piece), "--out", str(out)]) == 0
    files = held(out)
    manifest = json.loads(files.pop("manifest.json"))
    rows = {row["name"]: row for row in manifest["files"]}
    assert set(rows) == set(files)
    for name, content in files.items():
        assert rows[name]["sha256"] == hashlib.sha256(content).hexdigest()
        assert len(rows[name]["purpose"]) > 8
    assert {name.rpartition(".")[2] for name in files} >= {"dxf", "svg", "csv", "json"}
    assert sorted(os.listdir(piece.parent)) == ["out", "piece.toml"]
    shown = capsys.readouterr().out
    assert f"Wrote {len(files) + 1} files to {out}" in shown


def test_every_sheet_carries_the_content_code(piece: Path) -> None:
    out = piece.parent / "out"
    assert main(["draw", str(piece), "--out", str(out)]) == 0
    code = json.loads((out / "manifest.json").read_text())["content_code"]
    sheets = {n: c for n, c in held(out).items() if n.endswith((".dxf", ".svg"))}
    assert sheets
    assert [name for name, content in sheets.items() if code.encode() not in content] == []
    assert MARK.encode() not in b"".join(sheets.values())


def test_cutting_list_and_hardware_on_the_terminal(piece: Path, capsys) -> None:
    assert main(["draw", str(piece), "--out", str(piece.parent / "out")]) == 0
    shown = capsys.readouterr().out
    assert "Cutting list" in shown
    assert "Hardware" in shown
    assert "Pocket screw" in shown


def test_drawing_twice_gives_the_same_bytes(piece: Path) -> None:
    out = piece.parent / "out"
    assert main(["draw", str(piece), "--out", str(out)]) == 0
    first = held(out)
    assert main(["draw", str(piece), "--out", str(out)]) == 0
    assert held(out) == first


@pytest.mark.usefixtures("faulty")
def test_a_faulty_design_is_not_drawn(piece: Path, capsys) -> None:
    assert main(["draw", str(piece), "--out", str(piece.parent / "out")]) == 1
    out, err = capsys.readouterr()
    assert FAULT.message in out
    assert "--despite-faults" in err
    assert os.listdir(piece.parent) == ["piece.toml"]


@pytest.mark.usefixtures("faulty")
def test_a_faulty_design_is_marked_on_every_sheet(piece: Path, capsys) -> None:
    out = piece.parent / "out"
    assert main(["draw", str(piece), "--out", str(out), "--despite-faults"]) == 1
    sheets = {n: c for n, c in held(out).items() if n.endswith((".dxf", ".svg"))}
    assert sheets
    assert [name for name, content in sheets.items() if MARK.encode() not in content] == []
    assert "marked as not for cutting" in capsys.readouterr().out


def test_draw_leaves_a_foreign_folder_alone(piece: Path, capsys) -> None:
    before = held(piece.parent)
    assert main(["draw", str(piece), "--out", str(piece.parent)]) == 2
    assert "piece.toml" in capsys.readouterr().err
    assert held(piece.parent) == before


def test_own_board_beside_the_file_counts(piece: Path, capsys) -> None:
    boards = piece.parent / "profiles" / "boards"
    boards.mkdir(parents=True)
    for shipped in (Path(__file__).parents[2] / "profiles" / "boards").glob("*.toml"):
        text = shipped.read_text(encoding="utf-8").replace("name = ", "name = 'Loft board' # ", 1)
        (boards / shipped.name).write_text(text, encoding="utf-8")
    out = piece.parent / "out"
    assert main(["draw", str(piece), "--out", str(out)]) == 0
    assert "Loft board" in capsys.readouterr().out


BAD = {
    "no toml": ("family = ", ":1:10: not valid TOML"),
    "no family": ("name = 'x'", "family: missing"),
    "unknown family": ("family = 'longer'", 'did you mean "lounger"'),
    "unknown key": ("family = 'lounger'\n[size]\nlenght = 1900", ":3: size.lenght: unknown key"),
    "nearest key": ("family = 'lounger'\n[size]\nlenght = 1900", 'did you mean "length"'),
    "wrong type": ("family = 'lounger'\n[size]\nlength = true", ":3: size.length:"),
    "not a number": ("family = 'lounger'\nsize = {length = nan}", ":2: size.length: not a finite"),
    "negative": ("family = 'bench'\n[size]\nlength = -1", "may not be negative"),
    "too large": ("family = 'lounger'\nsize.length = '90 ft'", ":2: size.length:"),
    "two at once": ("family = 'lounger'\nsize.length = 1\nsize.width = 1", "2 values are not"),
    "unknown board": ("family = 'lounger'\nboards.timber = 'ply-81'", 'did you mean "ply-18"'),
    "back too long": (
        "family = 'lounger'\nsize.length = 1300\nback.length = 1290",
        ":3: back.length:",
    ),
    "too many slats": (
        "family = 'lounger'\n[slats]\ndeck_count = 60",
        ":3: slats.deck_count:",
    ),
    "wheel too large": (
        "family = 'lounger'\nsize.height = 180\n[wheels]\nuse = true\nwheel = 'wheel-200'",
        ":5: wheels.wheel: the wheel is larger than the legs allow",
    ),
}


@pytest.mark.parametrize("case", BAD)
def test_bad_input_is_explained_and_nothing_written(case: str, tmp_path: Path, capsys) -> None:
    text, said = BAD[case]
    path = tmp_path / "piece.toml"
    path.write_text(text, encoding="utf-8")
    assert main(["draw", str(path), "--out", str(tmp_path / "out")]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err
    assert "Traceback" not in err
    assert os.listdir(tmp_path) == ["piece.toml"]
    assert main(["check", str(path), "--json"]) == 2
    refusal = json.loads(capsys.readouterr().out)
    assert said in f"{refusal['error']}\n{len(refusal['faults'])} values are not"
    assert refusal["faults"]


@pytest.mark.parametrize(
    ("content", "said"),
    [(b"\xff\xfe", "not UTF-8"), (b"name = 'caf\xe9'", "not UTF-8"), (None, "No such file")],
)
def test_files_that_cannot_be_read(tmp_path: Path, capsys, content: bytes, said: str) -> None:
    path = tmp_path / "piece.toml"
    if content is not None:
        path.write_bytes(content)
    assert main(["check", str(path)]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("name", ["", ".", "/dev/null", "a\0b"])
def test_names_that_are_no_parameter_file(name: str, capsys) -> None:
    assert main(["check", name]) == 2
    assert capsys.readouterr().err


def test_windows_line_ends_and_signature_are_read(piece: Path) -> None:
    text = piece.read_bytes().replace(b"\n", b"\r\n")
    piece.write_bytes(b"\xef\xbb\xbf" + text)
    assert main(["check", str(piece)]) == 0
