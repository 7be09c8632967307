"""Small tables of benches, and ways to run a batch."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from flatpack.batch import building, running
from flatpack.batch.choices import Choices
from flatpack.batch.folder import BatchFolder
from flatpack.batch.pools import Engine
from flatpack.batch.running import Order, Outcome
from flatpack.batch.tables import table
from flatpack.profile_files import ProfileTexts, profile_texts, shipped_folder

ROOT = Path(__file__).parents[2]
BENCH = 'family = "bench"\nname = "Bench"\n'
TABLE = "name,base,size.length,boards.timber\n"


@pytest.fixture
def sizes(tmp_path: Path) -> Path:
    """A table of five benches, all good."""
    (tmp_path / "bench.toml").write_text(BENCH)
    rows = [f"bench {n},bench.toml,{n}," for n in (1100, 1150, 1200, 1250, 1300)]
    path = tmp_path / "sizes.csv"
    path.write_text(TABLE + "\n".join(rows) + "\n")
    return path


@pytest.fixture
def one_program(monkeypatch: pytest.MonkeyPatch) -> None:
    """Files of the package may be edited while the tests run: its digest is held fast."""
    monkeypatch.setattr(running, "program", lambda: "0 test")
    monkeypatch.setattr(building, "own_program", lambda: "0 test")
    monkeypatch.setattr(building, "_kept", {})


def threads(workers: int = 1, chunk: int = 1, sends: bool = True) -> Engine:
    """An engine of another kind than those shipped: any executor will do."""
    start: Callable[[], ThreadPoolExecutor] = lambda: ThreadPoolExecutor(workers)  # noqa: E731
    return Engine(start=start, workers=workers, chunk=chunk, sends=sends)


@pytest.fixture
def batch(one_program: None) -> Callable[..., Outcome]:
    """Run a batch in this process, lists only."""

    def run(
        path: Path,
        out: Path,
        engine: Engine | None = None,
        own: list[Path] | None = None,
        **choices: object,
    ) -> Outcome:
        asked = Choices(only=("lists",))._replace(**choices)  # type: ignore[arg-type]
        texts = ProfileTexts([shipped_folder(), *own]) if own else profile_texts()
        order = Order(table(str(path)), asked, texts, BatchFolder(str(out)))
        return running.run(order, engine or threads(), lambda done, kept: None)

    return run


def command(*given: str, **environment: str) -> subprocess.Popen[str]:
    """`flatpack batch` as a process of its own, in its own group."""
    return subprocess.Popen(
        [sys.executable, "-m", "flatpack", "batch", *given],
        env={**os.environ, "PYTHONPATH": str(ROOT), **environment},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
        start_new_session=True,
    )


@pytest.fixture
def started() -> Iterator[Callable[..., subprocess.Popen[str]]]:
    """Processes that are gone when the test is over."""
    every: list[subprocess.Popen[str]] = []

    def start(*given: str, **environment: str) -> subprocess.Popen[str]:
        every.append(command(*given, **environment))
        return every[-1]

    yield start
    for process in every:
        if process.poll() is None:
            process.kill()
        process.communicate()


def held(folder: Path) -> dict[str, bytes]:
    """Every file below a folder."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}
