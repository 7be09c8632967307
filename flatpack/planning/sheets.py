"""Saw plans of sheets, and nests for a router or laser."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from flatpack.cutting import Effort, PanelSaw, Piece, SawPlan, StockSheet, plan_sheets
from flatpack.cutting.nest import LEAST_TRIES, TRIES, nest
from flatpack.cutting.nest_dense import clear_room
from flatpack.cutting.nest_records import Blank, Nest, Shape, Spaces
from flatpack.drawings.faces import seen_on, worked_faces
from flatpack.finding import Finding
from flatpack.geometry import Outline, Point
from flatpack.geometry.shapes import rectangle
from flatpack.planning import told
from flatpack.planning.pool import Lot, Wanted
from flatpack.planning.supply import blanks_of, panel_saw, sheets_of
from flatpack.profiles import Stock, Workshop
from flatpack.wording import english_plans as words

_TRIES, _CLEAR = 500, 0.85
"""Orders tried with a limit of time on sheets of which less than this share is a clear rectangle:
the denser search takes no others."""
_ROOM = 6.0
"""Wood kept round a register hole, both sides together, mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPlan:
    """The saw plan of one board's parts."""

    name: str
    lot: Lot
    pieces: tuple[Piece, ...]
    stock: tuple[StockSheet, ...]
    saw: PanelSaw
    plan: SawPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class NestPlan:
    """The nest of one board's parts; `by_clock` when its layout came of a search by the clock."""

    name: str
    lot: Lot
    shapes: tuple[Shape, ...]
    blanks: tuple[Blank, ...]
    spaces: Spaces
    nest: Nest
    by_clock: bool

    def part(self, mark: str) -> Wanted:
        """The part of a mark."""
        return next(p for p in self.lot.parts if p.mark == mark)


def sheet_plan(lot: Lot, stock: Stock, effort: Effort) -> tuple[SheetPlan, tuple[Finding, ...]]:
    """The saw plan, and what couldn't be planned."""
    sheets, unused = sheets_of(lot.board, stock)
    pieces = tuple(
        Piece(
            mark=p.mark,
            length=p.length,
            width=p.width,
            count=p.count,
            grain="along" if lot.board.grain else "free",
        )
        for p in lot.parts
    )
    saw = panel_saw(stock.saws)
    made = plan_sheets(pieces, sheets, saw, effort)
    plan = SheetPlan(name=lot.name, lot=lot, pieces=pieces, stock=sheets, saw=saw, plan=made)
    return plan, (*unused, *told.findings(made.troubles))


def spaces_of(shop: Workshop) -> Spaces:
    """Between parts the margin and the cut; at the edge the margin, with room for registers."""
    edge = max(shop.margin, shop.kerf)
    if shop.both_faces:
        edge = max(edge, shop.register_hole + _ROOM)
    return Spaces(between=shop.spacing + cut_width(shop), edge=edge)


def cut_width(shop: Workshop) -> float:
    """Width of the cut round a part: the kerf that the shop names, else its largest cutter."""
    return shop.kerf or max(shop.cutters, default=0.0)


def clamps_of(shop: Workshop) -> tuple[Outline, ...]:
    """Room that the clamps keep."""
    return tuple(rectangle(c.length, c.width, c.x, c.y) for c in shop.clamps)


def shape_of(part: Wanted, first: Sequence[str]) -> Shape:
    """The part as it lies on the machine, lower left at the origin."""
    made = part.group.part
    seen = seen_on(made, worked_faces(made)[0])
    return Shape(
        mark=part.mark,
        outline=seen.outline(made.outline),
        openings=tuple(seen.outline(o) for o in made.openings),
        count=part.count,
        grain="half turns" if made.board.grain else "free",
        priority=0 if part.mark in first else 1,
    )


def nest_plan(
    lot: Lot,
    stock: Stock,
    shop: Workshop,
    effort: Effort,
    first: Sequence[str],
    seconds: int,
    accepted: str,
) -> tuple[NestPlan, tuple[Finding, ...]]:
    """The nest, and what couldn't be nested.

    `accepted` is the text of a layout that an earlier run kept; it is used while it still fits.
    """
    blanks, unused = blanks_of(lot.board, stock, shop.bed[0] if shop.bed else None,
                               clamps_of(shop))  # fmt: skip
    spaces = spaces_of(shop)
    shapes = tuple(shape_of(p, first) for p in lot.parts)
    held = any(b.clamps and not _clear(b, spaces) for b in blanks)
    # By the clock the denser search follows, which mustn't find the time used up.
    tries = TRIES if not seconds else _TRIES if held else LEAST_TRIES
    made = nest(shapes, blanks, spaces, effort, tries=tries, seconds=seconds, accepted=accepted)
    # A layout taken over has cost no step; what its text says of the clock still holds.
    by_clock = not made.repeatable or (made.steps == 0 and '"by_clock": true' in accepted)
    plan = NestPlan(name=lot.name, lot=lot, shapes=shapes, blanks=blanks, spaces=spaces,
                    nest=made, by_clock=by_clock)  # fmt: skip
    return plan, (*unused, *told.findings(made.troubles))


def _clear(blank: Blank, spaces: Spaces) -> bool:
    room = clear_room(blank, spaces)
    if room is None:
        return False
    return (room[2] - room[0]) * (room[3] - room[1]) >= _CLEAR * abs(blank.outline.area)


def empty(lot: Lot) -> Finding:
    """Nothing to cut a lot from."""
    return told.told("no-stock", "fault", words.no_stock(lot.board.name), "",
                     words.TROUBLES["no-stock"][1])  # fmt: skip


def register_places(blank: Blank, edge: float) -> tuple[Point, Point]:
    """Two places by the lower edge that fall on one another when the sheet is turned over."""
    x0, y0, x1, _ = blank.outline.bounds
    inset = edge / 2.0
    return Point(x0 + inset, y0 + inset), Point(x1 - inset, y0 + inset)


def register_room(blank: Blank, edge: float, diameter: float) -> bool:
    """True when both holes lie in the sheet, clear of its clamps."""
    from flatpack.geometry.polygon import polygon, spot

    whole = polygon(blank.outline)
    clamps = [polygon(c) for c in blank.clamps]
    return all(
        whole.contains(hole) and not any(clamp.intersects(hole) for clamp in clamps)
        for at in register_places(blank, edge)
        for hole in (spot(at).buffer(diameter / 2.0),)
    )
