"""Cross-cut plan: boards sold by length, cut to the lengths wanted at the least cost.

    |trim|   A    |k|   A    |k|     B      |k|  rest                     |trim|

n parts in a row take n lengths and n - 1 kerfs, and one kerf more only where a rest remains.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from flatpack.cutting.boards import SKIPS, Outcome, least_cost
from flatpack.cutting.crosscut_input import Reading, read
from flatpack.cutting.effort import Effort
from flatpack.cutting.patterns import Pattern
from flatpack.cutting.records import CrossSaw, Piece, StockLength, Trouble
from flatpack.cutting.ticks import mm, up

METHOD = "relaxation over all cutting patterns (column generation), whole-number dual bound"


@dataclass(frozen=True, slots=True, kw_only=True)
class Crosscut:
    """One part cut from a board: it lies from `start` to `end`, mm from the board's first end."""

    mark: str
    start: float
    end: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutBoard:
    """One board of the plan: its cuts in order, and the rests that are worth keeping."""

    stock: StockLength
    cuts: tuple[Crosscut, ...]
    rests: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossPlan:
    """A cross-cut plan with the bound that its cost can be held against.

    `cost` and `bound` are in the stock's currency (mm of board when prices are missing); no plan
    costs less than `bound`; `relaxed` is the relaxation's value before rounding up.  `missing`
    lists parts without a place as (mark, count).  `repeatable` is False when a clock or a hand
    stopped the search.
    """

    boards: tuple[CutBoard, ...]
    cost: float
    bound: float
    relaxed: float
    proved: bool
    method: str
    missing: tuple[tuple[str, int], ...]
    troubles: tuple[Trouble, ...]
    steps: int
    repeatable: bool

    @property
    def gap(self) -> float:
        """How far the cost may be above the least possible, as a share of the bound."""
        return 0.0 if self.proved or self.bound <= 0 else self.cost / self.bound - 1.0


def plan_crosscuts(
    pieces: Sequence[Piece],
    stock: Sequence[StockLength],
    saw: CrossSaw,
    effort: Effort | None = None,
    dives: int = len(SKIPS),
) -> CrossPlan:
    """Cut the pieces from the stock at the least cost.

    Faults of the input become troubles, never exceptions.  The search is counted in steps;
    without a clock in `effort` the same input gives the same plan.
    """
    effort = effort or Effort(20_000)
    reading = read(pieces, stock, saw)
    if reading.job is None:
        return _assembled(reading, None, effort)
    return _assembled(reading, least_cost(reading.job, effort, dives), effort)


def _assembled(reading: Reading, found: Outcome | None, effort: Effort) -> CrossPlan:
    stock = list(reading.waiting())
    boards = [
        _board(reading, pattern, stock)
        for pattern, times in (found.cut.patterns if found else ())
        for _ in range(times)
    ]
    missing = _missing(reading, boards)
    troubles = reading.troubles + _short(reading, missing)
    return CrossPlan(
        boards=tuple(boards),
        cost=found.cut.cost / reading.per_unit if found else 0.0,
        bound=found.bound / reading.per_unit if found else 0.0,
        relaxed=float(found.relaxed) / reading.per_unit if found else 0.0,
        proved=bool(found and found.proved and not missing),
        method=METHOD,
        missing=missing,
        troubles=troubles,
        steps=effort.steps,
        repeatable=not effort.cut_short,
    )


def _board(reading: Reading, pattern: Pattern, waiting: list[Counter[str]]) -> CutBoard:
    """Lay a pattern's parts into the clear lengths of a board, longest parts first."""
    kind = reading.kinds[pattern.bin]
    todo = [part for part, n in pattern.parts for _ in range(n)]
    todo.sort(key=lambda p: (-reading.lengths[p], p))
    cuts: list[Crosscut] = []
    rests = []
    for (start, end), inside in _spread(reading, kind.clear, todo):
        at = start
        for part in inside:
            mark = _next_mark(waiting[part])
            cuts.append(Crosscut(mark=mark, start=mm(at), end=mm(at + reading.lengths[part])))
            at += reading.lengths[part] + reading.kerf
        if end - at >= up(reading.saw.keep):
            rests.append((mm(at), mm(end)))
    return CutBoard(stock=kind.stock, cuts=tuple(cuts), rests=tuple(rests))


def _spread(
    reading: Reading, clear: tuple[tuple[int, int], ...], todo: list[int]
) -> list[tuple[tuple[int, int], list[int]]]:
    """Which parts lie in which clear length, filled in the order that pricing fills them."""
    from flatpack.cutting.knapsack import Table

    order = sorted(range(len(clear)), key=lambda i: (clear[i][0] - clear[i][1], i))
    inside: dict[int, list[int]] = {}
    left = Counter(todo)
    for number in order:
        room = clear[number][1] - clear[number][0] + reading.kerf
        parts = sorted(left)
        if len(clear) == 1:
            inside[number] = list(todo)
            continue
        sizes = [(reading.lengths[p] + reading.kerf) // reading.unit for p in parts]
        table = Table(sizes, sizes, [left[p] for p in parts], room // reading.unit)
        took = {parts[i]: n for i, n in table.pattern(room // reading.unit).items()}
        inside[number] = _taken(todo, took)
        left -= Counter(inside[number])
    return [(clear[n], inside[n]) for n in sorted(inside)]


def _taken(todo: list[int], took: dict[int, int]) -> list[int]:
    return [p for p in dict.fromkeys(todo) for _ in range(took.get(p, 0))]


def _next_mark(waiting: Counter[str]) -> str:
    mark = min(m for m, n in waiting.items() if n > 0)
    waiting[mark] -= 1
    return mark


def _missing(reading: Reading, boards: Sequence[CutBoard]) -> tuple[tuple[str, int], ...]:
    made = Counter(cut.mark for board in boards for cut in board.cuts)
    wanted: Counter[str] = Counter()
    for piece in reading.pieces:
        wanted[piece.mark] += piece.count
    return tuple(sorted((wanted - made).items()))


def _short(reading: Reading, missing: tuple[tuple[str, int], ...]) -> tuple[Trouble, ...]:
    named = {t.mark for t in reading.troubles}
    return tuple(
        Trouble(
            code="stock-short",
            mark=mark,
            text=f"the stock is too little: {count} x {mark} have no place",
            measured=float(count),
        )
        for mark, count in missing
        if mark not in named
    )
