"""A picture of one part's shape, seen on its show face, with what is cut out of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from flatpack.drawings.shapes import Closed, Drawing, Stroke
from flatpack.geometry import Outline, Point, Segment

WIDE, HIGH = 90.0, 45.0
"""Room for the picture, mm."""
_MARGIN = 0.5
_FINE = 0.05
_WOOD, _GONE = 0.9, 1.0


def plate(name: str, outlines: Sequence[Outline], openings: Iterable[Outline] = ()) -> Drawing:
    """Outlines in grey, openings in white, as large as the room allows."""
    x0, y0, _, _ = map(min, zip(*(o.bounds for o in outlines), strict=True))
    _, _, x1, y1 = map(max, zip(*(o.bounds for o in outlines), strict=True))
    scale = min(WIDE / (x1 - x0), HIGH / (y1 - y0))
    corner = Point(x0, y0)
    shapes = [Closed(_reduced(o, corner, scale), True, _WOOD) for o in outlines]
    shapes += [Closed(_reduced(o, corner, scale), True, _GONE) for o in openings]
    bounds = (-_MARGIN, -_MARGIN, (x1 - x0) * scale + _MARGIN, (y1 - y0) * scale + _MARGIN)
    strokes = tuple(Stroke("thin-line", shape) for shape in shapes)
    return Drawing(name, name, bounds, strokes, (), scale)


def _reduced(outline: Outline, corner: Point, scale: float) -> Outline:
    """On the paper, arcs as short chords."""
    points = [
        Point((p.x - corner.x) * scale, (p.y - corner.y) * scale)
        for p in outline.sampled(_FINE / scale)
    ]
    return Outline(tuple(map(Segment, points, (*points[1:], points[0]))))
