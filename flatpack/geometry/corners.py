"""Inside corners of a chain: rounded by the cutter's radius, or relieved so that a square seats.

rounded           corner circle: centre on the bisector, `radius` from the corner, so that
  |                 the circle just reaches it and each side is left 2 r cos(w/2) away
  |  w = angle         |
  '---                 (    for w = 90 degrees the arc is half a circle on a chord
    r                   '---   of 2 r, its centre r / sqrt 2 off each side
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from flatpack.geometry.outline import Point, Segment

Worked = tuple[float, float]
"""How far from the corner a side is left, mm, and the bulge of the arc that takes over."""


def rounded_inside(chain: Sequence[Segment], radius: float) -> tuple[Segment, ...]:
    """The chain with its left-hand corners between straight sides rounded by a radius.

    A side too short for its roundings is left as it is.
    """
    return _worked(chain, lambda w: (radius / math.tan(w / 2.0), math.tan((math.pi - w) / 4.0)))


def relieved(chain: Sequence[Segment], radius: float) -> tuple[Segment, ...]:
    """The chain with a corner circle at its left-hand corners between straight sides.

    The arc turns right about a centre in the opening, through the corner itself.
    """
    return _worked(
        chain, lambda w: (2.0 * radius * math.cos(w / 2.0), math.tan((math.pi - w) / 2.0))
    )


def _worked(chain: Sequence[Segment], how: Callable[[float], Worked]) -> tuple[Segment, ...]:
    corners = [_corner(a, b, how) for a, b in pairwise(chain)]
    before, after = [None, *corners], [*corners, None]
    made: list[Segment] = []
    for segment, first, last in zip(chain, before, after, strict=True):
        low = first[0] if first else 0.0
        high = last[0] if last else 0.0
        start, end = _along(segment, low), _along(segment, segment.chord - high)
        if first:
            made.append(Segment(made[-1].end, start, first[1]))
        made.append(Segment(start if first else segment.start, end if last else segment.end,
                            segment.bulge))  # fmt: skip
    return tuple(made)


def _corner(a: Segment, b: Segment, how: Callable[[float], Worked]) -> Worked | None:
    """How the corner between two straight sides is worked; None where it stays."""
    if a.bulge or b.bulge:
        return None
    ux, uy = a.direction(1.0)
    vx, vy = b.direction(0.0)
    turn = math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)
    if turn < 1e-3:
        return None
    away, bulge = how(math.pi - turn)
    if away > 0.45 * min(a.chord, b.chord):
        return None
    return away, bulge


def _along(segment: Segment, length: float) -> Point:
    if length == 0.0:
        return segment.start
    share = length / segment.chord
    (x0, y0), (x1, y1) = segment.start, segment.end
    return Point(x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
