"""What is wrong with a maker's own file, gathered so that all of it is told at once."""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import Any, TypeVar

from flatpack.parameters import Conflict, Sum, nearest, words

T = TypeVar("T")


class StuckError(Exception):
    """Something can't be worked out, and why has been noted; never leaves this package."""


class Faults:
    """The faults so far, each once; values being worked out, so that a circle is seen."""

    def __init__(self) -> None:
        """Start with none."""
        self.rows: list[Conflict] = []
        self._known: dict[object, Any] = {}
        self._open: list[tuple[object, str, tuple[str, object]]] = []

    def note(self, key: str, value: object, allowed: str, message: str, near: str = "") -> None:
        """Keep a fault."""
        shown = (value.written() if isinstance(value, Sum) else value) or None
        row = Conflict(key, f'"{shown}"' if isinstance(shown, str) else shown, allowed, message,
                       near)  # fmt: skip
        if row not in self.rows:
            self.rows.append(row)

    def stop(
        self, key: str, value: object, allowed: str, message: str, near: str = ""
    ) -> StuckError:
        """Keep a fault; gives the error that tells to give up what is being worked out."""
        self.note(key, value, allowed, message, near)
        return StuckError()

    def unknown(self, key: str, name: str, known: Collection[str], message: str) -> StuckError:
        """Keep a fault about a name that isn't known, with the nearest that is."""
        return self.stop(key, name, words(sorted(known)), message, nearest(name, list(known)))

    def once(self, what: object, told: str, where: tuple[str, object], make: Callable[[], T]) -> T:
        """A value worked out once; where it needs itself, a fault at `where` (key, value there).

        Raises:
            StuckError: it can't be worked out.
        """
        if what in self._known:
            found = self._known[what]
            if found is StuckError:
                raise StuckError
            kept: T = found
            return kept
        for number, (one, _, _) in enumerate(self._open):
            if one == what:
                raise self._circle(number)
        self._open.append((what, told, where))
        try:
            made = self._known[what] = make()
        except StuckError:
            self._known[what] = StuckError
            raise
        finally:
            self._open.pop()
        return made

    def _circle(self, number: int) -> StuckError:
        """The fault of what needs itself, at the key that closes the ring."""
        ring = [told for _, told, _ in self._open[number:]]
        ring = [told for told in ring if "(" not in told] or ring
        way = " follows from ".join([*ring, ring[0]])
        key, value = self._open[-1][2]
        return self.stop(key, value, "one that doesn't follow from it", f"circular: {way}")

    def attempt(self, make: Callable[[], T]) -> T | None:
        """The value, or None where it can't be worked out."""
        try:
            return make()
        except StuckError:
            return None
