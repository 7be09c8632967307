"""Prop and rack against published numbers and hand derivations."""

import math

import pytest

from flatpack.geometry import Point, chain
from flatpack.mechanism.hold import Load, hold
from flatpack.mechanism.hollows import Hollow
from flatpack.mechanism.notches import Kind, NotchForm, play, rack_contour, ramp_notch
from flatpack.mechanism.prop import (
    Miss,
    Prop,
    Reach,
    angles_at,
    circle_circle,
    pivot_at,
    rod_at,
    upright,
)
from flatpack.mechanism.seats import Loaded, Rack, laid, loaded_seat
from flatpack.mechanism.stops import Stop, stops


def test_circle_circle_published():
    # http://userpages.umbc.edu/~squire/download/circle_circle_c.out, seen, and recomputed
    right, left = circle_circle(Point(-0.1, -0.2), 2.0, Point(2.0, 1.0), 2.1)
    assert right == pytest.approx((1.6969641, -1.0780205), abs=5e-8)
    assert left == pytest.approx((0.0558564, 1.7939179), abs=5e-8)


def test_circles_that_do_not_meet():
    # by hand: centres 10 apart; radii 3 and 4 leave 3, radii 20 and 4 leave 6
    assert circle_circle(Point(0, 0), 3.0, Point(10, 0), 4.0) == Miss(Reach.TOO_FAR, 3.0)
    assert circle_circle(Point(0, 0), 20.0, Point(10, 0), 4.0) == Miss(Reach.TOO_NEAR, 6.0)


def test_four_bar():
    # textbook example (ground 100, crank 40, coupler 120, rocker 80, crank at 40 degrees),
    # from memory; its angles recomputed by the Freudenstein equation
    crank = Point(40.0 * math.cos(math.radians(40.0)), 40.0 * math.sin(math.radians(40.0)))
    ground = Point(100.0, 0.0)
    crossed, opened = circle_circle(crank, 120.0, ground, 80.0)
    for joint, coupler, rocker in ((opened, 20.298, 57.325), (crossed, -60.978, -98.005)):
        theta3 = math.degrees(math.atan2(joint.y - crank.y, joint.x - crank.x))
        theta4 = math.degrees(math.atan2(joint.y - ground.y, joint.x - ground.x))
        assert theta3 == pytest.approx(coupler, abs=5e-4)
        assert theta4 == pytest.approx(rocker, abs=5e-4)


def test_prop_of_whole_numbers():
    # by hand: pivot 300 out, back at 30 degrees: P = (150 sqrt 3, 150); arm the hypotenuse of
    # 150 down and 200 across; mirrored in the line hinge to rod it reaches the low angle too
    prop = Prop(pivot=Point(300.0, 0.0), arm=250.0, rod=20.0)
    place = Point(150.0 * math.sqrt(3.0) + 200.0, 0.0)
    low, high = angles_at(prop, place)
    assert high == pytest.approx(30.0, abs=1e-12)
    assert low == pytest.approx(-30.0, abs=1e-12)
    assert pivot_at(prop, 30.0) == pytest.approx((150.0 * math.sqrt(3.0), 150.0))
    assert rod_at(prop, 30.0, 0.0) == pytest.approx(place)


def test_upright_arm():
    # by hand: the pivot on a circle of 200, arm 160 over a rod at -60: 100 above the hinge
    prop = Prop(pivot=Point(200.0, 0.0), arm=160.0, rod=20.0)
    assert upright(prop, -60.0) == pytest.approx(30.0)
    assert upright(prop, 60.0) is None  # 220 is higher than the pivot ever comes


ROD = 22.0
LEAST_BASE = 11.0 * (1.0 + math.tan(math.radians(22.5)))  # 15.56, derived by hand


def seat_on(base):
    notch = ramp_notch(Point(0.0, 0.0), base, 30.0, 45.0)
    contour = rack_contour([notch], Point(-120.0, 30.0), Point(60.0, 30.0))
    (seat,) = laid(contour, ROD).seats
    return seat


def test_rod_between_upright_face_and_ramp():
    # by hand: a 22 mm rod reaches the floor when the base is at least r (1 + tan 22.5)
    assert pytest.approx(15.56, abs=5e-3) == LEAST_BASE
    assert seat_on(LEAST_BASE + 1e-4).low.y == pytest.approx(11.0, abs=1e-9)
    assert seat_on(LEAST_BASE - 0.1).low.y == pytest.approx(11.1, abs=1e-9)  # 45 degrees: as much
    wide = seat_on(21.0)
    assert wide.level == pytest.approx(5.44, abs=5e-3)
    form = NotchForm(kind=Kind.RAMP, depth=30.0, base=21.0, ramp=45.0)
    assert play(form, 11.0) == pytest.approx(wide.level, abs=1e-9)


def test_faces_touched():
    # by hand: floor and stop face, floor and both sides, one round face
    (square,) = laid(
        chain([(-9, 20, 0), (0, 20, 0), (0, 0, 0), (22, 0, 0), (22, 20, 0), (31, 20, 0)]), 22.0
    ).seats
    assert loaded_seat(square, Point(1.0, -1.0)).faces == (1, 2, 3)
    push = Point(1.0, -2.0)
    assert len(loaded_seat(seat_on(21.0), push).faces) == 2
    half = chain([(-9, 0, 0), (0, 0, 1), (30, 0, 0), (40, 0, 0)])
    (round_seat,) = laid(half, 22.0).seats
    assert loaded_seat(round_seat, push).faces == (1,)
    assert loaded_seat(round_seat, push).rod == pytest.approx(
        (15.0 + 4.0 / math.sqrt(5.0), -8.0 / math.sqrt(5.0))
    )


def leaning(degrees, thrust):
    """A stop made by hand: a back of 1000 at an angle, pushed by `thrust` at its end."""
    prop = Prop(pivot=Point(1000.0, 0.0), arm=100.0, rod=20.0)
    p = pivot_at(prop, degrees)
    rod = Point(p.x + 100.0 * thrust.x, p.y + 100.0 * thrust.y)
    hollow = Hollow(rod, 0.0, 0.0, math.pi / 2.0, 0, 0, (0,))
    wall = chain([(rod.x + 10.0, rod.y - 50.0, 0), (rod.x + 10.0, rod.y + 50.0, 0)])
    loaded = Loaded(hollow=hollow, rod=rod, thrust=thrust, held=True)
    stop = Stop(seat=1, angle=degrees, pivot=p, loaded=loaded, lean=90.0, limit=None)
    return Rack(contour=wall, rod=20.0, path=(), seats=()), stop


@pytest.mark.parametrize("mu", [0.5, 0.3, 1.0])
def test_ladder_on_a_smooth_wall(mu):
    # Uniform ladder, smooth wall: tan(least angle) = 1 / (2 mu); 45 degrees for 0.5.  Two pages
    # of worked problems, seen.  The back is the ladder, the level thrust the wall's reaction.
    least = math.degrees(math.atan(1.0 / (2.0 * mu)))
    rack, stop = leaning(least, Point(1.0, 0.0))
    found = hold(rack, stop, Load(force=100.0, along=500.0))
    assert found.hinge.x / found.hinge.y == pytest.approx(mu)
    assert found.hinge.y == pytest.approx(100.0)


def test_right_branch_on_a_rack():
    # by hand, from the 3-4-5 prop above: the notch's stop face stands r beyond the rod
    prop = Prop(pivot=Point(300.0, 0.0), arm=250.0, rod=20.0)
    foot = Point(150.0 * math.sqrt(3.0) + 210.0, -10.0)
    contour = rack_contour(
        [ramp_notch(foot, 25.0, 15.0, 45.0)], Point(300.0, 5.0), Point(520.0, 5.0)
    )
    (stop,) = stops(prop, laid(contour, 20.0)).stops
    assert stop.angle == pytest.approx(30.0, abs=1e-9)
    assert stop.lean == pytest.approx(math.degrees(math.atan2(200.0, 150.0)))
    assert stop.limit is None or stop.limit == pytest.approx(math.degrees(math.asin(250 / 300)))
    # thrust is 36.87 below level: 53.13 from the floor's normal, 36.87 from the face's
    assert stop.loaded.margin == pytest.approx(math.degrees(math.atan2(3.0, 4.0)))
