"""The worst case as really made: each stop's angle when every measure is a little off.

First order, with u the thrust and P' = dP/dangle:  u.P' dangle = u.dD - u.R dp - da, so one mm in
arm, pivot or notch counts the same along the thrust.  The spread itself is exact: the angle is
monotonic in each measure until the arm stands upright, so its extremes lie in the corners of the
box of tolerances, or at upright where the box reaches past it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product

from flatpack.frozen import frozen
from flatpack.geometry import Point, cosine_sine
from flatpack.mechanism.hollows import Hollow
from flatpack.mechanism.prop import Miss, Prop, angle_about, pivot_at, upright
from flatpack.mechanism.stops import Stop


@frozen
class Tolerance:
    """Each place may be off by this much along x and along y, each length by this much; mm.

    `racks`: one rack stands this much off the other along x; the rod then lies askew, and the
    back, being stiff, takes the mean of both.
    """

    hinge: float = 1.0
    pivot: float = 1.0
    arm: float = 1.0
    notch: float = 1.0
    racks: float = 1.0


ONE = Tolerance()


@frozen
class Sensitivity:
    """Degrees of the back's angle a mm: of the rod's place, the pivot's place, and the arm."""

    rod: Point
    pivot: Point
    arm: float


@frozen
class Spread:
    """A stop's angles over all tolerances, `margin` and `lean` at their worst, degrees.

    `reached` is False when some combination leaves the rod out of the arm's reach; low and high
    then cover those that reach it.  `held`: the thrust stays within the normals in all of them.
    """

    seat: int
    angle: float
    low: float
    high: float
    margin: float
    lean: float
    reached: bool
    held: bool
    sensitivity: Sensitivity


def sensitivity(prop: Prop, stop: Stop) -> Sensitivity:
    """First-order change of a stop's angle with each measure, degrees a mm."""
    u, p = stop.loaded.thrust, stop.pivot
    lever = u.y * p.x - u.x * p.y
    per = math.degrees(1.0 / lever)
    c, s = cosine_sine(stop.angle)
    return Sensitivity(
        rod=Point(u.x * per, u.y * per),
        pivot=Point(-(u.x * c + u.y * s) * per, (u.x * s - u.y * c) * per),
        arm=-per,
    )


def spread(prop: Prop, stop: Stop, tolerance: Tolerance = ONE) -> Spread:
    """The worst case of one stop over a box of tolerances.

    Hinge and notch only count by their distance, so their tolerances add up.
    """
    states = list(_states(prop, stop.loaded.hollow, tolerance))
    met = [s for s in states if s is not None]
    angles = [stop.angle, *(angle for angle, _ in met), *_tops(prop, stop, tolerance)]
    margins = [-math.degrees(stop.loaded.hollow.excess(u)) for _, u in met]
    leans = [math.degrees(math.atan2(u.x, -u.y)) for _, u in met]
    margin = min([stop.loaded.margin, *margins])
    reached = len(met) == len(states)
    return Spread(
        seat=stop.seat,
        angle=stop.angle,
        low=min(angles),
        high=max(angles),
        margin=margin,
        lean=min([stop.lean, *leans]),
        reached=reached,
        held=reached and margin >= 0.0,
        sensitivity=sensitivity(prop, stop),
    )


def spreads(prop: Prop, found: tuple[Stop, ...], tolerance: Tolerance = ONE) -> tuple[Spread, ...]:
    """The worst case of every stop."""
    return tuple(spread(prop, stop, tolerance) for stop in found)


def _states(
    prop: Prop, hollow: Hollow, tolerance: Tolerance
) -> Iterator[tuple[float, Point] | None]:
    """Angle and thrust in each corner of the box; None where the arm doesn't reach."""
    x, y = _rod_box(tolerance)
    p, a = tolerance.pivot, tolerance.arm
    for i, j, k, m, n in product((-1.0, 1.0), repeat=5):
        made = Prop(
            pivot=Point(prop.pivot.x + k * p, prop.pivot.y + m * p),
            arm=prop.arm + n * a,
            rod=prop.rod,
        )
        yield _state(made, Point(hollow.centre.x + i * x, hollow.centre.y + j * y), hollow.radius)


def _state(prop: Prop, centre: Point, radius: float) -> tuple[float, Point] | None:
    angle = angle_about(prop, centre, prop.arm - radius)
    if isinstance(angle, Miss):
        return None
    p = pivot_at(prop, angle)
    length = prop.arm - radius
    return angle, Point((centre.x - p.x) / length, (centre.y - p.y) / length)


def _tops(prop: Prop, stop: Stop, tolerance: Tolerance) -> Iterator[float]:
    """Angles with the arm upright in those corners where the rod's place may reach upright."""
    x, y = _rod_box(tolerance)
    p, a = tolerance.pivot, tolerance.arm
    hollow = stop.loaded.hollow
    for j, k, m, n in product((-1.0, 1.0), repeat=4):
        made = Prop(
            pivot=Point(prop.pivot.x + k * p, prop.pivot.y + m * p),
            arm=prop.arm + n * a,
            rod=prop.rod,
        )
        top = upright(made, hollow.centre.y - hollow.radius + j * y)
        if top is not None and abs(pivot_at(made, top).x - hollow.centre.x) < x:
            yield top


def _rod_box(tolerance: Tolerance) -> tuple[float, float]:
    """Half widths of the box of the rod's place against the hinge: along x and along y, mm."""
    y = tolerance.hinge + tolerance.notch
    return y + tolerance.racks / 2.0, y
