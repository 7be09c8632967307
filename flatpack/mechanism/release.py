"""How a person lowers the back: lift, effort, room for a hand, and gaps that may catch a finger.

At a stop the tooth keeps the rod from swinging up.  The person raises the back a little, which
draws the rod off the tooth, swings the arms up over the teeth and carries the rod down with them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from flatpack.frozen import frozen, replace
from flatpack.geometry import Point
from flatpack.mechanism.bodies import Body, Carrier
from flatpack.mechanism.clearing import LIMIT, clear_angle, stand_at
from flatpack.mechanism.follow import first_rest, follow, swing
from flatpack.mechanism.pairs import gap_at, pairs
from flatpack.mechanism.path import Path
from flatpack.mechanism.prop import Prop, pivot_at
from flatpack.mechanism.track import Phase, Stand

GRAVITY = 9.80665  # m/s2, standard gravity (3rd CGPM, 1901)


@frozen
class Masses:
    """Masses in kg, and where they act.

    `cog` is the back's centre of gravity in its own axes when flat; `arms` both arms together,
    `arms_cog` its distance from the pivot towards the rod; `grip` the distance from the hinge at
    which a hand lifts the back, mm.
    """

    back: float
    cog: Point
    arms: float
    arms_cog: float
    rod: float
    grip: float


@frozen
class Release:
    """What it takes to let one stop go.

    `clears` is the angle to which the back must rise before the rod swings free, degrees (None:
    it doesn't within the limit) and `raise_back` that less the stop's own.  `drawn` is the rod's
    centre then; `lift` the height in mm by which the rod must rise from there, `swing` the arms'
    turn for it in degrees.  `through` is True when raising so far lets the rod drop into another
    notch first.  `on_back` is the force in N square to the back at the grip that holds it there
    with the rod lifted, `on_rod` the upward force in N that lifts the rod.
    """

    degrees: float
    seat: Point
    clears: float | None
    raise_back: float
    drawn: Point
    lift: float
    swing: float
    through: bool
    on_back: float
    on_rod: float


def release(
    path: Path, degrees: float, seat: Point, masses: Masses, limit: float = LIMIT
) -> Release:
    """How to let go of a stop at `degrees` with its rod centre at `seat`."""
    prop = path.prop
    clears = clear_angle(prop, path.rack, degrees, seat, limit)
    at = degrees if clears is None else clears
    raising = follow(prop, path.rack, degrees, at + 1e-6, Phase.RAISING, seat)
    stand = stand_at(raising, at + 1e-6) if raising else Stand(at, pivot_at(prop, at), seat)
    free = _lifted(path, stand)
    turn = swing(prop, at, stand.rod, free, Phase.LIFTING)
    return Release(
        degrees=degrees,
        seat=seat,
        clears=clears,
        raise_back=at - degrees,
        drawn=stand.rod,
        lift=max(free.y - stand.rod.y, 0.0),
        swing=0.0 if turn is None else math.degrees(abs(turn.track.sweep)),
        through=any(s.phase is Phase.DROPPING for s in raising),
        on_back=back_force(prop, at, masses),
        on_rod=rod_force(prop, masses),
    )


def back_force(prop: Prop, degrees: float, masses: Masses) -> float:
    """Force square to the back at the grip that holds it up with the rod lifted by hand, N.

    Moments about the hinge: the back's weight at its centre of gravity, and at the pivot the
    share of the arms' weight that the hand on the rod doesn't carry.  0 past the balance.
    """
    cog = pivot_at(replace(prop, pivot=masses.cog), degrees)
    at_pivot = masses.arms * (1.0 - masses.arms_cog / prop.arm)
    moment = masses.back * cog.x + at_pivot * pivot_at(prop, degrees).x
    return max(moment * GRAVITY / masses.grip, 0.0)


def rod_force(prop: Prop, masses: Masses) -> float:
    """Upward force at the rod that lifts it: its weight and the arms' share (lever rule), N."""
    return (masses.rod + masses.arms * masses.arms_cog / prop.arm) * GRAVITY


def _lifted(path: Path, stand: Stand) -> Point:
    """Where the swung-up rod meets the carried way; its own place when it's already above."""
    way = tuple(s.track for s in path.stretches if s.phase is Phase.LOWERING)
    level = max((p.y for track in way for p in (track.start, track.end)), default=stand.rod.y)
    rise = stand.pivot.y - level
    arm = path.prop.arm
    if stand.rod.y >= level or abs(rise) > arm:
        return stand.rod
    return Point(stand.pivot.x + math.sqrt((arm - rise) * (arm + rise)), level)


@frozen
class HandRoom:
    """Room round the rod where a hand takes it, at one position: least gap and to what, mm."""

    degrees: float
    rod: Point
    room: float
    nearest: str | None


def hand_room(
    bodies: Sequence[Body], path: Path, lane: tuple[float, float], stands: Sequence[Stand]
) -> tuple[HandRoom, ...]:
    """Room between the rod's surface and everything else in the lane of a hand, at positions."""
    here = [
        replace(b, lane=lane) if b.carrier is Carrier.ROD else b
        for b in bodies
        if b.carrier is not Carrier.ARM
    ]
    near = [p for p in pairs(here, path.prop.arm) if p.moving.carrier is Carrier.ROD]
    rooms = []
    for stand in stands:
        gaps = [(gap_at(pair, stand), pair.still.name) for pair in near]
        room, name = min(gaps, default=(math.inf, None))
        rooms.append(HandRoom(degrees=stand.degrees, rod=stand.rod, room=room, nearest=name))
    return tuple(rooms)


def seated(prop: Prop, degrees: float, seat: Point) -> Stand:
    """The position at a stop."""
    return Stand(degrees, pivot_at(prop, degrees), seat)


def hangs_when_flat(path: Path) -> bool:
    """Whether nothing of the rack carries the rod when the back is flat."""
    return first_rest(path.rack, pivot_at(path.prop, 0.0), path.prop.arm) is None
