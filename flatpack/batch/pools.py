"""Who does the work: processes on this machine, or a cluster; anything that is an `Executor`."""

from __future__ import annotations

import logging
import signal
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context
from typing import Any, NamedTuple

from flatpack.batch.worker import begin
from flatpack.errors import ReadError


class Engine(NamedTuple):
    """How to start an executor, how many chunks it works on at once, and how large they are.

    `sends` makes workers send files back instead of writing them: they then need no disk in
    common, one hand writes, and nothing can be written twice.  `stop` asks workers to end after
    the variant in hand.
    """

    start: Callable[[], Executor]
    workers: int
    chunk: int = 1
    sends: bool = True
    stop: Callable[[], None] = lambda: None
    close: Callable[[], None] = lambda: None


def processes(jobs: int) -> Engine:
    """Processes of this machine, each of which writes its own folders."""
    context = get_context("spawn")
    # Workers see the reading end come to its end when the writing end is closed.
    reader, writer = context.Pipe(duplex=False)

    def start() -> Executor:
        return ProcessPoolExecutor(jobs, context, initializer=begin, initargs=(reader,))

    def close() -> None:
        writer.close()
        reader.close()

    return Engine(start=start, workers=jobs, sends=False, stop=writer.close, close=close)


def cluster(address: str, chunk: int = 4) -> Engine:
    """The workers of a dask scheduler; see `--scheduler`.

    Raises:
        ReadError: the extra isn't installed, or no scheduler answers.
    """
    try:
        import distributed
    except ImportError:
        reason = 'needs dask: install with `pip install "flatpack[cluster]"`'
        raise ReadError("--scheduler", reason) from None
    start_client: Any = distributed.Client  # it has no types
    # A worker that is lost is no news for the maker: its work is done by another.
    logging.getLogger("distributed").setLevel(logging.ERROR)
    try:
        client = start_client(address, timeout=10, set_as_default=False)
        workers = sum(client.nthreads().values())
    except (OSError, ValueError, TimeoutError) as error:
        raise ReadError(address, f"no scheduler answers: {error}") from None

    def start() -> Executor:
        made: Executor = client.get_executor(pure=False)
        return made

    return Engine(start=start, workers=max(1, workers), chunk=chunk, close=client.close)


@contextmanager
def undisturbed_start() -> Iterator[None]:
    """Processes begun meanwhile are deaf to Ctrl-C from their first moment."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
