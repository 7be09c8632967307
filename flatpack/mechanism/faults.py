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
from flatpack.mechanism.stops import Stop

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
    given, wanted = design.plan.notches, len(design.plan.angles)
    if given is not None and len(given) != wanted:
        yield Problem(fault=Fault.COUNT, place=0, measured=len(given), limit=wanted, unit="notches")
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
    if overlap is None or not design.placed:
        return
    along = sorted(design.placed, key=lambda p: p.datum.x)
    if 0 < overlap.first < len(along):
        place = along[overlap.first - 1].place
        yield Problem(
            fault=Fault.TEETH_CLOSE, place=place, measured=overlap.web, limit=plan.room.web
        )
    else:
        place = along[-1 if overlap.first else 0].place
        yield Problem(fault=Fault.RACK_ENDS, place=place, measured=overlap.web, limit=0.0)


def _room(design: Design) -> Iterator[Problem]:
    plan, r = design.plan, design.plan.prop.rod / 2.0
    for notch in design.placed:
        yield from _within(plan, Fault.OUTSIDE, notch.place, notch.centre)
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
    plan = design.plan
    slack = ANGLE_SLACK if plan.notches is None else plan.within
    tight = play(plan.form, plan.prop.rod / 2.0) < -SLACK
    for notch, stop in zip(design.placed, design.reached, strict=True):
        if stop is not None and stop.loaded.margin < -SLACK:
            yield _loose(notch.place, stop)
        elif stop is not None and plan.notches is not None and stop.lean < plan.lean - SLACK:
            yield _too_upright(plan, notch, stop)
        elif stop is None or (abs(stop.angle - notch.angle) > slack and not tight):
            yield _off(notch, stop)


def _too_upright(plan: Plan, notch: Placed, stop: Stop) -> Problem:
    """A notch of a given rack with the arm nearer upright than it may be."""
    return Problem(
        fault=Fault.TOO_UPRIGHT,
        place=notch.place,
        measured=stop.lean,
        limit=plan.lean,
        unit="degrees",
    )


def _loose(place: int, stop: Stop) -> Problem:
    margin = stop.loaded.margin
    return Problem(fault=Fault.NOT_HELD, place=place, measured=margin, limit=0.0, unit="degrees")


def _off(notch: Placed, stop: Stop | None) -> Problem:
    fault = Fault.SEAT_MISSED if stop is None else Fault.ANGLE_OFF
    measured = 0.0 if stop is None else stop.angle
    return Problem(
        fault=fault, place=notch.place, measured=measured, limit=notch.angle, unit="degrees"
    )
