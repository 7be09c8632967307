"""Boards parted where they run through one another, so that they have an order of painting.

Two bodies that share the same stretch, as a tenon in its mortise does, hide each other in turn:
a board is cut for the picture at the faces of the one that it goes through.

      side |  |                    stretcher | in the side | tenon beyond it: three bodies
    -------|--|----.
           |  |    |
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from flatpack.drawings.projection import Body
from flatpack.frozen import replace
from flatpack.geometry import Outline, Point, Segment
from flatpack.geometry.polygon import behind, pieces, polygon, ring
from flatpack.model import Assembly, Part

_SQUARE = 1e-6
_SAGITTA = 0.3
"""Arcs of a board that is parted are drawn as chords this near the true line, mm."""


def parted(body: Body, assembly: Assembly) -> tuple[Body, ...]:
    """The body in pieces that lie before, in and behind each board that it goes through."""
    through = {
        other
        for fit in assembly.fits
        if body.key in fit.tongues
        for other in (fit.part, fit.onto)
        if other != body.key
    }
    made: tuple[Body, ...] = (body,)
    for key in sorted(through):
        made = tuple(piece for one in made for piece in _cut(one, assembly.parts[key]))
    return made


def _cut(body: Body, other: Part) -> Iterator[Body]:
    """Three strips at most: up to the board's near face, in it, and past its far face."""
    way = body.frame.local_direction(other.frame.z)
    if abs(way.z) > _SQUARE:
        yield body
        return
    out = Point(way.x, way.y)
    start = -other.frame.local(body.frame.origin).z
    low, high = sorted((start, start + other.thickness))
    reach = [p.x * out.x + p.y * out.y for p in body.outline.points]
    if not any(min(reach) + _SQUARE < at < max(reach) - _SQUARE for at in (low, high)):
        yield body
        return
    shape = polygon(body.outline, _SAGITTA)
    for first, last in pairwise((None, low, high, None)):
        strip = shape if last is None else _up_to(shape, last, out)
        strip = strip if first is None else _up_to(strip, -first, Point(-out.x, -out.y))
        for piece in pieces(strip):
            yield replace(body, outline=_outline(piece))


def _up_to(shape: Any, far: float, way: Point) -> Any:
    """What of a shape lies no further along a direction than `far`."""
    return behind(shape, (way.x * far, way.y * far), way)


def _outline(shape: Any) -> Outline:
    corners = [Point(float(x), float(y)) for x, y in ring(shape)]
    made = Outline(tuple(map(Segment, corners, (*corners[1:], corners[0]))))
    return made if made.area > 0.0 else made.reversed()
