"""The whole run: from a table to a folder a variant, a summary and an overview."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from flatpack.batch.building import write
from flatpack.batch.catalogue import Catalogue, key_of, program
from flatpack.batch.choices import Choices, Result, Setup, Task
from flatpack.batch.crew import Crew
from flatpack.batch.folder import BatchFolder
from flatpack.batch.ledger import Entry, Ledger
from flatpack.batch.lock import locked
from flatpack.batch.names import name_fault
from flatpack.batch.pools import Engine
from flatpack.batch.report import report
from flatpack.batch.variants import Variant, Variants
from flatpack.errors import OutputError

#: Told after each variant: how many are done, how many of these were kept as they were.
Progress = Callable[[int, int], None]
_MOST_LISTED = 20
_HOPELESS = 3
"""So many variants one after the other that can't be written end the run: the disk is full."""


class Order(NamedTuple):
    """What is to be made, how, from which profiles, and into which folder."""

    variants: Variants
    choices: Choices
    texts: Mapping[str, str]
    folder: BatchFolder


class Outcome(NamedTuple):
    """How many variants have each state and how many were kept; the first that aren't *made*."""

    counts: dict[str, int]
    kept: int
    troubles: tuple[Entry, ...]
    strangers: tuple[str, ...]


def run(order: Order, engine: Engine, progress: Progress) -> Outcome:
    """Make what isn't up to date, then the summary and the overview.

    Raises:
        OutputError: the folder can't be written, another run is at work in it, or the disk is full.
        ReadError: the table or a profile can't be read, or a worker runs another flatpack.
        KeyboardInterrupt: stopped; whole folders stay, and running again makes the rest.
    """
    folder = order.folder
    folder.make()
    with locked(folder.path, folder.shown):
        folder.open()
        folder.clear()
        ledger = Ledger()
        try:
            foreman = _Foreman(order, engine, ledger, progress)
            foreman.work()
            folder.write(report(ledger, folder, bool(order.choices.stock)))
            return _outcome(ledger, foreman.kept, folder)
        finally:
            ledger.close()


def _outcome(ledger: Ledger, kept: int, folder: BatchFolder) -> Outcome:
    troubles: list[Entry] = []
    for entry in ledger:
        if entry.state != "made":
            troubles.append(entry)
        if len(troubles) >= _MOST_LISTED:
            break
    return Outcome(ledger.counts(), kept, tuple(troubles), tuple(folder.strangers(ledger.holds)))


class _Foreman:
    """Goes through the table, keeps what is up to date and hands the rest to the crew."""

    def __init__(self, order: Order, engine: Engine, ledger: Ledger, progress: Progress) -> None:
        texts = dict(order.texts.items())
        self._order, self._ledger, self._progress = order, ledger, progress
        self._catalogue = Catalogue(texts)
        where = "" if engine.sends else str(order.folder.path)
        self._setup = Setup(order.choices, texts, program(), where, order.folder.shown)
        self._engine = engine
        self._crew: Crew | None = None
        self._unwritten: list[str] = []
        self._done = self.kept = 0

    def work(self) -> None:
        """All rows; on the way out nothing is left at work."""
        try:
            for number, variant in enumerate(self._order.variants, 1):
                self._row(number, variant)
            if self._crew is not None:
                self._crew.finish()
        except BaseException:
            if self._crew is not None:
                self._crew.stop()
            self._order.folder.clear()
            raise

    def _row(self, number: int, variant: Variant) -> None:
        place = variant.place
        fault = name_fault(variant.name)
        if not fault:
            other = self._ledger.claim(number, variant.name, place)
            fault = f"{other} has the same name, or one that differs in case only" if other else ""
        if fault:
            self._ledger.refuse(number, variant.name, place, _both(fault, variant.problem))
            self._tell()
            return
        task = Task(number, *variant)
        key = key_of(task.text + task.problem, self._setup.choices._asdict(), self._setup.program)
        card = self._order.folder.up_to_date(variant.name, key, self._catalogue)
        if card is None:
            self._hand_out(task)
            return
        self.kept += 1
        self._ledger.settle(number, card["state"], card["problem"])
        self._tell()

    def _hand_out(self, task: Task) -> None:
        if self._crew is None:  # nothing to make: nobody is started
            self._crew = Crew(self._engine, self._setup, self._take)
        self._crew.add(task)

    def _take(self, result: Result) -> None:
        if result.files is not None:
            result = self._written(result, result.files)
        self._ledger.settle(result.number, result.state, result.problem)
        self._tell()
        self._unwritten = [*self._unwritten, result.problem] if result.unwritten else []
        last = self._unwritten[-_HOPELESS:]
        if len(last) == _HOPELESS and len(set(last)) == 1:
            raise OutputError(self._order.folder.shown, f"one variant after the other {last[0]}")

    def _written(self, result: Result, files: dict[str, bytes]) -> Result:
        folder = self._order.folder
        try:
            write(str(folder.path), folder.shown, result.name, files)
        except OutputError as error:
            return result._replace(state="failed", problem=error.reason, unwritten=True)
        return result

    def _tell(self) -> None:
        self._done += 1
        self._progress(self._done, self.kept)


def _both(fault: str, problem: str) -> str:
    return f"{fault}; {problem}" if problem else fault
