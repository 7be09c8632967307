"""The number that mends a fault: solved from the broken rule, then tried.

A candidate is kept only if the plan so changed no longer has the fault and has none that it
hadn't before.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import accumulate

from flatpack.frozen import replace
from flatpack.geometry import Point
from flatpack.mechanism.as_made import arm_for, height_for, pivot_for
from flatpack.mechanism.design import Design, Placed, angle_of, notches_for, worked
from flatpack.mechanism.faults import faults, highest, shortest_arm
from flatpack.mechanism.notches import Kind, NotchForm, cut, notch_width, seat_of
from flatpack.mechanism.plan import Fault, Plan, Problem, Remedy, changed
from flatpack.mechanism.prop import Miss, angle_about, pivot_at

FIXED_POINT_STEPS = 30  # each gains a digit or more

Candidates = Callable[[Design, Problem], Iterator[Remedy]]


def designed(plan: Plan) -> Design:
    """The plan worked out, with every fault and those remedies that work."""
    design = worked(plan)
    found = faults(design)
    return replace(design, problems=tuple(_mended(design, found, p) for p in found))


def _mended(design: Design, found: tuple[Problem, ...], problem: Problem) -> Problem:
    before = {_key(p) for p in found}
    tried = CANDIDATES.get(problem.fault, _none)(design, problem)
    kept = [r for r in dict.fromkeys(tried) if _works(design.plan, r, before, problem)]
    return replace(problem, remedies=tuple(kept))


def _works(plan: Plan, remedy: Remedy, before: set[tuple[Fault, int]], problem: Problem) -> bool:
    after = {_key(p) for p in faults(worked(changed(plan, remedy)))}
    hidden = problem.fault is Fault.FORM  # nothing else could be judged before
    return _key(problem) not in after and (hidden or after <= before)


def _key(problem: Problem) -> tuple[Fault, int]:
    return problem.fault, problem.place


def _none(design: Design, problem: Problem) -> Iterator[Remedy]:
    yield from ()


def _order(design: Design, problem: Problem) -> Iterator[Remedy]:
    yield Remedy("angles", tuple(sorted(set(design.plan.angles))))


def _above_flat(design: Design, problem: Problem) -> Iterator[Remedy]:
    """Without that stop: flat is the back on its frame, not a notch."""
    yield Remedy("angles", tuple(a for a in design.plan.angles if a > 0.0))


def _reach(design: Design, problem: Problem) -> Iterator[Remedy]:
    """A longer arm, or a lower angle: each just enough, and as keeps the notch on the rack."""
    plan = design.plan
    angle = plan.angles[problem.place - 1]
    yield Remedy("arm", shortest_arm(plan, angle))
    top = highest(plan)
    if top is not None:
        yield _angle(plan, problem.place, top)
    seat, free = seat_of(plan.form, plan.prop.rod / 2.0)
    nearest = plan.room.rack[0] - cut(plan.form, Point(0.0, 0.0))[0].start.x + seat.x
    p = pivot_at(plan.prop, angle)
    if nearest > p.x:
        yield Remedy("arm", math.dist(p, (nearest, plan.floor + seat.y)) + free)
    yield from _angle_at_x(plan, problem.place, nearest)


def _form(design: Design, problem: Problem) -> Iterator[Remedy]:
    """The size on its limit, or just within where the limit itself draws nothing."""
    yield Remedy(f"notch.{problem.unit}", problem.limit)
    inward = 1.0 if problem.measured <= problem.limit else -1.0
    yield Remedy(f"notch.{problem.unit}", problem.limit + inward)


def _teeth(design: Design, problem: Problem) -> Iterator[Remedy]:
    """A shorter floor, a steeper ramp, or the next stop higher by what the notches lack."""
    plan, form = design.plan, design.plan.form
    lack = problem.limit - problem.measured
    if form.kind in (Kind.RAMP, Kind.SQUARE) and form.base > lack:
        yield Remedy("notch.base", form.base - lack)
    if form.kind is Kind.RAMP:
        run = form.depth / math.tan(math.radians(form.ramp)) - lack
        if run > 0.0:
            yield Remedy("notch.ramp", math.degrees(math.atan2(form.depth, run)))
    yield from _spaced(plan)


def _spaced(plan: Plan) -> Iterator[Remedy]:
    """From the lowest stop on, each next angle raised to what the notches' own width allows.

    On a given rack: each next notch moved as far.
    """
    width = notch_width(plan.form) + plan.room.web
    if plan.notches is not None:
        places = accumulate(plan.notches, lambda last, x: min(x, last - width))
        yield Remedy("notches", tuple(places))
        return
    angles: list[float] = []
    last = math.inf
    for angle in plan.angles:
        (notch,) = notches_for(plan.prop, (angle,), plan.floor, plan.form)
        if isinstance(notch, Miss):
            return
        last = min(notch.datum.x, last - width)
        raised = angle_of(plan.prop, last, plan.floor, plan.form)
        if isinstance(raised, Miss):
            return
        angles.append(angle if last == notch.datum.x else raised)
    yield Remedy("angles", tuple(angles))


def _tight(design: Design, problem: Problem) -> Iterator[Remedy]:
    """More floor (or radius, or depth), or a thinner rod: what is needed goes with its radius."""
    form, r = design.plan.form, design.plan.prop.rod / 2.0
    lack = -problem.measured
    if form.kind is Kind.HALF_ROUND:
        yield Remedy("notch.radius", r)
        yield Remedy("rod", 2.0 * form.radius)
    elif form.kind is Kind.VEE:
        shorter = math.cos(math.radians(min(form.near, form.far)))
        yield Remedy("notch.depth", form.depth + lack * shorter)
    else:
        yield Remedy("notch.base", form.base + lack)
        yield Remedy("rod", 2.0 * r * form.base / (form.base + lack))


def _outside(design: Design, problem: Problem) -> Iterator[Remedy]:
    """Another angle, arm, floor or frame that brings the rod just inside."""
    plan, r = design.plan, design.plan.prop.rod / 2.0
    if problem.limit in plan.room.y:
        yield Remedy("floor", plan.floor + problem.limit - problem.measured)
        return
    high = problem.limit == plan.room.x[1]
    x = problem.limit - r if high else problem.limit + r
    notch = _notch(design, problem)
    centre, p = notch.centre, pivot_at(plan.prop, notch.angle)
    yield from _angle_at_x(plan, problem.place, x)
    if x > p.x:
        _, free = seat_of(plan.form, r)
        yield Remedy("arm", math.dist(p, (x, centre.y)) + free)
    yield Remedy("room_high" if high else "room_low", problem.measured)


def _folded(design: Design, problem: Problem) -> Iterator[Remedy]:
    """An arm, a pivot or a frame that brings the folded rod just inside."""
    plan, r = design.plan, design.plan.prop.rod / 2.0
    if problem.limit in plan.room.y:
        yield Remedy("folded", plan.room.folded + problem.limit - problem.measured)
        return
    high = problem.limit == plan.room.x[1]
    x = problem.limit - r if high else problem.limit + r
    yield Remedy("arm", math.dist(plan.prop.pivot, (x, plan.room.folded)))
    yield Remedy("pivot_x", plan.prop.pivot.x + problem.limit - problem.measured)
    yield Remedy("room_high" if high else "room_low", problem.measured)


def _ends(design: Design, problem: Problem) -> Iterator[Remedy]:
    """A longer rack, or the end stop's angle that just stays on it."""
    plan = design.plan
    low, high = plan.room.rack
    at_free_end = design.overlap is not None and design.overlap.first > 0
    yield (
        Remedy("rack_high", high - problem.measured)
        if at_free_end
        else Remedy("rack_low", low + problem.measured)
    )
    notch = _notch(design, problem)
    inward = problem.measured if at_free_end else -problem.measured
    found = angle_of(plan.prop, notch.datum.x + inward, plan.floor, plan.form)
    if not isinstance(found, Miss):
        yield _angle(plan, problem.place, found)


def _crest(design: Design, problem: Problem) -> Iterator[Remedy]:
    over = problem.measured - problem.limit
    yield Remedy("floor", design.plan.floor - over)
    yield Remedy("notch.depth", design.plan.form.depth - over)


def _held(design: Design, problem: Problem) -> Iterator[Remedy]:
    """A face just steep enough for the thrust: its slope from upright is the thrust's from level.

    In a half round the rim must stand where the radius is square to the thrust.
    """
    plan = design.plan
    form, angle = plan.form, _notch(design, problem).angle
    if form.kind is Kind.VEE:
        for _ in range(FIXED_POINT_STEPS):  # a steeper face lets the rod lower, and so on
            form = replace(form, far=math.degrees(_dip(plan, form, angle)))
        yield Remedy("notch.far", form.far)
    if form.kind is Kind.HALF_ROUND:
        yield Remedy("notch.depth", form.radius * (1.0 - math.sin(_dip(plan, form, angle))))


def _dip(plan: Plan, form: NotchForm, angle: float) -> float:
    """How far below level the thrust points in a notch of this form, radians."""
    (notch,) = notches_for(plan.prop, (angle,), plan.floor, form)
    p = pivot_at(plan.prop, angle)
    if isinstance(notch, Miss):  # a given rack that stands elsewhere
        return math.pi / 2.0
    return math.atan2(p.y - notch.centre.y, notch.centre.x - p.x)


def _given_rack(design: Design, problem: Problem) -> Iterator[Remedy]:
    """On a rack as given: the one number that brings all stops closest, or the notches anew."""
    plan = design.plan
    if plan.notches is None:
        return
    if len(plan.notches) == len(plan.angles):
        for solve in (arm_for, pivot_for, height_for):
            remedy = solve(plan, plan.notches)
            if remedy is not None:
                yield remedy
    anew = notches_for(plan.prop, plan.angles, plan.floor, plan.form)
    datums = tuple(p.datum.x for p in anew if isinstance(p, Placed))
    if len(datums) == len(anew):
        yield Remedy("notches", datums)


def _notch(design: Design, problem: Problem) -> Placed:
    """The placed notch that a problem is about."""
    return next(p for p in design.placed if p.place == problem.place)


def _angle_at_x(plan: Plan, place: int, x: float) -> Iterator[Remedy]:
    seat, free = seat_of(plan.form, plan.prop.rod / 2.0)
    found = angle_about(plan.prop, Point(x, plan.floor + seat.y), plan.prop.arm - free)
    if not isinstance(found, Miss):
        yield _angle(plan, place, found)


def _angle(plan: Plan, place: int, value: float) -> Remedy:
    """The wanted angles with the one at `place` (from 1) changed."""
    return Remedy("angles", (*plan.angles[: place - 1], value, *plan.angles[place:]))


CANDIDATES: dict[Fault, Candidates] = {
    Fault.ORDER: _order,
    Fault.BELOW_FLAT: _above_flat,
    Fault.ARM_SHORT: _reach,
    Fault.BEYOND_LIMIT: _reach,
    Fault.FORM: _form,
    Fault.TEETH_CLOSE: _teeth,
    Fault.ROD_TIGHT: _tight,
    Fault.OUTSIDE: _outside,
    Fault.FOLDED: _folded,
    Fault.RACK_ENDS: _ends,
    Fault.CREST: _crest,
    Fault.NOT_HELD: _held,
    Fault.COUNT: _given_rack,
    Fault.TOO_UPRIGHT: _given_rack,
    Fault.NO_SEAT: _given_rack,
    Fault.SEAT_MISSED: _given_rack,
    Fault.ANGLE_OFF: _given_rack,
}
