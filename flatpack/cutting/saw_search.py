"""Search for a saw plan: many quick fillings, the relaxation over their sheets, dives, a choice.

Every sheet that any step makes is kept as a pattern, so that the choice at the end can put sheets
of different plans together.  Random numbers come from a fixed seed and effort is counted in
steps: the same input gives the same plan.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Sequence
from typing import NamedTuple

from flatpack.cutting.boards import SKIPS
from flatpack.cutting.dive import Cut, dive
from flatpack.cutting.effort import Effort
from flatpack.cutting.exact import choose
from flatpack.cutting.patterns import Bin, Job, Pattern, Pool, Worths
from flatpack.cutting.saw_input import SheetJob
from flatpack.cutting.sheet_fill import Filler
from flatpack.cutting.sheet_view import Layout, view_of

FIRST_PLANS, LAST_PLANS, ROOT_ROUNDS, TREE = 16, 24, 90, 100
BOTH = (False, True)
LEARNING, CHOICES = 60, 8


class Used(NamedTuple):
    """One sheet of a plan: kind of sheet and what is cut from it."""

    kind: int
    layout: Layout


Plan = tuple[Used, ...]


class Rank(NamedTuple):
    """What makes one plan better than another; the smaller the better."""

    short: int
    sheets: int
    cost: int
    old: int
    rest: int
    settings: int
    strips: int


class SawSearch:
    """The search for one job, keeping the best plan."""

    def __init__(self, job: SheetJob, effort: Effort, seed: int) -> None:
        """Prepare the fillers of every kind of sheet, both ways round."""
        self.job, self.effort = job, effort
        self.random = random.Random(seed)
        self.fillers = [
            [Filler(view_of(room, job.sizes, job.turns, across, job.mode)) for across in BOTH]
            for room in job.rooms
        ]
        self.layouts: dict[Pattern, Layout] = {}
        self.best: Plan | None = None
        self.rank: Rank | None = None
        self.areas = [a * b for a, b in job.sizes]
        self.values = [float(a) for a in self.areas]

    def rank_of(self, plan: Plan) -> Rank:
        """The plan's rank: parts without place, sheets, cost, offcuts taken, rest, settings."""
        made = Counter(p for u in plan for s in u.layout.strips for p in s.parts)
        rests = [0]
        settings = 0
        for used in plan:
            view = self.fillers[used.kind][used.layout.across].view
            rests.append((view.y - sum(s.y for s in used.layout.strips)) * view.x)
            settings += len({s.y for s in used.layout.strips})
        new = [u.kind for u in plan if not self._offcut(u.kind)]
        return Rank(
            sum(self.job.demand) - sum(made.values()),
            len(new),
            sum(self.job.prices[k] for k in new),
            sum(a * b for a, b in (self.job.rooms[u.kind] for u in plan if self._offcut(u.kind))),
            -max(rests),
            settings,
            sum(len(u.layout.strips) for u in plan),
        )

    def _offcut(self, kind: int) -> bool:
        return self.job.offcuts[kind]

    def keep(self, plan: Plan) -> None:
        """Keep the plan if it ranks before the best so far."""
        rank = self.rank_of(plan)
        if self.rank is None or rank < self.rank:
            if self.rank is None or rank[:3] < self.rank[:3]:
                self.effort.tell(rank.sheets, 0.0)
            self.best, self.rank = plan, rank

    def _fill(self, kind: int, values: Sequence[float], left: Sequence[int], way: int) -> Layout:
        """Fill a sheet; first cuts along (`way` 0), across (1), the better (2) or either (3)."""
        if way == 3:
            way = self.random.randrange(2)
        ways = (way,) if way < 2 else (0, 1)
        made = []
        for across in ways:
            self.effort.spend()
            layout = self.fillers[kind][across].fill(values, left)
            made.append((sum(values[p] for s in layout.strips for p in s.parts), layout))
        return max(made, key=lambda m: m[0])[1]

    def _note(self, kind: int, layout: Layout) -> Pattern:
        counts = Counter(p for s in layout.strips for p in s.parts)
        pattern = Pattern(kind, tuple(sorted(counts.items())))
        self.layouts.setdefault(pattern, layout)
        return pattern

    def quick(self, values: Sequence[float], way: int, order: Sequence[int]) -> Plan:
        """One plan: sheets filled by value one after another, kinds taken in `order`."""
        left = list(self.job.demand)
        stock = [sum(left) if n is None else n for n in self.job.limits]
        plan: list[Used] = []
        while any(left) and (self.best is None or not self.effort.cut_short):
            used = self._next(values, left, stock, way, order)
            if used is None:
                break
            plan.append(used)
            stock[used.kind] -= 1
            for strip in used.layout.strips:
                for part in strip.parts:
                    left[part] -= 1
        self.keep(tuple(plan))
        return tuple(plan)

    def _learn(self, plan: Plan) -> None:
        """Raise the values of parts that lie on badly used sheets (sequential value correction).

        Belov and Scheithauer 2007: what is hard to place well is placed earlier next time.
        """
        for used in plan:
            room = self.job.rooms[used.kind]
            parts = [p for s in used.layout.strips for p in s.parts]
            share = sum(self.areas[p] for p in parts) / (room[0] * room[1])
            for part in parts:
                pull = 0.1 + 0.3 * self.random.random()
                wish = self.areas[part] ** 1.04 / max(share, 0.05) ** 1.3
                self.values[part] = (1.0 - pull) * self.values[part] + pull * wish

    def _next(
        self,
        values: Sequence[float],
        left: Sequence[int],
        stock: Sequence[int],
        way: int,
        order: Sequence[int],
    ) -> Used | None:
        """The next sheet: the first kind in order that holds anything, or a last one cheaper."""
        for kind in order:
            if stock[kind] <= 0:
                continue
            layout = self._fill(kind, values, left, way)
            if not layout.strips:
                continue
            self._note(kind, layout)
            if sum(len(s.parts) for s in layout.strips) == sum(left) and len(order) > 1:
                return self._cheapest_last(values, left, stock, Used(kind, layout))
            return Used(kind, layout)
        return None

    def _cheapest_last(
        self, values: Sequence[float], left: Sequence[int], stock: Sequence[int], last: Used
    ) -> Used:
        prices = self.job.prices
        for kind in sorted(range(len(prices)), key=lambda k: (prices[k], k)):
            if stock[kind] > 0 and prices[kind] < prices[last.kind]:
                layout = self._fill(kind, values, left, 2)
                if sum(len(s.parts) for s in layout.strips) == sum(left):
                    self._note(kind, layout)
                    return Used(kind, layout)
        return last

    def orders(self) -> list[list[int]]:
        """Orders to take kinds of sheet in: offcuts first, then each new kind in turn first."""
        kinds = range(len(self.job.rooms))
        offcuts = [k for k in kinds if self._offcut(k)]
        new = [k for k in kinds if k not in offcuts]
        new.sort(key=lambda k: (-self.job.rooms[k][0] * self.job.rooms[k][1], k))
        return [offcuts + [k] + [j for j in new if j != k] for k in new] or [offcuts]

    def shaken(self, values: Sequence[float]) -> list[float]:
        """Values changed a little at random."""
        power = 1.0 + 0.15 * self.random.random()
        return [v**power * (1.0 + 0.1 * self.random.random()) for v in values]

    def run_quick(self, plans: int, low: int, base: Sequence[float] | None = None) -> None:
        """Make quick plans until `plans` are made or one needs no more than `low` sheets."""
        orders = self.orders()
        for number in range(plans):
            if self.best is not None and (self.effort.spent or self.good(low)):
                return
            values = self.shaken(base or self.areas) if number or base else self.areas
            way = (2, 2, 0, 1)[number % 4]
            self.quick(values, way, orders[number % len(orders)])

    def run_learning(self, plans: int, low: int) -> None:
        """Quick plans whose values learn from plan to plan."""
        orders = self.orders()
        for number in range(plans):
            if self.effort.spent or self.good(low):
                return
            if number % 40 == 0:
                self.values = self.shaken(self.areas)
            way = (2, 0, 1, 2, 3)[number % 5]
            self._learn(self.quick(self.values, way, orders[number % len(orders)]))

    def good(self, low: int) -> bool:
        """True when the best plan is whole, needs no more than `low` sheets and one kind did."""
        return self.rank is not None and self.rank.short == 0 and self.rank.sheets <= low

    def relax_and_dive(self, low: int, rounds: int, between: Callable[[], None]) -> None:
        """The relaxation over sheets; dives from it; `between`; choices among all sheets made."""
        job = self._as_patterns()
        pool = Pool(job, self.effort, self._worths)
        for pattern in list(self.layouts):
            pool.add(pattern)
        pool.rounds = rounds
        solved = pool.relax()
        values = [max(1e-9, d) for d in solved.duals[: len(job.sizes)]]
        self.run_quick(8, low, values)
        for skips in SKIPS:
            if self.effort.spent or self.good(low):
                return
            pool.rounds = 8
            cut = dive(pool, skips, self._most(job), self._floor(job, low))
            self._keep_cut(cut)
            self.run_quick(2, low, values)
        between()
        for _ in range(CHOICES):
            if self.effort.spent or self.good(low):
                return
            for pattern in list(self.layouts):
                pool.add(pattern)
            self._choose(job, pool)
            self.run_learning(LEARNING, low)

    def _most(self, job: Job) -> float:
        if self.rank is None or self.rank.short or self.best is None:
            return float("inf")
        return float(sum(job.bins[u.kind].price for u in self.best))

    def _floor(self, job: Job, low: int) -> int:
        return low * min((b.price for b in job.bins if b.price > 0), default=0)

    def _as_patterns(self) -> Job:
        """Prices that put sheets before money: every new sheet counts more than all prices."""
        prices = self.job.prices
        new = [p for k, p in enumerate(prices) if not self._offcut(k)]
        many = sum(self.job.demand) if self.rank is None else self.rank.sheets + 1
        extra = 1 if len(set(new)) <= 1 else 1 + many * (max(new) - min(new))
        bins = tuple(
            Bin((1,), 0 if self._offcut(k) else extra + p - min(new), self.job.limits[k])
            for k, p in enumerate(prices)
        )
        return Job(sizes=(1,) * len(self.job.sizes), demand=self.job.demand, bins=bins)

    def _worths(self, prices: tuple[float, ...], counts: tuple[int, ...]) -> Worths:
        found = []
        for kind in range(len(self.job.rooms)):
            for across in (0, 1):
                layout = self._fill(kind, prices, counts, across)
                if layout.strips:
                    pattern = self._note(kind, layout)
                    found.append((sum(prices[p] * n for p, n in pattern.parts), pattern))
        return found

    def _choose(self, job: Job, pool: Pool) -> None:
        most = self._most(job)
        if most < float("inf") and not self.effort.spent:
            self._keep_cut(choose(job, pool.patterns, int(most), self.effort, TREE).cut)

    def _keep_cut(self, cut: Cut | None) -> None:
        """Keep a plan made of patterns; parts beyond the demand are left out of its sheets."""
        if cut is None or cut.short:
            return
        plan = []
        for pattern, times in cut.patterns:
            layout = self.layouts.get(pattern) or self._trimmed(pattern)
            plan += [Used(pattern.bin, layout)] * times
        self.keep(tuple(plan))

    def _trimmed(self, pattern: Pattern) -> Layout:
        from flatpack.cutting.sheet_trim import without_spare

        wanted = dict(pattern.parts)
        for known, layout in self.layouts.items():
            have = dict(known.parts)
            if known.bin == pattern.bin and all(have.get(p, 0) >= n for p, n in wanted.items()):
                return without_spare(layout, Counter(wanted))
        raise LookupError(f"no layout holds {pattern}")
