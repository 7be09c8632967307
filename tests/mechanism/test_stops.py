"""Stops of an invented lounger: angles, limits, and seats that give none."""

import math

import pytest

from flatpack.geometry import Point
from flatpack.mechanism.notches import half_round, rack_contour, ramp_notch, square
from flatpack.mechanism.prop import Prop, pivot_at, upright
from flatpack.mechanism.seats import laid
from flatpack.mechanism.stops import Unreached, stops

LOUNGER = Prop(pivot=Point(320.0, -27.0), arm=365.0, rod=22.0)
FLOOR = -83.0


def rack_with(*feet, notch=lambda at: ramp_notch(at, 21.0, 15.0, 45.0)):
    notches = [notch(Point(x, FLOOR)) for x in feet]
    ends = Point(min(feet) - 80.0, FLOOR + 15.0), Point(max(feet) + 60.0, FLOOR + 15.0)
    return laid(rack_contour(notches, *ends), LOUNGER.rod)


def test_arm_spans_from_pivot_to_rod_at_every_stop():
    found = stops(LOUNGER, rack_with(272.0, 445.0, 569.0, 651.0))
    assert [s.seat for s in found.stops] == [4, 3, 2, 1]
    for stop in found.stops:
        assert math.dist(pivot_at(LOUNGER, stop.angle), stop.rod) == pytest.approx(365.0)
        assert stop.lean > 0.0
        assert stop.held
    angles = [s.angle for s in found.stops]
    assert angles == sorted(angles)


def test_round_seat_takes_the_thrust_through_its_centre():
    rack = rack_with(400.0, 550.0, notch=lambda at: half_round(at, 15.0, 15.0))
    for stop in stops(LOUNGER, rack).stops:
        centre = stop.loaded.hollow.centre
        pull = (stop.pivot.x - centre.x) * (stop.rod.y - centre.y)
        assert pull == pytest.approx((stop.pivot.y - centre.y) * (stop.rod.x - centre.x))
        assert math.dist(centre, stop.rod) == pytest.approx(4.0)
        assert math.dist(stop.pivot, stop.rod) == pytest.approx(365.0)


def test_no_seat_lifts_the_back_above_the_limit_of_its_height():
    limit = upright(LOUNGER, FLOOR + 11.0)
    feet = [100.0 + 50.0 * k for k in range(12)]
    found = stops(LOUNGER, rack_with(*feet))
    assert all(s.angle < limit for s in found.stops)
    assert all(s.limit == pytest.approx(limit) for s in found.stops)
    past = [p for p in found.passed if p.reason is Unreached.PAST_UPRIGHT]
    assert past
    assert all(p.rod.x < pivot_at(LOUNGER, limit).x for p in past)


def test_seats_out_of_reach_say_by_how_much():
    # by hand: in line the arm reaches hypot(320, 27) + 365 from the hinge
    found = stops(LOUNGER, rack_with(500.0, 760.0))
    (far,) = found.passed
    assert far.reason is Unreached.TOO_FAR
    reach = math.hypot(320.0, 27.0) + 365.0
    assert far.amount == pytest.approx(math.hypot(749.0, FLOOR + 11.0) - reach)
    near = Prop(pivot=Point(320.0, -27.0), arm=150.0, rod=22.0)
    (close,) = [p for p in stops(near, rack_with(110.0, 400.0)).passed if p.seat == 1]
    assert close.reason is Unreached.TOO_NEAR


def test_back_that_lies_on_its_frame_is_no_stop():
    # by hand: flat, the pivot is at (320, -27); a rod at -72 in a seat further out than
    # 320 + sqrt(365^2 - 45^2) bears only with the back below flat
    edge = 320.0 + math.sqrt(365.0**2 - 45.0**2)
    below, above = (stops(LOUNGER, rack_with(500.0, edge + 11.0 + past)) for past in (1e-6, -1e-6))
    assert [p.reason for p in below.passed] == [Unreached.BELOW_FLAT]
    assert not above.passed
    assert above.stops[0].angle == pytest.approx(0.0, abs=1e-5)


def test_seat_higher_up_that_brings_the_back_lower():
    high = ramp_notch(Point(600.0, FLOOR + 40.0), 21.0, 15.0, 45.0)
    low = ramp_notch(Point(560.0, FLOOR - 80.0), 21.0, 135.0, 80.0)
    rack = laid(
        rack_contour([low, high], Point(400.0, FLOOR + 55.0), Point(680.0, FLOOR + 55.0)), 22.0
    )
    found = stops(LOUNGER, rack)
    assert [s.seat for s in found.stops] == [2]
    assert [p.reason for p in found.passed] == [Unreached.LOWERS]


def test_near_upright_the_end_towards_the_free_end_is_taken():
    # by hand: the arm stands upright over x = sqrt(rho^2 - (arm + height)^2); a long floor to
    # both sides of it holds the rod at either end
    rho2 = 320.0**2 + 27.0**2
    middle = math.sqrt(rho2 - (365.0 + FLOOR + 11.0) ** 2)
    foot = middle + 10.0 + 11.0
    rack = rack_with(foot, notch=lambda at: square(at, 42.0, 15.0))
    (stop,) = stops(LOUNGER, rack).stops
    assert stop.rod.x == pytest.approx(middle + 10.0)
    assert stop.held
    assert stop.loaded.margin == pytest.approx(stop.lean)
    assert stop.lean < 5.0
