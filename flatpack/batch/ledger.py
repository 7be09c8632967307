"""What has become of each row of the table, kept on disk so that a long table fits any memory."""

from __future__ import annotations

import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from typing import NamedTuple

from flatpack.batch.names import folded

#: States of a row, best first.
STATES = ("made", "faults", "refused", "failed", "stopped")


class Entry(NamedTuple):
    """A row: number from 1, folder name, place in the table, state, problem.

    `own` is true when the row has a folder; a name that another row has, or that can't be a
    folder, has none.
    """

    number: int
    name: str
    place: str
    state: str
    problem: str
    own: bool


_TABLE = """
create table rows (
  number integer primary key, name text, folded text unique, place text, state text, problem text
)"""


class Ledger:
    """Rows by number, and by the name of their folder; gone when it is closed."""

    def __init__(self) -> None:
        """Open an empty one in the system's folder for such files."""
        handle, self._path = tempfile.mkstemp(prefix="flatpack-batch-")
        os.close(handle)
        self._db = sqlite3.connect(self._path, isolation_level=None)
        # Nothing in it outlives the run: no journal, and no waiting for the disk.
        for setting in ("journal_mode = off", "synchronous = off", "cache_size = -4096"):
            self._db.execute(f"pragma {setting}")
        self._db.execute(_TABLE)
        self._db.execute("begin")

    def close(self) -> None:
        """Remove it."""
        self._db.close()
        with suppress(OSError):
            os.unlink(self._path)

    def claim(self, number: int, name: str, place: str) -> str:
        """Enter a row that wants a folder; the place of the row that has it already, else ""."""
        row = (number, name, folded(name), place, "stopped", "")
        try:
            self._db.execute("insert into rows values (?, ?, ?, ?, ?, ?)", row)
        except sqlite3.IntegrityError:
            query = "select place from rows where folded = ?"
            found: str = self._db.execute(query, (folded(name),)).fetchone()[0]
            return found
        return ""

    def refuse(self, number: int, name: str, place: str, problem: str) -> None:
        """Enter a row that gets no folder."""
        row = (number, printable(name), None, place, "refused", problem)
        self._db.execute("insert into rows values (?, ?, ?, ?, ?, ?)", row)

    def settle(self, number: int, state: str, problem: str) -> None:
        """What has become of a row."""
        query = "update rows set state = ?, problem = ? where number = ?"
        self._db.execute(query, (state, printable(problem), number))

    def __iter__(self) -> Iterator[Entry]:
        """The rows in the table's order."""
        query = "select number, name, place, state, problem, folded from rows order by number"
        for number, name, place, state, problem, key in self._db.execute(query):
            yield Entry(number, name, place, state, problem, key is not None)

    def counts(self) -> dict[str, int]:
        """How many rows have each state."""
        found = dict(self._db.execute("select state, count(*) from rows group by state"))
        return {state: found.get(state, 0) for state in STATES}

    def holds(self, name: str) -> bool:
        """Whether a row has the folder of this name."""
        query = "select 1 from rows where folded = ?"
        return self._db.execute(query, (folded(name),)).fetchone() is not None


def printable(text: str) -> str:
    """Text without halves of letters, which nothing can store."""
    return text.encode("utf-8", "replace").decode()
