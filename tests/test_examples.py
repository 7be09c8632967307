"""The examples in profiles/pieces give the folders in out-examples, byte for byte, anywhere.

These folders are no proof that the program is right: the other tests compare it with sources
outside.  They show what a change changes, and that the same input gives the same bytes.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import runpy
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from flatpack import job
from flatpack.__main__ import main
from flatpack.drawings.registry import DRAWINGS
from flatpack.finding import blocks
from flatpack.pieces import PIECES as FAMILIES
from flatpack.profile_files import profile_texts, read_text

ROOT = Path(__file__).parents[1]
REGENERATE = runpy.run_path(str(ROOT / ".ci" / "regenerate"))
PIECES: list[Path] = REGENERATE["pieces"]()
KEPT: Path = REGENERATE["KEPT"]

each_piece = pytest.mark.parametrize("piece", PIECES, ids=[p.stem for p in PIECES])


def held(folder: Path) -> dict[str, bytes]:
    """Everything below a folder."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def differing(made: dict[str, bytes], kept: dict[str, bytes]) -> list[str]:
    """Names that only one of the two has, or whose bytes differ."""
    return sorted(name for name in made | kept if made.get(name) != kept.get(name))


@each_piece
def test_same_bytes_as_kept(piece: Path) -> None:
    kinds = REGENERATE["kinds_of"](piece)
    made = job.design(read_text(str(piece)), piece.name, profile_texts())
    if not kinds:
        made = job.with_strength(job.with_printing(made))
    assert not blocks(made.findings)
    sheets = job.sheets(made, kinds or DRAWINGS)
    files = {name: file.content for name, file in job.files(made, sheets).items()}
    assert differing(files, held(KEPT / piece.stem)) == []


@each_piece
def test_same_bytes_in_another_process_place_and_language(piece: Path, tmp_path: Path) -> None:
    odd = {"PYTHONHASHSEED": "7", "TZ": "Pacific/Auckland", "LC_ALL": "C", "COLUMNS": "40"}
    copy = tmp_path / "copied elsewhere.toml"
    copy.write_bytes(piece.read_bytes())
    arguments = REGENERATE["command"](piece, Path("x"))
    command = [sys.executable, "-m", "flatpack", *arguments[:1], copy.name, *arguments[2:]]
    environment = {**os.environ, **odd, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (0, b"")
    assert differing(held(tmp_path / "x"), held(KEPT / piece.stem)) == []


@each_piece
def test_manifest_lists_all_that_is_there(piece: Path) -> None:
    files = held(KEPT / piece.stem)
    rows = json.loads(files.pop("manifest.json"))["files"]
    assert all(row["purpose"] for row in rows)
    assert {row["name"]: row["sha256"] for row in rows} == {
        name: hashlib.sha256(content).hexdigest() for name, content in files.items()
    }


@pytest.mark.parametrize("name", REGENERATE["CUTS"])
def test_same_cutting_plan_as_kept(name: str, tmp_path: Path) -> None:
    assert main(REGENERATE["cut_command"](name, tmp_path / "plan")) == 0
    assert differing(held(tmp_path / "plan"), held(KEPT / name)) == []


def test_every_kept_folder_has_its_piece() -> None:
    made = {piece.stem for piece in PIECES} | set(REGENERATE["CUTS"]) | {"gallery"}
    assert {folder.name for folder in KEPT.iterdir()} == made


def test_there_are_three_of_each_family() -> None:
    families = [tomllib.loads(piece.read_text(encoding="utf-8"))["family"] for piece in PIECES]
    assert set(families) == set(FAMILIES)
    assert {
        family: families.count(family) for family in FAMILIES if families.count(family) < 3
    } == {}


def test_a_changed_byte_is_seen() -> None:
    assert differing({"a": b"1", "b": b"2"}, {"a": b"1", "b": b"3", "c": b""}) == ["b", "c"]


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_every_link_leads_to_a_file(page: str) -> None:
    text = (ROOT / page).read_text(encoding="utf-8")
    links = re.findall(r"\]\(([^)#]+)\)", text)
    assert [to for to in links if "://" not in to and not (ROOT / to).exists()] == []


def test_the_readme_shows_every_family() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    shown = [family for family in FAMILIES if f"`{family}`" in text]
    assert shown == list(FAMILIES)
