"""The relaxation over strips: which strips, in whatever shares, hold all parts in least sheets.

    least  sheets cut along + sheets cut across first
    with   parts on strips >= demand,  heights of strips <= heights of the sheets of their way

Strips are made as they are needed (column generation); a search over all strips ends it, so that
its value is a bound: no plan of so many stages needs fewer sheets.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from flatpack.cutting.effort import Effort
from flatpack.cutting.master import Master, Solved
from flatpack.cutting.sheet_view import Strip, View
from flatpack.cutting.strip_list import within
from flatpack.cutting.strips import Parts, Strips

_ROUNDS, _A_ROUND, _NODES = 60, 25, 60_000
_GAIN = 1e-7
#: What the value may be wrong by: each strip's waste is known to 1e-7, and a sheet holds few.
EXACT = 1e-4


class Relaxed(NamedTuple):
    """Value in sheets; strips of each view at the last prices; whether the value is a bound."""

    value: float
    views: tuple[Strips, ...]
    proved: bool


class _Programme:
    """The linear programme, and the strips that it knows."""

    def __init__(self, views: Sequence[Strips], counts: Sequence[int]) -> None:
        self.views, self.parts = views, len(counts)
        dear = [2.0] * (self.parts + len(views))
        self.master = Master([*counts, *(0 for _ in views)], [], dear)
        for number in range(len(views)):
            self.master.add(1.0, {self.parts + number: 1.0})
        self.known: set[tuple[int, int, Parts]] = set()

    def add(self, number: int, strip: Strip) -> bool:
        strips = self.views[number]
        parts = strips.holds(strip)
        key = number, strip.y, parts
        if key in self.known:
            return False
        self.known.add(key)
        entries = {p: float(n) for p, n in parts}
        self.master.add(0.0, {**entries, self.parts + number: -strip.y / strips.view.y})
        return True

    def priced(self) -> Solved:
        """Solve, and give the views the prices."""
        solved = self.master.solve()
        prices = [max(0.0, v) for v in solved.duals]
        for number, strips in enumerate(self.views):
            strips.price(prices[: self.parts], prices[self.parts + number] / strips.view.y)
        return solved


def relaxed(views: Sequence[View], counts: Sequence[int], effort: Effort) -> Relaxed:
    """Solve the relaxation for these parts on sheets seen both ways.

    Raises:
        TooManyError: the parts make too many strip heights.
    """
    strips = tuple(Strips(v, counts) for v in views)
    programme = _Programme(strips, counts)
    area = views[0].x * views[0].y
    sizes = {o.part: o.x * o.y / area for v in views for o in v.options}
    for s in strips:
        s.price([sizes.get(p, 0.0) for p in range(len(counts))], 0.6 / s.view.y)
    proved = False
    solved = None
    for _ in range(_ROUNDS):
        effort.spend()
        added = sum(programme.add(n, s) for n, s in _useful(strips))
        if not added:
            added, proved = _last_look(programme)
        if solved is not None and (not added or effort.cut_short):
            break
        solved = programme.priced()
    value = solved.value if solved is not None else 0.0
    return Relaxed(value, strips, proved and not effort.cut_short)


def _useful(views: Sequence[Strips]) -> list[tuple[int, Strip]]:
    """The strips that are worth most beyond their height's price, some a view."""
    import numpy as np

    found = []
    for number, strips in enumerate(views):
        over = strips.worths() - strips.rate * np.array(strips.heights)
        for row in np.argsort(-over, kind="stable")[:_A_ROUND].tolist():
            strip = strips.best(row) if over[row] > _GAIN else None
            if strip is not None and strips.waste(strip) < -_GAIN:
                found.append((number, strip))
    return found


def _last_look(programme: _Programme) -> tuple[int, bool]:
    """Add what a search over all strips still finds; nothing left and nothing skipped: a bound."""
    added, whole = 0, True
    for number, strips in enumerate(programme.views):
        listed = within(strips, -_GAIN, 200, _NODES)
        whole = whole and listed.whole
        added += sum(programme.add(number, s) for s in listed.strips.values())
    return added, whole and not added
