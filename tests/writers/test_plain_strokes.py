"""Doubled lines, engraved letters, dimensions and ellipses; expected values by hand."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from flatpack.drawings.dimensioning import dimension_parts, measured
from flatpack.drawings.doubles import overlaps
from flatpack.drawings.ellipses import at_parameter, ellipse_box, sampled
from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.plain import PlainStroke, plain_strokes
from flatpack.drawings.shapes import Circle, Closed, Dimension, Ellipse, Line, Path, Stroke
from flatpack.drawings.stroke_font import stroke_width, strokes
from flatpack.geometry import Point, chain, closed

from .conftest import drawing_of

SQUARE = Closed(closed([(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0)]))


def _overlaps(*shapes):
    return [tuple(o) for o in overlaps([PlainStroke("outline", shape) for shape in shapes])]


def test_a_line_along_an_edge_is_found_with_its_length():
    assert _overlaps(SQUARE, Line(Point(12, 10), Point(4, 10))) == [(0, 1, pytest.approx(6))]


def test_squares_that_share_an_edge_are_found():
    assert _overlaps(SQUARE, Closed(SQUARE.outline.moved(10, 4))) == [(0, 1, pytest.approx(6))]


def test_a_quarter_arc_on_a_circle_is_found():
    arc = Path(chain([(5, 0, math.tan(math.pi / 8)), (0, 5, 0)]))
    assert _overlaps(Circle(Point(0, 0), 5), arc) == [(0, 1, pytest.approx(5 * math.pi / 2))]


def test_arcs_that_overlap_across_the_seam_are_found():
    """From 300 to 30 degrees and from 0 to 60 degrees on a circle of 10: 30 degrees shared."""

    def arc(first, last):
        a, b = (Point(10 * math.cos(math.radians(t)), 10 * math.sin(math.radians(t)))
                for t in (first, last))  # fmt: skip
        return Path(chain([(*a, math.tan(math.radians((last - first) % 360) / 4)), (*b, 0)]))

    (found,) = _overlaps(arc(300, 30), arc(0, 60))
    assert found[2] == pytest.approx(10 * math.radians(30))


def test_touching_crossing_and_near_lines_are_not_overlaps():
    assert _overlaps(SQUARE, Closed(SQUARE.outline.moved(10, 10))) == []
    assert _overlaps(Line(Point(0, 0), Point(9, 9)), Line(Point(0, 9), Point(9, 0))) == []
    assert _overlaps(SQUARE, Closed(SQUARE.outline.moved(10.01, 0))) == []
    assert _overlaps(Circle(Point(0, 0), 5), Circle(Point(0, 0), 5.01)) == []
    a, b = (Ellipse(Point(x, 0), Point(9, 0), 0.3) for x in (0, 1))
    assert _overlaps(a, b) == []


def test_a_path_that_doubles_back_is_found():
    assert _overlaps(Path(chain([(0, 0, 0), (9, 0, 0), (4, 0, 0)]))) == [(0, 0, pytest.approx(5))]


def test_an_ellipse_on_itself_is_found():
    a, b = Ellipse(Point(0, 0), Point(9, 0), 0.3), Ellipse(Point(0, 0), Point(-9, 0), 0.3)
    assert [o[:2] for o in _overlaps(a, b)] == [(0, 1)]


def test_a_straight_path_and_a_line_are_the_same_stroke():
    there = Stroke("grain", Line(Point(0, 0), Point(9, 0)))
    back = Stroke("grain", Path(chain([(9, 0, 0), (0, 0, 0)])))
    assert len(plain_strokes(drawing_of(there, back), DEFAULT_LAYERS)) == 1


def test_no_letter_draws_a_line_twice_and_all_stay_in_their_field():
    for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-/.":
        paths = strokes(letter, Point(100, 50), 12)
        assert paths
        assert _overlaps(*paths) == [], letter
        for path in paths:
            for segment in path.segments:
                x0, y0, x1, y1 = segment.bounds()
                assert x0 >= 100 - 1e-6
                assert x1 <= 100 + stroke_width(letter, 12) + 1e-6
                assert 50 - 1e-6 <= y0 <= y1 <= 62 + 1e-6


def test_letters_follow_one_another():
    both = strokes("LI", Point(0, 0), 6)
    assert both[0].segments[0].start == Point(0, 6)
    # L is 4 wide on a field of 6, the gap 1.4 (this font's own measures).
    assert both[1].segments[0].start == pytest.approx((5.4, 0))
    assert strokes("li", Point(0, 0), 6) == both


def test_a_letter_without_strokes_is_refused():
    with pytest.raises(ValueError, match="no strokes for 'É'"):
        strokes("É", Point(0, 0), 6)


def test_a_dimension_measures_and_reads_from_below_or_the_right():
    lines, text = dimension_parts(Dimension(Point(0, 0), Point(120, 0), 10))
    assert (text.text, text.turn) == ("120", 0)
    assert (text.at.x, text.at.y) == pytest.approx((60, 11.25))
    assert Line(Point(0, 10), Point(120, 10)) in lines
    assert len(lines) == 5
    upward = dimension_parts(Dimension(Point(0, 0), Point(0, 120), 10))[1]
    downward = dimension_parts(Dimension(Point(0, 120), Point(0, 0), -10))[1]
    assert upward.turn == downward.turn == pytest.approx(90)
    # Read from the right, the text stands to the left of its line at x = -10.
    assert upward.at == pytest.approx((-11.25, 60))
    assert downward.at == pytest.approx((-11.25, 60))


def test_a_reduced_sheet_prints_the_true_length():
    reduced = Dimension(Point(0, 0), Point(30, 40), 5)
    assert measured(reduced, scale=0.1) == "500"
    assert measured(Dimension(Point(0, 0), Point(12.34, 0), 5)) == "12.3"
    assert measured(Dimension(Point(0, 0), Point(1, 0), 5, "2 x 18")) == "2 x 18"


def test_a_text_that_does_not_fit_stands_past_the_end():
    _, text = dimension_parts(Dimension(Point(0, 0), Point(3, 0), 10, "3 x 18"))
    assert text.at.x > 3 + 2.5


def test_a_dimension_of_no_length_is_refused():
    with pytest.raises(ValueError, match="no length"):
        dimension_parts(Dimension(Point(1, 1), Point(1, 1), 5))


ELLIPSES = st.builds(
    Ellipse,
    st.just(Point(3, 4)),
    st.tuples(st.floats(2, 40), st.floats(-40, 40)).map(lambda xy: Point(*xy)),
    st.floats(0.1, 1),
    st.sampled_from([0, 30, 200]),
    st.sampled_from([90, 250, 360]),
)


@given(ELLIPSES)
def test_an_ellipses_box_is_that_of_many_points_on_it(ellipse):
    box = ellipse_box(ellipse)
    many = sampled(ellipse, 1e-5)
    xs, ys = zip(*many, strict=True)
    assert box == pytest.approx((min(xs), min(ys), max(xs), max(ys)), abs=1e-4)


@given(ELLIPSES)
def test_chords_stay_within_their_sagitta(ellipse):
    """The middle of each chord against the true ellipse: implicit form of the curve, by hand."""
    size = math.hypot(*ellipse.major)
    ux, uy = ellipse.major.x / size, ellipse.major.y / size
    points = sampled(ellipse, 0.01)
    for a, b in itertools.pairwise(points):
        x, y = (a.x + b.x) / 2 - 3, (a.y + b.y) / 2 - 4
        along, across = (x * ux + y * uy) / size, (y * ux - x * uy) / (size * ellipse.ratio)
        short_of = 1 - math.hypot(along, across)  # share of the radius towards the middle
        assert -1e-9 <= short_of * size <= 0.01 + 1e-9
    assert points[0] == pytest.approx(at_parameter(ellipse, ellipse.start))
