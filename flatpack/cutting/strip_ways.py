"""How many sheets are cut along first and how many across: each split of a number ruled out?

A split is out when part prices show it: at prices p the sheets cut along hold at most v worth
each, those cut across w, and all parts are worth more than these together.  Where only "all along"
or "all across" is left, the strips of that way alone may still show that they can't do.
"""

from __future__ import annotations

from collections.abc import Sequence

from flatpack.cutting.effort import Effort
from flatpack.cutting.master import Master
from flatpack.cutting.sheet_view import View
from flatpack.cutting.strip_bound import Sheets
from flatpack.cutting.strip_choice import ruled_out
from flatpack.cutting.strip_relax import relaxed
from flatpack.cutting.strips import TooManyError

_MOST, _GRID, _LEVELS, _COST = 6, 2_400, 3_600, 5
_ROUNDS, _SCALE, _GAIN = 40, 1 << 24, 1e-6
METHOD = "relaxations over all sheets of at most {} stages, for each number of them cut along first"


def ruled_out_by_ways(
    views: Sequence[View], counts: Sequence[int], sheets: int, effort: Effort
) -> bool:
    """True when no split of `sheets` over the two views of a sheet can hold all parts."""
    if len(views) != 2 or not 0 < sheets <= _MOST:
        return False
    try:
        tables = [Sheets(v, counts, _GRID, _LEVELS) for v in views]
        splits = _Splits(tables, counts, effort)
        for along in range(1, sheets):
            if not splits.out(along, sheets - along):
                return False
        return all(
            splits.out(*split) or ruled_out(relaxed([view], counts, effort), counts, sheets, effort)
            for split, view in zip(((sheets, 0), (0, sheets)), views, strict=True)
        )
    except TooManyError:
        return False


class _Splits:
    """The programme over sheets that leaves least unmet, for one split after another."""

    def __init__(self, tables: Sequence[Sheets], counts: Sequence[int], effort: Effort) -> None:
        self.tables, self.counts, self.effort = tables, counts, effort
        room = tables[0].view.x * tables[0].view.y
        sizes = {o.part: o.x * o.y / room for t in tables for o in t.view.options}
        dear = [2.0 * sizes.get(p, 1.0) for p in range(len(counts))]
        self.master = Master(counts, [0] * len(tables), dear)

    def out(self, *split: int) -> bool:
        """True when prices are found at which these sheets hold less than all parts."""
        for row, number in enumerate(split):
            self.master.limit(row, number)
        parts = len(self.counts)
        for _ in range(_ROUNDS):
            self.effort.spend(_COST)
            solved = self.master.solve()
            whole = [max(0, int(p * _SCALE)) for p in solved.duals[:parts]]
            found = [t.most_worth(whole) for t in self.tables]
            held = sum(n * worth for n, (worth, _) in zip(split, found, strict=True))
            if sum(p * n for p, n in zip(whole, self.counts, strict=True)) > held:
                return True
            news = [
                (row, made)
                for row, (worth, made) in enumerate(found)
                if worth / _SCALE + solved.duals[parts + row] > _GAIN
            ]
            if solved.value < _GAIN or not news or self.effort.spent:
                return False
            for row, made in news:
                self.master.add(0.0, {**{p: float(n) for p, n in made.items()}, parts + row: 1.0})
        return False
