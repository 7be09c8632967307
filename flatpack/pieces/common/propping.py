"""A panel held up by two arms, a rod and notched racks: what every family sets out alike.

Hinge frame: origin on the hinge axis, x towards the free end, y up.  The rod lies under the
panel's battens when the panel is at rest; the racks' notches lie below it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from flatpack.frozen import frozen
from flatpack.geometry import Point, Segment
from flatpack.joinery.axis import kept_clear, spread
from flatpack.joinery.pocket_screws import MARGIN
from flatpack.mechanism.notches import Kind, NotchForm, cut, rack_contour, seat_of
from flatpack.mechanism.prop import Prop, pivot_at
from flatpack.pieces.family import Workings, mm

LAND = 12.0
"""Flat left before the first notch and on top of a tooth block, mm (common practice, no source)."""
Set = tuple[tuple[Point, ...], tuple[Point, ...]]
"""Rods' centres at the stops, and the notches' datums, lowest angle first."""


@frozen(kw_only=False)
class Levels:
    """Heights in the hinge frame: the rack's top, its notches' floor, its lower edge, the pivot."""

    top: float
    floor: float
    bottom: float
    pivot: float


@frozen
class PropSetting:
    """The prop set out, hinge frame, mm.

    `seats` are the rods' centres at the stops, lowest angle first; `datums` the notches' feet in
    the same order; `blocks` the feet of the tooth blocks, one for each notch and one more at the
    hinge's end, whose ramp keeps the rod from being drawn off the bearer (none on a bar);
    `contour` the rack's upper edge from the hinge's end; `floor`, `top` and `bottom` the rack's
    levels, `start` and `end` its ends.
    """

    prop: Prop
    folded: Point
    form: NotchForm
    seats: tuple[Point, ...]
    datums: tuple[Point, ...]
    blocks: tuple[Point, ...]
    contour: tuple[Segment, ...]
    floor: float
    top: float
    bottom: float
    start: float
    end: float


def run_of(form: NotchForm) -> float:
    """Length of a notch beyond its floor towards the hinge: the ramp's, or the rim's."""
    if form.kind is Kind.RAMP:
        return form.depth / math.tan(math.radians(form.ramp))
    if form.kind is Kind.VEE:
        return form.depth * math.tan(math.radians(form.near))
    return form.radius if form.kind is Kind.HALF_ROUND else 0.0


def bar_edge(
    form: NotchForm, datums: tuple[Point, ...], levels: Levels, start: float, end: float
) -> tuple[Segment, ...]:
    """Edge of a bar with a notch at each datum, from the hinge end."""
    notches = [cut(form, d) for d in reversed(datums)]
    made = rack_contour(notches, Point(start, levels.top), Point(end, levels.top))
    return made if isinstance(made, tuple) and isinstance(made[0], Segment) else ()


def notches_for_angles(
    angles: tuple[float, ...],
    prop: Prop,
    form: NotchForm,
    floor: float,
    notes: Workings,
    panel: str = "back",
) -> Set:
    """Rod centres and notch datums for the wanted angles, in closed form.

    The seat's centre C lies at a known height; the rod's centre is on the line from the pivot
    through it, the seat's slack short of the arm: |P C| = arm - slack gives C's x.
    """
    spot, slack = seat_of(form, prop.rod / 2.0)
    seats, datums = [], []
    for number, angle in enumerate(angles, 1):
        pivot = pivot_at(prop, angle)
        reach, rise = prop.arm - slack, pivot.y - floor - spot.y
        run = math.sqrt(max(reach * reach - rise * rise, 0.0))
        centre = Point(pivot.x + run, floor + spot.y)
        share = prop.arm / reach
        seats.append(
            Point(pivot.x + (centre.x - pivot.x) * share, pivot.y + (centre.y - pivot.y) * share)
        )
        datums.append(Point(centre.x - spot.x, floor))
        notes.add(
            f"Notch {number}, rod's centre from the hinge axis",
            seats[-1].x,
            f"{panel} at {mm(angle)}°: pivot {mm(pivot.x)} along and {mm(pivot.y)} up, "
            f"arm {mm(prop.arm)}, rod {mm(seats[-1].y)} up",
        )
    return tuple(seats), tuple(datums)


def longest_pivot(arm_for: Callable[[float], float], drop: float, limit: float) -> float:
    """Furthest pivot from the axis whose arm still folds in, its rod `limit` away at most, mm.

    `arm_for` gives the arm for a pivot; the folded rod lies `drop` below the pivot.
    """
    low, high = 1.0, limit
    for _ in range(50):
        middle = (low + high) / 2.0
        arm = arm_for(middle)
        reach = middle + math.sqrt(max(arm * arm - drop * drop, 0.0))
        low, high = (middle, high) if reach <= limit else (low, middle)
    return low


def folded_at(prop: Prop, height: float) -> Point:
    """The folded rod's centre, at a height."""
    drop = prop.pivot.y - height
    return Point(prop.pivot.x + math.sqrt(max(prop.arm**2 - drop * drop, 0.0)), height)


def clear_of_pockets(
    most: float, boards: Sequence[tuple[float, float]], count: int, room: float, apart: float
) -> float:
    """Next place towards the hinge, in whole mm, where pockets under every board find room.

    `boards` are where each begins and ends along the panel; `count` pockets stand under each,
    `apart` from one another and `room` from the pivot, mm.
    """
    pitch = max(b - a for (a, _), (b, _) in pairwise(boards)) if len(boards) > 1 else most
    for back_off in range(math.ceil(pitch)):
        pivot = most - back_off
        for low, high in boards:
            margin = min(MARGIN, (high - low) / 4.0)
            inside, blocked = (low + margin, high - margin), [(pivot - room, pivot + room)]
            if not kept_clear(spread(low, high, count), *inside, blocked, apart, None):
                break
        else:
            return pivot
    return most
