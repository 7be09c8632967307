"""Designs of the example pieces, read once, and the command run on them in a folder of its own."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from flatpack import job
from flatpack.__main__ import main
from flatpack.planning import Counted
from flatpack.profile_files import profile_texts, read_text, shipped_folder
from flatpack.profiles import load

EXAMPLES = sorted((shipped_folder() / "pieces").glob("*.toml"))
#: Planed boards, sheets, parts slotted together, an inch board: for what all needn't go through.
FEW = [p for p in EXAMPLES if p.stem in ("crew-bench", "pond-lounger", "clover-stool", "tea-table")]


@cache
def design(path: Path) -> job.Design:
    return job.design(read_text(str(path)), str(path), profile_texts())


@pytest.fixture(scope="session")
def profiles():
    return load(profile_texts())


@pytest.fixture(params=EXAMPLES, ids=[p.stem for p in EXAMPLES])
def example(request) -> Path:
    return request.param


@pytest.fixture(params=FEW, ids=[p.stem for p in FEW])
def chosen(request) -> Path:
    return request.param


@pytest.fixture
def piece(example) -> Counted:
    made = design(example)
    return Counted(assembly=made.assembly, code=made.code)


@pytest.fixture(scope="session")
def pond() -> Path:
    return next(p for p in EXAMPLES if p.stem == "pond-lounger")


@pytest.fixture(scope="session")
def pond_piece(pond) -> Counted:
    made = design(pond)
    return Counted(assembly=made.assembly, code=made.code)


@pytest.fixture(scope="session")
def crew() -> Path:
    return next(p for p in EXAMPLES if p.stem == "crew-bench")


@pytest.fixture(scope="session")
def crew_piece(crew) -> Counted:
    made = design(crew)
    return Counted(assembly=made.assembly, code=made.code)


@pytest.fixture(scope="session")
def slotted() -> Counted:
    """A table whose parts are slotted together."""
    made = design(next(p for p in EXAMPLES if p.stem == "compost-table"))
    return Counted(assembly=made.assembly, code=made.code)


@pytest.fixture
def cut(tmp_path):
    """Run `flatpack cut` into a folder; gives the status and the folder's files."""

    def run(*words: str, out: str = "out") -> tuple[int, dict[str, bytes]]:
        folder = tmp_path / out
        status = main(["cut", *map(str, words), "--out", str(folder)])
        files = (p for p in sorted(folder.rglob("*")) if p.is_file())
        return status, {p.relative_to(folder).as_posix(): p.read_bytes() for p in files}

    return run


@pytest.fixture
def own(tmp_path):
    """Write a profile of one's own; gives the folder to name with --profiles."""

    def write(kind: str, key: str, text: str) -> str:
        folder = tmp_path / "own" / kind
        folder.mkdir(parents=True, exist_ok=True)
        (folder / f"{key}.toml").write_text(text, encoding="utf-8")
        return str(tmp_path / "own")

    return write
