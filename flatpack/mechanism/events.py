"""The back angles at which something changes for an arm on a track, all in closed form.

A rod's rest on a track begins and ends where the arm just reaches an end of the track, or where
the arm's circle only grazes it; between two such angles it moves smoothly.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from flatpack.frozen import replace
from flatpack.geometry import Point, Segment
from flatpack.mechanism.nearest import covers
from flatpack.mechanism.prop import Miss, Prop, angles_at, circle_circle
from flatpack.mechanism.track import crossing

NEAR = 1e-4  # mm: places this close are one, where a grazing circle costs half the digits


class Cross(NamedTuple):
    """A crossing of the arm's circle with a track: height angle from straight down, radians."""

    lean: float
    number: int
    branch: int
    rod: Point


def crossings(
    chain: tuple[Segment, ...], pivot: Point, arm: float, numbers: range | None = None
) -> Iterator[Cross]:
    """Every place on the chain that the rod could have with its pivot here."""
    for number in numbers if numbers is not None else range(len(chain)):
        track = chain[number]
        for branch in (0, 1):
            rod = _reached(track, pivot, arm, branch)
            if rod is not None:
                lean = math.atan2(rod.x - pivot.x, pivot.y - rod.y)
                yield Cross(lean, number, branch, rod)


def bears(track: Segment, cross: Cross, pivot: Point) -> bool:
    """Whether the rod, swinging down, would come to rest here: its free side is on the left.

    Swinging down it enters the wood exactly when the arm points along the chain's direction.
    """
    tx, ty = heading_at(track, cross.rod)
    return (cross.rod.x - pivot.x) * tx + (cross.rod.y - pivot.y) * ty > 0.0


def heading_at(track: Segment, place: Point) -> Point:
    """Unit direction of travel along a track at a place on it."""
    if track.bulge == 0.0:
        return track.direction(0.0)
    cx, cy = track.centre
    k = math.copysign(1.0, track.bulge) / math.dist(track.centre, place)
    return Point(-(place.y - cy) * k, (place.x - cx) * k)


def changes(prop: Prop, track: Segment) -> Iterator[float]:
    """Angles at which the arm reaches an end of the track or its circle grazes it, unordered."""
    yield from reaching(prop, track.start, prop.arm)
    yield from reaching(prop, track.end, prop.arm)
    if track.bulge != 0.0:
        r = track.radius
        yield from reaching(prop, track.centre, prop.arm + r)
        yield from reaching(prop, track.centre, abs(prop.arm - r))
        return
    ux, uy = track.direction(0.0)
    off = track.start.y * ux - track.start.x * uy
    rho, zero = math.hypot(*prop.pivot), math.atan2(prop.pivot.y, prop.pivot.x)
    heading = math.atan2(uy, ux)
    for distance in (off + prop.arm, off - prop.arm):
        if abs(distance) <= rho:
            turn = math.asin(distance / rho)
            for t in (turn, math.pi - turn):
                yield math.degrees(math.remainder(heading - zero + t, math.tau))


def aligned(prop: Prop, track: Segment) -> Iterator[float]:
    """Angles at which hinge, pivot and a rod on the track lie in one line.

    There the rod turns back on its track while the back goes on.
    """
    rho, zero = math.hypot(*prop.pivot), math.atan2(prop.pivot.y, prop.pivot.x)
    hinge = Point(0.0, 0.0)
    for distance in (rho + prop.arm, abs(rho - prop.arm)):
        for cross in crossings((track,), hinge, distance):
            towards = math.atan2(cross.rod.y, cross.rod.x)
            if distance == prop.arm - rho:
                towards += math.pi
            yield math.degrees(math.remainder(towards - zero, math.tau))


def hangs_onto(prop: Prop, track: Segment) -> Iterator[float]:
    """Angles at which a rod hanging straight below its pivot meets the track."""
    rho, zero = math.hypot(*prop.pivot), math.atan2(prop.pivot.y, prop.pivot.x)
    below = Point(0.0, -prop.arm)
    for cross in crossings((track,), below, rho):
        towards = math.atan2(cross.rod.y + prop.arm, cross.rod.x)
        yield math.degrees(math.remainder(towards - zero, math.tau))


def reaching(prop: Prop, place: Point, distance: float) -> tuple[float, ...]:
    """Both angles at which the pivot stands at a distance from a place; none when it can't."""
    found = angles_at(replace(prop, arm=distance), place)
    return () if isinstance(found, Miss) else found


def _reached(track: Segment, pivot: Point, arm: float, branch: int) -> Point | None:
    if track.bulge != 0.0:
        centre = track.centre
        if isinstance(circle_circle(pivot, arm, centre, track.radius), Miss):
            return None
        rod = crossing(track, pivot, arm, branch)
        return rod if covers(track, rod.x - centre.x, rod.y - centre.y) else None
    (x0, y0), (x1, y1) = track.start, track.end
    dx, dy = x1 - x0, y1 - y0
    off = (pivot.x - x0) * dy - (pivot.y - y0) * dx
    squared = dx * dx + dy * dy
    if off * off > arm * arm * squared or squared == 0.0:
        return None
    rod = crossing(track, pivot, arm, branch)
    along = (rod.x - x0) * dx + (rod.y - y0) * dy
    slack = 1e-9 * math.sqrt(squared)
    return rod if -slack <= along <= squared + slack else None
