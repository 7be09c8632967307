"""What runs in a worker process: a start that lets it end in order, and the work."""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Sequence
from multiprocessing.connection import Connection, wait

from flatpack.batch.building import build
from flatpack.batch.choices import Result, Setup, Task


class _State:
    """Says whether this worker is to take up no more variants."""

    stop: Callable[[], bool] | None = None


def begin(running: Connection) -> None:
    """Start of a worker of ours: Ctrl-C is its master's business, and it ends with its master.

    `running` comes to its end when no more variants are wanted.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.set_threshold(50_000, 20, 20)  # looking for garbage often costs a tenth of the time
    _State.stop = lambda: _ended(running)
    master = multiprocessing.parent_process()
    if master is not None:
        threading.Thread(target=_follow, args=(master.sentinel,), daemon=True).start()


def _ended(running: Connection) -> bool:
    try:
        return running.poll()
    except (OSError, EOFError):  # how another system tells of the end
        return True


def _follow(sentinel: int) -> None:
    wait([sentinel])
    os._exit(1)


def work(tasks: Sequence[Task], setup: Setup) -> list[Result]:
    """Make some variants; those left when the run was stopped are missing from the results."""
    return build(tasks, setup, _State.stop)
