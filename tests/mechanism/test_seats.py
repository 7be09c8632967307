"""The rod's path and its seats, against shapely's buffer and hand-drawn cases."""

import itertools
import math

import pytest
from shapely import LineString

from flatpack.geometry import Point, chain
from flatpack.mechanism.locus import clearance, distance, locus, touches, traced
from flatpack.mechanism.notches import half_round, rack_contour, ramp_notch, square, vee
from flatpack.mechanism.seats import loaded_seat, seats

FLOOR = -83.0


def bar(*notches):
    return rack_contour(notches, Point(0.0, FLOOR + 15.0), Point(400.0, FLOOR + 15.0))


MIXED = bar(
    ramp_notch(Point(70.0, FLOOR), 21.0, 15.0, 40.0),
    ramp_notch(Point(130.0, FLOOR), 24.0, 15.0, 60.0, 10.0),
    vee(Point(180.0, FLOOR), 15.0, 50.0, 20.0),
    half_round(Point(240.0, FLOOR), 15.0, 14.0),
    square(Point(300.0, FLOOR), 26.0, 15.0),
    half_round(Point(350.0, FLOOR), 15.0, 11.0),
)


def test_every_place_on_the_path_touches_and_none_cuts_in():
    for piece in traced(MIXED, 11.0):
        for k in range(11):
            assert clearance(MIXED, piece.at(k / 10)) == pytest.approx(11.0, abs=1e-9)


def test_path_is_one_chain():
    path = traced(MIXED, 11.0)
    for before, after in itertools.pairwise(path):
        assert math.dist(before.end, after.start) < 1e-6


def test_plain_segments_agree_with_the_pieces():
    plain = locus(MIXED, 11.0)
    pieces = [p for p in traced(MIXED, 11.0) if p.length > 0.0]
    for segment, piece in zip(plain, pieces, strict=True):
        assert segment.at(0.37) == pytest.approx(piece.at(0.37), abs=1e-9)


def test_distance_agrees_with_shapely():
    for face in MIXED:
        line = LineString([face.at(k / 4000) for k in range(4001)])
        for x, y in ((100.0, -60.0), (236.0, -70.0), (251.0, -75.0), (240.0, -100.0)):
            from_line = line.distance(LineString([(x, y), (x, y + 1e-9)]))
            assert distance(face, Point(x, y)) == pytest.approx(from_line, abs=1e-5)


def test_one_seat_a_notch_in_order():
    found = seats(MIXED, 22.0)
    assert [s.number for s in found] == [1, 2, 3, 4, 5, 6]
    assert all(a.high.x < b.low.x for a, b in itertools.pairwise(found))


def test_free_rest_is_a_range_on_a_flat_floor_and_a_point_elsewhere():
    ramp, _, v, wide_round, flat, snug_round = seats(MIXED, 22.0)
    # by hand: base less r for the face and r tan(slope / 2) for the ramp
    assert ramp.level == pytest.approx(21.0 - 11.0 - 11.0 * math.tan(math.radians(20.0)))
    assert flat.level == pytest.approx(26.0 - 22.0)
    assert (v.level, wide_round.level, snug_round.level) == (0.0, 0.0, 0.0)
    assert wide_round.low == pytest.approx((240.0, FLOOR + 11.0))
    assert snug_round.low == pytest.approx((350.0, FLOOR + 11.0))


def test_rod_wider_than_the_seat_rests_on_its_lips():
    contour = chain([(-20, 0, 0), (-8, 0, 1), (8, 0, 0), (20, 0, 0)])
    (seat,) = seats(contour, 20.0)
    assert seat.low == pytest.approx((0.0, 6.0))  # 6-8-10
    assert touches(contour, seat.low, 10.0) == (0, 1, 2)


def test_pocket_that_the_rod_cannot_enter_gives_no_path_inside():
    contour = chain(
        [
            (-40, 0, 0),
            (-8, 0, 0),
            (-8, -5, 0),
            (-30, -5, 0),
            (-30, -40, 0),
            (30, -40, 0),
            (30, -5, 0),
            (8, -5, 0),
            (8, 0, 0),
            (40, 0, 0),
        ]
    )
    (seat,) = seats(contour, 20.0)
    assert seat.low == pytest.approx((0.0, 6.0))
    (deep,) = seats(contour, 14.0)
    assert deep.low == pytest.approx((-23.0, -33.0))
    assert deep.high == pytest.approx((23.0, -33.0))


def test_thrust_settles_into_the_undercut():
    _, undercut, *_ = seats(MIXED, 22.0)
    loaded = loaded_seat(undercut, Point(1.0, -0.2))
    # by hand: in a corner of 80 degrees the rod stands r / tan 40 from the foot
    assert loaded.rod == pytest.approx((130.0 - 11.0 / math.tan(math.radians(40.0)), FLOOR + 11.0))
    assert loaded.held
    assert loaded.margin == pytest.approx(math.degrees(math.atan2(0.2, 1.0)) + 10.0)


def test_thrust_flatter_than_a_face_allows_is_not_held():
    contour = bar(vee(Point(100.0, FLOOR), 15.0, 45.0, 45.0))
    (seat,) = seats(contour, 22.0)
    assert loaded_seat(seat, Point(1.0, -1.1)).held
    loose = loaded_seat(seat, Point(1.0, -0.9))
    assert not loose.held
    assert loose.margin == pytest.approx(math.degrees(math.atan(0.9)) - 45.0)


def test_settles_at_the_face_the_thrust_tends_to():
    (seat,) = seats(bar(square(Point(100.0, FLOOR), 40.0, 15.0)), 22.0)
    assert loaded_seat(seat, Point(0.1, -1.0)).rod.x == pytest.approx(89.0)
    assert loaded_seat(seat, Point(-0.1, -1.0)).rod.x == pytest.approx(71.0)


def test_blocks_on_a_bearer_are_one_contour():
    blocks = chain(
        [
            (0, 0, 0),
            (40, 0, 0),
            (40, 20, 0),
            (60, 20, 0),
            (60, 0, 0),
            (100, 0, 0),
            (100, 20, 0),
            (120, 20, 0),
            (120, 0, 0),
            (180, 0, 0),
        ]
    )
    (only,) = seats(blocks, 22.0)
    assert only.low == pytest.approx((71.0, 11.0))
    assert only.high == pytest.approx((89.0, 11.0))
