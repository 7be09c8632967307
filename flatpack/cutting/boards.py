"""The whole search of a cross-cut plan: relaxation, dives, listing, proof."""

from __future__ import annotations

import math
from collections import Counter
from fractions import Fraction
from typing import NamedTuple

from flatpack.cutting.choices import Sets, board_sets, proof_from
from flatpack.cutting.dive import Cut, dive
from flatpack.cutting.effort import Effort
from flatpack.cutting.exact import choose, list_patterns
from flatpack.cutting.master import Solved
from flatpack.cutting.patterns import Job, Pattern, Pool, proved_bound

SKIPS = ((), (1,), (0, 1), (2,), (1, 1), (0, 0, 1), (3,), (0, 2), (2, 1), (1, 0, 1), (4,), (1, 2))
_TRIES = ((1_500, 60), (8_000, 200), (40_000, 400), (150_000, 2_000))


class Outcome(NamedTuple):
    """The cheapest plan found, the relaxation's value, the cost that none undercuts."""

    cut: Cut
    relaxed: Fraction
    bound: int

    @property
    def proved(self) -> bool:
        """True when no plan can cost less."""
        return self.cut.short == 0 and self.cut.cost <= self.bound


class _Search:
    def __init__(self, job: Job, effort: Effort, dives: int) -> None:
        self.job, self.effort, self.dives = job, effort, dives
        self.pool = Pool(job, effort)
        solved = self.pool.relax()
        self.relaxed = proved_bound(job, solved.duals[: len(job.sizes)])
        self._prices = solved.duals[: len(job.sizes)]
        self.bound = job.payable(math.ceil(self.relaxed))
        self.best: Cut | None = None

    def keep(self, cut: Cut | None) -> None:
        if cut is None:
            return
        best = self.best
        if best is None or (cut.short, cut.cost) < (best.short, best.cost):
            self.best = cut
            self.effort.tell(float(cut.cost), float(self.bound))

    @property
    def done(self) -> bool:
        best = self.best
        found = best is not None and best.short == 0 and best.cost <= self.bound
        return found or self.effort.cut_short

    def most(self) -> float:
        best = self.best
        return math.inf if best is None or best.short else best.cost - self.job.payable(1) + 1.0

    def dive_all(self) -> None:
        for skips in SKIPS[: self.dives]:
            if self.done or self.effort.spent:
                return
            self.keep(dive(self.pool, skips, self.most(), self.bound))

    def walk_sets(self) -> None:
        """Go through the sets of boards cheaper than the best plan, cheapest first."""
        best = self.best
        if self.done or self.effort.spent or best is None or best.short or len(self.job.bins) < 2:
            return
        sets = board_sets(self.job, self.bound, best.cost)
        if sets is None:
            return
        tester = Sets(self.job, self.effort, [proof_from(self.job, self._prices)])
        undecided = self._first_filled(tester, sets)
        for numbers in undecided:
            if self.effort.spent:
                return
            cut, decided = tester.settled(numbers, 20_000, 100)
            self.keep(cut)
            if not decided:
                self.bound = min(self._cost(numbers), self.best.cost if self.best else 0)
                return
            if cut is not None:
                break
        if self.best and not self.effort.spent:
            self.bound = self.best.cost

    def _first_filled(self, tester: Sets, sets: list[tuple[int, ...]]) -> list[tuple[int, ...]]:
        """Keep the first plan that a dive finds; the cheaper sets that no proof put out."""
        undecided: list[tuple[int, ...]] = []
        for numbers in sets:
            if self.effort.spent:
                break
            if not undecided:
                self.bound = self._cost(numbers)
            if tester.ruled_out(numbers):
                continue
            cut = tester.filled(numbers, SKIPS[:4])
            self.keep(cut)
            if cut is not None:
                break
            undecided.append(numbers)
        return undecided

    def _cost(self, numbers: tuple[int, ...]) -> int:
        return sum(n * b.price for n, b in zip(numbers, self.job.bins, strict=True))

    def prove(self) -> None:
        """List the patterns within the gap, in growing lists, and choose among them."""
        self.pool.set_left(self.job.demand, {})
        solved = self.pool.relax(0.0)
        for most, tree in _TRIES:
            again = True
            while again and not self.done and not self.effort.spent:
                again = self._choose(solved, most, tree)

    def _choose(self, solved: Solved, most: int, tree: int) -> bool:
        """One list and choice; True when it found a cheaper plan without settling the matter."""
        best = self.best
        if best is None or best.short:
            return False
        parts, prices = self.pool.row_prices(solved)
        gap = best.cost - self.job.payable(1) - solved.value
        listed = list_patterns(self.job, parts, prices, gap, most)
        patterns = sorted({*listed.patterns, *self.pool.cheap(solved, gap, most)})
        choice = choose(self.job, patterns, best.cost, self.effort, tree)
        self.keep(choice.cut)
        if listed.whole and choice.proved and self.best is not None:
            self.bound = self.best.cost
        return choice.cut is not None and not self.done


def least_cost(job: Job, effort: Effort, dives: int = len(SKIPS)) -> Outcome:
    """Cheapest boards for a job, with the bound below which no plan can go."""
    search = _Search(job, effort, dives)
    search.dive_all()
    search.walk_sets()
    search.prove()
    best = search.best or _greedy(job)
    return Outcome(best, search.relaxed, search.bound)


def _greedy(job: Job) -> Cut:
    """Longest parts first, each board filled as far as it goes: what a stopped search falls to."""
    left = list(job.demand)
    stock = [sum(left) if b.limit is None else b.limit for b in job.bins]
    order = sorted(range(len(job.bins)), key=lambda n: job.bins[n].price / sum(job.bins[n].rooms))
    cut: Counter[Pattern] = Counter()
    for number in order:
        while stock[number] > 0 and (parts := _first_fit(job, job.bins[number].rooms, left)):
            cut[Pattern(number, tuple(sorted(parts.items())))] += 1
            stock[number] -= 1
    cost = sum(job.bins[p.bin].price * n for p, n in cut.items())
    return Cut(tuple(sorted(cut.items())), cost, sum(left))


def _first_fit(job: Job, rooms: tuple[int, ...], left: list[int]) -> Counter[int]:
    """Parts for one board, taken from `left`; the largest clear length alone is used."""
    room, parts = max(rooms), Counter[int]()
    for part in sorted(range(len(left)), key=lambda i: (-job.sizes[i], i)):
        times = min(left[part], room // job.sizes[part])
        if times:
            parts[part] = times
            left[part] -= times
            room -= times * job.sizes[part]
    return parts
