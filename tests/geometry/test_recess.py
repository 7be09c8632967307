"""Slots and tenons in outlines, by hand and against shapely's areas."""

from __future__ import annotations

import math

import pytest
from shapely import Polygon, box

from flatpack.geometry import Outline, Point
from flatpack.geometry.polygon import polygon, rings, swept
from flatpack.geometry.recess import recessed, span_at
from flatpack.geometry.relief import relieved
from flatpack.geometry.shapes import disc, rectangle

BOARD = rectangle(100.0, 60.0)
UP, DOWN, LEFT = Point(0.0, 1.0), Point(0.0, -1.0), Point(-1.0, 0.0)


def area(outline: Outline) -> float:
    return float(Polygon(outline.sampled(1e-4)).area)


def test_a_slot_takes_its_rectangle_away() -> None:
    """Hand: 100 x 60 less 18 x 25, its floor's corners at (41, 35) and (59, 35)."""
    made = recessed(BOARD, Point(50.0, 60.0), DOWN, 18.0, 25.0)
    assert made is not None
    assert area(made.outline) == pytest.approx(6000.0 - 18.0 * 25.0)
    assert sorted(made.hollow) == [(41.0, 35.0), (59.0, 35.0)]
    assert made.outline.bounds == (0.0, 0.0, 100.0, 60.0)


def test_a_tenon_stands_on_the_edge() -> None:
    """Hand: 100 x 60 and 30 x 18 on its right end; the roots are hollow."""
    made = recessed(BOARD, Point(100.0, 20.0), LEFT, 30.0, -18.0)
    assert made is not None
    assert area(made.outline) == pytest.approx(6000.0 + 30.0 * 18.0)
    assert sorted(made.hollow) == [(100.0, 5.0), (100.0, 35.0)]
    assert made.outline.bounds == (0.0, 0.0, 118.0, 60.0)


def test_two_tenons_on_one_edge() -> None:
    first = recessed(BOARD, Point(100.0, 15.0), LEFT, 10.0, -18.0)
    assert first is not None
    second = recessed(first.outline, Point(100.0, 45.0), LEFT, 10.0, -18.0)
    assert second is not None
    assert area(second.outline) == pytest.approx(6000.0 + 2 * 180.0)


@pytest.mark.parametrize(
    ("mouth", "inward", "width"),
    [
        (Point(50.0, 60.0), UP, 18.0),  # out of the wood
        (Point(50.0, 59.0), DOWN, 18.0),  # off the edge
        (Point(8.0, 60.0), DOWN, 18.0),  # past the edge's end
        (Point(9.0, 60.0), DOWN, 18.0),  # right to it: no wood beside
        (Point(50.0, 60.0), Point(math.sqrt(0.5), -math.sqrt(0.5)), 18.0),  # aslant
    ],
)
def test_no_room_for_a_slot(mouth: Point, inward: Point, width: float) -> None:
    assert recessed(BOARD, mouth, inward, width, 25.0) is None


def test_a_round_edge_takes_no_slot() -> None:
    assert recessed(disc(50.0), Point(50.0, 0.0), LEFT, 18.0, 25.0) is None


def square_area(outline: Outline) -> float:
    x0, y0, x1, y1 = outline.bounds
    return (x1 - x0) * (y1 - y0)


@pytest.mark.parametrize("one_sided", [False, True])
@pytest.mark.parametrize("opening", [False, True])
def test_a_square_tongue_seats_in_eased_corners(one_sided: bool, opening: bool) -> None:
    """Relief clears the whole square, takes nothing off its sides' middles, and costs little."""
    radius = 1.5
    if opening:
        square = rectangle(18.0, 40.0, 40.0, 10.0)
        made = relieved(square, radius, one_sided=one_sided, opening=True)
        void, corners = polygon(made.outline, 1e-4), 4
    else:
        slot = recessed(BOARD, Point(50.0, 60.0), DOWN, 18.0, 25.0)
        assert slot is not None
        made = relieved(slot.outline, radius, one_sided=one_sided, only=slot.hollow)
        void, corners = box(0.0, 0.0, 100.0, 60.0) - polygon(made.outline, 1e-4), 2
        square = rectangle(18.0, 25.0, 41.0, 35.0)
    assert len(made.eased) == corners
    assert void.buffer(1e-3).covers(polygon(square))
    # Hand: one-sided, half a circle beside the corner.  A corner circle's centre lies r / sqrt 2
    # off each side, so that it bites a segment of a quarter turn, r2 / 2 (pi / 2 - 1), into both.
    bite = math.pi * radius**2 / 2.0 if one_sided else radius**2 * (math.pi / 2.0 - 1.0)
    assert void.area - square_area(square) == pytest.approx(corners * bite, rel=1e-3)


def test_only_the_corners_named_are_eased() -> None:
    slot = recessed(BOARD, Point(50.0, 60.0), DOWN, 18.0, 25.0)
    assert slot is not None
    made = relieved(slot.outline, 1.5, one_sided=False, only=slot.hollow[:1])
    assert made.eased == slot.hollow[:1]


def test_span_along_a_line() -> None:
    slot = recessed(BOARD, Point(50.0, 0.0), UP, 18.0, 25.0)
    assert slot is not None
    assert span_at(slot.outline, Point(50.0, 30.0), UP) == pytest.approx((-5.0, 30.0))
    assert span_at(slot.outline, Point(20.0, 30.0), UP) == pytest.approx((-30.0, 30.0))
    assert span_at(slot.outline, Point(200.0, 30.0), UP) is None


def test_a_swept_square_by_hand() -> None:
    """A 10 x 10 square moved 30 along x covers 40 x 10; moved (30, 40), 100 + 10 (30 + 40)."""
    square = polygon(rectangle(10.0, 10.0))
    assert swept(square, 30.0, 0.0).area == pytest.approx(400.0)
    assert swept(square, 30.0, 40.0).area == pytest.approx(100.0 + 10.0 * 70.0)


def test_a_swept_ring_fills_its_hole_only_as_far_as_it_moves() -> None:
    """A frame 40 x 40 with a hole 20 x 20 moved 5 along x leaves a hole 15 x 20, moved 20 none."""
    frame = polygon(rectangle(40.0, 40.0), holes=(rectangle(20.0, 20.0, 10.0, 10.0),))
    ((_, holes),) = rings(swept(frame, 5.0, 0.0))
    assert Polygon(holes[0]).area == pytest.approx(15.0 * 20.0)
    ((_, none),) = rings(swept(frame, 20.0, 0.0))
    assert none == []
