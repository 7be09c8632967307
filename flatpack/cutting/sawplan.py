"""Saw plan: sheets cut straight through on a panel saw, with a bound beside it.

Least new sheets come first, then least cost, then the largest rest worth keeping and the fewest
settings of the fence.  The bound comes from the sizes alone, or from a relaxation of its own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence

from flatpack.cutting.bounds import Bound, apart, sheets_needed
from flatpack.cutting.effort import Effort
from flatpack.cutting.records import PanelSaw, Piece, StockSheet, Trouble
from flatpack.cutting.saw_cuts import cut_sheet
from flatpack.cutting.saw_fewer import from_a_share, resettled
from flatpack.cutting.saw_input import SheetJob, SheetReading, read_sheets
from flatpack.cutting.saw_records import CutSheet, SawPlan
from flatpack.cutting.saw_search import (
    BOTH,
    FIRST_PLANS,
    LAST_PLANS,
    ROOT_ROUNDS,
    SawSearch,
    Used,
)
from flatpack.cutting.sheet_view import View, view_of
from flatpack.cutting.strip_bound import METHOD as BY_SHEETS
from flatpack.cutting.strip_bound import sheets_by_patterns
from flatpack.cutting.strip_choice import METHOD as BY_STRIPS
from flatpack.cutting.strip_choice import sheets_by_strips
from flatpack.cutting.strip_ways import METHOD as BY_WAYS
from flatpack.cutting.strip_ways import ruled_out_by_ways

STEPS = 3_000
FIRST_ROUNDS, ROUNDS, LAST_ROUNDS = 6, 16, 30
_BOUND_STEPS = 250
_BOUND_SHARE = 0.3

Raise = Callable[[SheetJob, Effort, int, int], tuple[int, str]]


def plan_sheets(
    pieces: Sequence[Piece],
    stock: Sequence[StockSheet],
    saw: PanelSaw,
    effort: Effort | None = None,
    seed: int = 1,
) -> SawPlan:
    """Cut the pieces from the sheets with straight-through cuts.

    Faults of the input become troubles, never exceptions.  The same input, steps and seed give
    the same plan unless a clock or a hand stops the search.
    """
    effort = effort or Effort(STEPS)
    reading = read_sheets(pieces, stock, saw)
    if reading.job is None:
        return _assembled(reading, (), Bound(0, "nothing to cut"), effort)
    bound = first_bound(reading.job)
    search = SawSearch(reading.job, effort, seed)
    search.run_quick(FIRST_PLANS, bound.sheets)
    search.run_learning(FIRST_PLANS, bound.sheets)
    bound = _closed(reading.job, bound, search, effort, seed)
    search.run_quick(LAST_PLANS, -1)
    return _assembled(reading, search.best or (), bound, effort)


def _closed(job: SheetJob, bound: Bound, search: SawSearch, effort: Effort, seed: int) -> Bound:
    """Raise the bound and better the plan by turns, the cheaper means first, until they meet."""
    if search.good(bound.sheets):
        return bound
    bound = _raised(job, bound, search, effort, _by_strips)
    from_a_share(search, bound.sheets, seed)
    resettled(search, bound.sheets, FIRST_ROUNDS)
    if search.good(bound.sheets):
        return bound
    for raise_it in (_by_sheets, _by_ways):
        if not search.good(bound.sheets):
            bound = _raised(job, bound, search, effort, raise_it)
    if not search.good(bound.sheets):
        low = bound.sheets
        search.relax_and_dive(low, ROOT_ROUNDS, lambda: resettled(search, low, ROUNDS))
        resettled(search, low, LAST_ROUNDS)
    return bound


def first_bound(job: SheetJob) -> Bound:
    """Least number of new sheets from the sizes alone; offcuts in stock count against it.

    Sheets of several sizes are bounded by one as long and as wide as any of them.
    """
    rooms = job.rooms
    offcuts = [k for k, old in enumerate(job.offcuts) if old]
    new = [k for k in range(len(rooms)) if k not in offcuts]
    if not new:
        return Bound(0, "no new sheets in stock")
    room = max(r[0] for r in rooms), max(r[1] for r in rooms)
    bound = sheets_needed(job.sizes, job.demand, job.turns, room)
    alone = apart(job.sizes, job.demand, job.turns, room)
    if alone > bound.sheets:
        bound = Bound(alone, "parts of which no two fit on one sheet")
    spare = sum((job.limits[k] or 0) for k in offcuts)
    given = sum((job.limits[k] or 0) * rooms[k][0] * rooms[k][1] for k in offcuts)
    area = sum(a * b * n for (a, b), n in zip(job.sizes, job.demand, strict=True)) - given
    least = max(0, -(-area // max(rooms[k][0] * rooms[k][1] for k in new)))
    if least >= bound.sheets - spare:
        return Bound(least, "area with kerf" + (", less offcuts" if spare else ""))
    return Bound(bound.sheets - spare, bound.method + (", less offcuts" if spare else ""))


def _raised(
    job: SheetJob, bound: Bound, search: SawSearch, effort: Effort, raise_it: Raise
) -> Bound:
    """The bound by a relaxation of its own, where that is higher."""
    if any(job.offcuts) or job.mode == "recut" or search.rank is None or search.rank.short:
        return bound
    left = effort.seconds_left
    own = Effort(_BOUND_STEPS, _BOUND_SHARE * left if left < float("inf") else None)
    sheets, method = raise_it(job, own, bound.sheets, search.rank.sheets)
    effort.spend(own.steps)
    effort.clocked = effort.clocked or own.cut_short
    stages = 2 if job.mode == "level" else 3
    return Bound(sheets, method.format(stages)) if sheets > bound.sheets else bound


def _by_strips(job: SheetJob, effort: Effort, low: int, enough: int) -> tuple[int, str]:
    return sheets_by_strips(_views(job), job.demand, effort, low, enough), BY_STRIPS


def _by_sheets(job: SheetJob, effort: Effort, low: int, enough: int) -> tuple[int, str]:
    if len(job.rooms) > 1:
        return low, ""
    return sheets_by_patterns(_views(job), job.demand, effort, enough), BY_SHEETS


def _by_ways(job: SheetJob, effort: Effort, low: int, enough: int) -> tuple[int, str]:
    views = _views(job)
    while low < enough and ruled_out_by_ways(views, job.demand, low, effort):
        low += 1
    return low, BY_WAYS


def _views(job: SheetJob) -> list[View]:
    return [view_of(r, job.sizes, job.turns, a, job.mode) for r in job.rooms for a in BOTH]


def _assembled(
    reading: SheetReading, plan: Sequence[Used], bound: Bound, effort: Effort
) -> SawPlan:
    waiting = list(reading.waiting())
    order = sorted(plan, key=lambda u: (u.kind, u.layout.across, [-s.y for s in u.layout.strips]))
    sheets = tuple(cut_sheet(reading, u.kind, u.layout, waiting) for u in order)
    new = [s for s in sheets if not s.stock.offcut]
    missing = _missing(reading, sheets)
    return SawPlan(
        sheets=sheets,
        new_sheets=len(new),
        bound=bound,
        cost=sum(s.stock.price or 0.0 for s in new) if reading.priced else None,
        settings=settings(sheets),
        missing=missing,
        troubles=reading.troubles + _short(reading, missing),
        steps=effort.steps,
        repeatable=effort.repeats,
    )


def settings(sheets: Sequence[CutSheet]) -> int:
    """How often the fence is moved when the cuts are made in their order."""
    fences = [(c.way, c.setting) for s in sheets for c in s.cuts]
    return sum(a != b for a, b in zip(fences, [None, *fences], strict=False))


def _missing(reading: SheetReading, sheets: Sequence[CutSheet]) -> tuple[tuple[str, int], ...]:
    made = Counter(p.mark for s in sheets for p in s.parts)
    wanted: Counter[str] = Counter()
    for piece in reading.pieces:
        wanted[piece.mark] += piece.count
    return tuple(sorted((wanted - made).items()))


def _short(reading: SheetReading, missing: tuple[tuple[str, int], ...]) -> tuple[Trouble, ...]:
    named = {t.mark for t in reading.troubles if t.blocks}
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
