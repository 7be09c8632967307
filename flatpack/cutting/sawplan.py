"""Saw plan: sheets cut straight through on a panel saw, with a bound beside it.

Least new sheets come first, then least cost, then the largest rest worth keeping and the fewest
settings of the fence.  The bound comes from the sizes alone, or from a relaxation of its own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from flatpack.cutting.bounds import Bound, apart, sheets_needed
from flatpack.cutting.effort import Effort
from flatpack.cutting.records import PanelSaw, Piece, StockSheet, Trouble
from flatpack.cutting.saw_cuts import cut_sheet
from flatpack.cutting.saw_input import SheetJob, SheetReading, read_sheets
from flatpack.cutting.saw_records import CutSheet, SawPlan
from flatpack.cutting.saw_search import FIRST_PLANS, LAST_PLANS, ROOT_ROUNDS, SawSearch, Used
from flatpack.cutting.sheet_view import view_of
from flatpack.cutting.strip_bound import METHOD, sheets_by_patterns

STEPS = 1_500
_BOUND_STEPS = 250
_BOUND_SHARE = 0.3


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
    if not search.good(bound.sheets):
        bound = _raised(reading.job, bound, search, effort)
    if not search.good(bound.sheets):
        search.relax_and_dive(bound.sheets, ROOT_ROUNDS)
    search.run_quick(LAST_PLANS, -1)
    return _assembled(reading, search.best or (), bound, effort)


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


def _raised(job: SheetJob, bound: Bound, search: SawSearch, effort: Effort) -> Bound:
    """The bound by the relaxation over all such sheets, where it is higher."""
    if len(job.rooms) > 1 or job.mode == "recut" or search.rank is None or search.rank.short:
        return bound
    views = [view_of(job.rooms[0], job.sizes, job.turns, a, job.mode) for a in (False, True)]
    left = effort.seconds_left
    own = Effort(_BOUND_STEPS, _BOUND_SHARE * left if left < float("inf") else None)
    sheets = sheets_by_patterns(views, job.demand, own, search.rank.sheets)
    effort.spend(own.steps)
    effort.clocked = own.cut_short
    stages = 2 if job.mode == "level" else 3
    return Bound(sheets, METHOD.format(stages)) if sheets > bound.sheets else bound


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
