"""All strips whose waste at given prices is within a gap, and those of them that matter.

A plan that beats a bound by little holds only strips with little waste, so a full list of these
makes a choice among them a proof.  A strip that another holds whole, and is no lower, is left out.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from flatpack.cutting.sheet_view import Strip
from flatpack.cutting.strips import Item, Parts, Strips

_NOISE = 1e-9
_SHARES = (1.0, 0.7, 0.5, 0.35, 0.25, 0.18, 0.12, 0.08, 0.06, 0.04, 0.03, 0.02, 0.01)


class Listed(NamedTuple):
    """Strips by what they hold; whether these are all of them."""

    strips: dict[Parts, Strip]
    whole: bool


def within(strips: Strips, gap: float, most: int, nodes: int) -> Listed:
    """All strips whose waste is at most `gap`, unless there are more than `most`."""
    search = _Search(strips, most, nodes)
    worths = strips.worths()
    for row, height in enumerate(strips.heights):
        need = strips.rate * height - gap
        if worths[row] >= need - _NOISE:
            search.row(row)
            search.walk(0, strips.view.x, need)
            if search.over:
                break
    return Listed(search.strips(), not search.over)


def fewest(views: tuple[Strips, ...], gap: float, most: int, nodes: int) -> list[Listed]:
    """Lists of at most `most` strips a view: all within the gap, or those with less waste."""
    made = [Listed({}, False) for _ in views]
    for share in _SHARES:
        made = []
        for strips in views:
            made.append(within(strips, gap * share, most, nodes))
            if not made[-1].whole:
                break
        else:
            return [Listed(undominated(m.strips), share == 1.0) for m in made]
    return [Listed({}, False) for _ in views]


def undominated(strips: Mapping[Parts, Strip]) -> dict[Parts, Strip]:
    """Strips of which no other holds as much at no more height."""
    import numpy as np

    every = sorted(strips.items(), key=lambda s: (s[1].y, s[0]))
    if not every:
        return {}
    counts = np.zeros((len(every), 1 + max(p for parts, _ in every for p, _ in parts)), np.int16)
    for row, (parts, _) in enumerate(every):
        for part, n in parts:
            counts[row, part] = n
    heights = np.array([s.y for _, s in every])
    alive = np.ones(len(every), dtype=bool)
    for row in range(len(every)):
        if alive[row]:
            worse = (counts <= counts[row]).all(axis=1) & (heights >= heights[row])
            worse[row] = False
            alive &= ~worse
    return {parts: s for (parts, s), stays in zip(every, alive, strict=True) if stays}


class _Search:
    """Depth first, widest columns first and as many of them as fit."""

    def __init__(self, strips: Strips, most: int, nodes: int) -> None:
        self.all, self.most, self.left = strips, most, nodes
        self.counts, self.values = strips.counts, strips.values
        self.have = [0] * len(strips.counts)
        self.taken: list[tuple[Item, int]] = []
        self.found: dict[tuple[int, ...], tuple[tuple[Item, int], ...]] = {}
        self.items: list[Item] = []
        self.tables: list[list[float]] = []

    def row(self, row: int) -> None:
        """Go on with the strips of a height; rows come lowest first."""
        self.items = self.all.items(row)
        by_group = self.all.tables_of(row)
        self.tables = [by_group[i.group] for i in self.items]

    @property
    def over(self) -> bool:
        return self.left < 0 or len(self.found) > self.most

    def walk(self, at: int, room: int, need: float) -> None:
        """Take every number of the column `at` that may still give enough."""
        self.left -= 1
        if self.over:
            return
        if at == len(self.items):
            if need <= _NOISE and self.taken:
                parts = tuple(map(min, self.have, self.counts))
                self.found.setdefault(parts, tuple(self.taken))
            return
        if self.tables[at][-(-room // self.all.unit)] < need - _NOISE:
            return
        item = self.items[at]
        for times in range(self._useful(item, room), -1, -1):
            gain = self.all.gain(item, self.have, times) if times else 0.0
            self._take(item, times)
            self.walk(at + 1, room - times * item.x, need - gain)
            self._take(item, -times)

    def _useful(self, item: Item, room: int) -> int:
        """Columns that fit and still add something."""
        fit = room // item.x
        if not fit:
            return 0
        wanted = max(-(-max(0, self.counts[p] - self.have[p]) // n) for p, n in item.parts)
        return min(fit, wanted)

    def _take(self, item: Item, times: int) -> None:
        if not times:
            return
        for part, n in item.parts:
            self.have[part] += n * times
        if times > 0:
            self.taken.append((item, times))
        else:
            self.taken.pop()

    def strips(self) -> dict[Parts, Strip]:
        """The strips found, by what they hold."""
        return {
            tuple((p, n) for p, n in enumerate(parts) if n): Strip(
                tuple(i.column for i, times in taken for _ in range(times))
            )
            for parts, taken in self.found.items()
        }
