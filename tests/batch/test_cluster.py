"""The batch on a real dask cluster of processes on this machine."""

from __future__ import annotations

import csv
import io
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.batch.conftest import ROOT, TABLE, held

pytest.importorskip("distributed")
Start = Callable[..., "subprocess.Popen[str]"]


class Cluster(NamedTuple):
    address: str
    workers: tuple[int, ...]


@pytest.fixture
def cluster() -> Iterator[Cluster]:
    process = subprocess.Popen(
        [sys.executable, str(Path(__file__).with_name("cluster_member.py")), "2"],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    assert process.stdout is not None
    address, *workers = process.stdout.readline().split()
    yield Cluster(address, tuple(map(int, workers)))
    process.communicate()


@pytest.mark.skipif(os.name == "nt", reason="a worker is killed by a signal")
def test_a_worker_is_killed_on_the_way(cluster: Cluster, started: Start, tmp_path: Path) -> None:
    """Nothing is lost or made twice, and the bytes are those of this machine's own processes."""
    (tmp_path / "bench.toml").write_text('family = "bench"\nname = "Bench"\n')
    table = tmp_path / "sizes.csv"
    names = [f"bench {n}" for n in range(1100, 1260, 10)]
    table.write_text(TABLE + "".join(f"{n},bench.toml,{n.split()[1]},\n" for n in names))
    out, own = tmp_path / "out", tmp_path / "own"
    given = (str(table), "--only", "lists,arrangement")
    run = started(*given, "--out", str(out), "--scheduler", cluster.address)
    while run.poll() is None and len(list(out.glob("bench *"))) < 2:
        time.sleep(0.02)
    os.kill(cluster.workers[0], signal.SIGKILL)
    assert run.poll() is None  # it was killed on the way, not after
    printed, complaint = run.communicate(timeout=60)
    assert (run.returncode, complaint) == (0, ""), printed
    assert f"{len(names)} variants: {len(names)} made" in printed
    rows = list(csv.DictReader(io.StringIO((out / "summary.csv").read_text("utf-8-sig"))))
    assert [row["Variant"] for row in rows] == names
    assert started(*given, "--out", str(own), "--jobs", "2").wait(60) == 0
    assert held(out) == held(own)


def test_no_scheduler_there(started: Start, sizes: Path, tmp_path: Path) -> None:
    given = (str(sizes), "--out", str(tmp_path / "out"))
    run = started(*given, "--scheduler", "nonsense://nowhere")
    _, complaint = run.communicate(timeout=60)
    assert run.returncode == 2
    assert "no scheduler answers" in complaint
    assert "Traceback" not in complaint
