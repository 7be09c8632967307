"""Room for the engraved mark: inside the outline, clear of everything that is worked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from flatpack.drawings.boxes import Box, grown, meet
from flatpack.drawings.shapes import Path
from flatpack.drawings.stroke_font import stroke_width, strokes
from flatpack.geometry import Outline, Point

HEIGHTS = (10.0, 7.0, 5.0)
"""Capital heights tried, mm: the largest that finds room is taken (ISO 3098 series)."""
_CLEAR = 3.0
_STEP = 10.0


def placed_mark(
    mark: str, outline: Outline, taken: Iterable[Box], from_left: bool
) -> tuple[Path, ...]:
    """The mark's strokes as near the datum end as there is room; none if there is none."""
    obstacles = tuple(taken)
    edge = outline.sampled(0.5)
    for height in HEIGHTS:
        width = stroke_width(mark, height)
        for box in _places(outline.bounds, width, height, from_left):
            room = grown(box, _CLEAR)
            if not any(meet(room, o) for o in obstacles) and inside(room, edge):
                return strokes(mark, Point(box[0], box[1]), height)
    return ()


def _places(bounds: Box, width: float, height: float, from_left: bool) -> Iterator[Box]:
    x0, y0, x1, y1 = bounds
    middle = (y0 + y1 - height) / 2.0
    rows = (middle, y0 + _CLEAR + 1.0, y1 - height - _CLEAR - 1.0)
    inset = 15.0
    while inset + width < x1 - x0:
        x = x0 + inset if from_left else x1 - inset - width
        for y in rows:
            yield x, y, x + width, y + height
        inset += _STEP


def inside(box: Box, polygon: Sequence[Point]) -> bool:
    """True when the box lies within the polygon: its middle does, and no edge runs through it."""
    previous = polygon[-1]
    within = False
    x, y = (box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0
    for point in polygon:
        if crosses(previous, point, box):
            return False
        if (point.y > y) != (previous.y > y):
            reach = (y - previous.y) / (point.y - previous.y)
            within ^= x < previous.x + (point.x - previous.x) * reach
        previous = point
    return within


def crosses(a: Point, b: Point, box: Box) -> bool:
    """True when the line from a to b has a point in the box (clipped side by side)."""
    low, high = 0.0, 1.0
    for start, step, least, most in (
        (a.x, b.x - a.x, box[0], box[2]),
        (a.y, b.y - a.y, box[1], box[3]),
    ):
        if step == 0.0:
            if not least <= start <= most:
                return False
            continue
        first, last = sorted(((least - start) / step, (most - start) / step))
        low, high = max(low, first), min(high, last)
    return low <= high
