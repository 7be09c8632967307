"""Inside corners, against plane geometry and the published rule for relief at a corner.

Source for the relief: "Drafting good corners to be cut by CNC machines" (hightechdiy.com): the
circle's edge just touches the corner.  That puts its centre r / sqrt 2 off each side.
"""

from __future__ import annotations

import math

import pytest

from flatpack.geometry import chain
from flatpack.geometry.corners import relieved, rounded_inside

SQUARE = chain([(0.0, 10.0, 0.0), (0.0, 0.0, 0.0), (20.0, 0.0, 0.0), (20.0, 10.0, 0.0)])


def test_a_corner_circle_touches_the_corner() -> None:
    made = relieved(SQUARE, 3.0)
    arcs = [s for s in made if s.bulge]
    assert len(arcs) == 2
    assert arcs[0].centre == pytest.approx((3.0 / math.sqrt(2.0), 3.0 / math.sqrt(2.0)))
    assert arcs[0].middle == pytest.approx((0.0, 0.0), abs=1e-9)
    assert arcs[0].radius == pytest.approx(3.0)


def test_a_rounded_corner_is_tangent_to_both_sides() -> None:
    made = rounded_inside(SQUARE, 3.0)
    arc = made[1]
    assert arc.centre == pytest.approx((3.0, 3.0))
    assert arc.direction(0.0) == pytest.approx((0.0, -1.0))
    assert arc.direction(1.0) == pytest.approx((1.0, 0.0))


@pytest.mark.parametrize("work", [relieved, rounded_inside])
def test_outside_corners_and_short_sides_stay(work) -> None:  # type: ignore[no-untyped-def]
    hill = chain([(0.0, 0.0, 0.0), (0.0, 10.0, 0.0), (20.0, 10.0, 0.0), (20.0, 0.0, 0.0)])
    assert work(hill, 3.0) == hill
    assert work(SQUARE, 30.0) == SQUARE


@pytest.mark.parametrize("slope", [30.0, 45.0, 60.0])
def test_a_sloping_corner_keeps_its_circle_on_the_bisector(slope: float) -> None:
    a = math.radians(slope)
    vee = chain([(-20.0 * math.cos(a), 20.0 * math.sin(a), 0.0), (0.0, 0.0, 0.0), (20.0, 0.0, 0.0)])
    arc = relieved(vee, 2.0)[1]
    assert arc.middle == pytest.approx((0.0, 0.0), abs=1e-9)
    assert math.hypot(*arc.centre) == pytest.approx(2.0)
