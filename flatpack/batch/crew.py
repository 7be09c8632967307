"""Hands chunks of tasks to an executor and takes results, a few chunks at a time.

A worker may die under a task (out of memory, killed, its machine gone).  Its chunk is then tried
again, one task at a time and alone, so that only the task that kills workers is given up.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, CancelledError, Future, wait
from contextlib import suppress

from flatpack.batch.building import ProgramDiffersError
from flatpack.batch.choices import Result, Setup, Task
from flatpack.batch.pools import Engine, undisturbed_start
from flatpack.batch.worker import work
from flatpack.errors import ReadError

Tasks = tuple[Task, ...]
_AHEAD = 2
"""Chunks in hand per worker: one at work and one waiting."""
_TRIES = 2


class Crew:
    """An executor at work; results go to `take`, once each."""

    def __init__(self, engine: Engine, setup: Setup, take: Callable[[Result], None]) -> None:
        """Start it."""
        self._engine, self._setup, self._take = engine, setup, take
        self._executor = engine.start()
        self._chunk: list[Task] = []
        self._flying: dict[Future[list[Result]], Tasks] = {}
        self._suspects: deque[Task] = deque()

    def add(self, task: Task) -> None:
        """A task; waits while more than enough are in hand."""
        self._chunk.append(task)
        if len(self._chunk) >= self._engine.chunk:
            self._submit()
        while len(self._flying) >= self._engine.workers * _AHEAD:
            self._collect()

    def finish(self) -> None:
        """Wait until all is done, and let the executor go."""
        if self._chunk:
            self._submit()
        while self._flying:
            self._collect()
        self._executor.shutdown()

    def stop(self) -> None:
        """Let what is being made be finished, and begin nothing more."""
        self._engine.stop()
        self._executor.shutdown(wait=True, cancel_futures=True)
        for future in self._flying:
            if future.done() and not future.cancelled() and future.exception() is None:
                for result in future.result():
                    self._take(result)
        self._flying = {}

    def _submit(self) -> None:
        chunk, self._chunk = tuple(self._chunk), []
        self._send(chunk)

    def _send(self, chunk: Tasks) -> None:
        try:
            self._fly(chunk)
        except BrokenExecutor:  # found out late; a broken one takes no more work
            self._executor.shutdown(wait=False)
            self._executor = self._engine.start()
            self._fly(chunk)

    def _fly(self, chunk: Tasks) -> None:
        with undisturbed_start():
            self._flying[self._executor.submit(work, chunk, self._setup)] = chunk

    def _collect(self) -> None:
        done, _ = wait(self._flying, return_when=FIRST_COMPLETED)
        broken = False
        for future in done:
            chunk = self._flying.pop(future)
            lost = self._settled(future, chunk)
            self._suspects += lost
            broken = broken or bool(lost)
        if broken:
            self._recover()

    def _settled(self, future: Future[list[Result]], chunk: Tasks) -> Tasks:
        """Pass its results on; the tasks that have none."""
        try:
            results = future.result()
        except ProgramDiffersError as error:
            raise ReadError("--scheduler", str(error)) from None
        except (Exception, CancelledError):  # whatever befell the worker, the tasks are tried again
            return chunk
        for result in results:
            self._take(result)
        return ()

    def _recover(self) -> None:
        """Try what was lost once more, one task at a time with nothing else at work."""
        for future in tuple(self._flying):
            with suppress(Exception, CancelledError):
                wait([future])
            self._suspects += self._settled(future, self._flying.pop(future))
        while self._suspects:
            task = self._suspects.popleft()
            if not any(self._alone(task) for _ in range(_TRIES)):
                problem = "its worker died under it, again and again"
                self._take(Result(task.number, task.name, "failed", problem))

    def _alone(self, task: Task) -> bool:
        self._send((task,))
        ((future, chunk),) = self._flying.items()
        wait([future])
        self._flying = {}
        return not self._settled(future, chunk)
