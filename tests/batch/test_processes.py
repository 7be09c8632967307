"""The command in processes of its own: the same bytes, kills at any moment, one run at a time."""

from __future__ import annotations

import os
import random
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from flatpack import output_folder
from flatpack.batch import lock
from flatpack.errors import OutputError
from tests.batch.conftest import ROOT, held

Start = Callable[..., "subprocess.Popen[str]"]
LISTS = ("--only", "lists")
unix = pytest.mark.skipif(os.name == "nt", reason="signals are sent otherwise there")


def ended(process: subprocess.Popen[str]) -> tuple[int, str, str]:
    out, err = process.communicate(timeout=60)
    return process.returncode, out, err


def test_the_same_bytes_however_it_is_run(
    started: Start, sizes: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Workers, hash seed, time zone, locale, order of the table."""
    lines = [*sizes.read_text().splitlines()[:4], "bad,bench.toml,far,"]
    sizes.write_text("\n".join(lines) + "\n")
    turned = tmp_path / "turned" / "sizes.csv"
    turned.parent.mkdir()
    turned.write_text("\r\n".join([lines[0], *reversed(lines[1:])]))
    (turned.parent / "bench.toml").write_bytes((tmp_path / "bench.toml").read_bytes())
    one, two, other = (tmp_path / name for name in ("one", "two", "other"))
    kinds = ("--only", "parts,lists,arrangement,book", "--stock", "marrow-yard")
    odd = {"TZ": "Pacific/Chatham", "LC_ALL": "tr_TR.UTF-8", "COLUMNS": "40", "LANG": "de_DE"}
    runs = [
        started(str(sizes), "--out", str(one), "--jobs", "1", *kinds, PYTHONHASHSEED="1"),
        started(str(sizes), "--out", str(two), "--jobs", "3", *kinds, PYTHONHASHSEED="77", **odd),
    ]
    assert [ended(run)[0] for run in runs] == [1, 1]
    assert held(one) == held(two)
    assert any(name.endswith(".pdf") for name in held(one))
    monkeypatch.chdir(turned.parent)
    third = started("sizes.csv", "--out", str(other), "--jobs", "2", *kinds, PYTHONUTF8="1")
    assert ended(third)[0] == 1
    # The overview's files follow the table; a refusal names the row.
    skip = ("summary.csv", "overview.html", "batch.json", "bad/")
    first, last = (
        {n: c for n, c in held(f).items() if not n.startswith(skip)} for f in (one, other)
    )
    assert first == last


@unix
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL])
def test_stopped_at_any_moment_and_resumed(
    started: Start, sizes: Path, tmp_path: Path, how: signal.Signals
) -> None:
    """Ctrl-C reaches every process of the group, as at a terminal; a kill reaches the first."""
    out, whole = tmp_path / "out", tmp_path / "whole"
    given = (str(sizes), "--jobs", "2", "--only", "lists,arrangement")
    assert ended(started(*given, "--out", str(whole)))[0] == 0
    moments = random.Random(how)
    for _ in range(2):
        process = started(*given, "--out", str(out))
        while process.poll() is None and not (out / lock.NAME).exists():
            time.sleep(0.01)
        time.sleep(moments.uniform(0.0, 0.9))
        if how == signal.SIGINT:
            os.killpg(process.pid, how)
        else:
            process.send_signal(how)
        status, _, err = ended(process)
        assert "Traceback" not in err
        assert status in (0, {2: 130, 15: 143, 9: -9}[how])
        for folder in out.glob("*/"):
            if not folder.name.startswith("."):
                output_folder.check(str(folder))  # whole, or it would be refused
        if how != signal.SIGKILL:
            assert [p.name for p in out.glob(".*")] == []
    assert ended(started(*given, "--out", str(out)))[0] == 0
    assert held(out) == held(whole)


@unix
def test_workers_end_with_a_master_that_was_killed(
    started: Start, sizes: Path, tmp_path: Path
) -> None:
    psutil = pytest.importorskip("psutil")
    process = started(str(sizes), "--out", str(tmp_path / "out"), "--jobs", "2")
    for _ in range(100):
        workers = psutil.Process(process.pid).children(recursive=True)
        if len(workers) >= 3:  # two, and the one that looks after what they share
            break
        time.sleep(0.05)
    process.kill()
    _, alive = psutil.wait_procs(workers, timeout=10)
    assert workers
    assert alive == []


def test_two_runs_refuse_each_other(started: Start, sizes: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    with lock.locked(out, "out"):
        status, _, err = ended(started(str(sizes), "--out", str(out), *LISTS))
    assert status == 2
    assert f"another run is at work in it (process {os.getpid()} on {socket.gethostname()})" in err
    assert list(out.iterdir()) == []
    assert ended(started(str(sizes), "--out", str(out), *LISTS))[0] == 0


def test_a_lock_left_by_a_killed_run_holds_nobody_up(tmp_path: Path) -> None:
    code = (
        "import os, sys; from pathlib import Path; from flatpack.batch import lock\n"
        "with lock.locked(Path(sys.argv[1]), 'x'): os._exit(9)"
    )
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    subprocess.run([sys.executable, "-c", code, str(tmp_path)], check=False, env=environment)
    assert (tmp_path / lock.NAME).exists()
    with lock.locked(tmp_path, "x"):
        assert (tmp_path / lock.NAME).read_text().startswith(f"{os.getpid()} ")
    assert not (tmp_path / lock.NAME).exists()


@unix
def test_locks_on_a_disk_that_has_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import errno
    import fcntl

    def none(*_: object) -> None:
        raise OSError(errno.ENOLCK, "no locks")

    monkeypatch.setattr(fcntl, "flock", none)
    done = subprocess.Popen([sys.executable, "-c", ""])
    done.wait()
    (tmp_path / lock.NAME).write_text(f"{done.pid} {socket.gethostname()}")
    with lock.locked(tmp_path, "x"):
        with pytest.raises(OutputError, match="another run"), lock.locked(tmp_path, "x"):
            pass
        assert (tmp_path / lock.NAME).exists()
    (tmp_path / lock.NAME).write_text(f"{os.getpid()} somewhere-else")
    with pytest.raises(OutputError, match="somewhere-else"), lock.locked(tmp_path, "x"):
        pass


def test_exit_status_and_words(started: Start, sizes: Path, tmp_path: Path) -> None:
    good = started(str(sizes), "--out", str(tmp_path / "a"), *LISTS)
    gone = started(str(tmp_path / "gone.csv"), "--out", str(tmp_path / "b"))
    jobs = started(str(sizes), "--out", str(tmp_path / "c"), "--jobs", "-1")
    nobody = started(str(sizes), "--out", str(tmp_path / "d"), "--stock", "nobody")
    status, out, err = ended(good)
    assert (status, err) == (0, "")  # no progress where nobody looks on
    assert "5 variants: 5 made" in out
    for process, word in ((gone, "No such file"), (jobs, "--jobs"), (nobody, '"nobody"')):
        status, out, err = ended(process)
        assert (status, out) == (2, "")
        assert word in err
    assert not (tmp_path / "b").exists()


@unix
def test_a_bar_on_a_terminal(sizes: Path, tmp_path: Path) -> None:
    import pty

    master, slave = pty.openpty()
    given = [sys.executable, "-m", "flatpack", "batch", str(sizes), "--out", str(tmp_path / "out")]
    process = subprocess.Popen(
        [*given, *LISTS, "--jobs", "1"], stdout=subprocess.DEVNULL, stderr=slave,
        env={**os.environ, "PYTHONPATH": str(ROOT), "TERM": "xterm"},
    )  # fmt: skip
    assert process.wait(60) == 0
    os.close(slave)
    shown = os.read(master, 100_000).decode()
    assert "5 of 5" in shown
    assert "s left" in shown
    os.close(master)
