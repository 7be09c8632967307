"""Lists of a cutting plan: order, cuts, result and bound, waste, bundles, kits, time."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.figures import mm, shown
from flatpack.drawings.page import Cell, Table
from flatpack.drawings.plans.board_rows import kinds_of
from flatpack.drawings.plans.cut_lines import rows
from flatpack.drawings.plans.nested import laid_parts
from flatpack.planning.bench_time import Task
from flatpack.planning.boards import BoardPlan
from flatpack.planning.buying import Purchase
from flatpack.planning.kits import bags
from flatpack.planning.making import Plans
from flatpack.planning.packing import bundles, heights
from flatpack.planning.shares import shares
from flatpack.wording import english_plan_pages as words

Row = tuple[Cell, ...]


def table(name: str, header: tuple[str, ...], made: Iterator[Row]) -> Table:
    """A table with its title."""
    return Table(name=name, title=words.TITLES[name], header=header, rows=tuple(made))


def _money(value: float | None) -> str:
    return "" if value is None else f"{value:.2f}"


def order(bought: tuple[Purchase, ...]) -> Table:
    """What to buy, to tick."""
    return table("order", words.BUY_HEADER, (
        (words.TICK, p.kind, p.item, p.size, p.needed, p.sold, p.count, _money(p.price),
         _money(p.total))
        for p in bought
    ))  # fmt: skip


def saw_cuts(plans: Plans) -> Table:
    """Every cut of the panel saw, like ones in one row."""
    return table("saw-cuts", words.CUTS_HEADER, _saw_cuts(plans))


def _saw_cuts(plans: Plans) -> Iterator[Row]:
    for plan in plans.sheets:
        for number, sheet in enumerate(plan.plan.sheets, 1):
            for row in rows(sheet, plan.saw):
                cut = row.cut
                name = str(row.first) if row.first == row.last else f"{row.first} to {row.last}"
                way = words.WAYS[cut.way] if cut.stage else words.TRIM
                setting, ready = shown(cut.setting), words.YES if cut.finished else ""
                yield (words.TICK, plan.lot.board.name, number, name, cut.stage, way, setting,
                       cut.of, row.gives, ready)  # fmt: skip


def cross_cuts(plans: Plans) -> Table:
    """Every cut of boards and bars, boards that are cut alike once."""
    every = (*plans.boards, *plans.rods)
    return table("cross-cuts", words.CROSSCUTS_HEADER, (r for p in every for r in _cross(p)))


def _cross(plan: BoardPlan) -> Iterator[Row]:
    named = {b.mark: b for b in plan.blanks}
    for number, (board, times) in enumerate(kinds_of(plan.plan.boards), 1):
        title = words.board_row(times, board.stock.name, board.stock.offcut)
        for count, cut in enumerate(board.cuts, 1):
            blank = named[cut.mark]
            then = words.ripped(blank.across, mm(blank.rip)) if blank.across else ""
            yield (words.TICK, title, number, count, cut.mark, shown(cut.end - cut.start),
                   shown(cut.end), then)  # fmt: skip


def summary(plans: Plans) -> Table:
    """Each plan beside the least possible, with the method of the bound."""
    return table("plan-summary", words.SUMMARY_HEADER, _summary(plans))


def _summary(plans: Plans) -> Iterator[Row]:
    for board in (*plans.boards, *plans.rods):
        plan = board.plan
        priced = _priced(board)
        unit = words.unit(plans.stock.currency, priced)
        cost, bound = (f"{v:.2f}" if priced else mm(v) for v in (plan.cost, plan.bound))
        yield (board.title, f"{cost} {unit}", f"{bound} {unit}", plan.method,
               _proved(plan.proved, plan.gap), _yes(plan.repeatable))  # fmt: skip
    for sheet in plans.sheets:
        saw = sheet.plan
        yield (sheet.lot.board.name, words.new_sheets(saw.new_sheets, saw.settings),
               str(saw.bound.sheets), saw.bound.method, _yes(saw.proved),
               _yes(saw.repeatable))  # fmt: skip
    for nested in plans.nests:
        nest = nested.nest
        proved = not nest.missing and nest.new_sheets <= nest.bound.sheets
        yield (nested.lot.board.name, words.new_sheets(nest.new_sheets, None),
               str(nest.bound.sheets), nest.bound.method, _yes(proved),
               _yes(not nested.by_clock))  # fmt: skip


def _priced(board: BoardPlan) -> bool:
    return all(s.price is not None for s in board.stock if not s.offcut)


def _yes(true: bool) -> str:
    return words.YES if true else words.NO


def _proved(proved: bool, gap: float) -> str:
    return words.YES if proved else words.gap(f"{100.0 * gap:.2f}")


def waste(plans: Plans) -> Table:
    """Shares of the timber used; a round bar's in metres."""
    return table("waste", words.WASTE_HEADER, (
        (s.title, s.unit, *(f"{v:.3f}" for v in (s.stock, s.parts, s.kept)), f"{s.waste:.1f}")
        for s in shares(plans)
    ))  # fmt: skip


def bundle_list(plans: Plans) -> Table:
    """Bundles of one copy of each piece."""
    return table("bundles", words.BUNDLE_HEADER, _bundles(plans))


def _bundles(plans: Plans) -> Iterator[Row]:
    lifter, several = plans.stock.lifter, len(plans.pieces) > 1
    counts: dict[int, int] = {}
    for bundle in bundles(plans):
        counts[bundle.piece] = counts.get(bundle.piece, 0) + 1
        name = words.numbered(bundle.piece, plans.pieces[bundle.piece - 1].assembly.name, several)
        parts = ", ".join(f"{n} x {m}" if n > 1 else m for m, n in bundle.parts)
        ok = heights(bundle.weight, lifter)
        places = [p for p, kept in zip(words.LIFT_PLACES, ok, strict=True) if kept]
        yield (name, counts[bundle.piece], parts, shown(bundle.length), shown(bundle.width),
               shown(bundle.height), round(bundle.weight, 1),
               words.within(lifter, places))  # fmt: skip


def kit_list(plans: Plans) -> Table:
    """Hardware by step."""
    return table("kit-bags", words.KIT_HEADER, _kits(plans))


def _kits(plans: Plans) -> Iterator[Row]:
    several = len(plans.pieces) > 1
    counts: dict[int, int] = {}
    for bag in bags(plans.pieces):
        counts[bag.piece] = counts.get(bag.piece, 0) + 1
        name = words.numbered(bag.piece, bag.name, several)
        for (item, size), pieces in bag.items:
            yield name, counts[bag.piece], bag.title, item, size, pieces
    from flatpack.planning.kits import with_spares

    for (item, size), (_, spare) in with_spares(plans).items():
        if spare:
            yield words.ALL_PIECES, 0, words.SPARES, item, size, spare


def time_list(done: tuple[Task, ...]) -> Table:
    """Minutes at the bench."""
    return table("bench-time", words.TIME_HEADER, (
        (t.what, round(t.number, 2), t.unit, t.each, round(t.minutes)) for t in done if t.number
    ))  # fmt: skip


def nest_list(plans: Plans) -> Table:
    """Where each part lies on its sheet, in the order of cutting."""
    return table("nest", words.NEST_HEADER, _nest(plans))


def _nest(plans: Plans) -> Iterator[Row]:
    if plans.shop is None:
        return
    for plan in plans.nests:
        for number, sheet in enumerate(plan.nest.sheets, 1):
            for order_, part in enumerate(laid_parts(plan, sheet, plans.shop), 1):
                p = part.placed
                yield (plan.lot.board.name, number, p.mark, round(p.x, 2), round(p.y, 2), p.turn,
                       order_)  # fmt: skip


def finding_list(plans: Plans) -> Table:
    """What the plans found, worst first."""
    return table("cut-findings", words.FINDING_HEADER, (
        (f.severity, f.part, f.message, f.remedy) for f in plans.findings
    ))  # fmt: skip
