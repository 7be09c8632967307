"""Choosing strips for a few sheets: a whole-number programme over listed strips (HiGHS).

`placed` fills given sheets so that the parts without a place weigh least.  `ruled_out` shows that
a number of sheets can't do: every strip that a plan of so many sheets may hold is listed, and not
even their heights taken together leave a choice that holds all parts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from flatpack.cutting.effort import Effort
from flatpack.cutting.master import quiet_solver
from flatpack.cutting.sheet_trim import without_spare
from flatpack.cutting.sheet_view import Layout, Strip, View
from flatpack.cutting.strip_list import undominated, within
from flatpack.cutting.strip_relax import EXACT, Relaxed, relaxed
from flatpack.cutting.strips import Parts, TooManyError

Lists = Sequence[Mapping[Parts, Strip]]
_MOST, _NODES = 3_000, 400_000
_TREE, _LARGEST = 400, 900
METHOD = (
    "relaxation over all strips of at most {} stages, and a choice among those with least waste"
)


class Placing(NamedTuple):
    """Sheets filled, and the parts that found no place with their counts."""

    layouts: tuple[Layout, ...]
    left: tuple[int, ...]


class _Choice:
    """The programme: rows for parts, then one for each stretch of height; whole columns."""

    def __init__(self, counts: Sequence[int], rooms: Sequence[float]) -> None:
        self.solver = quiet_solver()
        self.counts, self.columns = counts, 0
        inf = self.solver.getInfinity()
        for need in counts:
            self.solver.addRow(float(need), inf, 0, [], [])
        for room in rooms:
            self.solver.addRow(-inf, float(room), 0, [], [])

    def add(self, cost: float, most: float, entries: Mapping[int, float]) -> None:
        import highspy

        rows = list(entries)
        self.solver.addCol(cost, 0.0, most, len(rows), rows, list(entries.values()))
        self.solver.changeColIntegrality(self.columns, highspy.HighsVarType.kInteger)
        self.columns += 1

    def strip(self, parts: Parts, strip: Strip, row: int, room: int) -> None:
        """A strip that may be cut from a stretch of height, as often as it is of use."""
        top = min(room // strip.y, max(-(-self.counts[p] // n) for p, n in parts))
        entries = {p: float(n) for p, n in parts}
        self.add(0.0, float(top), {**entries, len(self.counts) + row: float(strip.y)})

    def run(self, nodes: int, seconds: float) -> Any:
        self.solver.setOptionValue("mip_max_nodes", nodes)
        self.solver.setOptionValue("time_limit", max(0.05, seconds))
        self.solver.run()
        return self.solver.getModelStatus()


def placed(
    views: Sequence[View],
    lists: Lists,
    ways: Sequence[int],
    counts: Sequence[int],
    weights: Sequence[float],
    effort: Effort,
    nodes: int,
) -> Placing | None:
    """Fill one sheet for each of `ways` (0: cut along first, 1: across); None: nothing found."""
    choice = _Choice(counts, [views[way].y for way in ways])
    made: list[tuple[int, Strip]] = []
    for number, way in enumerate(ways):
        for parts, strip in lists[way].items():
            if strip.y <= views[way].y:
                choice.strip(parts, strip, number, views[way].y)
                made.append((number, strip))
    for part, count in enumerate(counts):
        choice.add(weights[part], float(count), {part: 1.0})
    choice.solver.setOptionValue("objective_target", 1e-9)
    choice.run(nodes, effort.seconds_left)
    if choice.solver.getInfo().primal_solution_status != 2:
        return None
    times = choice.solver.getSolution().col_value
    taken = [row for row, n in zip(made, times, strict=False) for _ in range(round(n))]
    return _laid(taken, ways, counts)


def _laid(
    taken: Sequence[tuple[int, Strip]], ways: Sequence[int], counts: Sequence[int]
) -> Placing:
    """Layouts without the parts that were taken too often."""
    left = Counter({p: n for p, n in enumerate(counts) if n})
    layouts = []
    for number, way in enumerate(ways):
        full = Layout(bool(way), tuple(s for n, s in taken if n == number))
        layout = without_spare(full, left)
        left -= Counter(p for s in layout.strips for p in s.parts)
        layouts.append(layout)
    return Placing(tuple(layouts), tuple(left[p] for p in range(len(counts))))


def ruled_out(base: Relaxed, counts: Sequence[int], sheets: int, effort: Effort) -> bool:
    """True when it is shown that `sheets` can't hold all parts."""
    if not base.proved:
        return False
    gap = sheets - base.value + EXACT
    if gap < 0.0:
        return True
    every: list[dict[Parts, Strip]] = []
    for strips in base.views:
        listed = within(strips, gap, _MOST, _NODES)
        every.append(undominated(listed.strips) if listed.whole else {})
        if not listed.whole or sum(map(len, every)) > _LARGEST or effort.cut_short:
            return False
    return _none_fits(base, every, counts, sheets, effort)


def _none_fits(
    base: Relaxed, every: Lists, counts: Sequence[int], sheets: int, effort: Effort
) -> bool:
    """True when no choice of these strips holds all parts within the heights of the sheets."""
    import highspy

    many, first = len(base.views), len(counts)
    choice = _Choice(counts, [*(0.0 for _ in base.views), float(sheets)])
    for row, strips in enumerate(base.views):
        choice.add(0.0, float(sheets), {first + row: -float(strips.view.y), first + many: 1.0})
        for parts, strip in every[row].items():
            choice.strip(parts, strip, row, sheets * strips.view.y)
    effort.spend(10)
    return bool(choice.run(_TREE, effort.seconds_left) == highspy.HighsModelStatus.kInfeasible)


def sheets_by_strips(
    views: Sequence[View], counts: Sequence[int], effort: Effort, low: int, enough: int
) -> int:
    """Sheets that no plan undercuts: from `low` that are known, up to `enough`."""
    try:
        base = relaxed(views, counts, effort)
    except TooManyError:
        return low
    while low < enough and not effort.cut_short and ruled_out(base, counts, low, effort):
        low += 1
    return low
