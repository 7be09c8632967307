"""A thousand mixed variants made once undisturbed, once killed at random moments and resumed.

    python tests/bench/killed_batch.py [COUNT [KILLS [KINDS]]]

Variants of every example, sizes changed a little from one to the next.  Prints the time of each
run, how often it was killed, and whether all files of both are the same to the byte; the status
is 1 when they aren't.
"""

from __future__ import annotations

import csv
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
PIECES = sorted((ROOT / "profiles" / "pieces").glob("*.toml"))
KINDS = "parts,boards,drilling,arrangement,lists,job-page"


def varied(piece: Path) -> tuple[str, float] | None:
    """A length in mm of the piece's own size that may grow a little, if it has one."""
    size = tomllib.loads(piece.read_text(encoding="utf-8")).get("size", {})
    found = [(f"size.{k}", float(v)) for k, v in size.items() if isinstance(v, int | float)]
    return max(found, key=lambda pair: pair[1], default=None)


def rows(count: int) -> Iterator[dict[str, str]]:
    """One row a variant: its name, the piece that it starts from, one length changed."""
    for n in range(count):
        piece = PIECES[n % len(PIECES)]
        row = {"name": f"{n:07d} {piece.stem}", "base": str(piece)}
        key = varied(piece)
        if key is not None:
            row[key[0]] = f"{key[1] + n // len(PIECES):g}"
        yield row


def written(folder: Path, count: int, name: str = "mixed.csv") -> Path:
    """The table."""
    every = list(rows(count))
    heads = sorted({key for row in every for key in row})
    table = folder / name
    with table.open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, heads)
        writer.writeheader()
        writer.writerows(every)
    return table


def started(table: Path, out: Path, kinds: str) -> subprocess.Popen[bytes]:
    """A run in a process group of its own."""
    command = [sys.executable, "-m", "flatpack", "batch", str(table), "--out", str(out)]
    return subprocess.Popen(
        [*command, "--only", kinds, "--jobs", "2"],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True,
    )  # fmt: skip


def killed(table: Path, out: Path, kinds: str, kills: int, whole: float) -> int:
    """Start again and again, killed at random moments, until it ends; how often it was killed."""
    chance, done = random.Random(4), 0
    while True:
        run = started(table, out, kinds)
        if done < kills:
            time.sleep(chance.uniform(0.3, whole / max(kills, 1)))
            if run.poll() is None:
                os.killpg(run.pid, signal.SIGKILL)
                run.wait()
                done += 1
                continue
        run.wait()
        return done


def held(folder: Path) -> dict[str, bytes]:
    """Every file."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {str(path.relative_to(folder)): path.read_bytes() for path in files}


def main(count: int = 1000, kills: int = 10, kinds: str = KINDS) -> int:
    """Both runs; 0 when their bytes are the same."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        table = written(folder, count)
        begun = time.perf_counter()
        status = started(table, folder / "whole", kinds).wait()
        whole = time.perf_counter() - begun
        print(f"{count} variants of {len(PIECES)} pieces: {whole:.0f} s, status {status}")
        times = killed(table, folder / "killed", kinds, kills, whole)
        begun = time.perf_counter()
        started(table, folder / "whole", kinds).wait()
        again = time.perf_counter() - begun
        a, b = held(folder / "whole"), held(folder / "killed")
        print(f"killed {times} times; {len(a)} files, the same bytes: {a == b}")
        print(f"again with nothing changed: {again:.1f} s, {100.0 * again / whole:.1f} %")
        summary = csv.DictReader((folder / "whole" / "summary.csv").open(encoding="utf-8-sig"))
        states: dict[str, int] = {}
        for row in summary:
            states[row["State"]] = states.get(row["State"], 0) + 1
        print(", ".join(f"{n} {state}" for state, n in sorted(states.items())))
    return int(a != b)


if __name__ == "__main__":
    given = sys.argv[1:]
    sys.exit(main(*(int(n) for n in given[:2]), *given[2:]))
