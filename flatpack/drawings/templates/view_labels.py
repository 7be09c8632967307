"""Words inside a window: holes, radii, and a tag that stays with the paper once it is cut out."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from flatpack.drawings.boxes import Box, box_of, grown, meet
from flatpack.drawings.figures import mm
from flatpack.drawings.holes import Spot, short, size_of
from flatpack.drawings.labels import Wanted, labelled
from flatpack.drawings.lettering import text_box
from flatpack.drawings.notch_bores import is_rod, seat
from flatpack.drawings.shapes import Closed, Cross, Line, Shape, Stroke, Text
from flatpack.drawings.templates.clipping import within
from flatpack.drawings.templates.wrapping import BOLDER
from flatpack.geometry import Outline, Point
from flatpack.geometry.shapes import rectangle
from flatpack.model import Part
from flatpack.wording import english_templates as words

_FAR = 100.0
"""Labels stay out of bars so wide about the stretch, where its distances and words stand, mm."""
_TAG = 1.8


def spot_label(spot: Spot, at: Point, part: Part) -> Wanted:
    """Number, diameter and depth of a hole; what a notch or an edge's pocket is."""
    number = str(spot.number)
    size = max((size_of(f) or 0.0 for f in spot.features), default=0.0)
    if any(map(is_rod, spot.features)):
        bore = seat(part, spot.features[0])
        said = words.bore_here(mm(2.0 * bore.radius)) if bore else words.ROD_HERE
        return Wanted(at, size / 2.0 + 1.0, f"{number}: {said}", number)
    text = " + ".join(filter(None, map(short, spot.features)))
    return Wanted(at, size / 2.0 + 0.6, f"{number}: {text}", number)


def pocket_label(spot: Spot, at: Point) -> Wanted:
    """Number of a pocket hole along an edge, whose place the stick has."""
    number = str(spot.number)
    return Wanted(at, 5.0, number, number)


def radii(
    outline: Outline, page: Box, labelled_at: Sequence[Point]
) -> tuple[list[Stroke], list[Wanted]]:
    """Centre and radius of each rounding in the box; a seat's label says its diameter already."""
    done: set[tuple[float, float, float]] = set()
    crosses: list[Stroke] = []
    wanted: list[Wanted] = []
    for segment in outline:
        if not segment.bulge or not within(segment.middle, page):
            continue
        centre, radius = segment.centre, segment.radius
        key = (round(centre.x, 2), round(centre.y, 2), round(radius, 2))
        if key not in done:
            done.add(key)
            if within(centre, page):
                crosses.append(Stroke("centre-line", Cross(centre, 6.0)))
            if any(math.dist(centre, at) < 0.01 for at in labelled_at):
                continue
            said = words.RADIUS.format(mm(radius))
            wanted.append(Wanted(segment.middle, 0.8, said, said))
    return crosses, wanted


def put_labels(
    wanted: Sequence[Wanted], edge: Outline, page: Box, taken: Sequence[Stroke]
) -> tuple[Stroke, ...]:
    """The labels beside their holes, clear of what is drawn."""
    shapes = [x for s in taken if s.layer not in ("outline", "grain") for x in _thin(s.shape)]
    # Words keep off the steel-tape line, so that nobody takes it for theirs.
    shapes += [Closed(rectangle(2.4, b.y - a.y, a.x - 1.2, a.y))
               for s in taken if s.layer == "visible-edge" and isinstance(s.shape, Line)
               for a, b in [(s.shape.start, s.shape.end)]]  # fmt: skip
    x0, y0, x1, y1 = page
    shapes += [
        Closed(rectangle(_FAR, y1 - y0 + 2.0 * _FAR, x1 + 4.0, y0 - _FAR)),
        Closed(rectangle(_FAR, y1 - y0 + 2.0 * _FAR, x0 - 1.0 - _FAR, y0 - _FAR)),
        Closed(rectangle(x1 - x0 + 10.0, _FAR, x0 - 5.0, y1 + 1.5)),
        Closed(rectangle(x1 - x0 + 10.0, _FAR, x0 - 5.0, y0 - _FAR)),
    ]
    return labelled(wanted, shapes, [edge.sampled(0.2)])


def _thin(shape: Shape) -> Iterator[Shape]:
    """A cross as its two lines: a label may stand between its arms."""
    if not isinstance(shape, Cross):
        yield shape
        return
    (x, y), h = shape.centre, shape.size / 2.0
    yield Line(Point(x - h, y), Point(x + h, y))
    yield Line(Point(x, y - h), Point(x, y + h))


def tag(said: str, edge: Outline, page: Box, taken: Sequence[Stroke]) -> Iterator[Stroke]:
    """The window's mark, number and face, upright in the wood where nothing is drawn."""
    boxes = [grown(box_of(x), 0.3) for s in taken if not _large(s) for x in _thin(s.shape)]
    rim = edge.sampled(0.5)
    sides = list(zip(rim, (*rim[1:], rim[0]), strict=True))
    for turn, across in ((90.0, "x"), (0.0, "y")):
        for at in _places(page, across):
            text = Text(at, said, _TAG, turn, "middle", "middle", True)
            x0, y0, x1, y1 = text_box(text)
            half = (BOLDER - 1.0) / 2.0 * ((y1 - y0) if turn else (x1 - x0))
            own = (x0, y0 - half, x1, y1 + half) if turn else (x0 - half, y0, x1 + half, y1)
            if _free(own, page, boxes) and _in_wood(own, sides):
                yield Stroke("text", text)
                return


def _places(page: Box, across: str) -> Iterator[Point]:
    x0, y0, x1, y1 = page
    shares = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
    edges = ((x1 - 2.6, x0 + 2.6, *(x0 + s * (x1 - x0) for s in shares)) if across == "x"
             else (y1 - 2.6, y0 + 2.6, *(y0 + s * (y1 - y0) for s in shares)))  # fmt: skip
    for edge in edges:
        for share in shares:
            if across == "x":
                yield Point(edge, y0 + share * (y1 - y0))
            else:
                yield Point(x0 + share * (x1 - x0), edge)


def _large(stroke: Stroke) -> bool:
    """True for edges of the part, whose box is not what they cover."""
    x0, y0, x1, y1 = box_of(stroke.shape)
    return stroke.layer in ("outline", "thin-line") and min(x1 - x0, y1 - y0) > 6.0


def _free(own: Box, page: Box, boxes: Sequence[Box]) -> bool:
    x0, y0, x1, y1 = page
    if own[0] < x0 + 0.8 or own[2] > x1 - 0.8 or own[1] < y0 + 1.0 or own[3] > y1 - 1.0:
        return False
    return not any(meet(own, box) for box in boxes)


def _in_wood(own: Box, sides: Sequence[tuple[Point, Point]]) -> bool:
    """True when the box lies within the outline."""
    x, y = (own[0] + own[2]) / 2.0, (own[1] + own[3]) / 2.0
    inside = False
    for p, q in sides:
        if min(p.x, q.x) < own[2] and max(p.x, q.x) > own[0] \
                and min(p.y, q.y) < own[3] and max(p.y, q.y) > own[1]:  # fmt: skip
            return False
        if (p.y > y) != (q.y > y):
            inside ^= x < p.x + (q.x - p.x) * (y - p.y) / (q.y - p.y)
    return inside
