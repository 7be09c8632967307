"""What is wanted of a prop and rack, as one record, and what may be wrong with it."""

from __future__ import annotations

from enum import StrEnum
from typing import Any, NamedTuple

from flatpack.frozen import frozen, replace
from flatpack.geometry import Point
from flatpack.mechanism.notches import NotchForm
from flatpack.mechanism.prop import Prop
from flatpack.mechanism.stops import MINIMUM_LEAN

Range = tuple[float, float]

NOTCH_KEYS = tuple(
    f"notch.{name}" for name in ("depth", "base", "ramp", "undercut", "near", "far", "radius")
)


@frozen
class Room:
    """The room inside the frame, in the hinge frame, mm.

    `x` and `y`: the whole rod must stay within; `rack`: the rack's own ends along x; `folded`:
    height of the rod's centre with the back flat; `web`: least wood between two notches at their
    crests; `pivot_x`, `pivot_y`: where the pivot may stand on the back when flat.
    """

    x: Range
    y: Range
    rack: Range
    folded: float
    web: float = 0.0
    pivot_x: Range | None = None
    pivot_y: Range | None = None


@frozen
class Plan:
    """Wanted angles (degrees, rising), and all that places the notches for them.

    `floor` is the height of the notches' floors in the hinge frame, `lean` the least lean of the
    arm from upright at the top stop, degrees.  `notches`: datum x of each, as many as angles and
    in their order, if the rack is given; None: they are placed for the angles.  `within`: degrees
    by which a given rack may miss them.
    """

    prop: Prop
    angles: tuple[float, ...]
    floor: float
    form: NotchForm
    room: Room
    lean: float = MINIMUM_LEAN
    notches: tuple[float, ...] | None = None
    within: float = 0.5


def moved(room: Room, by: Point) -> Room:
    """The same room seen from a hinge that stands `by` the other way; the pivot's is the back's."""
    return replace(
        room,
        x=(room.x[0] + by.x, room.x[1] + by.x),
        y=(room.y[0] + by.y, room.y[1] + by.y),
        rack=(room.rack[0] + by.x, room.rack[1] + by.x),
        folded=room.folded + by.y,
    )


class Fault(StrEnum):
    """What can be wrong with a plan or a rack."""

    ORDER = "wanted angles out of order"
    COUNT = "not as many notches as wanted angles"
    BELOW_FLAT = "wanted angle not above flat"
    ARM_SHORT = "arm shorter than the rise"
    BEYOND_LIMIT = "wanted angle beyond the limit"
    TOO_UPRIGHT = "arm too near upright"
    NO_SEAT = "no seat can be reached"
    SEAT_MISSED = "seat gives no stop"
    FORM = "notch can't be drawn with this size"
    TEETH_CLOSE = "teeth too close"
    ROD_TIGHT = "rod doesn't reach floor and face"
    OUTSIDE = "rod outside the room"
    FOLDED = "rod outside the room when folded"
    RACK_ENDS = "rack outside the frame"
    CREST = "rod on the crests outside the room"
    NOT_HELD = "thrust not held"
    ANGLE_OFF = "angle differs from the wanted one"


class Remedy(NamedTuple):
    """Set this number (a key of `changed`) to this value."""

    key: str
    value: float | tuple[float, ...]


@frozen
class Problem:
    """A fault of the wanted angle number `place`, counted from 1; 0: of the whole.

    `measured` against `limit`, in mm or degrees as `unit` says (for an undrawable notch: the
    size's name); each remedy has been tried and
    leaves no fault that wasn't there before (those that an undrawable notch hid apart).
    """

    fault: Fault
    place: int
    measured: float
    limit: float
    unit: str = "mm"
    remedies: tuple[Remedy, ...] = ()


def changed(plan: Plan, remedy: Remedy) -> Plan:
    """The plan with one number changed.

    Keys: arm, pivot_x, pivot_y, rod, angles, notches, floor, lean, web, room_low, room_high,
    rack_low, rack_high, folded, and notch.<field> for a size of the notch.

    Raises:
        KeyError: no such key, or a value of the wrong kind.
    """
    key, value = remedy
    if isinstance(value, tuple):
        many: dict[str, Any] = {key: value}
        if key not in ("angles", "notches"):
            raise KeyError(key)
        return replace(plan, **many)
    one: dict[str, Any] = {key.removeprefix("notch."): value}
    if key in ("floor", "lean"):
        return replace(plan, **one)
    if key in NOTCH_KEYS:
        return replace(plan, form=replace(plan.form, **one))
    if key in ("arm", "rod", "pivot_x", "pivot_y"):
        return replace(plan, prop=_prop(plan.prop, key, value))
    return replace(plan, room=_room(plan.room, key, value))


def _prop(prop: Prop, key: str, value: float) -> Prop:
    if key == "arm":
        return replace(prop, arm=value)
    if key == "rod":
        return replace(prop, rod=value)
    x, y = prop.pivot
    return replace(prop, pivot=Point(value, y) if key == "pivot_x" else Point(x, value))


def _room(room: Room, key: str, value: float) -> Room:
    if key in ("web", "folded"):
        one: dict[str, Any] = {key: value}
        return replace(room, **one)
    low, high = room.x if key.startswith("room") else room.rack
    ends = {"low": (value, high), "high": (low, value)}[key.partition("_")[2]]
    return replace(room, x=ends) if key.startswith("room_") else replace(room, rack=ends)
