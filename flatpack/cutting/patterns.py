"""Column generation for cutting boards to length: patterns, their relaxation and its bound.

Gilmore and Gomory (1961, 1963): the relaxation over all patterns is solved without listing them;
a knapsack finds the pattern whose parts are worth more than its board, at the row prices of the
patterns found so far, until there is none.  The bound is Lagrange's: for any prices p >= 0

    cost >= sum p * demand - sum over limited stock of available * max(0, worth - price)

where no unlimited board may be worth more than its price (else p is scaled down).  It is worked
out in whole numbers, so that rounding cannot make it untrue.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from flatpack.cutting.effort import Effort
from flatpack.cutting.knapsack import Table
from flatpack.cutting.master import Master, Solved

_GAIN = 1e-7
_SCALE = 1 << 24


class Bin(NamedTuple):
    """A kind of board: clear lengths in it (one unless it has defects), price, how many."""

    rooms: tuple[int, ...]
    price: int
    limit: int | None


class Pattern(NamedTuple):
    """Parts cut from one board of kind `bin`: a sorted tuple of (part, count)."""

    bin: int
    parts: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """Boards to cut: part sizes with kerf, demands, kinds of board; all whole numbers."""

    sizes: tuple[int, ...]
    demand: tuple[int, ...]
    bins: tuple[Bin, ...]

    def payable(self, cost: int) -> int:
        """Least whole cost from `cost` up that some set of boards has."""
        step = math.gcd(*(b.price for b in self.bins)) or 1
        return -(-cost // step) * step

    @property
    def room(self) -> int:
        """Longest clear length of any board."""
        return max(max(b.rooms) for b in self.bins)


def best_patterns(
    job: Job, prices: tuple[float, ...], counts: tuple[int, ...]
) -> list[tuple[float, Pattern]]:
    """For each kind of board the most valuable pattern at these part prices, and its worth."""
    table = Table(job.sizes, prices, counts, job.room)
    return [_fill(job, number, table, prices, counts) for number in range(len(job.bins))]


def _fill(
    job: Job, number: int, table: Table, prices: tuple[float, ...], counts: tuple[int, ...]
) -> tuple[float, Pattern]:
    rooms = job.bins[number].rooms
    if len(rooms) == 1:
        parts = table.pattern(rooms[0])
        return float(table.best[rooms[0]]), Pattern(number, tuple(sorted(parts.items())))
    taken: dict[int, int] = {}
    for room in sorted(rooms, reverse=True):
        left = [c - taken.get(i, 0) for i, c in enumerate(counts)]
        for part, times in Table(job.sizes, prices, left, room).pattern(room).items():
            taken[part] = taken.get(part, 0) + times
    worth = sum(prices[i] * n for i, n in taken.items())
    return worth, Pattern(number, tuple(sorted(taken.items())))


def proved_bound(job: Job, prices: tuple[float, ...]) -> Fraction:
    """Least cost that no plan can undercut, from any part prices; exact arithmetic."""
    whole = [max(0, int(p * _SCALE)) for p in prices]
    table = Table(job.sizes, whole, job.demand, job.room)
    worth = [sum(int(table.best[r]) for r in b.rooms) for b in job.bins]
    scale = Fraction(1)
    for value, stock in zip(worth, job.bins, strict=True):
        if stock.limit is None and value > stock.price * _SCALE:
            scale = min(scale, Fraction(stock.price * _SCALE, value))
    total = scale * sum(p * d for p, d in zip(whole, job.demand, strict=True))
    for value, stock in zip(worth, job.bins, strict=True):
        if stock.limit is not None:
            total -= stock.limit * max(Fraction(0), scale * value - stock.price * _SCALE)
    return max(Fraction(0), total / _SCALE)


Worths = list[tuple[float, Pattern]]
Pricing = Callable[[tuple[float, ...], tuple[int, ...]], Worths]


class Pool:
    """The patterns known so far, in a master programme with the demand still to be met."""

    def __init__(self, job: Job, effort: Effort, pricing: Pricing | None = None) -> None:
        """Start with one greedy pattern per part and kind of board.

        `pricing` finds valuable patterns at part prices for the counts left; without it, parts
        are cut from lengths.  With it, the caller adds the patterns to start from.
        """
        self.job, self.effort = job, effort
        self.rounds = 1_000_000
        self._price = pricing or (lambda prices, counts: best_patterns(job, prices, counts))
        self._limited = [n for n, b in enumerate(job.bins) if b.limit is not None]
        self._row = {n: len(job.sizes) + i for i, n in enumerate(self._limited)}
        self.limits = {n: job.bins[n].limit or 0 for n in self._limited}
        self.dear = 2.0 * max(b.price for b in job.bins) + 1.0
        self.master = Master(job.demand, list(self.limits.values()), [self.dear] * len(job.sizes))
        self.patterns: list[Pattern] = []
        self._known: set[Pattern] = set()
        self.left = job.demand
        for part in range(len(job.sizes) if pricing is None else 0):
            for number in range(len(job.bins)):
                self._add_greedy(part, number)

    def _add_greedy(self, first: int, number: int) -> None:
        job = self.job
        taken: dict[int, int] = {}
        room = max(job.bins[number].rooms)
        order = [first, *sorted(range(len(job.sizes)), key=lambda i: (-job.sizes[i], i))]
        for part in order:
            times = min(job.demand[part] - taken.get(part, 0), room // job.sizes[part])
            if times > 0:
                taken[part] = taken.get(part, 0) + times
                room -= times * job.sizes[part]
        if taken:
            self.add(Pattern(number, tuple(sorted(taken.items()))))

    def add(self, pattern: Pattern) -> bool:
        """Add a pattern unless it is known; tells whether it was new."""
        if pattern in self._known or not pattern.parts:
            return False
        self._known.add(pattern)
        self.patterns.append(pattern)
        entries = {part: float(n) for part, n in pattern.parts}
        if pattern.bin in self._row:
            entries[self._row[pattern.bin]] = 1.0
        self.master.add(float(self.job.bins[pattern.bin].price), entries)
        return True

    def set_left(self, left: tuple[int, ...], used: dict[int, int]) -> None:
        """Set the demand still to be met, and the limited boards used already.

        Patterns that would cut more of a part than is left are shut out.
        """
        self.left = left
        for row, need in enumerate(left):
            self.master.need(row, need)
        for row, number in enumerate(self._limited):
            self.master.limit(row, self.limits[number] - used.get(number, 0))
        for number, pattern in enumerate(self.patterns):
            fits = all(n <= left[part] for part, n in pattern.parts)
            self.master.allow(number, None if fits else 0.0)

    def _worths(self, solved: Solved) -> list[tuple[float, float, Pattern]]:
        """For each kind of board its price here, and its most valuable pattern's worth."""
        parts = solved.duals[: len(self.job.sizes)]
        found = []
        for worth, pattern in self._price(parts, self.left):
            row = self._row.get(pattern.bin)
            dual = solved.duals[row] if row is not None else 0.0
            found.append((self.job.bins[pattern.bin].price - dual, worth, pattern))
        return found

    def relax(self, enough: float | None = None) -> Solved:
        """Solve the relaxation for what is left, adding patterns as long as they help.

        Stops early when the value is down to `enough`; with None, when rounding the bound up to
        a cost that boards can have already gives the value (fewer rounds, the same bound).
        """
        done = 0
        while True:
            solved = self.master.solve()
            done += 1
            if (
                self.effort.spent
                or done > self.rounds
                or (enough is not None and solved.value <= enough + _GAIN)
            ):
                return solved
            self.effort.spend()
            worths = self._worths(solved)
            if enough is None and self._settled(solved, worths):
                return solved
            gain = [p for cost, worth, p in worths if worth > cost + _GAIN * max(1.0, cost)]
            if not sum(self.add(p) for p in gain):
                return solved

    def _settled(self, solved: Solved, worths: list[tuple[float, float, Pattern]]) -> bool:
        if self._limited or solved.short > _GAIN:
            return False
        scale = min([1.0, *(cost / worth for cost, worth, _ in worths if worth > cost)])
        low = self.job.payable(math.ceil(scale * solved.value - 1e-6))
        return solved.value <= low

    def row_prices(self, solved: Solved) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Part prices, and board prices less the price of a limited board's row."""
        parts = tuple(max(0.0, d) for d in solved.duals[: len(self.job.sizes)])
        boards = tuple(
            b.price - (solved.duals[self._row[n]] if n in self._row else 0.0)
            for n, b in enumerate(self.job.bins)
        )
        return parts, boards

    def cheap(self, solved: Solved, gap: float, most: int) -> list[Pattern]:
        """Known patterns whose waste is within `gap`, at most `most`, least waste first."""
        parts, boards = self.row_prices(solved)
        waste = [(boards[p.bin] - sum(parts[i] * n for i, n in p.parts), p) for p in self.patterns]
        return [p for w, p in sorted(waste) if w <= gap + 1e-6][:most]
