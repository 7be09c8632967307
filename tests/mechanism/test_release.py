"""Letting a stop go, worked out by hand or by a root finder; gaps that may catch a finger."""

import math

import pytest
from scipy.optimize import brentq

from flatpack.geometry import Point, chain
from flatpack.mechanism.bodies import Body, Carrier, oblong, rod_body
from flatpack.mechanism.locus import locus
from flatpack.mechanism.path import travel
from flatpack.mechanism.prop import Prop
from flatpack.mechanism.release import (
    Masses,
    back_force,
    hand_room,
    hangs_when_flat,
    release,
    rod_force,
    seated,
)
from flatpack.mechanism.traps import finger_traps

PROP = Prop(pivot=Point(320.0, -27.0), arm=365.0, rod=22.0)
FLOOR, TIP, FACE = -83.0, -58.0, 440.0
CONTOUR = chain(
    [(x, y, 0.0) for x, y in (
        (-400, FLOOR), (FACE, FLOOR), (FACE, TIP), (446, TIP), (471, FLOOR), (800, FLOOR),
    )]
)  # fmt: skip
SEAT = Point(FACE - 11.0, FLOOR + 11.0)
MASSES = Masses(back=6.0, cog=Point(360.0, 0.0), arms=1.2, arms_cog=182.5, rod=0.3, grip=720.0)


def pivot(degrees: float) -> tuple[float, float]:
    t = math.radians(degrees)
    x, y = PROP.pivot
    return x * math.cos(t) - y * math.sin(t), x * math.sin(t) + y * math.cos(t)


STOP = brentq(lambda d: math.dist(pivot(d), SEAT) - 365.0, 30.0, 80.0)


@pytest.fixture(scope="module")
def path():
    return travel(PROP, locus(CONTOUR, 11.0), STOP, SEAT)


def test_the_back_rises_until_the_tooth_is_an_arm_and_a_radius_from_the_pivot(path) -> None:
    found = release(path, STOP, SEAT, MASSES)
    clears = brentq(lambda d: math.dist(pivot(d), (FACE, TIP)) - 365.0 - 11.0, STOP, 80.0)
    assert found.clears == pytest.approx(clears, abs=1e-6)
    assert found.raise_back == pytest.approx(clears - STOP, abs=1e-6)
    # the rod has slid along the floor meanwhile, and must rise by the tooth and 3 mm more
    px, py = pivot(clears)
    x = px + math.sqrt(365.0**2 - (py - SEAT.y) ** 2)
    assert found.drawn.x == pytest.approx(x, abs=1e-3)
    assert found.lift == pytest.approx((TIP + 11.0 + 3.0) - SEAT.y, abs=1e-6)
    up = px + math.sqrt(365.0**2 - (py - (TIP + 14.0)) ** 2)
    turn = math.atan2(SEAT.y - py, x - px) - math.atan2(TIP + 14.0 - py, up - px)
    assert found.swing == pytest.approx(abs(math.degrees(turn)), abs=1e-3)
    assert not found.through


def test_no_release_within_the_limit_is_said(path) -> None:
    found = release(path, STOP, SEAT, MASSES, limit=0.5)
    assert found.clears is None


def test_forces_by_moments() -> None:
    """Back flat: (6 x 360 + 0.6 x 320) g / 720; the rod takes half the arms' weight."""
    g = 9.80665
    assert back_force(PROP, 0.0, MASSES) == pytest.approx((6 * 360 + 0.6 * 320) * g / 720)
    assert rod_force(PROP, MASSES) == pytest.approx((0.3 + 0.6) * g)
    assert back_force(PROP, 120.0, MASSES) == 0.0
    half = back_force(PROP, 60.0, MASSES)
    x = pivot(60.0)[0]
    assert half == pytest.approx((6 * 180 + 0.6 * x) * g / 720)


def slat(x0: float, x1: float, carrier: Carrier, name: str) -> Body:
    return Body(
        name=name, outlines=(oblong(x0, 0.0, x1, 18.0),), lane=(0.0, 100.0), carrier=carrier
    )


def test_room_for_a_hand_is_to_the_nearest_thing_in_its_lane(path) -> None:
    bearer = Body(
        name="bearer",
        outlines=(oblong(-400.0, -160.0, 800.0, -120.0),),
        lane=(-50.0, 50.0),
        carrier=Carrier.FRAME,
    )
    outside = Body(
        name="packer",
        outlines=(oblong(-400.0, -90.0, 800.0, -84.0),),
        lane=(264.0, 280.0),
        carrier=Carrier.FRAME,
    )
    rod = rod_body(22.0, (-281.0, 281.0))
    (found,) = hand_room((bearer, outside, rod), path, (-45.0, 45.0), (seated(PROP, STOP, SEAT),))
    assert found.room == pytest.approx(SEAT.y - 11.0 - -120.0)
    assert found.nearest == "bearer"


def test_a_closing_joint_is_a_trap_between_18_and_7(path) -> None:
    """Axis at the underside, at mid-gap: the arrises stand 2 R sin((full - angle) / 2) apart."""
    bodies = (
        slat(-80.0, -15.0, Carrier.FRAME, "deck slat"),
        slat(15.0, 80.0, Carrier.BACK, "back slat"),
    )
    up, down = finger_traps(bodies, path)
    reach, full = math.hypot(15.0, 18.0), 2.0 * math.degrees(math.atan(15.0 / 18.0))

    def at(gap: float) -> float:
        return full - 2.0 * math.degrees(math.asin(gap / 2.0 / reach))

    assert up.rising
    assert up.start == pytest.approx(at(18.0), abs=0.25)
    assert up.end == pytest.approx(min(at(7.0), path.over), abs=0.25)
    assert down.start == pytest.approx(up.end, abs=0.25)
    assert down.end == pytest.approx(up.start, abs=0.25)
    assert not down.rising
    assert 7.0 <= up.narrowest <= up.widest <= 18.0


def test_an_even_gap_is_no_trap(path) -> None:
    """A disc about the hinge axis turns 10 mm from a rail without closing on anything."""
    from flatpack.mechanism.bodies import disc

    knuckle = Body(
        name="knuckle",
        outlines=(disc(Point(0.0, 0.0), 6.0),),
        lane=(0.0, 100.0),
        carrier=Carrier.BACK,
    )
    rail = Body(
        name="rail",
        outlines=(oblong(-40.0, -80.0, -16.0, 0.0),),
        lane=(0.0, 100.0),
        carrier=Carrier.FRAME,
    )
    assert finger_traps((knuckle, rail), path) == ()


def test_a_wide_or_narrow_gap_is_no_trap(path) -> None:
    far = (
        slat(-80.0, -15.0, Carrier.FRAME, "deck slat"),
        slat(150.0, 200.0, Carrier.BACK, "back slat"),
    )
    assert finger_traps(far, path) == ()


def test_the_rod_rests_on_the_rack_when_flat(path) -> None:
    assert not hangs_when_flat(path)
