"""Proof or improvement: every pattern that a cheaper plan could hold, and the best choice of them.

At the relaxation's part prices a pattern's waste is its board's price less its parts' worth.  A
plan costs at least the bound plus the waste of each of its patterns, so a plan that costs less
than the best one known holds no pattern with more waste than the gap.  Those few are listed by
a search that is led by a table of what the smaller parts can still be worth, and HiGHS chooses
among them.  A listing that was not cut short makes the choice a proof.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from flatpack.cutting.dive import Cut
from flatpack.cutting.effort import Effort
from flatpack.cutting.master import quiet_solver
from flatpack.cutting.patterns import Job, Pattern

_CELLS = 30_000_000


class Choice(NamedTuple):
    """What the choice found: a plan (None = none cheaper), and whether that is proved."""

    cut: Cut | None
    proved: bool


class _Listing:
    """Depth-first listing of the maximal patterns of one board, largest part first."""

    def __init__(self, job: Job, prices: tuple[float, ...], most: int, count: int) -> None:
        import numpy as np

        self.job, self.prices, self.most, self.count = job, prices, most, count
        self.order = sorted(range(len(job.sizes)), key=lambda i: (-job.sizes[i], i))
        self.smallest = min(job.sizes)
        worth = np.zeros(job.room + 1)
        tables = [worth]
        for part in reversed(self.order):
            worth = _with_part(worth, job.sizes[part], prices[part], job.demand[part])
            tables.append(worth)
        self.tables = tables[::-1]
        self.nodes = 0

    def patterns(self, number: int, least: float) -> list[Pattern]:
        """Patterns of the board whose parts are worth at least `least`."""
        found: list[Pattern] = []
        self._walk(number, 0, self.job.bins[number].rooms[0], least, [], found)
        return found

    def _walk(
        self, number: int, depth: int, room: int, least: float, taken: list[Any], found: list[Any]
    ) -> None:
        self.nodes += 1
        if self.over(found) or self.tables[depth][room] < least:
            return
        if depth == len(self.order) or room < self.smallest:
            if self._maximal(room, taken):
                found.append(Pattern(number, tuple(sorted(taken))))
            return
        part = self.order[depth]
        size, price = self.job.sizes[part], self.prices[part]
        for times in range(min(self.job.demand[part], room // size), -1, -1):
            more = [*taken, (part, times)] if times else taken
            rest = room - times * size
            self._walk(number, depth + 1, rest, least - times * price, more, found)

    def over(self, found: list[Pattern]) -> bool:
        """True when the list or the search for it has grown too long."""
        return self.nodes > self.most or len(found) > self.count

    def _maximal(self, room: int, taken: list[Any]) -> bool:
        """True when no further part fits: in a covering, only these are needed."""
        counts = dict(taken)
        return all(
            size > room or counts.get(part, 0) >= self.job.demand[part]
            for part, size in enumerate(self.job.sizes)
        )


def _with_part(worth: Any, size: int, price: float, count: int) -> Any:
    import numpy as np

    from flatpack.cutting.knapsack import bundles

    worth = worth.copy()
    for bundle in bundles((size,), (count,), len(worth) - 1):
        more = worth[: len(worth) - bundle.size] + price * bundle.times
        worth[bundle.size :] = np.maximum(worth[bundle.size :], more)
    return worth


class Listed(NamedTuple):
    """Patterns with at most `gap` waste; whether these are all within the gap asked for."""

    patterns: list[Pattern]
    whole: bool


def list_patterns(
    job: Job, prices: tuple[float, ...], bin_prices: tuple[float, ...], gap: float, most: int
) -> Listed:
    """At most `most` patterns whose waste is within `gap`; with less waste if there are more.

    `bin_prices` are the boards' prices less the row price of a limited stock.
    """
    if (job.room + 1) * len(job.sizes) > _CELLS or any(len(b.rooms) > 1 for b in job.bins):
        return Listed([], False)
    listing = _Listing(job, prices, 20 * most, most)
    for share in (1.0, 0.5, 0.25, 0.12, 0.06, 0.03, 0.015, 0.0):
        found: list[Pattern] = []
        listing.nodes = 0
        for number, price in enumerate(bin_prices):
            found += listing.patterns(number, price - gap * share - 1e-6)
        if not listing.over(found):
            return Listed(found, share == 1.0)
    return Listed([], False)


def choose(job: Job, patterns: list[Pattern], below: int, effort: Effort, nodes: int) -> Choice:
    """Cheapest plan of these patterns that costs less than `below`, by branch and bound.

    `nodes` bounds the search in steps.
    """
    solver = quiet_solver()
    inf = solver.getInfinity()
    for need in job.demand:
        solver.addRow(float(need), inf, 0, [], [])
    limited = [n for n, b in enumerate(job.bins) if b.limit is not None]
    for number in limited:
        solver.addRow(-inf, float(job.bins[number].limit or 0), 0, [], [])
    rows = {n: len(job.demand) + i for i, n in enumerate(limited)}
    for pattern in patterns:
        _column(solver, job, pattern, rows)
    solver.addRow(
        -inf,
        float(below - 1),
        len(patterns),
        list(range(len(patterns))),
        [float(job.bins[p.bin].price) for p in patterns],
    )
    effort.spend(10)
    return _run(solver, job, patterns, nodes, effort.seconds_left)


def _column(solver: Any, job: Job, pattern: Pattern, rows: dict[int, int]) -> None:
    import highspy

    entries = {part: float(n) for part, n in pattern.parts}
    if pattern.bin in rows:
        entries[rows[pattern.bin]] = 1.0
    top = max(-(-job.demand[part] // n) for part, n in pattern.parts)
    number = solver.getNumCol()
    solver.addCol(
        float(job.bins[pattern.bin].price),
        0.0,
        float(top),
        len(entries),
        list(entries),
        list(entries.values()),
    )
    solver.changeColIntegrality(number, highspy.HighsVarType.kInteger)


def _run(solver: Any, job: Job, patterns: list[Pattern], nodes: int, seconds: float) -> Choice:
    import highspy

    solver.setOptionValue("mip_max_nodes", nodes)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 0.999 * job.payable(1))
    solver.setOptionValue("time_limit", max(0.1, seconds))
    solver.run()
    status = solver.getModelStatus()
    done = highspy.HighsModelStatus
    if status in (done.kInfeasible, done.kUnboundedOrInfeasible):
        return Choice(None, True)
    values = solver.getSolution().col_value
    if not values or solver.getInfo().primal_solution_status != 2:
        return Choice(None, False)
    times = [(p, round(x)) for p, x in zip(patterns, values, strict=True) if x > 0.5]
    return Choice(_trimmed(job, times), status == done.kOptimal)


def _trimmed(job: Job, times: list[tuple[Pattern, int]]) -> Cut:
    """The plan with parts beyond the demand left out."""
    left = list(job.demand)
    cut: dict[Pattern, int] = {}
    for pattern, n in sorted(times):
        for _ in range(n):
            parts = [(p, min(c, left[p])) for p, c in pattern.parts]
            for p, c in parts:
                left[p] -= c
            kept = Pattern(pattern.bin, tuple((p, c) for p, c in parts if c))
            if kept.parts:
                cut[kept] = cut.get(kept, 0) + 1
    cost = sum(job.bins[p.bin].price * n for p, n in cut.items())
    return Cut(tuple(sorted(cut.items())), cost, sum(left))
