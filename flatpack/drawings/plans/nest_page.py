"""A nested sheet on paper: parts with their marks in the order of cutting, clamps, offcut."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.cutting.nest_records import NestedSheet
from flatpack.drawings.boxes import meet
from flatpack.drawings.figures import mm
from flatpack.drawings.lettering import text_width
from flatpack.drawings.mark_place import inside
from flatpack.drawings.part_view import grain_arrow
from flatpack.drawings.plans.nested import holding, laid_parts
from flatpack.drawings.plans.paper import About, Block, lines, offcut_strokes, page, scale_for
from flatpack.drawings.shapes import Closed, Dimension, Drawing, Stroke, Text
from flatpack.geometry import Outline, Point, Segment
from flatpack.planning.rests import nest_rest
from flatpack.planning.sheets import NestPlan
from flatpack.profiles import Saws, Workshop
from flatpack.wording import english_plan_pages as words

_LEFT, _TOP = 40.0, 262.0
_ROOM = (360.0, 195.0)
_SMALLEST = 0.9
"""Least capital height of a part's mark, mm."""
_SHARES = tuple(
    (across, up) for up in (0.5, 0.3, 0.7, 0.15, 0.85) for across in (0.5, 0.3, 0.7, 0.15, 0.85)
)
"""Places tried for a part's mark, as shares of its length and width."""


def nest_pages(plan: NestPlan, shop: Workshop, saws: Saws, about: About) -> Iterator[Drawing]:
    """One page a sheet."""
    sheets = plan.nest.sheets
    for number, sheet in enumerate(sheets, 1):
        title = words.nest_title(plan.lot.board.name, number, len(sheets), "")
        x0, y0, x1, y1 = sheet.blank.outline.bounds
        scale = scale_for(x1 - x0, y1 - y0, _ROOM)
        strokes = tuple(_picture(plan, sheet, shop, saws, scale))
        name = f"nest-{plan.name}-{number}"
        block = Block(plan.lot.board.name, words.NEST_DOCUMENT, f"{number} / {len(sheets)}")
        yield page(name, title, about, strokes, scale, block)


def _picture(
    plan: NestPlan, sheet: NestedSheet, shop: Workshop, saws: Saws, scale: float
) -> Iterator[Stroke]:
    x0, y0, x1, y1 = sheet.blank.outline.bounds
    low = _TOP - (y1 - y0) / scale
    corner = Point(_LEFT - x0 / scale, low - y0 / scale)
    yield Stroke("sheet-edge", Closed(reduced(sheet.blank.outline, corner, scale)))
    for clamp in sheet.blank.clamps:
        yield Stroke("thin-line", Closed(reduced(clamp, corner, scale)))
    shapes = {s.mark: s for s in plan.shapes}
    for order, part in enumerate(laid_parts(plan, sheet, shop), 1):
        shape = shapes[part.placed.mark]
        outline = reduced(part.lies.outline(shape.outline), corner, scale)
        yield Stroke("outline", Closed(outline))
        openings = [reduced(part.lies.outline(o), corner, scale) for o in shape.openings]
        yield from (Stroke("opening", Closed(opening)) for opening in openings)
        yield _label(outline, openings, f"{order}: {part.placed.mark}")
    rest = nest_rest(plan, sheet, saws)
    if rest is not None:
        ends = (rest.x, rest.y), (rest.x + rest.length, rest.y + rest.width)
        a, b = (Point(corner.x + x / scale, corner.y + y / scale) for x, y in ends)
        yield from offcut_strokes(a, b, words.offcut(mm(rest.length), mm(rest.width)))
    top, right = Point(_LEFT, _TOP), Point(_LEFT + (x1 - x0) / scale, _TOP)
    yield Stroke("dimension", Dimension(top, right, 6.0, mm(x1 - x0)))
    yield Stroke("dimension", Dimension(Point(_LEFT, low), top, 8.0, mm(y1 - y0)))
    if plan.lot.board.grain:
        yield from grain_arrow(_LEFT, low - 4.0)
    yield from lines(tuple(_words(plan, sheet, shop)), _LEFT, 282.0, 2.6)
    yield from lines((words.ORDER_OF_CUTS,), _LEFT + 70.0, low - 2.5, 2.2)


def _words(plan: NestPlan, sheet: NestedSheet, shop: Workshop) -> Iterator[str]:
    yield f"{sheet.blank.name}; {words.dense(100.0 * sheet.density)}"
    spaces = words.spaces(mm(plan.spaces.between), mm(plan.spaces.edge))
    yield "; ".join(t for t in (spaces, holding(shop)) if t)


def reduced(outline: Outline, corner: Point, scale: float) -> Outline:
    """The outline on paper."""

    def at(p: Point) -> Point:
        return Point(corner.x + p.x / scale, corner.y + p.y / scale)

    return Outline(tuple(Segment(at(s.start), at(s.end), s.bulge) for s in outline))


def _label(outline: Outline, openings: list[Outline], said: str) -> Stroke:
    """As near the middle as the part is wood, smaller where that helps; else there all the same."""
    x0, y0, x1, y1 = outline.bounds
    long, short = max(x1 - x0, y1 - y0), min(x1 - x0, y1 - y0)
    most = max(_SMALLEST, min(2.6, 0.5 * short, 0.85 * long / text_width(said, 1.0)))
    turn = 0.0 if x1 - x0 >= y1 - y0 else 90.0
    edge, holes = outline.sampled(0.5), [o.bounds for o in openings]
    middle = Point((x0 + x1) / 2.0, (y0 + y1) / 2.0)
    for height in (most, max(most / 2.0, _SMALLEST)):
        wide, high = text_width(said, height) / 2.0 + 0.3, height / 2.0 + 0.3
        half = (high, wide) if turn else (wide, high)
        for across, up in _SHARES:
            at = Point(x0 + (x1 - x0) * across, y0 + (y1 - y0) * up)
            box = (at.x - half[0], at.y - half[1], at.x + half[0], at.y + half[1])
            if inside(box, edge) and not any(meet(box, hole) for hole in holes):
                return Stroke("text", Text(at, said, height, turn, "middle", "middle"))
    return Stroke("text", Text(middle, said, most, turn, "middle", "middle"))
