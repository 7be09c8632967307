"""Notches for wanted angles, even pitch, as-made entry, faults and their remedies."""

import math
import random
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq, least_squares

from flatpack.geometry import Point
from flatpack.mechanism.as_made import AsMade, as_built, resolve
from flatpack.mechanism.design import notches_for
from flatpack.mechanism.notches import Kind, NotchForm, notch_width
from flatpack.mechanism.pitch import design_even_pitch
from flatpack.mechanism.plan import Fault, Plan, Remedy, Room, changed
from flatpack.mechanism.prop import Prop
from flatpack.mechanism.remedies import designed

RAMP = NotchForm(kind=Kind.RAMP, depth=15.0, base=21.0)
PLAN = Plan(
    prop=Prop(pivot=Point(320.0, -27.0), arm=365.0, rod=22.0),
    angles=(20.0, 35.0, 50.0, 65.0),
    floor=-83.0,
    form=RAMP,
    room=Room(x=(150.0, 760.0), y=(-100.0, -30.0), rack=(200.0, 720.0), folded=-70.0, web=6.0),
)
FORMS = {
    "ramp": RAMP,
    "undercut": replace(RAMP, undercut=8.0),
    "vee": NotchForm(kind=Kind.VEE, depth=20.0, near=45.0, far=15.0),
    "snug round": NotchForm(kind=Kind.HALF_ROUND, depth=13.0, radius=11.0),
    "wide round": NotchForm(kind=Kind.HALF_ROUND, depth=13.0, radius=14.0),
    "square": NotchForm(kind=Kind.SQUARE, depth=13.0, base=24.0),
}


def by_root(prop, x, y, reach):
    """The back's angle by bracketing, `reach` from pivot to (x, y)."""
    px, py = prop.pivot

    def gap(t):
        c, s = math.cos(t), math.sin(t)
        return math.hypot(px * c - py * s - x, px * s + py * c - y) - reach

    near = math.atan2(y, x) - math.atan2(py, px)
    if gap(near) > 0.0 or gap(near + math.pi) < 0.0:
        return None
    return math.degrees(brentq(gap, near, near + math.pi, xtol=1e-13))


@pytest.mark.parametrize("form", FORMS.values(), ids=FORMS)
def test_the_contour_read_back_gives_the_wanted_angles(form):
    design = designed(replace(PLAN, form=form))
    assert design.problems == ()
    assert design.errors == pytest.approx((0.0,) * 4, abs=1e-9)
    assert [s.angle for s in design.found.stops] == pytest.approx(PLAN.angles)
    for notch, stop in zip(design.placed, design.found.stops, strict=True):
        free = max(form.radius - 11.0, 0.0)
        told = by_root(PLAN.prop, *notch.centre, 365.0 - free)
        assert told == pytest.approx(notch.angle, abs=1e-9)
        assert stop.held


def test_many_plans():
    rng = random.Random(3)
    good = 0
    for _ in range(150):
        prop = Prop(
            pivot=Point(rng.uniform(250.0, 400.0), rng.uniform(-40.0, 0.0)),
            arm=rng.uniform(320.0, 450.0),
            rod=rng.uniform(16.0, 24.0),
        )
        low = rng.uniform(12.0, 25.0)
        angles = tuple(low + k * rng.uniform(9.0, 12.0) for k in range(4))
        room = Room(x=(-200.0, 900.0), y=(-130.0, 0.0), rack=(-150.0, 880.0), folded=-60.0)
        plan = Plan(prop=prop, angles=angles, floor=-85.0, form=RAMP, room=room)
        design = designed(plan)
        for notch, error in zip(design.placed, design.errors, strict=True):
            if not design.problems:
                assert error == pytest.approx(0.0, abs=1e-9)
                told = by_root(prop, *notch.centre, prop.arm)
                assert told == pytest.approx(notch.angle, abs=1e-9)
                good += 1
    assert good > 200


BROKEN = {
    "order": (Remedy("angles", (20.0, 50.0, 35.0)), Fault.ORDER),
    "below flat": (Remedy("angles", (-5.0, 20.0, 40.0)), Fault.BELOW_FLAT),
    "arm short": (Remedy("arm", 340.0), Fault.ARM_SHORT),
    "beyond the limit": (Remedy("angles", (20.0, 40.0, 70.4)), Fault.BEYOND_LIMIT),
    "teeth close": (Remedy("angles", (20.0, 22.0, 50.0)), Fault.TEETH_CLOSE),
    "floor too short": (Remedy("notch.base", 12.0), Fault.ROD_TIGHT),
    "rack ends": (Remedy("rack_high", 640.0), Fault.RACK_ENDS),
    "rack begins": (Remedy("rack_low", 250.0), Fault.RACK_ENDS),
    "rod outside": (Remedy("room_high", 650.0), Fault.OUTSIDE),
    "folded outside": (Remedy("room_high", 690.0), Fault.FOLDED),
    "crest too high": (Remedy("notch.depth", 35.0), Fault.CREST),
    "ramp": (Remedy("notch.ramp", 120.0), Fault.FORM),
    "undercut": (Remedy("notch.undercut", 80.0), Fault.FORM),
    "depth": (Remedy("notch.depth", -1.0), Fault.FORM),
}


@pytest.mark.parametrize(("broken", "fault"), BROKEN.values(), ids=BROKEN)
def test_a_broken_number_is_found_and_each_remedy_mends_it(broken, fault):
    plan = changed(replace(PLAN, room=replace(PLAN.room, rack=(150.0, 730.0))), broken)
    problems = designed(plan).problems
    assert fault in {p.fault for p in problems}
    before = {(p.fault, p.place) for p in problems}
    mended = 0
    for problem in problems:
        for remedy in problem.remedies:
            after = designed(changed(plan, remedy)).problems
            assert (problem.fault, problem.place) not in {(p.fault, p.place) for p in after}
            if fault is not Fault.FORM:  # which hides all others
                assert {(p.fault, p.place) for p in after} <= before
            mended += problem.fault is fault
    assert mended > 0


def test_measured_and_limit_are_those_of_the_fault():
    (problem,) = designed(changed(PLAN, Remedy("rack_high", 640.0))).problems
    # by hand: P(20) = (309.935, 84.075), so the rod stands sqrt(365^2 - 156.075^2) further out,
    # and the foot of its stop face 11 mm beyond
    x = 320 * math.cos(math.radians(20)) + 27 * math.sin(math.radians(20))
    y = 320 * math.sin(math.radians(20)) - 27 * math.cos(math.radians(20))
    foot = x + math.sqrt(365.0**2 - (y + 72.0) ** 2) + 11.0
    assert problem.measured == pytest.approx(640.0 - foot)
    assert problem.remedies[0] == ("rack_high", pytest.approx(foot))


def test_vee_too_flat_for_the_thrust():
    plan = replace(PLAN, form=replace(FORMS["vee"], far=40.0))
    problems = designed(plan).problems
    assert {p.fault for p in problems} == {Fault.NOT_HELD}
    (remedy,) = problems[0].remedies
    assert designed(changed(plan, remedy)).problems == ()


def test_rod_thinner_than_the_teeth_allow_is_told():
    plan = replace(PLAN, form=replace(FORMS["snug round"], radius=10.0))
    tight = [p for p in designed(plan).problems if p.fault is Fault.ROD_TIGHT]
    assert ("rod", 20.0) in tight[0].remedies
    assert ("notch.radius", 11.0) in tight[0].remedies


@pytest.mark.parametrize("pitch", [70.0, 90.0, 110.0, 124.0])
@pytest.mark.parametrize("free", [False, True])
def test_even_pitch_against_a_general_solver(pitch, free):
    room = replace(PLAN.room, pivot_x=(250.0, 400.0) if free else None)
    plan = replace(PLAN, room=room)
    found = design_even_pitch(plan, pitch)
    mine = sum(e * e for e in found.errors)
    for placed, k in zip(found.placed, range(4), strict=True):
        assert found.placed[0].datum.x - placed.datum.x == pytest.approx(k * pitch)
        told = by_root(found.plan.prop, *placed.centre, found.plan.prop.arm)
        assert told == pytest.approx(placed.angle, abs=1e-8)
    width = notch_width(RAMP)
    low = np.array([250.0 if free else 319.999, 161.0, 200.0 + width - 11.0 + 3 * pitch])
    high = np.array([400.0 if free else 320.001, 749.0, 720.0 - 11.0])

    def errors(v):
        prop = Prop(pivot=Point(v[0], -27.0), arm=math.hypot(v[1] - v[0], 43.0), rod=22.0)
        angles = [by_root(prop, v[2] - k * pitch, -72.0, prop.arm) for k in range(4)]
        return [1e3 if a is None else a - w for a, w in zip(angles, PLAN.angles, strict=True)]

    rng = random.Random(1)
    best = math.inf
    for _ in range(6):
        start = [rng.uniform(a, b) for a, b in zip(low, high, strict=True)]
        start[1] = max(start[1], start[0] + 250.0)
        best = min(best, 2.0 * least_squares(errors, start, bounds=(low, high)).cost)
    assert mine <= best * (1.0 + 1e-4) + 1e-6


def test_even_pitch_that_does_not_fit():
    (wide,) = design_even_pitch(PLAN, 200.0).problems
    assert wide.fault is Fault.RACK_ENDS
    (remedy,) = wide.remedies
    assert design_even_pitch(PLAN, remedy.value).problems == ()
    (narrow,) = design_even_pitch(PLAN, 30.0).problems
    assert narrow.fault is Fault.TEETH_CLOSE
    assert narrow.limit == pytest.approx(21.0 + 15.0 + 6.0)  # floor, ramp at 45, web


@pytest.mark.parametrize("form", FORMS.values(), ids=FORMS)
def test_notches_not_yet_cut_take_up_what_was_drilled(form):
    plan = replace(PLAN, form=form)
    made = AsMade(hinge=Point(1.5, -2.0), pivot_x=322.0, pivot_y=-30.0, arm=363.0)
    found = resolve(plan, made)
    assert found.errors == pytest.approx((0.0,) * 4, abs=1e-9)
    prop = Prop(pivot=Point(322.0, -30.0), arm=363.0, rod=22.0)
    for x, placed in zip(
        found.notches, notches_for(PLAN.prop, PLAN.angles, -83.0, form), strict=True
    ):
        # seat centre from its datum as in the plan, hinge moved: all by subtraction
        dx, dy = placed.centre.x - placed.datum.x, placed.centre.y - placed.datum.y
        free = max(form.radius - 11.0, 0.0)
        told = by_root(prop, x + dx - 1.5, -83.0 + dy + 2.0, 363.0 - free)
        assert told == pytest.approx(placed.angle, abs=1e-9)


def cut_notches():
    return tuple(p.datum.x for p in notches_for(PLAN.prop, PLAN.angles, -83.0, RAMP))


def test_arm_not_yet_cut_takes_up_a_pivot_drilled_low():
    found = resolve(PLAN, AsMade(pivot_y=-30.0, notches=cut_notches()))
    assert [r.key for r in found.solved] == ["arm"]
    least = min(
        sum(
            (by_root(found.prop, x - 11.0, -72.0, arm) - w) ** 2
            for x, w in zip(cut_notches(), PLAN.angles, strict=True)
        )
        for arm in np.linspace(355.0, 366.0, 111)
    )
    assert sum(e * e for e in found.errors) <= least + 1e-9


def test_everything_made_only_tells_the_angles():
    made = AsMade(pivot_x=320.0, pivot_y=-27.0, arm=355.0, notches=cut_notches())
    found = resolve(PLAN, made)
    assert found.solved == ()
    told = [by_root(found.prop, x - 11.0, -72.0, 355.0) for x in cut_notches()]
    assert found.angles == pytest.approx(told)


GIVEN = replace(PLAN, notches=cut_notches(), room=replace(PLAN.room, rack=(150.0, 730.0)))
WRONG = {
    "arm short": (Remedy("arm", 355.0), Fault.ANGLE_OFF, ("arm", 365.0)),
    "pivot low": (Remedy("pivot_y", -37.0), Fault.ANGLE_OFF, ("pivot_y", -27.0)),
    "arm far too short": (Remedy("arm", 90.0), Fault.NO_SEAT, ("arm", 365.0)),
}


@pytest.mark.parametrize(("broken", "fault", "right"), WRONG.values(), ids=WRONG)
def test_one_number_wrong_on_a_given_rack_is_named(broken, fault, right):
    assert designed(GIVEN).problems == ()
    plan = changed(GIVEN, broken)
    problems = [p for p in designed(plan).problems if p.fault is fault]
    assert problems
    for problem in problems:
        assert (right[0], pytest.approx(right[1], abs=1e-6)) in problem.remedies
        for remedy in problem.remedies:
            left = designed(changed(plan, remedy)).problems
            assert fault not in {p.fault for p in left}


def test_a_given_notch_in_the_wrong_place_is_named():
    first, *rest = cut_notches()
    plan = replace(GIVEN, notches=(first - 20.0, *rest))
    (problem,) = designed(plan).problems
    assert (problem.fault, problem.place) == (Fault.ANGLE_OFF, 1)
    told = by_root(PLAN.prop, first - 31.0, -72.0, 365.0)
    assert problem.measured == pytest.approx(told)
    assert ("notches", pytest.approx(cut_notches())) in problem.remedies


def test_a_given_notch_too_near_upright_is_told():
    # by hand: the arm upright over a rod 72 below the hinge, turned 3 degrees out of upright
    top = math.asin((365.0 * math.cos(math.radians(3.0)) - 72.0) / math.hypot(320.0, 27.0))
    angle = math.degrees(top + math.atan2(27.0, 320.0))
    (notch,) = notches_for(PLAN.prop, (angle,), -83.0, RAMP)
    *rest, _ = cut_notches()
    plan = replace(GIVEN, notches=(*rest, notch.datum.x), room=replace(GIVEN.room, rack=(90, 730)))
    (problem,) = [p for p in designed(plan).problems if p.fault is Fault.TOO_UPRIGHT]
    assert problem.place == 4
    assert problem.measured == pytest.approx(3.0)
    assert ("notches", pytest.approx(cut_notches())) in problem.remedies


def test_as_built_is_judged_like_any_plan():
    made = AsMade(hinge=Point(1.5, -2.0), pivot_y=-30.0, notches=cut_notches())
    found = resolve(PLAN, made)
    built = as_built(PLAN, made, found)
    design = designed(replace(built, within=1.0))
    assert design.problems == ()
    assert [s.angle for s in design.found.stops] == pytest.approx(found.angles)
    # the room moves against the hinge
    assert built.room.rack == pytest.approx((198.5, 718.5))
    assert built.room.folded == pytest.approx(-68.0)
