"""The worst case as made, against root finding on mechanisms drawn at random within tolerance."""

import math
import random

import pytest
from scipy.optimize import brentq

from flatpack.geometry import Point
from flatpack.mechanism.notches import half_round, rack_contour, ramp_notch
from flatpack.mechanism.prop import Prop
from flatpack.mechanism.seats import laid
from flatpack.mechanism.stops import stops
from flatpack.mechanism.tolerance import Tolerance, sensitivity, spread, spreads

LOUNGER = Prop(pivot=Point(320.0, -27.0), arm=365.0, rod=22.0)
FEET = (225.0, 272.0, 445.0, 569.0, 651.0)


def stops_on(notch):
    notches = [notch(Point(x, -83.0)) for x in FEET]
    rack = rack_contour(notches, Point(150.0, -68.0), Point(720.0, -68.0))
    return stops(LOUNGER, laid(rack, 22.0)).stops


RAMPS = stops_on(lambda at: ramp_notch(at, 21.0, 15.0, 45.0))
ROUNDS = stops_on(lambda at: half_round(at, 15.0, 15.0))


def angle(px, py, arm, x, y):
    """By bracketing, from the flat side up to the pivot's farthest place."""

    def gap(t):
        c, s = math.cos(t), math.sin(t)
        return math.hypot(px * c - py * s - x, px * s + py * c - y) - arm

    near = math.atan2(y, x) - math.atan2(py, px)
    return math.degrees(brentq(gap, near, near + math.pi, xtol=1e-13))


def made(rng, stop, size, corner=False):
    pick = (lambda t: rng.choice((-t, t))) if corner else (lambda t: rng.uniform(-t, t))
    hollow = stop.loaded.hollow
    x = hollow.centre.x + pick(size) + pick(size) + pick(size) / 2.0
    y = hollow.centre.y + pick(size) + pick(size)
    arm = 365.0 - hollow.radius + pick(size)
    return angle(320.0 + pick(size), -27.0 + pick(size), arm, x, y)


@pytest.mark.parametrize("stop", [*RAMPS, *ROUNDS])
def test_spread_covers_everything_made_within_tolerance_and_no_more(stop):
    rng = random.Random(stop.seat)
    found = spread(LOUNGER, stop, Tolerance())
    inside = [made(rng, stop, 1.0) for _ in range(200)]
    corners = [made(rng, stop, 1.0, corner=True) for _ in range(1500)]
    assert found.low - 1e-9 <= min(inside + corners)
    assert max(inside + corners) <= found.high + 1e-9
    assert min(corners) == pytest.approx(found.low, abs=1e-6)
    if stop.lean > 5.0:
        assert max(corners) == pytest.approx(found.high, abs=1e-6)


@pytest.mark.parametrize("stop", [*RAMPS, *ROUNDS])
def test_sensitivities_are_the_slopes_of_the_angle(stop):
    hollow, h = stop.loaded.hollow, 1e-4
    found = sensitivity(LOUNGER, stop)
    base = (320.0, -27.0, 365.0 - hollow.radius, hollow.centre.x, hollow.centre.y)
    for k, slope in enumerate((found.pivot.x, found.pivot.y, found.arm, found.rod.x, found.rod.y)):
        up, down = (
            angle(*(v + (d if i == k else 0.0) for i, v in enumerate(base))) for d in (h, -h)
        )
        assert slope == pytest.approx((up - down) / (2.0 * h), rel=1e-4, abs=1e-7)


def test_one_mm_is_worth_degrees():
    # common experience at the bench: a mm in pivot, arm or notch moves the angle by up to half a
    # degree; all of them together move it by more
    wide = spreads(LOUNGER, RAMPS)
    narrow = spreads(LOUNGER, RAMPS, Tolerance(hinge=0, pivot=0, arm=1, notch=0, racks=0))
    for all_of_them, arm_only in zip(wide, narrow, strict=True):
        assert 0.3 < arm_only.high - arm_only.low < all_of_them.high - all_of_them.low < 12.0


def test_no_tolerance_no_spread():
    none = Tolerance(hinge=0, pivot=0, arm=0, notch=0, racks=0)
    for stop in (*RAMPS, *ROUNDS):
        found = spread(LOUNGER, stop, none)
        assert found.high - found.low < 1e-9
        assert found.margin == pytest.approx(stop.loaded.margin)


def test_hold_is_only_proved_if_it_holds_everywhere():
    # the stop nearest upright loses its margin when everything is 3 mm off
    top = RAMPS[-1]
    assert top.held
    assert spread(LOUNGER, top, Tolerance()).held
    assert not spread(LOUNGER, top, Tolerance(hinge=9, notch=9, arm=9, pivot=9)).held
