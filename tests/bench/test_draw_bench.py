"""Whole processes, started from nothing: drawing the lounger against importing the libraries.

    python -m pytest tests/bench/test_draw_bench.py --benchmark-enable --benchmark-only

The yardstick is a Python that only imports the libraries that such a program commonly uses.
Aimed at: drawing within 1.0 of it, the help text within 0.3.  These are figures, not conditions:
a busy machine fails no test.  The three take turns, so that a machine that slows down or speeds up
does so for all of them; the ratio of the medians is printed and kept in the benchmark's record.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "profiles" / "pieces" / "orchard-lounger.toml"
YARDSTICK = ("-c", "import ezdxf, shapely, svgwrite, numpy, pydantic")
ROUNDS = 11


@pytest.fixture(scope="module", autouse=True)
def bytecode(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Bytecode is kept, as for an installed program, whatever this environment says."""
    with pytest.MonkeyPatch.context() as patch:
        patch.delenv("PYTHONDONTWRITEBYTECODE", raising=False)
        patch.setenv("PYTHONPYCACHEPREFIX", str(tmp_path_factory.mktemp("bytecode")))
        yield


def took(*command: str) -> float:
    """Seconds that a Python process takes from start to end."""
    begun = time.perf_counter()
    subprocess.run([sys.executable, *command], cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - begun


def in_turns(rounds: int, *commands: tuple[str, ...]) -> list[float]:
    """Median seconds of each command."""
    for command in commands:
        took(*command)  # fills the caches of files and bytecode
    times = [[took(*command) for command in commands] for _ in range(rounds)]
    return [statistics.median(column) for column in zip(*times, strict=True)]


@pytest.mark.benchmark(group="whole process")
@pytest.mark.parametrize(
    ("name", "aim"), [("draw", 1.0), ("check", 1.0), ("help", 0.3)], ids=["draw", "check", "help"]
)
def test_whole_process(benchmark, capsys, tmp_path: Path, name: str, aim: float) -> None:
    commands = {
        "draw": ("-m", "flatpack", "draw", str(EXAMPLE), "--out", str(tmp_path / "out")),
        "check": ("-m", "flatpack", "check", str(EXAMPLE)),
        "help": ("-m", "flatpack", "--help"),
    }
    took(*commands[name])
    if name == "draw":
        assert "manifest.json" in os.listdir(tmp_path / "out")
    if benchmark.enabled:
        own, yardstick = in_turns(ROUNDS, commands[name], YARDSTICK)
        benchmark.extra_info.update(ratio=own / yardstick, aim=aim, yardstick=yardstick)
        with capsys.disabled():
            print(
                f"\n{name}: {own * 1000:.0f} ms, {own / yardstick:.2f} of the yardstick's"
                f" {yardstick * 1000:.0f} ms (aim {aim})"
            )
    benchmark.pedantic(took, commands[name], rounds=3, warmup_rounds=0)
