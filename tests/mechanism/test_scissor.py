"""Crossed legs against plane geometry by shapely, and statics solved as a system of equations."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.affinity import rotate
from shapely.geometry import Point, Polygon, box
from shapely.ops import nearest_points

from flatpack.mechanism.scissor import (
    Crossed,
    Scissor,
    bar_gap,
    crossed,
    hold,
    opening,
    pinches,
    pull,
    rail_gap,
    reach,
    standing,
    tip_reach,
)

LEGS = crossed(high=371.0, lean=39.0, apart=298.0, step=46.0)
STOOL = Scissor(legs=LEGS, half=35.0, end=35.0, bar=8.0, rail=150.0, slot=(40.0, 78.0))


def place(along: float, lean: float) -> tuple[float, float]:
    return along * math.sin(math.radians(lean)), along * math.cos(math.radians(lean))


@pytest.mark.parametrize("lean", [20.0, 39.0, 60.0])
def test_set_out_as_asked(lean: float) -> None:
    made = crossed(high=371.0, lean=lean, apart=298.0, step=46.0)
    ax, az = place(made.long, lean)
    bx, bz = place(made.short, -lean)
    fx, fz = place(-made.low, lean)
    assert ax - bx == pytest.approx(298.0)
    assert az + made.pivot == pytest.approx(371.0)
    assert made.long - made.short == pytest.approx(46.0)
    assert fz + made.pivot == pytest.approx(0.0)
    assert -2.0 * fx == pytest.approx(made.spread)
    assert reach(made) == pytest.approx(math.dist((ax, az), (bx, bz)))


@pytest.mark.parametrize(
    ("long", "short", "bars", "angle"),
    [
        (3.0, 4.0, 5.0, 90.0),  # Pythagoras
        (5.0, 5.0, 5.0, 60.0),  # equilateral
        (5.0, 3.0, 7.0, 120.0),  # whole-number triangle with an angle of 120 degrees
        (8.0, 5.0, 7.0, 60.0),  # the same with 60
        (3.0, 4.0, 7.1, None),
    ],
)
def test_angle_that_a_distance_stops_at(
    long: float, short: float, bars: float, angle: float | None
) -> None:
    found = opening(Crossed(0.0, 1.0, long, short, 1.0, 1.0, 1.0), bars)
    assert found == (None if angle is None else pytest.approx(angle))


def test_the_seat_stops_the_legs_at_the_angle_asked() -> None:
    assert opening(LEGS, reach(LEGS)) == pytest.approx(78.0)


@pytest.mark.parametrize("lean", [0.0, 90.0, -5.0])
def test_no_legs_without_a_lean(lean: float) -> None:
    with pytest.raises(ValueError, match="between 0 and 90"):
        crossed(high=371.0, lean=lean, apart=298.0, step=46.0)


def short_leg(angle: float) -> Polygon:
    """The short leg, its upper arm turned towards the front, with the long one upright along y."""
    leg = box(-35.0, -600.0, 35.0, LEGS.short).union(Point(0.0, LEGS.short).buffer(35.0, 256))
    return rotate(leg, angle, origin=(0.0, 0.0))


@pytest.mark.parametrize("angle", [0.0, 5.0, 10.0, 20.0, 45.0, 78.0])
def test_gap_at_the_rear_bar(angle: float) -> None:
    bar = Point(0.0, LEGS.long).buffer(8.0, 256)
    measured = bar.distance(short_leg(angle))
    assert bar_gap(STOOL, angle) == pytest.approx(measured, abs=0.01)


@pytest.mark.parametrize("angle", [0.0, 2.0, 10.0, 30.0, 78.0])
def test_gap_at_the_low_rail(angle: float) -> None:
    """The rail lies on the long leg's front (left) edge; the short leg's lower arm comes to it."""
    arris = Point(-35.0, -150.0)
    assert rail_gap(STOOL, angle) == pytest.approx(arris.distance(short_leg(angle)), abs=1e-6)


def test_fingers_where_gaps_close() -> None:
    """Each end of a range is where shapely measures 7 or 18 mm."""
    found = {one.first: one for one in pinches(STOOL)}
    bar, arris = Point(0.0, LEGS.long).buffer(8.0, 256), Point(-35.0, -150.0)
    for name, shape in (("rear top bar", bar), ("low rail", arris)):
        one = found[name]
        assert shape.distance(short_leg(one.start)) == pytest.approx(18.0, abs=0.02)
        assert shape.distance(short_leg(one.end)) == pytest.approx(7.0, abs=0.02)
        assert one.start > one.end


def test_no_range_where_the_gap_stays_wide() -> None:
    wide = Scissor(
        legs=crossed(high=371.0, lean=39.0, apart=298.0, step=46.0 + 20.0),
        half=35.0, end=35.0, bar=8.0, rail=150.0, slot=(40.0, 78.0),
    )  # fmt: skip
    assert {one.first for one in pinches(wide)} == {"low rail"}


def solved(legs: Crossed, weight: float, share: float) -> dict[str, float]:
    """Equilibrium of seat and both legs, one equation a row; feet on ice.

    Unknown: feet's reactions, loads on the bars, tie, and the pivot's force on the long leg.
    """
    ax, az = place(legs.long, legs.lean)
    bx, bz = place(legs.short, -legs.lean)
    f, down = legs.spread / 2.0, -legs.pivot
    at = bx + share * legs.apart
    names = ("front foot", "rear foot", "rear", "front", "tie", "px", "pz")
    rows = [
        # Seat: vertical; moments about the front bar: the tie pulls it rearwards at A, forwards
        # at B, and bars push it up.
        ([0, 0, 1, 1, 0, 0, 0], weight),
        ([0, 0, ax - bx, 0, -(az - bz), 0, 0], weight * (at - bx)),
        # Long leg: horizontal, vertical, moments about P (anticlockwise).
        ([0, 0, 0, 0, -1, 1, 0], 0.0),
        ([1, 0, -1, 0, 0, 0, 1], 0.0),
        ([-f, 0, -ax, 0, az, 0, 0], 0.0),
        # Short leg: vertical, moments.
        ([0, 1, 0, -1, 0, 0, -1], 0.0),
        ([0, f, 0, -bx, -bz, 0, 0], 0.0),
    ]
    assert down < 0.0
    values = np.linalg.solve(np.array([r for r, _ in rows], float), [v for _, v in rows])
    return dict(zip(names, values, strict=True))


@pytest.mark.parametrize("share", [0.0, 0.3, 0.5, 0.9, 1.1])
def test_pull_in_the_seat(share: float) -> None:
    made, referee = pull(LEGS, 1100.0, share), solved(LEGS, 1100.0, share)
    assert made.tie == pytest.approx(referee["tie"])
    assert made.front == pytest.approx(referee["front"])
    assert made.rear == pytest.approx(referee["rear"])


def test_pull_of_a_symmetrical_pair_by_hand() -> None:
    """All arms 200 at 45 degrees, 500 N on each bar and foot: tie 200 = 2 x 500 x 200 (about P)."""
    legs = crossed(high=400.0 * math.sqrt(0.5), lean=45.0, apart=400.0 * math.sqrt(0.5), step=0.0)
    assert legs.long == pytest.approx(200.0)
    assert pull(legs, 1000.0, 0.5).tie == pytest.approx(1000.0)


def test_hold_of_a_shallow_slot() -> None:
    """A bar half its radius out of its slot touches the corner at asin 1/2 = 30 degrees."""
    load = pull(LEGS, 1100.0, 0.5)
    deep = hold(STOOL, load)
    front = math.degrees(math.atan2(load.front, load.tie))
    assert deep == pytest.approx(front)
    shallow = Scissor(
        legs=LEGS, half=35.0, end=35.0, bar=8.0, rail=150.0, slot=(-4.0, 78.0)
    )  # fmt: skip
    assert hold(shallow, load) == pytest.approx(front - 30.0)


def test_contact_normal_of_a_shallow_slot_as_drawn() -> None:
    """A bar of 8 whose middle hangs 4 below the slot's mouth leans on the wood's corner."""
    wood = box(8.0, 0.0, 40.0, 40.0)
    middle = Point(8.0 - math.sqrt(8.0**2 - 4.0**2), -4.0)
    assert wood.distance(middle) == pytest.approx(8.0)
    near, _ = nearest_points(wood, middle)
    rise = math.degrees(math.atan2(near.y - middle.y, near.x - middle.x))
    assert rise == pytest.approx(30.0)


def test_weight_outside_the_feet() -> None:
    """A foot of 70 wide legs cut level at 39 degrees is 70 / cos 39 long about its axis."""
    outer = LEGS.spread / 2.0 + 35.0 / math.cos(math.radians(39.0))
    assert standing(STOOL) == pytest.approx(2.0 * outer)
    assert tip_reach(STOOL, outer + 60.0, 60.0) == pytest.approx(0.0)
    assert tip_reach(STOOL, outer + 70.0, 60.0) == pytest.approx(-10.0)
