"""A hinged panel held by an arm: where the pivot stands, and which angles a rod's place gives.

Hinge frame: origin on the hinge axis, x towards the back's free end when flat, y up.  The back's
angle is 0 when flat and grows as the free end rises.  Degrees in and out, lengths mm.

                 P pivot, on a circle about the hinge
               .'|`.
            .'   |   `.  arm
          .'     |      `.
    hinge O ------------- D  rod, at rest on the rack
"""

from __future__ import annotations

import math
from enum import StrEnum
from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry import Point, cosine_sine


@frozen
class Prop:
    """An arm on a hinged back: `pivot` in the back's own axes when flat, mm.

    `pivot.x` runs along the back from the hinge axis and `pivot.y` out of it (below: negative);
    `arm` is the length from pivot to rod centre and `rod` the rod's diameter.
    """

    pivot: Point
    arm: float
    rod: float


class Reach(StrEnum):
    """Why two circles don't meet."""

    TOO_FAR = "too far"
    TOO_NEAR = "too near"


class Miss(NamedTuple):
    """Two circles that don't meet: the reason, and the gap in mm by which they miss."""

    reason: Reach
    gap: float


def circle_circle(
    first: Point, first_radius: float, second: Point, second_radius: float
) -> tuple[Point, Point] | Miss:
    """Where two circles cross: the point right of the line first to second, then the left one.

    With d the distance of the centres, a = (r0^2 - r1^2 + d^2) / 2d along that line and
    h = sqrt(r0^2 - a^2) across it; (d - r1)(d + r1) keeps the digits when the circles are large.
    """
    dx, dy = second.x - first.x, second.y - first.y
    d = math.hypot(dx, dy)
    if d > first_radius + second_radius:
        return Miss(Reach.TOO_FAR, d - first_radius - second_radius)
    if d < abs(first_radius - second_radius) or d == 0.0:
        return Miss(Reach.TOO_NEAR, abs(first_radius - second_radius) - d)
    a = (first_radius * first_radius + (d - second_radius) * (d + second_radius)) / (2.0 * d)
    h = math.sqrt(max((first_radius - a) * (first_radius + a), 0.0))
    ux, uy = dx / d, dy / d
    foot_x, foot_y = first.x + a * ux, first.y + a * uy
    return Point(foot_x + h * uy, foot_y - h * ux), Point(foot_x - h * uy, foot_y + h * ux)


def pivot_at(prop: Prop, degrees: float) -> Point:
    """The arm's pivot in the hinge frame with the back at `degrees`."""
    c, s = cosine_sine(degrees)
    x, y = prop.pivot
    return Point(x * c - y * s, x * s + y * c)


def angles_at(prop: Prop, rod_centre: Point) -> tuple[float, float] | Miss:
    """Both back angles at which the arm reaches `rod_centre`: the low one, then the high one.

    Low has the pivot clockwise of the line hinge to rod, high anticlockwise of it.  A back that
    rests on its rod stands on the high one: the rod then lies below the pivot and pushes it up,
    while on the low one the pivot hangs below the rod.  Degrees in (-180, 180].
    """
    return _angles(prop.pivot, prop.arm, rod_centre)


def angle_at(prop: Prop, rod_centre: Point) -> float | Miss:
    """The high angle of `angles_at`: that of a back resting on its rod, degrees."""
    found = _angles(prop.pivot, prop.arm, rod_centre)
    return found if isinstance(found, Miss) else found[1]


def angle_about(prop: Prop, centre: Point, distance: float) -> float | Miss:
    """The high angle at which the pivot stands `distance` from `centre`, degrees.

    With the arm's length less (more) a radius this is the rod's lowest (highest) place on a
    hollow (rounded) path about `centre`.
    """
    found = _angles(prop.pivot, distance, centre)
    return found if isinstance(found, Miss) else found[1]


def thrust_at(prop: Prop, degrees: float, rod_centre: Point) -> Point:
    """Unit vector of the arm's push on the rod, from pivot to rod centre."""
    p = pivot_at(prop, degrees)
    dx, dy = rod_centre.x - p.x, rod_centre.y - p.y
    length = math.hypot(dx, dy)
    return Point(dx / length, dy / length)


def lean_at(prop: Prop, degrees: float, rod_centre: Point) -> float:
    """Degrees by which the arm leans from upright; negative with the rod on the hinge's side."""
    u = thrust_at(prop, degrees, rod_centre)
    return math.degrees(math.atan2(u.x, -u.y))


def upright(prop: Prop, rod_height: float) -> float | None:
    """The back's largest angle with the rod at `rod_height`: there the arm stands upright.

    The pivot is then arm + rod_height above the hinge: rho sin(angle + phi) = arm + rod_height.
    None when the arm is so long that it never stands upright.
    """
    x, y = prop.pivot
    rho, rise = math.hypot(x, y), prop.arm + rod_height
    if abs(rise) > rho:
        return None
    return math.degrees(math.asin(rise / rho) - math.atan2(y, x))


def rod_at(prop: Prop, degrees: float, rod_height: float) -> Point | Miss:
    """The rod's centre at `rod_height` with the back at `degrees`, on the free end's side.

    Miss gives how much too short the arm is for the rise.
    """
    p = pivot_at(prop, degrees)
    rise = p.y - rod_height
    if abs(rise) > prop.arm:
        return Miss(Reach.TOO_FAR, abs(rise) - prop.arm)
    return Point(p.x + math.sqrt((prop.arm - rise) * (prop.arm + rise)), rod_height)


def _angles(pivot: Point, arm: float, rod_centre: Point) -> tuple[float, float] | Miss:
    rho = math.hypot(pivot.x, pivot.y)
    found = circle_circle(Point(0.0, 0.0), rho, rod_centre, arm)
    if isinstance(found, Miss):
        return found
    low, high = found
    zero = math.atan2(pivot.y, pivot.x)
    return _turned(low, zero), _turned(high, zero)


def _turned(place: Point, zero: float) -> float:
    turn = math.degrees(math.atan2(place.y, place.x) - zero)
    return turn - 360.0 if turn > 180.0 else turn + 360.0 if turn <= -180.0 else turn
