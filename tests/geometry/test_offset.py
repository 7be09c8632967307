"""Offsets of lines and arcs, and relief of square corners, against figures from outside."""

from __future__ import annotations

import math

import pytest
from shapely import Point as Spot
from shapely import Polygon

from flatpack.geometry import Point, bulge_of, closed
from flatpack.geometry.offset import offset
from flatpack.geometry.relief import relieved, square_corners
from flatpack.geometry.shapes import disc, filleted, rectangle, round_ended

L_SHAPE = closed(
    ((0, 0, 0), (60, 0, 0), (60, 20, 0), (25, 20, 0), (25, 50, 0), (0, 50, 0))
)  # fmt: skip


def size(outline):
    x0, y0, x1, y1 = outline.bounds
    return round(x1 - x0, 9), round(y1 - y0, 9)


def test_published_kerf_example():
    """A published example of kerf: 2.0 x 4.0, kerf 0.2, becomes 2.2 x 4.2 and 1.8 x 3.8."""
    (outside,) = offset(rectangle(2.0, 4.0), 0.1)
    (inside,) = offset(rectangle(2.0, 4.0), -0.1)
    assert size(outside) == (2.2, 4.2)
    assert size(inside) == (1.8, 3.8)
    assert len(outside.segments) == len(inside.segments) == 4


def test_round_shapes_stay_round():
    """By hand: a disc of radius r becomes one of r + d; a bar's ends likewise."""
    for by in (2.5, -2.5):
        (made,) = offset(disc(10.0), by)
        assert math.isclose(made.area, math.pi * (10.0 + by) ** 2, rel_tol=1e-9)
        assert all(math.isclose(s.radius, 10.0 + by) for s in made)
        (bar,) = offset(round_ended(80.0, 12.0), by)
        assert size(bar) == (round(80.0 + 2 * (12.0 + by), 9), round(2 * (12.0 + by), 9))
        assert sum(s.bulge != 0.0 for s in bar) == 2


def test_an_inside_radius_shrinks_and_an_outside_one_grows():
    """By hand: outwards by d, a fillet of radius r on an outer corner becomes r + d."""
    (made,) = offset(filleted(((0, 0, 5), (50, 0, 0), (50, 30, 5), (0, 30, 0))), 1.0)
    assert sorted(round(s.radius, 9) for s in made if s.bulge) == [6.0, 6.0]


def test_too_much_inwards_leaves_nothing_or_falls_apart():
    assert offset(rectangle(10.0, 4.0), -2.0) == ()
    assert offset(disc(3.0), -3.5) == ()
    waist = closed(
        ((0, 0, 0), (20, 0, 0), (20, 9, 0), (40, 9, 0), (40, 0, 0), (60, 0, 0), (60, 20, 0),
         (40, 20, 0), (40, 11, 0), (20, 11, 0), (20, 20, 0), (0, 20, 0))
    )  # fmt: skip
    assert len(offset(waist, -1.5)) == 2


CURVED = (
    L_SHAPE,
    closed(((0, 0, 0), (90, 0, bulge_of(60)), (90, 40, 0), (50, 40, -1), (30, 40, 0), (0, 40, 0))),
    closed(((0, 0, 0), (70, 0, 0), (55, 30, 0), (48, 18, 0), (40, 30, 0), (10, 45, bulge_of(-40)))),
)


@pytest.mark.parametrize("outline", CURVED)
@pytest.mark.parametrize("by", [0.1, 1.0, 4.0, -0.1, -1.0, -3.0])
def test_no_place_is_nearer_than_the_distance(outline, by):
    """Referee: shapely's distance from the offset line to a fine polygon of the outline."""
    edge = Polygon(outline.sampled(1e-4)).exterior
    made = offset(outline, by)
    assert made
    for one in made:
        for segment in one:
            for share in (0.0, 0.3, 0.5, 0.8):
                apart = edge.distance(Spot(segment.at(share)))
                sharp = abs(by) * math.sqrt(2.0) / math.cos(math.radians(10)) + 1e-3
                assert abs(by) - 1e-3 <= apart <= sharp
    whole = Polygon(outline.sampled(1e-4))
    rounded, sharp = (whole.buffer(by, quad_segs=64, join_style=j).area
                      for j in ("round", "mitre"))  # fmt: skip
    area = sum(one.area for one in made)
    assert min(rounded, sharp) - 0.5 <= area <= max(rounded, sharp) + 0.5


def test_corner_circle_passes_through_the_corner():
    """By hand: a circle of radius r through the corner, its ends r times root 2 along both sides;
    it takes out half a disc less the square corner's triangle: pi r^2 / 2 - r^2."""
    made = relieved(L_SHAPE, 3.0, one_sided=False)
    assert made.eased == (Point(25, 20),)
    assert math.isclose(L_SHAPE.area - made.outline.area, 9.0 * (math.pi / 2.0 - 1.0))
    (arc,) = [s for s in made.outline if s.bulge]
    assert math.isclose(arc.radius, 3.0)
    assert math.isclose(math.dist(arc.middle, (25.0, 20.0)), 0.0, abs_tol=1e-9)


def test_one_sided_relief_bites_half_a_disc_out_of_the_longer_side():
    """By hand: half a disc, pi r^2 / 2, beside the corner, on the side 35 long."""
    made = relieved(L_SHAPE, 3.0, one_sided=True)
    assert math.isclose(L_SHAPE.area - made.outline.area, 9.0 * math.pi / 2.0)
    (arc,) = [s for s in made.outline if s.bulge]
    assert arc.start.y == arc.end.y == 20.0
    assert sorted((arc.start.x, arc.end.x)) == pytest.approx([25.0, 31.0])


def test_openings_are_relieved_outwards_and_small_ones_left():
    made = relieved(rectangle(40.0, 20.0), 3.0, one_sided=False, opening=True)
    assert len(made.eased) == 4
    assert made.outline.area > 800.0
    assert size(made.outline)[0] > 40.0
    tight = relieved(rectangle(40.0, 8.0), 3.0, one_sided=False, opening=True)
    assert tight.eased == ()
    assert len(square_corners(rectangle(40.0, 8.0), opening=True)) == 4
