"""How far a back must rise from a stop before its rod can be swung up, clear of the teeth.

At a stop the tooth's face stands in the way of the rod's swing about its pivot.  Raising the back
drags the rod off the face until the arm's circle passes over every tooth between the rod and the
free end; that happens at one of the closed-form angles at which a crossing vanishes.
"""

from __future__ import annotations

import math
from itertools import pairwise

from flatpack.geometry import Point, Segment
from flatpack.mechanism.events import changes, crossings
from flatpack.mechanism.follow import follow
from flatpack.mechanism.prop import Prop, pivot_at
from flatpack.mechanism.track import Phase, Stand, Stretch

LIMIT = 30.0  # degrees past a stop within which the rod must come free
TOUCH = 1e-5  # mm along the arm's circle: the rod's own rest is no obstacle to it


def clear_angle(
    prop: Prop,
    chain: tuple[Segment, ...],
    start: float,
    seat: Point,
    limit: float = LIMIT,
) -> float | None:
    """Least back angle at which the rod, drawn from its seat, can be swung up freely, degrees.

    `start` is the stop's angle and `seat` the rod centre there; None when the rod doesn't come
    free within `limit` degrees.
    """
    raising = follow(prop, chain, start, start + limit, Phase.RAISING, seat)
    last = start + limit
    angles = {start, last}
    angles.update(a for s in raising for a in (s.start, s.end) if start < a < last)
    angles.update(a for t in chain for a in changes(prop, t) if start < a < last)
    ordered = sorted(angles)
    for low, high in pairwise(ordered):
        if high - low > 1e-9 and _swings_free(prop, chain, stand_at(raising, (low + high) / 2.0)):
            return low
    return None


def stand_at(raising: tuple[Stretch, ...], degrees: float) -> Stand:
    """The position at an angle on the way up, at rest after any drop there."""
    stretch = next((s for s in reversed(raising) if s.start <= degrees), raising[0])
    if stretch.start == stretch.end:
        return stretch.at(1.0)
    return _bisected(stretch, degrees)


def _bisected(stretch: Stretch, degrees: float) -> Stand:
    """The place on a stretch at an angle: angles rise along it, so halve until it's found."""
    low, high = 0.0, 1.0
    stand = stretch.at((degrees - stretch.start) / (stretch.end - stretch.start))
    for _ in range(60):
        if abs(stand.degrees - degrees) < 1e-10:
            break
        middle = (low + high) / 2.0
        stand = stretch.at(middle)
        low, high = (middle, high) if stand.degrees < degrees else (low, middle)
    return stand


def _swings_free(prop: Prop, chain: tuple[Segment, ...], stand: Stand) -> bool:
    """Whether nothing of the chain lies on the arm's circle above the rod."""
    pivot = pivot_at(prop, stand.degrees)
    lean = math.atan2(stand.rod.x - pivot.x, pivot.y - stand.rod.y) + TOUCH / prop.arm
    return not any(c.lean > lean for c in crossings(chain, pivot, prop.arm))
