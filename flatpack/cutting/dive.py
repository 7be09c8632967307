"""From the relaxation to whole boards: fix patterns one after another, price again in between.

A dive rounds nothing away: whole patterns are fixed first, then the one nearest to a whole
number, and the relaxation is solved again for what is left, with new patterns made for it.  A
few dives that differ in their early choices find what one misses (limited discrepancy search).
"""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from flatpack.cutting.master import Solved
from flatpack.cutting.patterns import Pattern, Pool

_WHOLE = 1e-6


class Cut(NamedTuple):
    """Patterns with the times that each is cut, their cost, and what stayed unmet."""

    patterns: tuple[tuple[Pattern, int], ...]
    cost: int
    short: int


def _choices(pool: Pool, solved: Solved) -> list[tuple[int, int]]:
    """Patterns to fix next, best first, each with its times."""
    whole = [(n, int(x + _WHOLE)) for n, x in enumerate(solved.times) if x >= 1.0 - _WHOLE]
    if whole:
        return whole
    part = [(x, n) for n, x in enumerate(solved.times) if x > _WHOLE]
    return [(n, 1) for x, n in sorted(part, key=lambda t: (-t[0], _waste(pool, t[1]), t[1]))]


def _waste(pool: Pool, number: int) -> int:
    pattern = pool.patterns[number]
    used = sum(pool.job.sizes[p] * n for p, n in pattern.parts)
    return sum(pool.job.bins[pattern.bin].rooms) - used


class _Dive:
    """One dive: what is left, what was used, what was cut."""

    def __init__(self, pool: Pool) -> None:
        self.pool = pool
        self.left = list(pool.job.demand)
        self.used: Counter[int] = Counter()
        self.cut: Counter[Pattern] = Counter()
        self.cost = 0

    def fix(self, number: int, times: int) -> bool:
        pattern = self.pool.patterns[number]
        room = min((self.left[p] // n for p, n in pattern.parts), default=0)
        limit = self.pool.limits.get(pattern.bin)
        if limit is not None:
            room = min(room, limit - self.used[pattern.bin])
        times = min(times, room)
        if times <= 0:
            return False
        for part, n in pattern.parts:
            self.left[part] -= n * times
        self.used[pattern.bin] += times
        self.cut[pattern] += times
        self.cost += times * self.pool.job.bins[pattern.bin].price
        return True

    def result(self) -> Cut:
        return Cut(tuple(sorted(self.cut.items())), self.cost, sum(self.left))


def dive(pool: Pool, skips: tuple[int, ...], most: float, low: int) -> Cut | None:
    """One dive; at depth d the choice number skips[d] is fixed instead of the best.

    `low` is the proved bound: pricing stops when it can still be reached.  Returns None when the
    relaxation shows that the dive can't cost less than `most`.
    """
    run = _Dive(pool)
    depth = 0
    while any(run.left):
        pool.set_left(tuple(run.left), run.used)
        solved = pool.relax(low - run.cost)
        if run.cost + solved.value > most - 1.0 + 1e-6 or pool.effort.spent:
            return None
        depth = _fix_some(run, solved, skips, depth)
        if depth < 0:
            break
    return run.result()


def _fix_some(run: _Dive, solved: Solved, skips: tuple[int, ...], depth: int) -> int:
    choices = _choices(run.pool, solved)
    if choices and choices[0][1] == 1 and len(choices) > 1 and depth < len(skips):
        whole = solved.times[choices[0][0]] >= 1.0 - _WHOLE
        if not whole:
            skip = min(skips[depth], len(choices) - 1)
            choices = choices[skip:] + choices[:skip]
            depth += 1
    whole_now = bool(choices) and solved.times[choices[0][0]] >= 1.0 - _WHOLE
    fixed = False
    for number, times in choices:
        fixed = run.fix(number, times) or fixed
        if fixed and not whole_now:
            break
    return depth if fixed else -1
