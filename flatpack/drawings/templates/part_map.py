"""A small map of the part: where these windows lie in it, and which way the grain runs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from flatpack.drawings.boxes import Box
from flatpack.drawings.shapes import Closed, Line, Stroke, Text
from flatpack.drawings.templates.windows import Window
from flatpack.geometry import Point, Segment
from flatpack.geometry.outline import Outline
from flatpack.geometry.shapes import rectangle
from flatpack.wording import english_templates as words

MAP_HEIGHT = 12.0
_MOST = 8.0
_GRAIN = 24.0


def part_map(window: Window, boxes: Iterable[Box], corner: Point, width: float) -> Iterator[Stroke]:
    """Strokes under an upper left corner: the map at the left, the grain arrow at the right."""
    part = window.part
    scale = min((width - _GRAIN - 12.0) / part.length, _MOST / part.width)
    x, y = corner.x + 2.0, corner.y - 2.0 - (_MOST + part.width * scale) / 2.0
    outline = window.seen.outline(part.outline)
    yield Stroke("thin-line", Closed(_shrunk(outline, scale, x, y)))
    for box in boxes:
        x0, y0, x1, y1 = (v * scale for v in box)
        yield Stroke("outline", Closed(rectangle(x1 - x0, y1 - y0, x + x0, y + y0)))
    yield from _datum(window, x, y, scale)
    if part.board.grain:
        yield from _arrow(corner.x + width - _GRAIN - 3.0, corner.y - 6.0)


def _shrunk(outline: Outline, scale: float, x: float, y: float) -> Outline:
    def move(p: Point) -> Point:
        return Point(x + p.x * scale, y + p.y * scale)

    return Outline(tuple(Segment(move(s.start), move(s.end), s.bulge) for s in outline))


def _datum(window: Window, x: float, y: float, scale: float) -> Iterator[Stroke]:
    """Heavy lines along the datum edge and end, just off the map."""
    length, wide = window.part.length * scale, window.part.width * scale
    end = x - 1.2 if window.left else x + length + 1.2
    yield Stroke("datum-edge", Line(Point(x, y - 1.2), Point(x + length, y - 1.2)))
    yield Stroke("datum-edge", Line(Point(end, y), Point(end, y + wide)))


def _arrow(x: float, y: float) -> Iterator[Stroke]:
    """A double-headed arrow along the grain, with its word above."""
    a, b = Point(x, y), Point(x + _GRAIN - 4.0, y)
    yield Stroke("grain", Line(a, b))
    for tip, way in ((a, 1.0), (b, -1.0)):
        for side in (1.0, -1.0):
            yield Stroke("grain", Line(tip, Point(tip.x + 3.0 * way, tip.y + 1.2 * side)))
    middle = Point((a.x + b.x) / 2.0, y + 1.0)
    yield Stroke("text", Text(middle, words.GRAIN, 2.5, across="middle"))
