"""Lines across what two parts share: where fasteners stand in a row.

  /--------/          the shared room of a slanting brace on a level rail:
 /  * * * /           a row runs along the part that is longest there,
/--------/            from edge to edge of the true shape, not of the box round it
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from flatpack.geometry import Vec
from flatpack.model import Part
from flatpack.pieces.composed.directions import AXES, Plane
from flatpack.pieces.composed.meeting import Meeting

CLEARLY_LONGER = 1.5
"""Only where one way is this much longer than across the grain do screws stand along it: two in
one line of the grain help each other to split it (common practice, no source)."""
IN_PLANE = 1e-6

Stretch = tuple[Vec, Vec]


def row_line(met: Meeting, one: Part, other: Part, *, across: bool = False) -> Stretch:
    """The line that fasteners are shared along: the longer way of what two parts share.

    Asked for `across`, it crosses the grain of the first part, which they go through, unless
    another way is clearly longer.  Of ways alike the more upright one is taken, so that both hands
    choose the same.
    """
    middle = centre(met)
    grain = one.frame.x
    found = {}
    for way in (one.frame.x, one.frame.y, one.frame.z, other.frame.x, other.frame.y, other.frame.z):
        if abs(way.dot(met.normal)) < IN_PLANE:
            found[way] = chord(met, middle, way) or (middle, middle)
    lines = sorted(found.values(), key=lambda s: (-round(_run(s), 6), -round(_rise(s), 6)))
    if not lines:
        long, _ = met.ways()
        return chord(met, middle, AXES[long]) or (middle, middle)
    if across and abs(grain.dot(met.normal)) < IN_PLANE:
        abreast = chord(met, middle, met.normal.cross(grain)) or (middle, middle)
        if _run(abreast) * CLEARLY_LONGER >= _run(lines[0]):
            return abreast
    return lines[0]


def centre(met: Meeting) -> Vec:
    """Middle of the area that two parts share."""
    first, *rest = met.corners
    zero, whole = Vec(0.0, 0.0, 0.0), 0.0
    moment = zero
    for a, b in pairwise(rest):
        area = a.minus(first).cross(b.minus(first)).dot(met.normal)
        middle = zero.plus(first, 1 / 3).plus(a, 1 / 3).plus(b, 1 / 3)
        moment, whole = moment.plus(middle, area), whole + area
    return zero.plus(moment, 1.0 / whole)


def cut(met: Meeting, plane: Plane) -> Stretch | None:
    """Where a plane cuts what two parts share; None where it doesn't."""
    run = met.normal.cross(plane.normal)
    if run.length < IN_PLANE:
        return None
    along = run.unit()
    off = along.cross(met.normal)
    start = met.corners[0]
    slope = off.dot(plane.normal)
    return chord(met, start.plus(off, (plane.reach - start.dot(plane.normal)) / slope), along)


def chord(met: Meeting, through: Vec, way: Vec) -> Stretch | None:
    """The longest stretch of a line within what two parts share; None where it runs beside it.

    It begins at its lower, left or front end.
    """
    along = _onwards(way.unit())
    places = sorted(_crossings(met, through, along))
    pairs = list(zip(places[::2], places[1::2], strict=False))
    if not pairs:
        return None
    low, high = max(pairs, key=lambda p: p[1] - p[0])
    return through.plus(along, low), through.plus(along, high)


def _crossings(met: Meeting, through: Vec, along: Vec) -> Iterator[float]:
    aside = along.cross(met.normal)
    away = [c.minus(through) for c in met.corners]
    for a, b in zip(away, away[1:] + away[:1], strict=True):
        d, e = a.dot(aside), b.dot(aside)
        if (d >= 0.0) != (e >= 0.0):
            share = d / (d - e)
            yield a.dot(along) * (1.0 - share) + b.dot(along) * share


def _onwards(way: Vec) -> Vec:
    """A direction, or its opposite, whichever goes up, else to the right, else to the rear."""
    main = next(c for c in (way.z, way.y, way.x) if abs(c) > IN_PLANE)
    return way if main > 0.0 else way.negated()


def _run(stretch: Stretch) -> float:
    return stretch[1].minus(stretch[0]).length


def _rise(stretch: Stretch) -> float:
    run = stretch[1].minus(stretch[0])
    return abs(run.z) / (run.length or 1.0)


def shared(stretch: Stretch, count: int) -> tuple[Vec, ...]:
    """`count` places shared evenly over a stretch, half a share in from each end."""
    start, end = stretch
    run = end.minus(start)
    return tuple(start.plus(run, (i + 0.5) / count) for i in range(count))
