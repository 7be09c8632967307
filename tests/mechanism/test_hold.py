"""Forces at a stop, and what a knock does; balances taken by hand, ridges by sampling."""

import math

import pytest

from flatpack.geometry import Point
from flatpack.mechanism.hold import Load, friction_needed, hold
from flatpack.mechanism.notches import half_round, rack_contour, ramp_notch, vee
from flatpack.mechanism.prop import Prop, angles_at
from flatpack.mechanism.ridges import knock, ridge
from flatpack.mechanism.seats import laid
from flatpack.mechanism.stops import stops

LOUNGER = Prop(pivot=Point(320.0, -27.0), arm=365.0, rod=22.0)
FLOOR = -83.0
FEET = (272.0, 445.0, 569.0, 651.0)


def rack_of(notch):
    notches = [notch(Point(x, FLOOR)) for x in FEET]
    return laid(rack_contour(notches, Point(190.0, FLOOR + 15), Point(720.0, FLOOR + 15)), 22.0)


RAMPS = rack_of(lambda at: ramp_notch(at, 21.0, 15.0, 45.0, 6.0))
ROUNDS = rack_of(lambda at: half_round(at, 15.0, 13.0))
SHALLOW = rack_of(lambda at: vee(at, 15.0, 50.0, 50.0))


@pytest.mark.parametrize("rack", [RAMPS, ROUNDS], ids=["ramps", "rounds"])
def test_forces_and_moments_balance(rack):
    load = Load(force=600.0, along=410.0, out=30.0, degrees=-80.0)
    for stop in stops(LOUNGER, rack).stops:
        found = hold(rack, stop, load)
        u, p = stop.loaded.thrust, stop.pivot
        a, d = math.radians(stop.angle), math.radians(-80.0)
        at = (410 * math.cos(a) - 30 * math.sin(a), 410 * math.sin(a) + 30 * math.cos(a))
        force = (600.0 * math.cos(d), 600.0 * math.sin(d))
        push = (-found.thrust * u.x, -found.thrust * u.y)
        assert found.hinge.x + force[0] + push[0] == pytest.approx(0.0, abs=1e-9)
        assert found.hinge.y + force[1] + push[1] == pytest.approx(0.0, abs=1e-9)
        moment = at[0] * force[1] - at[1] * force[0] + p.x * push[1] - p.y * push[0]
        assert moment == pytest.approx(0.0, abs=1e-6)
        assert found.arm == pytest.approx(found.thrust / 2.0)


def test_floor_and_leaning_face_share_the_thrust():
    # by hand: the face leans 6 degrees over the rod, so its normal points 6 below level
    face_normal = (-math.cos(math.radians(6.0)), -math.sin(math.radians(6.0)))
    for stop in stops(LOUNGER, RAMPS).stops:
        found = hold(RAMPS, stop, Load(force=500.0, along=400.0))
        floor, face = found.faces
        total_x = face.square * face_normal[0]
        total_y = floor.square + face.square * face_normal[1]
        u = stop.loaded.thrust
        assert (total_x, total_y) == pytest.approx((-found.arm * u.x, -found.arm * u.y))
        assert found.held
        assert found.friction == 0.0


def test_round_seat_takes_it_all_on_one_face():
    stop = stops(LOUNGER, ROUNDS).stops[1]
    found = hold(ROUNDS, stop, Load(force=500.0, along=400.0))
    assert [f.square for f in found.faces] == pytest.approx([found.arm])


def test_virtual_work():
    # The thrust times the arm's shortening for a small turn is the load's work: a numeric check
    step = 1e-6
    load = Load(force=500.0, along=400.0)
    for stop in stops(LOUNGER, RAMPS).stops:
        a, b = (math.radians(stop.angle) + s for s in (-step, step))
        shorter = [
            math.dist(
                (320 * math.cos(t) + 27 * math.sin(t), 320 * math.sin(t) - 27 * math.cos(t)),
                stop.rod,
            )
            for t in (a, b)
        ]
        work = 500.0 * 400.0 * (math.sin(b) - math.sin(a))
        thrust = hold(RAMPS, stop, load).thrust
        assert thrust * (shorter[1] - shorter[0]) == pytest.approx(work, rel=1e-6)


def test_shallow_vee_needs_friction_at_low_angles():
    lowest = stops(LOUNGER, SHALLOW).stops[0]
    found = hold(SHALLOW, lowest, Load(force=500.0, along=400.0))
    u = lowest.loaded.thrust
    # by hand: the face slopes 40 from level, so a thrust flatter than 50 below level climbs it
    short = 50.0 - math.degrees(math.atan2(-u.y, u.x))
    assert short > 0.0
    assert found.margin == pytest.approx(-short)
    assert found.friction == pytest.approx(math.tan(math.radians(short)))
    assert not found.held
    (only,) = found.faces
    assert only.along / only.square == pytest.approx(found.friction)


def test_a_load_that_lifts_the_back_pulls_the_arms():
    stop = stops(LOUNGER, RAMPS).stops[0]
    found = hold(RAMPS, stop, Load(force=100.0, along=700.0, degrees=90.0))
    assert found.pulled
    assert not found.held


def test_friction_is_endless_beyond_square():
    assert friction_needed(5.0) == 0.0
    assert friction_needed(-45.0) == pytest.approx(1.0)
    assert friction_needed(-90.0) == math.inf


@pytest.mark.parametrize("rack", [RAMPS, ROUNDS], ids=["ramps", "rounds"])
@pytest.mark.parametrize("side", [1, -1])
def test_ridge_is_the_highest_angle_beside_the_stop(rack, side):
    for stop in stops(LOUNGER, rack).stops:
        found = ridge(LOUNGER, rack.path, stop, side)
        hollow = stop.loaded.hollow
        number = hollow.after if side > 0 else hollow.before
        best, falling = stop.angle, False
        while 0 <= number < len(rack.path) and not falling:
            for k in range(2001):
                share = k / 2000 if side > 0 else 1.0 - k / 2000
                place = rack.path[number].at(share)
                if side * (place.x - stop.rod.x) < -1e-9:
                    continue  # the other half of a round seat
                _, angle = angles_at(LOUNGER, place)
                best = max(best, angle)
                falling = falling or angle < best - 0.05
            number += side
        if not falling:
            assert found is None
            continue
        assert found.angle == pytest.approx(best, abs=1e-4)
        assert found.lift == pytest.approx(found.place.y - stop.rod.y)


def test_knock():
    found = stops(LOUNGER, RAMPS)
    second = found.stops[1]
    small, big = (knock(LOUNGER, RAMPS, found, second, size) for size in (5.0, 30.0))
    assert small.captured
    assert not big.captured
    assert big.next_angle == found.stops[0].angle
    assert big.drop == pytest.approx(second.angle - found.stops[0].angle)
    lowest = knock(LOUNGER, RAMPS, found, found.stops[0])
    assert lowest.next_angle == 0.0
    # by hand: the crest stands 4 mm above the rod's centre, and the rod must roll over its corner
    assert 4.0 < small.free_side.lift < 15.0
