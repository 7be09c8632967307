"""The back's angle at every loaded seat, and why some seats give none.

Which of the two angles: the rod lies below the line from hinge to pivot, so the pivot stands
anticlockwise of the line hinge to rod (`angles_at`, high).  Which side of upright: as the back
rises, the pivot comes nearer the hinge and higher, and the arm drags the rod after it, so the
rod is on the free end's side of the pivot and the thrust drives it into the stop faces.  At
upright the back is as high as that seat's height lets it be; with the rod nearer the hinge the
angle falls again and the thrust drives the rod towards the hinge, out of the notch.

In a loaded seat the rod is at a left turn of its path.  For a vertex the place is known and
|P(angle) - D| = arm gives the angle; in a round seat D = C + (R - r) u, and P = D - arm u gives
|P(angle) - C| = arm - (R - r): the same circles with another length, no iteration.
"""

from __future__ import annotations

import math
from enum import StrEnum

from flatpack.frozen import frozen, replace
from flatpack.geometry import Point
from flatpack.mechanism.hollows import Hollow
from flatpack.mechanism.prop import (
    Miss,
    Prop,
    Reach,
    angle_about,
    angle_at,
    lean_at,
    pivot_at,
    thrust_at,
    upright,
)
from flatpack.mechanism.seats import Loaded, Rack, Seat, settled

MINIMUM_LEAN = 5.0  # degrees: common practice, an arm nearer upright is easily pushed over


class Unreached(StrEnum):
    """Why a seat is no stop."""

    TOO_FAR = "arm too short for this seat"
    TOO_NEAR = "arm too long for this seat"
    BELOW_FLAT = "the back lies on its frame before the rod bears"
    PAST_UPRIGHT = "the arm is past upright: the back comes lower again"
    LOWERS = "the back comes lower than in the seat before"


@frozen
class Stop:
    """A rest position of the back at `seat` (numbered from the hinge's end), degrees and mm.

    `lean` is the arm's lean from upright, `limit` the angle at which it would stand upright with
    the rod at this height (None: never), `loaded` how the rod is settled.
    """

    seat: int
    angle: float
    pivot: Point
    loaded: Loaded
    lean: float
    limit: float | None

    @property
    def rod(self) -> Point:
        """The rod's centre."""
        return self.loaded.rod

    @property
    def held(self) -> bool:
        """Whether the faces alone, without friction, hold the rod."""
        return self.loaded.held


@frozen
class Passed:
    """A seat that gives no stop: the reason, and by how much (mm of arm, or degrees)."""

    seat: int
    reason: Unreached
    amount: float
    rod: Point


@frozen
class Stops:
    """Stops by rising angle, and the seats passed over, from the free end."""

    stops: tuple[Stop, ...]
    passed: tuple[Passed, ...]


def stops(prop: Prop, rack: Rack) -> Stops:
    """The back's stops on a rack, in the order in which raising meets them: from the free end."""
    found: list[Stop] = []
    passed: list[Passed] = []
    for seat in reversed(rack.seats):
        result = stop_at(prop, seat)
        if isinstance(result, Stop) and found and result.angle <= found[-1].angle:
            drop = found[-1].angle - result.angle
            result = Passed(seat=seat.number, reason=Unreached.LOWERS, amount=drop, rod=result.rod)
        if isinstance(result, Stop):
            found.append(result)
        else:
            passed.append(result)
    return Stops(stops=tuple(found), passed=tuple(passed))


def stop_at(prop: Prop, seat: Seat) -> Stop | Passed:
    """The back's angle with the rod loaded in one seat, or why there is none."""
    loaded = settled(seat, lambda hollow: push_in(prop, hollow))
    if loaded is None:
        return _out_of_reach(prop, seat)
    angle = angle_at(prop, loaded.rod)
    if isinstance(angle, Miss):
        return _out_of_reach(prop, seat)
    if not loaded.held:
        loaded = replace(loaded, thrust=thrust_at(prop, angle, loaded.rod))
    lean = lean_at(prop, angle, loaded.rod)
    if angle <= 0.0:
        return _passed(seat, loaded, Unreached.BELOW_FLAT, -angle)
    if lean <= 0.0:
        return _passed(seat, loaded, Unreached.PAST_UPRIGHT, -lean)
    return Stop(
        seat=seat.number,
        angle=angle,
        pivot=pivot_at(prop, angle),
        loaded=loaded,
        lean=lean,
        limit=upright(prop, loaded.hollow.centre.y - loaded.hollow.radius),
    )


def angle_in(prop: Prop, hollow: Hollow) -> float | None:
    """The back's angle with the rod at rest in a hollow, degrees; None out of the arm's reach."""
    found = angle_about(prop, hollow.centre, prop.arm - hollow.radius)
    return None if isinstance(found, Miss) else found


def push_in(prop: Prop, hollow: Hollow) -> Point | None:
    """Unit vector of the arm's push with the rod in a hollow; None out of the arm's reach.

    It points at the hollow's centre: the rod rests in the round seat where the push goes through
    its centre.
    """
    angle = angle_in(prop, hollow)
    if angle is None:
        return None
    p = pivot_at(prop, angle)
    dx, dy = hollow.centre.x - p.x, hollow.centre.y - p.y
    length = math.hypot(dx, dy)
    return Point(dx / length, dy / length) if length > 0.0 else None


def _out_of_reach(prop: Prop, seat: Seat) -> Passed:
    hollow = seat.hollows[seat.rest[1]]
    miss = angle_about(prop, hollow.centre, prop.arm - hollow.radius)
    too_far = isinstance(miss, Miss) and miss.reason is Reach.TOO_FAR
    return Passed(
        seat=seat.number,
        reason=Unreached.TOO_FAR if too_far else Unreached.TOO_NEAR,
        amount=miss.gap if isinstance(miss, Miss) else 0.0,
        rod=seat.high,
    )


def _passed(seat: Seat, loaded: Loaded, reason: Unreached, amount: float) -> Passed:
    return Passed(seat=seat.number, reason=reason, amount=amount, rod=loaded.rod)
