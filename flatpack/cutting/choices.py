"""Several kinds of board: which numbers of each kind can hold all the parts?

Boards are few, so the sets of boards that cost less than the best plan can be listed, cheapest
first.  A set is out when part prices prove it: at prices p its boards hold patterns worth at
most v each, and all the parts together are worth more.  A proof for one set mostly puts out many
others.  The first set that a dive fills is the cheapest of all if every set before it is out.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.cutting.dive import Cut, dive
from flatpack.cutting.effort import Effort
from flatpack.cutting.exact import choose, list_patterns
from flatpack.cutting.knapsack import Table
from flatpack.cutting.patterns import Job, Pool

_SCALE = 1 << 24
_MOST_SETS = 20_000


class Proof(NamedTuple):
    """Whole part prices worked out: worth of all parts, most that each kind of board holds."""

    parts: int
    boards: tuple[int, ...]

    def rules_out(self, numbers: tuple[int, ...]) -> bool:
        """True when boards in these numbers can't hold all parts."""
        return sum(n * v for n, v in zip(numbers, self.boards, strict=True)) < self.parts


def proof_from(job: Job, prices: tuple[float, ...]) -> Proof:
    """The proof that these part prices give, in whole numbers."""
    whole = [max(0, int(p * _SCALE)) for p in prices]
    best = Table(job.sizes, whole, job.demand, job.room).best
    return Proof(
        sum(p * d for p, d in zip(whole, job.demand, strict=True)),
        tuple(sum(int(best[r]) for r in b.rooms) for b in job.bins),
    )


def board_sets(job: Job, low: int, below: int) -> list[tuple[int, ...]] | None:
    """Numbers of each kind of board that cost `low` to `below` less one, cheapest first.

    None when there are too many to list.
    """
    found = []
    for cost, numbers in _numbers(job, len(job.bins) - 1, below):
        if cost >= low:
            found.append((cost, numbers))
        if len(found) > _MOST_SETS:
            return None
    return [numbers for _, numbers in sorted(found)]


def _numbers(job: Job, kind: int, below: int) -> Iterator[tuple[int, tuple[int, ...]]]:
    if kind < 0:
        yield 0, ()
        return
    stock = job.bins[kind]
    most = sum(job.demand) if stock.price == 0 else (below - 1) // stock.price
    most = most if stock.limit is None else min(most, stock.limit)
    least = most if stock.price == 0 else 0
    for number in range(least, most + 1):
        for cost, rest in _numbers(job, kind - 1, below - number * stock.price):
            yield cost + number * stock.price, (*rest, number)


class Sets:
    """Tests sets of boards, keeping patterns and proofs from one set to the next."""

    def __init__(self, job: Job, effort: Effort, proofs: list[Proof]) -> None:
        """Start with the proofs already at hand."""
        self.job, self.effort, self.proofs = job, effort, proofs
        free = tuple(b._replace(price=0, limit=1) for b in job.bins)
        self.pool = Pool(Job(sizes=job.sizes, demand=job.demand, bins=free), effort)

    def ruled_out(self, numbers: tuple[int, ...]) -> bool:
        """True when a proof at hand, or one that the relaxation finds now, puts the set out."""
        if any(p.rules_out(numbers) for p in self.proofs):
            return True
        self.pool.limits = dict(enumerate(numbers))
        self.pool.set_left(self.job.demand, {})
        solved = self.pool.relax(0.0)
        if solved.value <= 1e-7 or self.effort.cut_short:
            return False
        proof = proof_from(self.job, solved.duals[: len(self.job.sizes)])
        self.proofs.append(proof)
        return proof.rules_out(numbers)

    def filled(self, numbers: tuple[int, ...], skips: tuple[tuple[int, ...], ...]) -> Cut | None:
        """A plan that fits in these boards, if a dive finds one."""
        self.pool.limits = dict(enumerate(numbers))
        for skip in skips:
            if self.effort.spent:
                return None
            cut = dive(self.pool, skip, 1.0, 0)
            if cut is not None and cut.short == 0:
                cost = sum(self.job.bins[p.bin].price * n for p, n in cut.patterns)
                return Cut(cut.patterns, cost, 0)
        return None

    def settled(self, numbers: tuple[int, ...], most: int, nodes: int) -> tuple[Cut | None, bool]:
        """Choose among all patterns with no more waste than the set has: a plan, or a proof."""
        bins = tuple(b._replace(limit=n) for b, n in zip(self.job.bins, numbers, strict=True) if n)
        kinds = [k for k, n in enumerate(numbers) if n]
        job = Job(sizes=self.job.sizes, demand=self.job.demand, bins=bins)
        rooms = tuple(float(sum(b.rooms)) for b in bins)
        spare = sum(b.limit * r for b, r in zip(bins, rooms, strict=True) if b.limit)
        spare -= sum(s * d for s, d in zip(job.sizes, job.demand, strict=True))
        listed = list_patterns(job, tuple(map(float, job.sizes)), rooms, spare, most)
        if not listed.whole:
            return None, False
        ceiling = sum(b.price * (b.limit or 0) for b in bins) + 1
        choice = choose(job, sorted(listed.patterns), ceiling, self.effort, nodes)
        if choice.cut is None or choice.cut.short:
            return None, choice.proved and choice.cut is None
        back = ((p._replace(bin=kinds[p.bin]), n) for p, n in choice.cut.patterns)
        return Cut(tuple(sorted(back)), choice.cut.cost, 0), True
