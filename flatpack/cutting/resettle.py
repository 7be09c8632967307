"""A sheet fewer: all but the least of the sheets are kept, and the parts left over fitted in.

Two or three sheets at a time are laid out anew together with the parts left over, by choosing
among listed strips, so that what is left over weighs least; then others.  Large parts weigh more
than their area, so that small ones are left, which find a gap sooner.  A plan a little worse is
taken now and then (annealing), so that the search doesn't stand still.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from flatpack.cutting.effort import Effort
from flatpack.cutting.sheet_view import Layout, View
from flatpack.cutting.strip_choice import placed
from flatpack.cutting.strip_list import fewest
from flatpack.cutting.strip_relax import relaxed
from flatpack.cutting.strips import TooManyError

_POWER, _PAIRS, _WORSE = 1.2, 0.85, 0.02
_LIST, _NODES, _TREE, _STEPS = 150, 30_000, 60, 20
_LOOSE, _SHAKE = 0.02, 0.3


class _Sheet(NamedTuple):
    """A sheet of the plan: what lies on it, and how much of it that fills."""

    layout: Layout
    parts: Counter[int]
    fill: float


class Resettler:
    """The search for one kind of sheet, seen both ways."""

    def __init__(
        self,
        views: Sequence[View],
        sizes: Sequence[tuple[int, int]],
        effort: Effort,
        seed: random.Random,
    ) -> None:
        """Weigh the parts."""
        self.views, self.effort, self.random = views, effort, seed
        room = views[0].x * views[0].y
        self.area = [a * b / room for a, b in sizes]
        self.weights = [math.pow(a, _POWER) for a in self.area]

    def without_one(self, layouts: Sequence[Layout], rounds: int) -> list[Layout] | None:
        """Layouts of one sheet fewer with the same parts; None when the rounds found none."""
        ordered = sorted((self._sheet(u) for u in layouts), key=lambda s: s.fill)
        over, sheets = ordered[0].parts, ordered[1:]
        if not sheets:
            return None
        weight = self._weight(over)
        warmth = _WORSE * weight
        for _ in range(rounds):
            if self.effort.spent:
                return None
            picked = self._picked(sheets)
            found = self._again([sheets[n] for n in picked], over)
            if found is None:
                continue
            news, left = found
            now = self._weight(left)
            if now <= weight or self.random.random() < math.exp((weight - now) / warmth):
                over, weight = left, now
                for number, sheet in zip(picked, news, strict=True):
                    sheets[number] = sheet
            if not over:
                return [s.layout for s in sheets]
        return None

    def _sheet(self, layout: Layout) -> _Sheet:
        parts = Counter(p for s in layout.strips for p in s.parts)
        return _Sheet(layout, parts, sum(self.area[p] * n for p, n in parts.items()))

    def _weight(self, parts: Counter[int]) -> float:
        return sum(self.weights[p] * n for p, n in parts.items())

    def _picked(self, sheets: Sequence[_Sheet]) -> list[int]:
        """Two sheets or three, those with room to spare rather."""
        many = 2 if self.random.random() < _PAIRS else 3
        chance = [(1.02 - s.fill) * self.random.random() for s in sheets]
        return sorted(range(len(sheets)), key=lambda n: -chance[n])[:many]

    def _again(
        self, sheets: Sequence[_Sheet], over: Counter[int]
    ) -> tuple[list[_Sheet], Counter[int]] | None:
        """The sheets laid out anew with the parts left over, and what is left over then."""
        every = sum((s.parts for s in sheets), Counter(over))
        counts = tuple(every[p] for p in range(len(self.area)))
        self.effort.spend(_STEPS)
        try:
            base = relaxed(self.views, counts, self.effort)
        except TooManyError:
            return None
        gap = max(len(sheets) - base.value, _LOOSE)
        lists = [m.strips for m in fewest(base.views, gap, _LIST, _NODES)]
        ways = [int(s.layout.across) for s in sheets]
        if self.random.random() < 0.5:
            ways = [self.random.randrange(2) for _ in sheets]
        weights = [w * (1.0 + _SHAKE * self.random.random()) for w in self.weights]
        made = placed(self.views, lists, ways, counts, weights, self.effort, _TREE)
        if made is None:
            return None
        left = Counter({p: n for p, n in enumerate(made.left) if n})
        return [self._sheet(u) for u in made.layouts], left
