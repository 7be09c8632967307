"""Shapes cut at a box: pieces stay on their curve, and shapely finds the same length inside."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from flatpack.drawings.ellipses import at_parameter, sampled
from flatpack.drawings.shapes import Circle, Closed, Cross, Ellipse, Line, Path, Stroke, Text
from flatpack.drawings.templates.clipping import chains, clipped
from flatpack.drawings.templates.ordinates import spread_out
from flatpack.drawings.templates.packing import packed
from flatpack.drawings.templates.tiles import OVERLAP, steps, tiles
from flatpack.geometry import Point, Segment, bulge_of, closed
from flatpack.geometry.shapes import one_round_end, rectangle

BOX = (0.0, 0.0, 100.0, 60.0)
spot = st.builds(Point, st.floats(-150.0, 250.0), st.floats(-150.0, 250.0))
sides = st.tuples(st.floats(-50, 40), st.floats(-50, 40), st.floats(50, 150), st.floats(50, 150))


def cut(shape, box=BOX):
    return [s.shape for s in clipped([Stroke("outline", shape)], box)]


def length(shapes) -> float:
    total = 0.0
    for shape in shapes:
        segments = shape.segments if isinstance(shape, Path) else (Segment(shape.start, shape.end),)
        total += sum(s.length for s in segments)
    return total


@settings(max_examples=150, deadline=None)
@given(spot, spot, st.floats(-300.0, 300.0), sides)
def test_an_arc_has_the_length_that_shapely_finds_in_the_box(a, b, sweep, box) -> None:
    if math.dist(a, b) < 1.0 or abs(sweep) < 1.0:
        return
    arc = Segment(a, b, bulge_of(sweep))
    runs = chains([arc], box)
    fine = shapely.LineString([arc.at(k / 4000) for k in range(4001)])
    inside = fine.intersection(shapely.box(*box)).length
    # 4000 chords: off by sweep^2/24/4000^2 of the length, and by one chord at each crossing.
    assert sum(s.length for run in runs for s in run) == pytest.approx(
        inside, abs=8 * arc.length / 4000 + 1e-6
    )
    for segment in (s for run in runs for s in run):
        assert math.dist(segment.middle, arc.centre) == pytest.approx(arc.radius, rel=1e-6)
        assert math.dist(segment.start, arc.centre) == pytest.approx(arc.radius, rel=1e-6)


def test_a_rounded_end_is_cut_where_the_circle_meets_the_side() -> None:
    """Half circle of radius 30 about (70, 30): at x = 85 it stands 30 +- sqrt(30^2 - 15^2) up."""
    (piece,) = cut(Closed(one_round_end(100.0, 60.0)), (85.0, -5.0, 120.0, 65.0))
    assert isinstance(piece, Path)
    ends = {piece.segments[0].start, piece.segments[-1].end}
    rise = math.sqrt(30.0**2 - 15.0**2)
    assert {round(p.x, 6) for p in ends} == {85.0}
    assert sorted(p.y for p in ends) == pytest.approx([30.0 - rise, 30.0 + rise])


def test_what_lies_inside_stays_what_it_is_and_what_lies_outside_goes() -> None:
    for shape in (Circle(Point(50, 30), 8.0), Line(Point(1, 1), Point(9, 9)),
                  Closed(rectangle(10, 10, 5, 5)), Text(Point(5, 5), "a"),
                  Cross(Point(5, 5), 3.0), Ellipse(Point(50, 30), Point(9, 2), 0.4)):  # fmt: skip
        assert cut(shape) == [shape]
        assert cut(shape, (300.0, 300.0, 400.0, 400.0)) == []


def test_a_circle_on_the_side_becomes_its_inner_part() -> None:
    (piece,) = cut(Circle(Point(0.0, 30.0), 10.0))
    assert sum(s.length for s in piece.segments) == pytest.approx(math.pi * 10.0)
    assert all(s.middle.x >= -1e-9 for s in piece.segments)


@settings(max_examples=80, deadline=None)
@given(spot, st.floats(5, 80), st.floats(0, 6.28), st.floats(0.1, 1.0), sides)
def test_an_ellipse_keeps_what_shapely_finds_in_the_box(at, long, turn, ratio, box) -> None:
    whole = Ellipse(at, Point(long * math.cos(turn), long * math.sin(turn)), ratio)
    inside = shapely.LinearRing(sampled(whole, 1e-5)).intersection(shapely.box(*box)).length
    found = sum(
        shapely.LineString(
            [at_parameter(e, e.start + (e.end - e.start) * k / 2000) for k in range(2001)]
        ).length
        for e in cut(whole, box)
    )
    assert found == pytest.approx(inside, abs=0.3)


@given(st.lists(st.floats(0.0, 500.0), max_size=30), st.floats(0.5, 10.0))
def test_figures_keep_apart_in_order_and_stay_where_there_is_room(wanted, apart) -> None:
    wanted = sorted(wanted)
    places = spread_out(wanted, apart)
    assert all(b - a >= apart - 1e-6 for a, b in itertools.pairwise(places))
    for i, (place, want) in enumerate(zip(places, wanted, strict=True)):
        near = [w for j, w in enumerate(wanted) if j != i and abs(w - want) < apart * len(wanted)]
        if not near:
            assert place == pytest.approx(want)


@given(st.lists(st.tuples(st.floats(5, 170), st.floats(5, 240)), max_size=40))
def test_panels_lie_on_their_page_and_not_on_one_another(sizes) -> None:
    puts = packed(sizes, (170.0, 240.0))
    assert sorted(p.panel for p in puts) == list(range(len(sizes)))
    assert {p.page for p in puts} == set(range(max((p.page + 1 for p in puts), default=0)))
    boxes = [(p.page, p.x, p.y, p.x + sizes[p.panel][0], p.y + sizes[p.panel][1]) for p in puts]
    for i, (page, x0, y0, x1, y1) in enumerate(boxes):
        assert min(x0, y0) >= -1e-6
        assert x1 <= 170.0 + 1e-6
        assert y1 <= 240.0 + 1e-6
        for other, a0, b0, a1, b1 in boxes[:i]:
            apart = x1 <= a0 + 1e-6 or a1 <= x0 + 1e-6 or y1 <= b0 + 1e-6 or b1 <= y0 + 1e-6
            assert other != page or apart


@given(st.floats(30.0, 3000.0), st.floats(60.0, 400.0))
def test_stretches_cover_the_length_and_share_a_strip(length, room) -> None:
    cuts = steps(length, room)
    assert cuts[0][0] == 0.0
    assert cuts[-1][1] == pytest.approx(length)
    assert all(b - a <= room + 1e-6 for a, b in cuts)
    for (_, high), (low, _) in itertools.pairwise(cuts):
        assert high - low == pytest.approx(OVERLAP)


def test_every_two_neighbours_share_two_register_marks() -> None:
    found = tiles((10.0, 0.0, 510.0, 300.0), (200.0, 180.0))
    assert {(t.rows, t.columns) for t in found} == {(2, 3)}
    for a in found:
        for b in found:
            if abs(a.row - b.row) + abs(a.column - b.column) == 1:
                shared = set(a.marks) & set(b.marks)
                assert len(shared) >= 2
                one, two = sorted(m.at for m in shared)[:: len(shared) - 1]
                assert math.dist(one, two) > 50.0


def test_an_outline_cut_twice_gives_two_runs() -> None:
    bar = closed([(-20, 10, 0), (120, 10, 0), (120, 20, 0), (-20, 20, 0)])
    runs = cut(Closed(bar))
    assert len(runs) == 2
    assert length(runs) == pytest.approx(200.0)
