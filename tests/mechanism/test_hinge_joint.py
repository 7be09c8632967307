"""The hinge joint against hand derivations and against polygons turned by shapely."""

import math
import random
from dataclasses import replace

import numpy as np
import pytest
from shapely import affinity
from shapely.geometry import Polygon

from flatpack.mechanism.hinge_joint import (
    Cure,
    HingeJoint,
    gap_for,
    joint_remedies,
    largest_angle,
    opening_limit,
)


def joint(**changed: float) -> HingeJoint:
    given = {"gap": 18.0, "thickness": 18.0, "axis_depth": 0.0, "axis_from_fixed": 9.0}
    return HingeJoint(**{**given, **changed})


def test_axis_under_the_fixed_slats_end() -> None:
    """Its arris stands T above the axis and meets the back slat's end face: sin = gap / T."""
    at_end = joint(gap=12.0, axis_from_fixed=0.0)
    assert largest_angle(at_end) == pytest.approx(math.degrees(math.asin(12.0 / 18.0)), abs=1e-9)


def test_both_slats_are_alike() -> None:
    for at in (0.0, 2.0, 5.0, 8.5):
        left = largest_angle(joint(axis_from_fixed=at, axis_depth=2.0, round_fixed=4.0))
        right = largest_angle(joint(axis_from_fixed=18.0 - at, axis_depth=2.0, round_moving=4.0))
        assert left == pytest.approx(right, abs=1e-9)


def test_mid_gap_is_the_worst_place_for_the_axis() -> None:
    angles = [largest_angle(joint(axis_from_fixed=at)) for at in np.linspace(0.0, 18.0, 37)]
    assert int(np.argmin(angles)) == 18


@pytest.mark.parametrize("r", [1.0, 3.0, 6.0, 12.0])
def test_two_arrises_rounded_alike_meet_on_the_bisector(r: float) -> None:
    """The arc's centre is then r from the line halving the angle."""
    x, y = 9.0 + r, 21.0 - r
    expected = 2.0 * math.degrees(math.atan2(x, y) - math.asin(r / math.hypot(x, y)))
    found = largest_angle(joint(axis_depth=3.0, round_fixed=r, round_moving=r))
    assert found == pytest.approx(expected, abs=1e-9)


def test_axis_above_the_slats_never_stops() -> None:
    assert largest_angle(joint(axis_depth=-20.0)) == 180.0


def test_touching_slats_with_the_axis_below_cannot_rise() -> None:
    assert largest_angle(joint(gap=0.0, axis_from_fixed=0.0)) == 0.0


def test_a_hinge_that_stops_flat_lets_nothing_rise() -> None:
    """Leaves under the slats lie at 180 when flat; opening by as much again takes 270."""
    assert opening_limit(180.0) == 0.0
    assert opening_limit(270.0) == 90.0
    assert opening_limit(170.0) == 0.0


def _corner(x: float, top: float, r: float, side: int) -> list[tuple[float, float]]:
    """Points round an arris; side -1: the body lies left of x."""
    turns = np.linspace(0.0, math.pi / 2.0, 120) if r else [0.0]
    return [(x + side * (r - r * math.cos(t)), top - r + r * math.sin(t)) for t in turns]


def _slats(j: HingeJoint) -> tuple[Polygon, Polygon]:
    low, top = j.axis_depth, j.axis_depth + j.thickness
    a, b = -j.axis_from_fixed, j.gap - j.axis_from_fixed
    fixed = [(a, low), *_corner(a, top, j.round_fixed, -1), (a - 300, top), (a - 300, low)]
    moving = [(b, low), *_corner(b, top, j.round_moving, 1), (b + 300, top), (b + 300, low)]
    return Polygon(fixed), Polygon(moving)


def _referee(j: HingeJoint) -> float:
    """First angle with common area, by steps of a quarter degree and then halving."""
    fixed, moving = _slats(j)

    def overlaps(degrees: float) -> bool:
        return fixed.intersection(affinity.rotate(moving, degrees, origin=(0, 0))).area > 1e-7

    high = next((t for t in np.arange(0.25, 180.0, 0.25) if overlaps(t)), None)
    if high is None:
        return 180.0
    low = high - 0.25
    while high - low > 1e-4:
        middle = (low + high) / 2.0
        low, high = (low, middle) if overlaps(middle) else (middle, high)
    return high


def test_random_joints_against_turned_polygons() -> None:
    rnd = random.Random(11)
    for _ in range(150):
        gap, thickness = rnd.uniform(3.0, 40.0), rnd.uniform(12.0, 30.0)
        j = HingeJoint(
            gap=gap,
            thickness=thickness,
            axis_depth=rnd.uniform(-8.0, 12.0),
            axis_from_fixed=rnd.uniform(0.0, gap),
            round_fixed=rnd.choice((0.0, rnd.uniform(0.5, thickness))),
            round_moving=rnd.choice((0.0, rnd.uniform(0.5, thickness))),
        )
        assert largest_angle(j) == pytest.approx(_referee(j), abs=0.01), j


def test_gap_for_is_the_inverse_and_no_larger_than_need_be() -> None:
    j = joint(axis_depth=3.0)
    wanted = 65.0
    by_hand = 2.0 * 21.0 * math.tan(math.radians(wanted / 2.0))
    assert gap_for(wanted, j, axis_share=0.5) == pytest.approx(by_hand, abs=1e-6)
    gap = gap_for(wanted, j)
    assert gap is not None
    assert largest_angle(replace(j, gap=gap)) >= wanted
    assert _referee(replace(j, gap=gap - 0.05)) < wanted


def test_each_remedy_does_what_it_says() -> None:
    j = joint(axis_depth=3.0)
    wanted = 55.0
    cures = joint_remedies(wanted, j)
    assert {c.cure for c in cures} == set(Cure)
    for cure in cures:
        assert _referee(cure.joint) == pytest.approx(cure.reaches, abs=0.01)
        assert cure.enough is (cure.reaches >= wanted)
    # the axis at the underside gives 53.13 at most: not enough, and said so
    higher = next(c for c in cures if c.cure is Cure.AXIS_HIGHER)
    assert not higher.enough
    assert higher.reaches == pytest.approx(53.13, abs=0.005)
    assert sum(c.enough for c in cures) == 6


def test_nothing_needs_changing_when_the_angle_is_reached() -> None:
    j = joint(gap=30.0, axis_from_fixed=15.0)
    for cure in joint_remedies(40.0, j):
        assert cure.enough
        assert cure.joint == j or cure.cure is Cure.ROUND_BOTH
