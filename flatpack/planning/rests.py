"""Usable offcuts, and the stock file that holds them for next time."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from flatpack.cutting import CutBoard, Rest
from flatpack.cutting.nest_records import NestedSheet
from flatpack.planning.making import Plans
from flatpack.planning.rack import rack_rows, table_row
from flatpack.planning.sheets import NestPlan
from flatpack.profiles import Saws


def nest_rest(plan: NestPlan, sheet: NestedSheet, saws: Saws) -> Rest | None:
    """The larger of the strips beyond all parts, to the right of them or above; None if small."""
    named = {s.mark: s for s in plan.shapes}
    boxes = [named[p.mark].outline.turned(p.turn).moved(p.x, p.y).bounds for p in sheet.parts]
    x0, y0, x1, y1 = sheet.blank.outline.bounds
    whole = abs(abs(sheet.blank.outline.area) - (x1 - x0) * (y1 - y0)) < 1.0
    if not boxes or not whole:
        return None
    space = plan.spaces.between
    right, top = max(b[2] for b in boxes) + space, max(b[3] for b in boxes) + space
    strips = (
        Rest(x=right, y=y0, length=x1 - right, width=y1 - y0),
        Rest(x=x0, y=top, length=x1 - x0, width=y1 - top),
    )
    kept = [
        r for r in strips if r.length >= saws.keep_width and r.width >= saws.keep_width
        and max(r.length, r.width) >= saws.keep_length
    ]  # fmt: skip
    return max(kept, key=lambda r: r.length * r.width, default=None)


def offcut_file(plans: Plans) -> str:
    """The rack after this plan as TOML, in the form of a stock list: its rests, and what it left.

    Given to the next plan, the file stands in for the one that this plan was given.
    """
    head = [
        "# The rack after this plan: flatpack cut FILE --offcuts THIS-FILE --out DIR",
        "# Rests of this plan, then what it left of the offcuts that it was given.",
        'name = "Offcuts"',
        'source = "rests of a cutting plan; measure them"',
    ]
    return "\n".join([*head, *_rows(plans), *rack_rows(plans)]) + "\n"


def _rows(plans: Plans) -> Iterator[str]:
    for plan in plans.boards:
        if plan.board is not None:
            for length in _lengths(plan.plan.boards):
                yield table_row("boards", board=plan.board.key, width=plan.width, length=length)
    for plan in plans.rods:
        for length in _lengths(plan.plan.boards):
            yield table_row("rods", rod=plan.name, length=length)
    for key, rest in sheet_rests(plans):
        yield table_row("sheets", board=key, length=rest.length, width=rest.width)


def sheet_rests(plans: Plans) -> Iterator[tuple[str, Rest]]:
    """Board and size of every rest of a sheet that is kept."""
    for plan in plans.sheets:
        for sheet in plan.plan.sheets:
            yield from ((plan.lot.board.key, r) for r in sheet.rests)
    for nested in plans.nests:
        for laid in nested.nest.sheets:
            rest = nest_rest(nested, laid, plans.stock.saws)
            if rest is not None:
                yield nested.lot.board.key, rest
        yield from ((nested.lot.board.key, r) for r in unused_pieces(nested))


def unused_pieces(plan: NestPlan) -> Iterator[Rest]:
    """Pieces of sheets parted for the bed on which nothing lies."""
    used = Counter(s.blank for s in plan.nest.sheets)
    for sheet in dict.fromkeys((b.of, b.offcut) for b in used if b.of):
        pieces = [b for b in plan.blanks if (b.of, b.offcut) == sheet]
        many = max(used[b] for b in pieces)
        for blank in pieces:
            x0, y0, x1, y1 = blank.outline.bounds
            rest = Rest(x=x0, y=y0, length=x1 - x0, width=y1 - y0)
            yield from [rest] * (many - used[blank])


def _lengths(boards: Sequence[CutBoard]) -> list[float]:
    return sorted(high - low for board in boards for low, high in board.rests)
