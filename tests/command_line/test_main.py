"""Exit status, errors in words, and the commands that need no design."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from flatpack import __main__, __version__
from flatpack.__main__ import main
from flatpack.command_line.parser import LISTS
from flatpack.pieces import PIECES

ROOT = Path(__file__).parents[2]
COMMANDS = list(__main__.COMMANDS)


def run(*command: str, **settings: str) -> subprocess.CompletedProcess[str]:
    """The program in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "flatpack", *command],
        cwd=ROOT,
        env={**os.environ, **settings},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


def status_of(*argv: str) -> int:
    """What the program would end with, argparse's own endings included."""
    try:
        return main(argv)
    except SystemExit as end:
        return int(str(end.code))


def test_help_of_all(capsys) -> None:
    assert status_of("--help") == 0
    text = capsys.readouterr().out
    for command in COMMANDS:
        assert f"\n  {command} " in text or f"\n    {command} " in text
    assert "exit status:" in text


@pytest.mark.parametrize("command", COMMANDS)
def test_help_of_each_has_an_example_that_parses(command: str, capsys) -> None:
    from flatpack.command_line.parser import parser

    assert status_of(command, "--help") == 0
    examples = [line for line in capsys.readouterr().out.splitlines() if "  flatpack " in line]
    assert examples
    for example in examples:
        words = example.partition(">")[0].split()
        assert words[:2] == ["flatpack", command]
        assert parser().parse_args(words[1:]).command == command


def test_version(capsys) -> None:
    assert status_of("--version") == 0
    assert capsys.readouterr().out == f"flatpack {__version__}\n"


@pytest.mark.parametrize(
    "argv",
    [[], ["saw"], ["new"], ["new", "bench"], ["draw", "x.toml"], ["list", "trees"], ["check"],
     ["check", "--jso", "x.toml"]],
)  # fmt: skip
def test_command_lines_that_are_not_understood(argv: list[str], capsys) -> None:
    assert status_of(*argv) == 2
    assert capsys.readouterr().err.startswith("usage: flatpack")


@pytest.mark.parametrize("family", list(PIECES))
def test_new_writes_a_file_once(family: str, tmp_path: Path, capsys) -> None:
    path = tmp_path / "piece.toml"
    assert main(["new", family, str(path)]) == 0
    text = path.read_bytes()
    assert f'family = "{family}"'.encode() in text
    assert main(["new", family, str(path)]) == 2
    assert "is there already" in capsys.readouterr().err
    assert path.read_bytes() == text


def test_new_of_an_unknown_family_names_the_nearest(tmp_path: Path, capsys) -> None:
    assert main(["new", "longer", str(tmp_path / "piece.toml")]) == 2
    error = capsys.readouterr().err
    assert 'did you mean "lounger"?' in error
    assert '"bench"' in error
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["missing/piece.toml", "", "a\0b"])
def test_new_where_nothing_can_be_written(tmp_path: Path, capsys, name: str) -> None:
    assert main(["new", "lounger", str(tmp_path / name) if name else ""]) == 2
    assert "can't be written" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_new_leaves_nothing_half_written(tmp_path: Path, capsys) -> None:
    # /dev/full is the system's own full disk, but it can't be created: use it through open().
    from flatpack.command_line import new

    class Full:
        def write(self, _: bytes) -> int:
            raise OSError(28, "No space left on device")

        def __enter__(self) -> Full:
            return self

        def __exit__(self, *_: object) -> None:
            return None

    path = tmp_path / "piece.toml"

    def opened(name: str, mode: str) -> Full:
        Path(name).touch()
        assert mode == "xb"
        return Full()

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(new, "open", opened, raising=False)
        assert main(["new", "lounger", str(path)]) == 2
    assert "No space left" in capsys.readouterr().err
    assert not path.exists()


@pytest.mark.parametrize("family", list(PIECES))
def test_schema_is_one(family: str, capsys) -> None:
    assert main(["schema", family]) == 0
    schema = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["properties"]["family"] == {"const": family}


@pytest.mark.parametrize("what", LISTS)
def test_list_names_what_there_is(what: str, capsys) -> None:
    assert main(["list", what]) == 0
    out = capsys.readouterr().out
    folders = (ROOT / "profiles").rglob("*.toml")
    kinds = {"hardware": "hardware"}.get(what, what)
    expected = [p.stem for p in folders if kinds in p.relative_to(ROOT / "profiles").parts]
    for key in expected or list(PIECES):
        assert f"\n  {key} " in out


def test_list_without_a_word_lists_all(capsys) -> None:
    assert main(["list"]) == 0
    out = capsys.readouterr().out
    for title in ("Families", "Boards", "Workshops", "Hinges", "Finishes", "Notches"):
        assert f"{title}\n" in out


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A maker's own folder of profiles with one board, `loft-30`."""
    text = (ROOT / "profiles" / "boards" / "ply-18.toml").read_text(encoding="utf-8")
    folder = tmp_path / "profiles" / "boards"
    folder.mkdir(parents=True)
    (folder / "loft-30.toml").write_text(text, encoding="utf-8")
    return tmp_path / "profiles"


def test_list_shows_own_profiles_and_where_they_are(own: Path, capsys) -> None:
    assert main(["list", "boards", "--profiles", str(own)]) == 0
    [line] = [line for line in capsys.readouterr().out.splitlines() if "  loft-30 " in line]
    assert line.endswith(f"{own.as_posix()}/boards/loft-30.toml")


def test_list_looks_into_the_current_folder(own: Path, capsys, monkeypatch) -> None:
    monkeypatch.chdir(own.parent)
    assert main(["list", "boards"]) == 0
    assert "  loft-30 " in capsys.readouterr().out


def test_list_goes_on_past_a_broken_profile(own: Path, capsys) -> None:
    (own / "boards" / "bad.toml").write_text("kind = 'round'\n", encoding="utf-8")
    (own / "boards" / "worse.toml").write_text("kind = \n", encoding="utf-8")
    assert main(["list", "boards", "--profiles", str(own)]) == 2
    out, err = capsys.readouterr()
    assert "  loft-30 " in out
    assert "boards/bad.toml:1: kind: not one of the choices" in err
    assert "boards/worse.toml:1:8: not valid TOML" in err


def test_list_of_a_folder_that_is_not_there(capsys, tmp_path: Path) -> None:
    assert main(["list", "--profiles", str(tmp_path / "missing")]) == 2
    assert "no such folder of profiles" in capsys.readouterr().err


BROKEN_COMMAND = """
import sys
from flatpack import __main__
from flatpack.command_line import listing
def broken(args, terminal):
    raise {error}
listing.run = broken
sys.exit(__main__.main(["list"]))
"""


def broken(error: str, **settings: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", BROKEN_COMMAND.format(error=error)],
        cwd=ROOT,
        env={**os.environ, **settings},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


def test_a_bug_is_owned_up_to_without_a_traceback() -> None:
    done = broken("KeyError('hinge')")
    assert done.returncode == 70
    assert "Traceback" not in done.stderr
    assert "flatpack has a bug: KeyError: 'hinge'" in done.stderr
    assert "FLATPACK_TRACE" in done.stderr


def test_a_bug_with_its_traceback_when_asked_for() -> None:
    done = broken("KeyError('hinge')", FLATPACK_TRACE="1")
    assert done.returncode != 0
    assert "Traceback" in done.stderr


def test_ctrl_c_ends_without_a_traceback() -> None:
    done = broken("KeyboardInterrupt")
    assert (done.returncode, done.stderr) == (130, "stopped\n")


@pytest.mark.skipif(os.name == "nt", reason="pipes end otherwise there")
def test_reader_that_goes_away() -> None:
    command = [sys.executable, "-m", "flatpack", "list"]
    with subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait(timeout=60) == 141


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full device")
def test_output_that_cannot_be_written() -> None:
    command = [sys.executable, "-m", "flatpack", "list"]
    with open("/dev/full", "w") as full:
        done = subprocess.run(
            command, cwd=ROOT, stdout=full, stderr=subprocess.PIPE, text=True, check=False
        )
    assert (done.returncode, "Traceback" in done.stderr) == (2, False)
    assert "can't write what it has to say: No space left" in done.stderr


@pytest.mark.skipif(os.name == "nt", reason="streams are closed otherwise there")
def test_without_any_output() -> None:
    shell = f"{sys.executable} -m flatpack list >&- 2>&-"
    assert subprocess.run(["sh", "-c", shell], cwd=ROOT, check=False).returncode == 0


def test_letters_that_the_terminal_lacks(tmp_path: Path) -> None:
    path = tmp_path / "Lüfter.toml"
    done = run("new", "lounger", str(path), PYTHONIOENCODING="ascii")
    assert (done.returncode, done.stderr) == (0, "")
    assert "L?fter" in done.stdout
    assert path.exists()


def test_list_loads_tells_what_each_is_for(capsys):
    assert main(["list", "loads"]) == 0
    rows = {line.split()[0]: line for line in capsys.readouterr().out.splitlines() if line.strip()}
    assert {"bench", "side-table", "planter", "stand"} <= set(rows)
    assert "Loads of a stand with shelves" in rows["stand"]
    assert "kg each" in rows["key"]
