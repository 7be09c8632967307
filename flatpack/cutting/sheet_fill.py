"""The most valuable strips for a sheet, by tables over all strip heights at once (numpy)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from flatpack.cutting.sheet_view import Column, Layout, Option, Strip, View

_GRID = 700
_LEVELS = 160
_HEIGHTS = 90


class Filler:
    """Fills sheets of one view; what depends on sizes alone is worked out once."""

    def __init__(self, view: View) -> None:
        """Prepare for the view."""
        import numpy as np

        self.view = view
        self.unit = max(1, -(-view.x // _GRID))
        self.room = view.x // self.unit
        self.wide = [-(-o.x // self.unit) for o in view.options]
        ys = sorted({o.y for o in view.options})
        heights = set(ys)
        if view.mode in ("stack", "recut"):
            heights |= {n * y for y in ys for n in (2, 3, 4) if n * y <= view.y}
        chosen = sorted(heights)
        if len(chosen) > _HEIGHTS:
            step = len(chosen) / _HEIGHTS
            extra = {chosen[int(i * step)] for i in range(_HEIGHTS)}
            chosen = sorted(extra | {chosen[0], chosen[-1]})
        self.heights = np.array(chosen, dtype=np.int64)
        self.level = -(-self.heights * _LEVELS // view.y)

    def fill(self, values: Sequence[float], counts: Sequence[int]) -> Layout:
        """A sheet's worth of strips, most valuable first, from the parts that `counts` leaves."""
        left = list(counts)
        rest = self.view.y
        strips: list[Strip] = []
        while True:
            strip = self._next_strip(values, left, rest)
            if strip is None:
                return Layout(self.view.across, tuple(strips))
            strips.append(strip)
            rest -= strip.y
            for part in strip.parts:
                left[part] -= 1

    def _next_strip(self, values: Sequence[float], left: list[int], rest: int) -> Strip | None:
        import numpy as np

        usable = [
            n
            for n, o in enumerate(self.view.options)
            if left[o.part] > 0 and o.y <= rest and values[o.part] > 0
        ]
        if not usable:
            return None
        low = min(self.view.options[n].y for n in usable)
        heights = self.heights[(self.heights <= rest) & (self.heights >= low)]
        if not len(heights) or heights[-1] != rest:
            heights = np.append(heights, rest)
        table, took, bundles = self._table(values, left, usable, heights)
        row = self._choose(table[:, -1], heights, rest)
        columns = self._trace(took, bundles, row)
        return self._build(columns, int(heights[row]), values, left)

    def _table(self, values: Any, left: list[int], usable: list[int], heights: Any) -> Any:
        import numpy as np

        stacks = self._stacks(values, left, usable, heights)
        table = np.zeros((len(heights), self.room + 1))
        bundles: list[tuple[int, int]] = []
        took = []
        for number, worth in stacks:
            option = self.view.options[number]
            copies = min(self.room // self.wide[number], left[option.part])
            done, times = 0, 1
            while done < copies:
                times = min(times, copies - done)
                gain = worth(done, times)
                size = times * self.wide[number]
                if not np.any(gain > 0):
                    break
                more = table[:, : self.room + 1 - size] + gain[:, None]
                better = np.zeros(table.shape, dtype=bool)
                np.greater(more, table[:, size:], out=better[:, size:])
                np.maximum(more, table[:, size:], out=table[:, size:])
                took.append(better)
                bundles.append((number, times))
                done, times = done + times, times * 2
        return table, took, bundles

    def _stacks(self, values: Any, left: list[int], usable: list[int], heights: Any) -> Any:
        """For each usable option a function giving the worth of further columns of it."""
        import numpy as np

        mode = self.view.mode
        fill: Any = None
        last_x = -1
        found = []
        for number in usable:
            o = self.view.options[number]
            price, have = values[o.part], left[o.part]
            if mode == "level":
                most = (heights == o.y).astype(np.int64)
            elif mode == "single":
                most = (heights >= o.y).astype(np.int64)
            else:
                most = heights // o.y
            extra: Any = 0.0
            if mode in ("stack", "recut"):
                if fill is None or (mode == "stack" and o.x != last_x):
                    fill = np.zeros(self.view_levels + 1)
                last_x = o.x
                over = heights - np.minimum(most, have) * o.y
                at = np.clip(over * self.view_levels // self.view.y, 0, None)
                extra = np.where(most > 0, fill[at], 0.0)
                fill = self._with(fill, o, price, have)
            found.append((number, _worth(price, most, have, extra)))
        return found

    view_levels = 300

    def _with(self, fill: Any, o: Option, price: float, have: int) -> Any:
        import numpy as np

        size = -(-o.y * self.view_levels // self.view.y)
        fill = fill.copy()
        for _ in range(min(have, self.view_levels // size, 3)):
            np.maximum(fill[: len(fill) - size] + price, fill[size:], out=fill[size:])
        return fill

    def _choose(self, worth: Any, heights: Any, rest: int) -> int:
        """The height to take first: the best of a filling of the rest with strips."""
        import numpy as np

        top = max(1, rest * _LEVELS // self.view.y)
        levels = np.minimum(-(-heights * _LEVELS // self.view.y), top)
        best = np.zeros(top + 1)
        np.maximum.at(best, levels, worth)
        best = np.maximum.accumulate(best)
        # Twice as many strips at each turn: best of a strip's share and the share that is left.
        at = np.arange(top + 1)
        other = at[:, None] - at[None, :]
        for _ in range(3):
            best = np.where(other >= 0, best[None, :] + best[other], 0.0).max(axis=1)
        score = worth + best[np.maximum(top - levels, 0)]
        good = score >= score.max() * (1 - 1e-9)
        dense = np.where(good, worth / heights, -1.0)
        return int(dense.argmax())

    def _trace(self, took: Any, bundles: list[tuple[int, int]], row: int) -> list[int]:
        at = self.room
        columns: list[int] = []
        for better, (number, times) in zip(reversed(took), reversed(bundles), strict=True):
            if better[row, at]:
                columns += [number] * times
                at -= times * self.wide[number]
        return columns

    def _build(
        self, wanted: list[int], height: int, values: Sequence[float], left: list[int]
    ) -> Strip | None:
        have = list(left)
        room = self.view.x
        columns: list[Column] = []
        options = self.view.options
        wanted = sorted(wanted, key=lambda n: (-options[n].y, n))
        by_worth = sorted(range(len(options)), key=lambda n: (-values[options[n].part], n))
        for number in [*wanted, *(n for n in by_worth for _ in range(left[options[n].part]))]:
            o = options[number]
            if have[o.part] <= 0 or o.x > room or o.y > height or values[o.part] <= 0:
                continue
            if self.view.mode == "level" and columns and o.y != columns[0].y:
                continue
            column = self._column(o, height, values, have)
            columns.append(column)
            room -= column.x
        return Strip(tuple(columns)) if columns else None

    def _column(self, o: Option, height: int, values: Sequence[float], have: list[int]) -> Column:
        inside = [o]
        have[o.part] -= 1
        rest = height - o.y
        if self.view.mode in ("stack", "recut"):
            fits = [
                p
                for p in self.view.options
                if (p.x == o.x or (self.view.mode == "recut" and p.x < o.x)) and p.y <= rest
            ]
            fits.sort(key=lambda p: (p.part != o.part, -values[p.part], -p.y))
            for p in fits:
                while have[p.part] > 0 and p.y <= rest and values[p.part] > 0:
                    inside.append(p)
                    have[p.part] -= 1
                    rest -= p.y
        return Column(o.x, tuple(inside))


def _worth(price: float, most: Any, have: int, extra: Any) -> Any:
    import numpy as np

    def gain(done: int, times: int) -> Any:
        first = np.minimum(done * most, have)
        then = np.minimum((done + times) * most, have)
        return price * (then - first) + extra * (then > first)

    return gain
