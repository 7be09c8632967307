"""The travel over simple racks, where every angle can be had by hand or by a root finder."""

import math

import pytest
from scipy.optimize import brentq

from flatpack.geometry import Point, Segment, chain
from flatpack.mechanism.bodies import Body, Carrier, arm_outline, rod_body
from flatpack.mechanism.folded import folded_boxes
from flatpack.mechanism.locus import locus
from flatpack.mechanism.path import Phase, at_angle, travel
from flatpack.mechanism.prop import Prop
from flatpack.mechanism.track import Lead

PROP = Prop(pivot=Point(320.0, -27.0), arm=365.0, rod=22.0)
R = 11.0
FLOOR = -83.0
FACE, TIP = 272.0, -58.0


def pivot(degrees: float) -> tuple[float, float]:
    t = math.radians(degrees)
    x, y = PROP.pivot
    return x * math.cos(t) - y * math.sin(t), x * math.sin(t) + y * math.cos(t)


def rack(*corners: tuple[float, float]) -> tuple[Segment, ...]:
    return locus(chain([(x, y, 0.0) for x, y in corners]), R)


ONE_TOOTH = rack((-400, FLOOR), (FACE, FLOOR), (FACE, TIP), (278, TIP), (303, FLOOR), (800, FLOOR))
SEAT = Point(FACE - R, FLOOR + R)


def seat_angle() -> float:
    return brentq(lambda d: math.dist(pivot(d), SEAT) - PROP.arm, 40.0, 80.0)


def one_tooth():
    return travel(PROP, ONE_TOOTH, seat_angle(), SEAT)


def test_a_bare_floor_lets_the_rod_slide_until_the_arm_stands_upright() -> None:
    path = travel(PROP, rack((-400, FLOOR), (800, FLOOR)), 95.0, Point(-390.0, -72.0))
    upright = brentq(lambda d: pivot(d)[1] - (FLOOR + R) - PROP.arm, 40.0, 89.0)
    slide, *rest = path.raising
    for degrees in (0.0, 10.0, 40.0, 60.0, upright - 0.1):
        stand = at_angle(path, degrees)
        px, py = pivot(degrees)
        assert stand.rod.y == pytest.approx(FLOOR + R, abs=1e-6)
        reach = math.sqrt(PROP.arm**2 - (py - FLOOR - R) ** 2)
        assert stand.rod.x == pytest.approx(px + reach, abs=1e-5)
    assert slide.start == 0.0
    assert rest[-1].lead is Lead.HANGING or path.raising[-1].lead is Lead.HANGING
    hung = next(s for s in path.raising if s.lead is Lead.HANGING)
    assert hung.start == pytest.approx(upright, abs=1e-6)
    top = path.topmost
    assert top.rod.x == pytest.approx(top.pivot.x, abs=1e-9)
    assert top.rod.y == pytest.approx(top.pivot.y - PROP.arm, abs=1e-9)


def test_the_tooth_is_passed_and_cleared_where_its_tip_is_an_arm_and_a_radius_away() -> None:
    path = one_tooth()

    def misses(degrees: float) -> float:
        return math.dist(pivot(degrees), (FACE, TIP)) - PROP.arm - R

    passed = brentq(misses, 60.0, 80.0)
    drop = next(s for s in path.raising if s.phase is Phase.DROPPING)
    assert drop.start == pytest.approx(passed, abs=1e-6)
    assert path.passes == pytest.approx(passed, abs=1e-6)
    assert path.clears == pytest.approx(passed, abs=1e-6)
    assert path.over == pytest.approx(passed + 1.0, abs=1e-6)


def test_the_rod_stays_an_arm_from_the_pivot_and_nothing_jumps() -> None:
    path = one_tooth()
    before = None
    for stretch in path.stretches:
        assert before is None or math.dist(before, stretch.at(0.0).rod) < 1e-4
        for k in range(101):
            stand = stretch.at(k / 100.0)
            assert math.dist(stand.pivot, stand.rod) == pytest.approx(PROP.arm, abs=1e-6)
            if k:
                assert math.dist(before, stand.rod) < stretch.track.length / 5.0 + 1e-6
            before = stand.rod


def test_no_point_moves_further_than_the_stated_way() -> None:
    for stretch in one_tooth().stretches:
        for k in range(20):
            a, b = stretch.at(k / 20.0), stretch.at((k + 1) / 20.0)
            way = stretch.way(a, b)
            assert math.dist(a.pivot, b.pivot) <= way.pivot + 1e-9
            assert math.dist(a.rod, b.rod) <= way.rod + 1e-9


def test_phases_come_in_order_and_end_folded() -> None:
    path = one_tooth()
    order = list(Phase)
    seen = [p for p in (s.phase for s in path.stretches) if p is not Phase.DROPPING]
    assert seen == sorted(seen, key=order.index)
    assert path.folded.degrees == 0.0
    assert path.folded.rod.y == pytest.approx(FLOOR + R, abs=1e-9)
    lowest = math.dist(path.folded.rod, PROP.pivot)
    assert lowest == pytest.approx(PROP.arm, abs=1e-9)


def test_lowering_keeps_the_rod_above_the_tooth_and_lets_it_down_behind() -> None:
    path = one_tooth()
    crest = TIP + R
    for stretch in path.stretches:
        if stretch.phase is Phase.LOWERING:
            for k in range(51):
                x, y = stretch.at(k / 50.0).rod
                ahead = crest if x < 278.0 else FLOOR + R
                assert y >= ahead + 3.0 - 1e-6
    last = [s for s in path.stretches if s.phase is Phase.LOWERING][-1]
    assert last.at(1.0).rod.y == pytest.approx(FLOOR + R + 3.0, abs=1e-6)


def test_a_rack_too_short_leaves_the_arms_hanging_when_flat() -> None:
    short = rack((-100, FLOOR), (FACE, FLOOR), (FACE, TIP), (400, TIP))
    path = travel(PROP, short, seat_angle(), SEAT)
    assert path.folded.rod.x == pytest.approx(PROP.pivot.x, abs=1e-9)
    assert path.folded.rod.y == pytest.approx(PROP.pivot.y - PROP.arm, abs=1e-9)


def test_a_tooth_too_high_for_the_limit_is_never_cleared() -> None:
    path = travel(PROP, ONE_TOOTH, seat_angle(), SEAT, limit=2.0)
    assert path.passes is None
    assert path.clears is None
    assert path.over == pytest.approx(seat_angle() + 1.0)


def test_folded_boxes_of_a_round_arm_and_its_rod() -> None:
    path = one_tooth()
    arm = Body(name="arm", outlines=(arm_outline(365.0, 44.0),), lane=(0, 1), carrier=Carrier.ARM)
    (_, box), (_, rod) = folded_boxes((arm, rod_body(22.0, (0, 1))), path)
    x, y = path.folded.rod
    assert box == pytest.approx((320.0 - 22.0, y - 22.0, x + 22.0, -27.0 + 22.0))
    assert rod == pytest.approx((x - R, y - R, x + R, y + R))
