"""Nested sheets for the machine, each layer an operation, in the order in which it is cut.

    sheet edge, clamps, register holes ─► marks ─► holes, pockets ─► openings ─► outlines

Inside cuts come before outlines; a part that lies in another's opening is cut out before that
opening is, since it drops with it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.cutting.nest_records import NestedSheet, Placed
from flatpack.drawings.figures import mm
from flatpack.drawings.lettering import text_width
from flatpack.drawings.plans.machined import machined, other_face
from flatpack.drawings.plans.placing import Lies, over
from flatpack.drawings.plans.tabs import tabs
from flatpack.drawings.shapes import Circle, Closed, Drawing, Path, Stroke, Text
from flatpack.geometry import Outline, Point
from flatpack.planning.sheets import NestPlan, register_places
from flatpack.profiles import Workshop
from flatpack.wording import english_plan_pages as words

_FIRST = ("part-mark", "drill-through", "drill-blind", "counterbore", "countersink", "slot",
          "housing", "arris")  # fmt: skip
_EDGES = ("opening", "outline")
_HEADING = 14.0


class Laid(NamedTuple):
    """A part on the sheet: how it lies, how deep inside other parts' openings, and its strokes."""

    placed: Placed
    lies: Lies
    depth: int
    strokes: tuple[Stroke, ...]


def laid_parts(plan: NestPlan, sheet: NestedSheet, shop: Workshop) -> tuple[Laid, ...]:
    """Every part in the order of cutting: innermost first, then left to right."""
    drawn = {mark: machined(plan.part(mark), shop).strokes for mark in _marks(sheet)}
    found = []
    for placed in sheet.parts:
        lies = Lies(placed.turn, placed.x, placed.y)
        strokes = tuple(Stroke(s.layer, lies.shape(s.shape)) for s in drawn[placed.mark])
        found.append(Laid(placed, lies, _depth(plan, sheet, placed), strokes))
    return tuple(sorted(found, key=lambda p: (-p.depth, p.placed.x, p.placed.y, p.placed.mark)))


def _marks(sheet: NestedSheet) -> tuple[str, ...]:
    return tuple(dict.fromkeys(p.mark for p in sheet.parts))


def _depth(plan: NestPlan, sheet: NestedSheet, placed: Placed) -> int:
    """In how many other parts' openings the part lies."""
    shapes = {s.mark: s for s in plan.shapes}
    x0, y0, x1, y1 = _put(shapes[placed.mark].outline, placed).bounds
    depth = 0
    for other in sheet.parts:
        if other is placed:
            continue
        for opening in shapes[other.mark].openings:
            a, b, c, d = _put(opening, other).bounds
            depth += a <= x0 and b <= y0 and x1 <= c and y1 <= d
    return depth


def _put(outline: Outline, placed: Placed) -> Outline:
    return outline.turned(placed.turn).moved(placed.x, placed.y)


def nested_drawing(plan: NestPlan, number: int, shop: Workshop, code: str) -> Drawing:
    """The sheet for the machine, at full size."""
    sheet = plan.nest.sheets[number - 1]
    parts = laid_parts(plan, sheet, shop)
    strokes = (*_ground(sheet), *_registers(plan, sheet, shop), *_cuts(parts, shop))
    return _drawing(plan, number, shop, code, strokes, "")


def second_nested(plan: NestPlan, number: int, shop: Workshop, code: str) -> Drawing | None:
    """The sheet turned over, left to right, with what is worked on the other face; or None."""
    sheet = plan.nest.sheets[number - 1]
    length = sheet.blank.outline.bounds[0] + sheet.blank.outline.bounds[2]
    seen = over(length)
    every: list[Stroke] = []
    for placed in sheet.parts:
        lies = Lies(placed.turn, placed.x, placed.y)
        every += [Stroke(s.layer, lies.shape(s.shape)) for s in other_face(plan.part(placed.mark))]
    if not shop.both_faces or not any(s.layer in _FIRST for s in every):
        return None
    ordered = sorted(every, key=lambda s: _FIRST.index(s.layer) if s.layer in _FIRST else -1)
    strokes = (*_ground(sheet), *_registers(plan, sheet, shop), *ordered)
    turned = tuple(Stroke(s.layer, seen.shape(s.shape)) for s in strokes)
    return _drawing(plan, number, shop, code, turned, words.OTHER_FACE)


def _ground(sheet: NestedSheet) -> Iterator[Stroke]:
    yield Stroke("sheet-edge", Closed(sheet.blank.outline))
    yield from (Stroke("thin-line", Closed(c)) for c in sheet.blank.clamps)


def _registers(plan: NestPlan, sheet: NestedSheet, shop: Workshop) -> Iterator[Stroke]:
    if shop.both_faces:
        for at in register_places(sheet.blank, plan.spaces.edge):
            yield Stroke("register-hole", Circle(at, shop.register_hole / 2.0))


def _cuts(parts: tuple[Laid, ...], shop: Workshop) -> Iterator[Stroke]:
    every = [s for p in parts for s in p.strokes]
    yield from (s for s in every if s.layer not in (*_FIRST, *_EDGES))
    for layer in _FIRST:
        yield from (s for s in every if s.layer == layer)
    for depth in sorted({p.depth for p in parts}, reverse=True):
        level = [p for p in parts if p.depth == depth]
        for layer in _EDGES:
            yield from (s for p in level for s in p.strokes if s.layer == layer)
    if shop.tabs.use and not shop.skin:
        for stroke in every:
            if stroke.layer == "outline" and isinstance(stroke.shape, Closed):
                for tab in tabs(stroke.shape.outline, shop.tabs):
                    yield Stroke("tab", Path((tab,)))


def holding(shop: Workshop) -> str:
    """How parts stay in the sheet, in words; "" where nothing holds them."""
    if shop.skin:
        return words.skin(mm(shop.skin))
    if shop.tabs.use:
        return words.tabs(mm(shop.tabs.width), mm(shop.tabs.height))
    return ""


def _drawing(
    plan: NestPlan, number: int, shop: Workshop, code: str, strokes: tuple[Stroke, ...], face: str
) -> Drawing:
    sheet = plan.nest.sheets[number - 1]
    x0, y0, x1, y1 = sheet.blank.outline.bounds
    title = words.nest_title(plan.lot.board.name, number, len(plan.nest.sheets), face)
    kerf = words.compensated(f"{shop.kerf:g}") if shop.compensated else words.NOT_COMPENSATED
    said = [title, sheet.blank.name, kerf, holding(shop), code]
    texts = tuple(
        Stroke("text", Text(Point(x0, y0 - 10.0 - 1.8 * _HEADING * i), line, _HEADING, up="top"))
        for i, line in enumerate(t for t in said if t)
    )
    low = y0 - 20.0 - 1.8 * _HEADING * len(texts)
    wide = max(x1, *(x0 + text_width(t, _HEADING) for t in said))
    tail = "-other-face" if face else ""
    name = f"nest-{plan.name}-{number}{tail}"
    notes = (("board", plan.lot.board.name), ("code", code), ("workshop", shop.name))
    return Drawing(name, title, (x0 - 10.0, low, wide + 10.0, y1 + 10.0), (*strokes, *texts), notes)
