"""What is wrong with a plan that has been worked out: each rule broken, measured and limit."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from flatpack.geometry import Point
from flatpack.mechanism.design import Design, Placed
from flatpack.mechanism.notches import play, seat_of, unsound
from flatpack.mechanism.plan import Fault, Plan, Problem
from flatpack.mechanism.prop import pivot_at, upright

ANGLE_SLACK = 0.01  # degrees by which the angle read back may differ before it counts
SLACK = 1e-6  # mm or degrees: a remedy set exactly on its limit keeps it


def faults(design: Design) -> tuple[Problem, ...]:
    """Every fault of a worked plan, without remedies."""
    wrong = unsound(design.plan.form)
    if wrong is not None:
        return (
            Problem(fault=Fault.FORM, place=0, measured=wrong[1], limit=wrong[2], unit=wrong[0]),
        )
    return (
        *_wanted(design),
        *_reach(design),
        *_teeth(design),
        *_room(design),
        *_stops(design),
    )


def folded_rod(plan: Plan) -> Point:
    """The rod's centre with the back flat and the rod at the folded height."""
    x, y = plan.prop.pivot
    drop = plan.room.folded - y
    reach = math.sqrt(max(plan.prop.arm**2 - drop**2, 0.0))
    return Point(x + reach, plan.room.folded)


def highest(plan: Plan) -> float | None:
    """The largest angle at which the arm still leans enough; None: it always does, degrees."""
    seat, free = seat_of(plan.form, plan.prop.rod / 2.0)
    rise = (plan.prop.arm - free) * math.cos(math.radians(plan.lean))
    return upright(plan.prop, plan.floor + seat.y - plan.prop.arm + rise)


def shortest_arm(plan: Plan, angle: float) -> float:
    """The arm that just leans enough with the back at `angle`, mm."""
    seat, free = seat_of(plan.form, plan.prop.rod / 2.0)
    rise = pivot_at(plan.prop, angle).y - plan.floor - seat.y
    return rise / math.cos(math.radians(plan.lean)) + free


def _wanted(design: Design) -> Iterator[Problem]:
    for place, (lower, upper) in enumerate(pairwise(design.plan.angles), start=2):
        if upper <= lower:
            yield Problem(
                fault=Fault.ORDER, place=place, measured=upper, limit=lower, unit="degrees"
            )
    for place, angle in enumerate(design.plan.angles, start=1):
        if angle <= 0.0:
            yield Problem(
                fault=Fault.BELOW_FLAT, place=place, measured=angle, limit=0.0, unit="degrees"
            )


def _reach(design: Design) -> Iterator[Problem]:
    plan = design.plan
    missed = {angle for angle, _ in design.missed}
    top = highest(plan)
    for place, angle in enumerate(plan.angles, start=1):
        if angle in missed:
            yield Problem(
                fault=Fault.ARM_SHORT,
                place=place,
                measured=plan.prop.arm,
                limit=shortest_arm(plan, angle),
            )
        elif top is not None and angle > top + SLACK:
            yield Problem(
                fault=Fault.BEYOND_LIMIT, place=place, measured=angle, limit=top, unit="degrees"
            )


def _teeth(design: Design) -> Iterator[Problem]:
    plan, overlap = design.plan, design.overlap
    spare = play(plan.form, plan.prop.rod / 2.0)
    if spare < -SLACK:
        yield Problem(fault=Fault.ROD_TIGHT, place=0, measured=spare, limit=0.0)
    if overlap is None:
        return
    count = len(design.placed)
    if 0 < overlap.first < count:
        place = count - overlap.first
        yield Problem(
            fault=Fault.TEETH_CLOSE, place=place, measured=overlap.web, limit=plan.room.web
        )
    else:
        place = 1 if overlap.first else count
        yield Problem(fault=Fault.RACK_ENDS, place=place, measured=overlap.web, limit=0.0)


def _room(design: Design) -> Iterator[Problem]:
    plan, r = design.plan, design.plan.prop.rod / 2.0
    for place, notch in enumerate(design.placed, start=1):
        yield from _within(plan, Fault.OUTSIDE, place, notch.centre)
    yield from _within(plan, Fault.FOLDED, 0, folded_rod(plan))
    over_crest = plan.floor + plan.form.depth + 2.0 * r
    if over_crest > plan.room.y[1] + SLACK:
        yield Problem(fault=Fault.CREST, place=0, measured=over_crest, limit=plan.room.y[1])


def _within(plan: Plan, fault: Fault, place: int, centre: Point) -> Iterator[Problem]:
    r = plan.prop.rod / 2.0
    for value, (low, high) in ((centre.x, plan.room.x), (centre.y, plan.room.y)):
        if value + r > high + SLACK:
            yield Problem(fault=fault, place=place, measured=value + r, limit=high)
        if value - r < low - SLACK:
            yield Problem(fault=fault, place=place, measured=value - r, limit=low)


def _stops(design: Design) -> Iterator[Problem]:
    if design.rack is None:
        return
    if not design.found.stops:
        yield Problem(fault=Fault.NO_SEAT, place=0, measured=0.0, limit=1.0, unit="stops")
        return
    loose = {p for p, s in enumerate(design.found.stops, 1) if s.loaded.margin < -SLACK}
    tight = play(design.plan.form, design.plan.prop.rod / 2.0) < -SLACK
    for place, (notch, error) in enumerate(zip(design.placed, design.errors, strict=True), 1):
        if error is None or (abs(error) > ANGLE_SLACK and not tight and place not in loose):
            yield _off(design, place, notch, error)
    for place in sorted(loose):
        margin = design.found.stops[place - 1].loaded.margin
        yield Problem(fault=Fault.NOT_HELD, place=place, measured=margin, limit=0.0, unit="degrees")


def _off(design: Design, place: int, notch: Placed, error: float | None) -> Problem:
    fault = Fault.SEAT_MISSED if error is None else Fault.ANGLE_OFF
    measured = 0.0 if error is None else notch.angle + error
    return Problem(fault=fault, place=place, measured=measured, limit=notch.angle, unit="degrees")
