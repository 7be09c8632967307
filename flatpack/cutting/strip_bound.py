"""Least number of sheets for plans of two or three stages: the relaxation over all such sheets.

At part prices p, no sheet holds parts worth more than v; so the sheets number at least
sum p * demand / v (Farley 1990).  v is worked out from above: a strip of every height that a
column can have is filled by a table that rounds lengths down, strips are put together by another
that rounds heights down, and a part may repeat from strip to strip beyond its demand.  The prices
come from a linear programme of its own, over sheets that these tables make; the plan's search
has no part in it.  The last step is done in whole numbers.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import groupby
from typing import Any

from flatpack.cutting.effort import Effort
from flatpack.cutting.master import Master
from flatpack.cutting.sheet_view import Option, View
from flatpack.cutting.strips import TooManyError, stacks_of

_GRIDS = ((800, 1_500, 1), (2_400, 3_600, 5))
_NEAR = 0.96
_HEIGHTS = 600
_SCALE = 1 << 24
METHOD = "relaxation over all sheets of at most {} stages (column generation)"


class Sheets:
    """Upper bounds on the worth of a sheet seen in one view.

    Raises:
        TooManyError: the parts make too many strip heights for the tables.
    """

    def __init__(self, view: View, counts: Sequence[int], grid: int, levels: int) -> None:
        """Work out the strip heights and the stacks that each holds."""
        import numpy as np

        self.view, self.counts = view, tuple(counts)
        self.levels = levels
        self.unit = max(1, view.x // grid)
        self.room = -(-view.x // self.unit)
        options = [o for o in view.options if counts[o.part] > 0]
        self.groups = [list(g) for _, g in groupby(options, key=lambda o: o.x)]
        self.stacks = [stacks_of(view, counts, g) for g in self.groups]
        heights = sorted({h for stacks in self.stacks for h in stacks})
        if len(heights) > _HEIGHTS:
            raise TooManyError
        self.heights = np.array(heights, dtype=np.int64)
        self.level = self.heights * levels // view.y
        if len(heights) == 0 or self.level[0] < 1 or self.groups[0][0].x < self.unit:
            raise TooManyError

    def _columns(self, number: int, values: Sequence[Any]) -> tuple[Any, list[Counter[Option]]]:
        """For each strip height the best column of a group, and the stacks behind them."""
        import numpy as np

        worth = np.zeros(len(self.heights), dtype=np.int64)
        best: list[Counter[Option]] = [Counter()] * len(self.heights)
        options: dict[int, tuple[int, Counter[Option]]] = {}
        for height, stacks in self.stacks[number].items():
            options[height] = max(
                ((sum(values[o.part] * n for o, n in s.items()), s) for s in stacks),
                key=lambda t: t[0],
            )
        so_far: tuple[int, Counter[Option]] = (0, Counter())
        for row, height in enumerate(self.heights.tolist()):
            here = options.get(height)
            if self.view.mode == "level":
                so_far = here or (0, Counter())
            elif here and here[0] > so_far[0]:
                so_far = here
            worth[row], best[row] = so_far
        return worth, best

    def most_worth(self, values: Sequence[int]) -> tuple[int, Counter[int]]:
        """No sheet is worth more than this; and the parts that the tables would put on it."""
        import numpy as np

        table = np.zeros((len(self.heights), self.room + 1), dtype=np.int64)
        took: list[tuple[Any, int, list[Counter[Option]]]] = []
        for number, group in enumerate(self.groups):
            size = group[0].x // self.unit
            for gain, stacks in self._passes(number, values, size):
                more = table[:, : self.room + 1 - size] + gain[:, None]
                better = np.zeros(table.shape, dtype=bool)
                np.greater(more, table[:, size:], out=better[:, size:])
                np.maximum(more, table[:, size:], out=table[:, size:])
                took.append((better, size, stacks))
        return self._sheet(table[:, -1], took)

    def _passes(self, number: int, values: Sequence[int], size: int) -> Any:
        """One pass for each column that may stand in a strip, with its gain at each height."""
        import numpy as np

        group = self.groups[number]
        worth, stacks = self._columns(number, values)
        if not worth.any():
            return
        total = sum(self.counts[o.part] for o in group)
        for column in range(min(self.room // size, total)):
            if len(group) > 1:
                yield worth, stacks
                continue
            each = np.array([s[group[0]] for s in stacks], dtype=np.int64)
            left = np.clip(total - column * each, 0, each)
            yield left * values[group[0].part], stacks

    def _sheet(self, worth: Any, took: Any) -> tuple[int, Counter[int]]:
        import numpy as np

        best = np.zeros(self.levels + 1, dtype=np.int64)
        chosen = np.full(self.levels + 1, -1, dtype=np.int64)
        order = np.argsort(self.level, kind="stable")
        level, worth = self.level[order], worth[order]
        for at in range(1, self.levels + 1):
            end = int(np.searchsorted(level, at, side="right"))
            best[at] = best[at - 1]
            if end:
                sums = best[at - level[:end]] + worth[:end]
                top = int(sums.argmax())
                if sums[top] > best[at]:
                    best[at], chosen[at] = sums[top], top
        parts: Counter[int] = Counter()
        at = self.levels
        while at > 0:
            if chosen[at] < 0:
                at -= 1
                continue
            parts += self._strip(int(order[chosen[at]]), took)
            at -= int(level[chosen[at]])
        return int(best[self.levels]), parts

    def _strip(self, row: int, took: Any) -> Counter[int]:
        parts: Counter[int] = Counter()
        at = self.room
        for better, size, stacks in reversed(took):
            if better[row, at]:
                at -= size
                for option, n in stacks[row].items():
                    parts[option.part] += n
        return parts


def sheets_by_patterns(
    views: Sequence[View], counts: Sequence[int], effort: Effort, enough: int
) -> int:
    """Sheets that no plan in these views undercuts; stops as soon as `enough` are proved.

    A coarse table is tried first; a finer one only where the coarse one nearly proves them.
    """
    area = views[0].x * views[0].y
    prices = [0.0] * len(counts)
    for option in views[0].options + views[1].options:
        prices[option.part] = option.x * option.y / area
    proved = 0
    for grid, levels, cost in _GRIDS:
        try:
            sheets = [Sheets(view, counts, grid, levels) for view in views]
        except TooManyError:
            return proved
        found, value, prices = _proved(sheets, counts, prices, effort, enough, cost)
        proved = max(proved, found)
        if proved >= enough or value < _NEAR * (enough - 1):
            break
    return proved


def _proved(
    sheets: Sequence[Sheets],
    counts: Sequence[int],
    prices: list[float],
    effort: Effort,
    enough: int,
    cost: int,
) -> tuple[int, float, list[float]]:
    """Sheets proved by one size of table, the relaxation's last value and part prices."""
    master = Master(counts, [], [1.0] * len(counts))
    proved, value = 0, 0.0
    while not effort.spent:
        effort.spend(cost)
        whole = [max(0, int(p * _SCALE)) for p in prices]
        found = [s.most_worth(whole) for s in sheets]
        most = max(worth for worth, _ in found)
        total = sum(p * n for p, n in zip(whole, counts, strict=True))
        proved = max(proved, -(-total // most) if most else 0)
        gain = [parts for worth, parts in found if worth > _SCALE * (1 + 1e-5)]
        if proved >= enough or (master.patterns and not gain):
            break
        for _, parts in found:
            master.add(1.0, {p: float(n) for p, n in parts.items()})
        solved = master.solve()
        prices, value = list(solved.duals), solved.value
        if value <= enough - 1:
            # The relaxation holds a plan as small: what the coarse table allows at least.
            break
    return proved, value, prices
