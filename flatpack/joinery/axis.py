"""An axis in the piece, and the hole that it makes in each part that it meets."""

from __future__ import annotations

import math
from collections.abc import Sequence

from flatpack.features import EdgeHole, Hole
from flatpack.geometry import Point, Vec
from flatpack.model import Feature, Part, is_shaped, passage, placed_corners

SQUARE = 1e-9
"""Directions closer than this to square or parallel count as such."""


def square_to_faces(part: Part, direction: Vec) -> bool:
    """True when the direction runs straight through the part's thickness."""
    return abs(abs(part.frame.z.dot(direction)) - 1.0) < SQUARE


def in_plane(part: Part, direction: Vec) -> bool:
    """True when the direction runs parallel to the part's faces."""
    return abs(part.frame.z.dot(direction)) < SQUARE


def span(part: Part, start: Vec, direction: Vec) -> tuple[float, float]:
    """Distances from `start` along the unit `direction` at which the axis enters and leaves.

    Through a rounded or hollow part along one of its axes the rectangle round it is used; through
    any other its true edges and slanting cuts.  An axis that misses them has both ends in one
    place, for the checks to tell.
    """
    at, d = part.frame.local(start), part.frame.local_direction(direction)
    x0, y0, x1, y1 = part.outline.bounds
    shaped = is_shaped(part)
    for place, way, low, high in (
        (at.z, d.z, 0.0, part.thickness),
        (at.x, d.x, x0, x1),
        (at.y, d.y, y0, y1),
    ):
        if abs(abs(way) - 1.0) < SQUARE and not shaped:
            ends = sorted(((low - place) / way, (high - place) / way))
            return ends[0], ends[1]
    found = passage(part, at, d)
    return found.enter, found.leave


def bore(
    part: Part,
    start: Vec,
    direction: Vec,
    *,
    diameter: float,
    depth: float | None,
    fit: str,
    purpose: str,
) -> Feature:
    """Hole that the axis makes in a part: in its face, or in its edge or end.

    `depth` is measured from where the axis enters the part; None goes through.
    """
    enter, leave = span(part, start, direction)
    if depth is not None and depth >= leave - enter - SQUARE:
        depth = None
    local = part.frame.local(start.plus(direction, enter))
    way = part.frame.local_direction(direction)
    if square_to_faces(part, direction):
        face = "back" if way.z > 0.0 else "show"
        at = Point(_tidy(local.x), _tidy(local.y))
        return Hole(
            at=at,
            diameter=diameter,
            depth=None if depth is None else _tidy(depth),
            face="back" if face == "back" else "show",
            fit=fit,
            purpose=purpose,
        )
    flat = math.hypot(way.x, way.y)
    return EdgeHole(
        at=Point(_tidy(local.x), _tidy(local.y)),
        inward=Point(_tidy(way.x / flat), _tidy(way.y / flat)),
        height=_tidy(local.z),
        rise=_tidy(math.degrees(math.atan2(way.z, flat))),
        diameter=diameter,
        depth=_tidy(leave - enter if depth is None else depth),
        fit=fit,
        purpose=purpose,
    )


def _tidy(value: float) -> float:
    """Value without the last few bits of noise that turning into local axes leaves."""
    return round(value, 9) + 0.0


def extent(part: Part, direction: Vec, origin: Vec) -> tuple[float, float]:
    """Least and greatest distance of the part from `origin` along a unit direction."""
    own = part.frame.local_direction(direction)
    if max(map(abs, own)) > 1.0 - SQUARE and not part.planes:
        x0, y0, x1, y1 = part.outline.bounds
        start = part.frame.origin.minus(origin).dot(direction)
        ends = (own.x * x0 + own.y * y0, own.x * x1 + own.y * y1 + own.z * part.thickness)
        return start + min(ends), start + max(ends)
    reach = [corner.minus(origin).dot(direction) for corner in placed_corners(part)]
    return min(reach), max(reach)


def spread(low: float, high: float, count: int) -> tuple[float, ...]:
    """`count` places shared evenly over low..high, half a share in from each end."""
    share = (high - low) / count
    return tuple(low + share * (i + 0.5) for i in range(count))


def kept_clear(
    wanted: Sequence[float],
    low: float,
    high: float,
    blocked: Sequence[tuple[float, float]],
    apart: float,
    otherwise: Sequence[float] | None = (),
) -> tuple[float, ...]:
    """Rising places moved as little as can be, clear of blocked stretches and `apart` from another.

    Each lies at its own place, at an end of the room or of a stretch, or whole steps of `apart`
    from one; the set with the least sum of moves is taken.  If there is none, they stay and the
    checks then say so (with `otherwise` None: none are given back).
    """
    marks = {low, high, *wanted, *(end for stretch in blocked for end in stretch)}
    steps = range(-len(wanted) + 1, len(wanted))
    choices = sorted(
        {p for mark in marks for k in steps if _clear(p := mark + k * apart, low, high, blocked)}
    )
    best: list[tuple[float, tuple[float, ...]]] = [(0.0, ())]
    for want in wanted:
        longer = [
            min(
                (
                    (moved + abs(choice - want), (*places, choice))
                    for moved, places in best
                    if not places or choice - places[-1] >= apart - CLOSE
                ),
                default=None,
            )
            for choice in choices
        ]
        best = [one for one in longer if one is not None]
    stay = () if otherwise is None else tuple(wanted)
    return min(best, default=(0.0, stay))[1]


CLOSE = 1e-9
"""Lengths closer than this are equal, mm."""


def _clear(place: float, low: float, high: float, blocked: Sequence[tuple[float, float]]) -> bool:
    inside = low - CLOSE <= place <= high + CLOSE
    return inside and not any(a + CLOSE < place < b - CLOSE for a, b in blocked)
