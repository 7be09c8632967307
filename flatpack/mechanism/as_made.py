"""What has been drilled already, and everything not yet cut solved again for the wanted angles.

In this order, as the bench goes: notches not yet cut are placed for the pivot and arm as made, in
closed form and without error.  With the notches cut, the arm is solved; with the arm cut too, the
pivot along the back; with all made, only the angles that come out can be told.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from flatpack.frozen import frozen, replace
from flatpack.geometry import Point
from flatpack.mechanism.design import angle_of, notches_for
from flatpack.mechanism.fitting import fitted
from flatpack.mechanism.notches import seat_of
from flatpack.mechanism.plan import Plan, Remedy, moved
from flatpack.mechanism.prop import Miss, Prop, pivot_at

AS_PLANNED = Point(0.0, 0.0)
REACH = 80.0  # mm a solved arm or pivot may differ from the plan's


@frozen
class AsMade:
    """Measures of parts already made; None: not yet cut.

    `hinge`: the hinge axis as fitted, from where the plan has it, mm.  `pivot_x`, `pivot_y` in
    the back's axes (a board of another thickness moves pivot_y).  `notches`: datum x of each
    notch in the plan's hinge frame, by rising angle, as cut in the rack.
    """

    hinge: Point = AS_PLANNED
    pivot_x: float | None = None
    pivot_y: float | None = None
    arm: float | None = None
    rod: float | None = None
    notches: tuple[float, ...] | None = None


@frozen
class Resolved:
    """What to cut now: `prop` and notch datums (x in the plan's frame) with what was made.

    `solved` names what was solved anew (key as of `plan.changed`, or "notches").  `angles` are
    those reached and `errors` theirs less the wanted ones; None: that notch can't be reached.
    """

    prop: Prop
    notches: tuple[float | None, ...]
    solved: tuple[Remedy, ...]
    angles: tuple[float | None, ...]
    errors: tuple[float | None, ...]


def resolve(plan: Plan, made: AsMade) -> Resolved:
    """Everything not yet cut, solved again for the wanted angles of `plan`."""
    prop = _as_far(plan.prop, made)
    floor = plan.floor - made.hinge.y
    if made.notches is None:
        return _new_notches(plan, prop, floor, made.hinge.x)
    datums = [x - made.hinge.x for x in made.notches]
    solved: Remedy | None = None
    if made.arm is None:
        solved = arm_for(replace(plan, prop=prop, floor=floor), datums)
    elif made.pivot_x is None:
        solved = pivot_for(replace(plan, prop=prop, floor=floor), datums)
    if solved is not None:
        prop = _set(prop, solved)
    angles = _angles(replace(plan, prop=prop, floor=floor), datums)
    return Resolved(
        prop=prop,
        notches=made.notches,
        solved=() if solved is None else (solved,),
        angles=angles,
        errors=_errors(angles, plan.angles),
    )


def as_built(plan: Plan, made: AsMade, found: Resolved) -> Plan:
    """The plan as it now stands, in the frame of the hinge as fitted: to be judged like any other.

    Notches that can't be reached are left out, with their angles.
    """
    hx, hy = made.hinge
    kept = [(a, x - hx) for a, x in zip(plan.angles, found.notches, strict=True) if x is not None]
    return replace(
        plan,
        prop=found.prop,
        angles=tuple(a for a, _ in kept),
        floor=plan.floor - hy,
        notches=tuple(x for _, x in kept),
        room=moved(plan.room, Point(-hx, -hy)),
    )


def arm_for(plan: Plan, datums: Sequence[float]) -> Remedy | None:
    """The arm with which notches as cut come closest to the wanted angles.

    It starts from the mean of the distances that each stop alone would want.
    """
    seat, free = seat_of(plan.form, plan.prop.rod / 2.0)
    centres = [Point(x + seat.x, plan.floor + seat.y) for x in datums]
    pairs = zip(plan.angles, centres, strict=True)
    wanted = [math.dist(pivot_at(plan.prop, a), c) + free for a, c in pairs]
    return _solved(plan, datums, "arm", math.fsum(wanted) / len(wanted))


def pivot_for(plan: Plan, datums: Sequence[float]) -> Remedy | None:
    """The pivot's place along the back with which notches as cut come closest."""
    return _solved(plan, datums, "pivot_x", plan.prop.pivot.x)


def height_for(plan: Plan, datums: Sequence[float]) -> Remedy | None:
    """The pivot's place across the back with which notches as cut come closest."""
    return _solved(plan, datums, "pivot_y", plan.prop.pivot.y)


def _solved(plan: Plan, datums: Sequence[float], key: str, start: float) -> Remedy | None:
    def errors(unknown: Sequence[float]) -> list[float] | None:
        angles = _angles(replace(plan, prop=_set(plan.prop, Remedy(key, unknown[0]))), datums)
        found = [e for e in _errors(angles, plan.angles) if e is not None]
        return found if len(found) == len(datums) else None

    found = fitted(errors, [start], [(start - REACH, start + REACH)])
    return None if found is None else Remedy(key, found[0][0])


def _set(prop: Prop, remedy: Remedy) -> Prop:
    value = remedy.value
    assert not isinstance(value, tuple)
    if remedy.key == "arm":
        return replace(prop, arm=value)
    x, y = prop.pivot
    return replace(prop, pivot=Point(value, y) if remedy.key == "pivot_x" else Point(x, value))


def _as_far(prop: Prop, made: AsMade) -> Prop:
    x, y = prop.pivot
    return Prop(
        pivot=Point(
            x if made.pivot_x is None else made.pivot_x, y if made.pivot_y is None else made.pivot_y
        ),
        arm=prop.arm if made.arm is None else made.arm,
        rod=prop.rod if made.rod is None else made.rod,
    )


def _new_notches(plan: Plan, prop: Prop, floor: float, shift: float) -> Resolved:
    placed = notches_for(prop, plan.angles, floor, plan.form)
    datums = tuple(None if isinstance(p, Miss) else p.datum.x for p in placed)
    told = tuple(
        None if x is None else _angle(replace(plan, prop=prop, floor=floor), x) for x in datums
    )
    cut = tuple(None if x is None else x + shift for x in datums)
    return Resolved(
        prop=prop,
        notches=cut,
        solved=(Remedy("notches", tuple(x for x in cut if x is not None)),),
        angles=told,
        errors=_errors(told, plan.angles),
    )


def _angle(plan: Plan, datum_x: float) -> float | None:
    found = angle_of(plan.prop, datum_x, plan.floor, plan.form)
    return None if isinstance(found, Miss) else found


def _angles(plan: Plan, datums: Sequence[float]) -> tuple[float | None, ...]:
    return tuple(_angle(plan, x) for x in datums)


def _errors(angles: Sequence[float | None], wanted: Sequence[float]) -> tuple[float | None, ...]:
    return tuple(None if a is None else a - w for a, w in zip(angles, wanted, strict=True))
