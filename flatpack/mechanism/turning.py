"""First contact of a shape that turns about the origin with one that stands still, solved.

Contact begins or ends only where a corner meets a side or two sides touch; each such angle is a
crossing of circles and lines.  Between two neighbouring angles the shapes overlap throughout or
not at all, so one look in the middle settles each interval.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from flatpack.geometry import Point, Segment
from flatpack.mechanism.convex import HOME, Convex, pose, signed_gap
from flatpack.mechanism.prop import Miss, circle_circle

ORIGIN = Point(0.0, 0.0)
GRAZE = 1e-9  # mm: shapes that overlap by less only touch


def first_overlap(
    still: tuple[Convex, Sequence[Segment]],
    moving: tuple[Convex, Sequence[Segment]],
    until: float = math.pi,
) -> float | None:
    """Least turn from 0 after which two shapes overlap, radians; None when there is none.

    Each shape comes with those of its sides that can meet; turns are anticlockwise.
    """
    angles = (a % math.tau for a in _contacts(still[1], moving[1]))
    ordered = [0.0, *sorted(a for a in angles if a < until), until]
    for low, high in pairwise(ordered):
        if high - low > 1e-12:
            middle = pose((low + high) / 2.0)
            if signed_gap(still[0], HOME, moving[0], middle).value < -GRAZE:
                return low
    return None


def _contacts(still: Sequence[Segment], moving: Sequence[Segment]) -> Iterator[float]:
    """Every turn at which the two could begin or cease to touch, unordered, with false ones."""
    for a in still:
        for b in moving:
            for corner in (b.start, b.end):
                yield from _turns(corner, _at_distance(a, math.hypot(*corner), 0.0))
            for corner in (a.start, a.end):
                for place in _at_distance(b, math.hypot(*corner), 0.0):
                    yield _angle(corner) - _angle(place)
            if b.bulge != 0.0:
                yield from _arc_on(a, b)
            elif a.bulge != 0.0:
                yield from (-t for t in _arc_on(b, a))


def _arc_on(side: Segment, arc: Segment) -> Iterator[float]:
    """Turns of an arc about the origin that bring it to touch the endless side from outside.

    Both borders run anticlockwise, so outside is on the right of travel; convex shapes can't
    touch from within.
    """
    centre = arc.centre
    yield from _turns(centre, _at_distance(side, math.hypot(*centre), arc.radius))


def _turns(place: Point, targets: list[Point]) -> Iterator[float]:
    for target in targets:
        yield _angle(target) - _angle(place)


def _angle(place: Point) -> float:
    return math.atan2(place.y, place.x)


def _at_distance(side: Segment, distance: float, offset: float) -> list[Point]:
    """Points at a distance from the origin on the endless line or circle `offset` mm off a side."""
    if side.bulge != 0.0:
        found = circle_circle(ORIGIN, distance, side.centre, abs(side.radius + offset))
        return [] if isinstance(found, Miss) else list(found)
    ux, uy = side.direction(0.0)
    off = side.start.x * uy - side.start.y * ux + offset
    if abs(off) > distance:
        return []
    half = math.sqrt((distance - off) * (distance + off))
    return [Point(off * uy + k * ux, -off * ux + k * uy) for k in (-half, half)]
