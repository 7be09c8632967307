"""Every strip that a sheet may hold: the most valuable of each height, or all within a waste.

A strip of height h holds columns side by side, a column holds parts of one width over each other,
as many as h lets.  At part prices p and a price for height, a strip's waste is what its height
costs less what its parts are worth.  Tables over all heights at once say what the narrower
columns can still be worth; lengths are rounded down in them, so that they never say too little,
and a search led by them leaves no strip out.  Sizes themselves stay exact.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import groupby
from typing import Any, NamedTuple

from flatpack.cutting.sheet_view import Column, Option, Strip, View

_HEIGHTS, _GRID = 600, 800
_NOISE = 1e-9

Stack = tuple[Option, ...]
Parts = tuple[tuple[int, int], ...]


class TooManyError(ValueError):
    """There are more strip heights than can be gone through."""


class Item(NamedTuple):
    """A column that may stand in a strip: its width, its group, parts with counts, the column."""

    x: int
    group: int
    parts: Parts
    column: Column


def stacks_of(
    view: View, counts: Sequence[int], group: Sequence[Option]
) -> dict[int, list[Counter[Option]]]:
    """Every height that a column of these parts of one width can have, with its stacks.

    Raises:
        TooManyError: there are too many of them.
    """
    found: dict[int, list[Counter[Option]]] = {0: [Counter()]}
    alone = view.mode in ("level", "single")
    for option in group:
        most = 1 if alone else counts[option.part]
        for height, stacks in sorted(found.items()):
            if alone and height:
                continue
            for n in range(1, min(most, (view.y - height) // option.y) + 1):
                more = [s + Counter({option: n}) for s in stacks]
                found.setdefault(height + n * option.y, []).extend(more)
        if sum(map(len, found.values())) > 4 * _HEIGHTS:
            raise TooManyError
    del found[0]
    return found


class Strips:
    """The strips of one view of a sheet, for the parts that `counts` leaves."""

    def __init__(self, view: View, counts: Sequence[int]) -> None:
        """Work out the heights that strips can have.

        Raises:
            TooManyError: there are too many of them.
        """
        self.view, self.counts = view, tuple(counts)
        options = sorted((o for o in view.options if counts[o.part] > 0), key=lambda o: -o.x)
        self.groups = [list(g) for _, g in groupby(options, key=lambda o: o.x)]
        self.stacks = [stacks_of(view, counts, g) for g in self.groups]
        self.heights = sorted({h for stacks in self.stacks for h in stacks})
        if len(self.heights) > _HEIGHTS:
            raise TooManyError
        self.unit = max(1, -(-view.x // _GRID))
        self.room = -(-view.x // self.unit)
        self._items: dict[int, list[Item]] = {}
        self.values: Sequence[float] = ()
        self.rate = 0.0
        self._tables: list[Any] = []

    def price(self, values: Sequence[float], rate: float) -> None:
        """Take part prices, and the price of a tick of height; make the tables for them."""
        import numpy as np

        self.values, self.rate = values, rate
        tables = [np.zeros((len(self.heights), self.room + 1))]
        for number in reversed(range(len(self.groups))):
            tables.append(self._with_group(tables[-1], number))
        self._tables = tables[::-1]

    def _with_group(self, table: Any, number: int) -> Any:
        import numpy as np

        table = table.copy()
        size = max(1, self.groups[number][0].x // self.unit)
        for gain in self._gains(number, self.room // size):
            more = table[:, : self.room + 1 - size] + gain[:, None]
            np.maximum(more, table[:, size:], out=table[:, size:])
        return table

    def _gains(self, number: int, most: int) -> Any:
        """Gain at each height of one more column of a group, as long as there is any."""
        import numpy as np

        group = self.groups[number]
        each = self._each(number)
        total = sum(self.counts[o.part] for o in group)
        for done in range(min(most, total)):
            gain = each
            if len(group) == 1:
                gain = np.clip(total - done * each, 0, each) * self.values[group[0].part]
            if not gain.any():
                return
            yield gain

    def _each(self, number: int) -> Any:
        """Copies in a column at each height; for parts of one width, what the best stack gives."""
        import numpy as np

        heights = np.array(self.heights)
        found = np.zeros(len(heights))
        single = len(self.groups[number]) == 1
        for height, stacks in sorted(self.stacks[number].items()):
            best = max(
                sum(n * (1.0 if single else self.values[o.part]) for o, n in s.items())
                for s in stacks
            )
            rows = heights == height if self.view.mode == "level" else heights >= height
            found[rows] = np.maximum(found[rows], best)
        return found

    def worths(self) -> Any:
        """For each height no strip is worth more."""
        return self._tables[0][:, -1]

    def items(self, row: int) -> list[Item]:
        """Columns for a height, widest first: those to which nothing can be added."""
        if row not in self._items:
            self._items[row] = [i for g in range(len(self.groups)) for i in self._fullest(g, row)]
        return self._items[row]

    def _fullest(self, number: int, row: int) -> list[Item]:
        height = self.heights[row]
        exact = self.view.mode == "level"
        if len(self.groups[number]) == 1 and not exact:
            tallest = max((h for h in self.stacks[number] if h <= height), default=0)
            return [_item(s, number) for s in self.stacks[number].get(tallest, ())]
        fits = [
            s
            for h, stacks in self.stacks[number].items()
            if (h == height if exact else h <= height)
            for s in stacks
        ]
        full = [s for s in fits if not any(s != o and s <= o for o in fits)]
        return [_item(s, number) for s in full]

    def best(self, row: int) -> Strip | None:
        """A most valuable strip of a height, as the tables lead to it."""
        room, have = self.view.x, [0] * len(self.counts)
        columns: list[Column] = []
        items = self.items(row)
        for at, item in enumerate(items):
            table = self._tables[_after(items, at)][row]
            worth = [
                self.gain(item, have, n) + table[-(-(room - n * item.x) // self.unit)]
                for n in range(min(room // item.x, self.counts[item.parts[0][0]]) + 1)
            ]
            times = max(range(len(worth)), key=lambda n: (worth[n], -n))
            room -= times * item.x
            columns += [item.column] * times
            for part, n in item.parts:
                have[part] += n * times
        return Strip(tuple(columns)) if columns else None

    def gain(self, item: Item, have: Sequence[int], times: int) -> float:
        """Worth of columns of one kind, beside what the strip has already."""
        return sum(
            self.values[p] * max(0, min(self.counts[p] - have[p], n * times)) for p, n in item.parts
        )

    def holds(self, strip: Strip) -> Parts:
        """Parts with counts, none beyond what there is."""
        made = Counter(strip.parts)
        return tuple(sorted((p, min(n, self.counts[p])) for p, n in made.items()))

    def waste(self, strip: Strip) -> float:
        """Price of the strip's height less the worth of its parts."""
        return self.rate * strip.y - sum(self.values[p] * n for p, n in self.holds(strip))

    def tables_of(self, row: int) -> list[list[float]]:
        """For each group, and each room: no columns of it and narrower ones are worth more."""
        return [table[row].tolist() for table in self._tables]


def _item(stack: Counter[Option], group: int) -> Item:
    options = tuple(o for o, n in sorted(stack.items()) for _ in range(n))
    parts = tuple(sorted(Counter(o.part for o in options).items()))
    return Item(options[0].x, group, parts, Column(options[0].x, options))


def _after(items: Sequence[Item], at: int) -> int:
    """The group whose table holds all that may come after an item."""
    last = at + 1 == len(items) or items[at + 1].group != items[at].group
    return items[at].group + last
