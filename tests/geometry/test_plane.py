"""Outlines cut short along a line, against shapely; planes by their equation."""

from __future__ import annotations

import math
import random

import pytest
from shapely import Polygon
from shapely.affinity import rotate

from flatpack.geometry import Frame, Outline, Plane, Point, Vec, X, Y, Z, closed
from flatpack.geometry.outline import is_convex, is_rectangle
from flatpack.geometry.plane import cut_short
from flatpack.geometry.shapes import disc, filleted, rectangle, round_ended

SHAPES = {
    "rectangle": rectangle(80.0, 40.0, -30.0, -10.0),
    "disc": disc(25.0, 5.0, 3.0),
    "rounded bar": round_ended(60.0, 15.0).moved(-20.0, 0.0),
    "fillets": filleted(((-40, -20, 6), (40, -20, 0), (40, 25, 14), (-40, 25, 9))),
    "notched": closed(((-40, -20, 0), (0, -20, 1.0), (20, -20, 0), (40, -20, 0), (40, 20, 0),
                       (-40, 20, 0))),
}  # fmt: skip


def _half(at: Point, out: Point) -> Polygon:
    far = 500.0
    turn = math.degrees(math.atan2(out.y, out.x))
    square = Polygon([(-far, -far), (0, -far), (0, far), (-far, far)])
    turned = rotate(square, turn, origin=(0, 0))
    return Polygon([(x + at.x, y + at.y) for x, y in turned.exterior.coords])


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("seed", range(25))
def test_what_is_left_is_what_shapely_leaves(name: str, seed: int) -> None:
    """Chords at a sagitta of 0.0005 mm stand for the arcs; areas agree to the same."""
    rng = random.Random(f"{name}{seed}")
    outline = SHAPES[name]
    turn = rng.uniform(0.0, math.tau)
    at = Point(rng.uniform(-25.0, 25.0), rng.uniform(-15.0, 15.0))
    out = Point(math.cos(turn), math.sin(turn))
    want = Polygon(outline.sampled(0.0005)).intersection(_half(at, out)).area
    left = cut_short(outline, at, out)
    assert (0.0 if left is None else left.area) == pytest.approx(want, abs=0.2)
    if left is not None:
        assert all((p.x - at.x) * out.x + (p.y - at.y) * out.y < 1e-6 for p in left.sampled(0.01))
        assert {round(s.radius, 6) for s in left if s.bulge} <= {
            round(s.radius, 6) for s in outline if s.bulge
        }


def test_a_line_along_an_edge_or_beyond_takes_nothing() -> None:
    outline = SHAPES["rectangle"]
    assert cut_short(outline, Point(50.0, 7.0), Point(1.0, 0.0)) == outline
    assert cut_short(outline, Point(90.0, 0.0), Point(1.0, 0.0)) == outline
    assert cut_short(outline, Point(-90.0, 0.0), Point(1.0, 0.0)) is None


def test_a_plane_passes_each_height_where_its_equation_says() -> None:
    plane = Plane(Vec(10.0, 20.0, 5.0), Vec(0.6, 0.0, 0.8))
    for height in (-3.0, 0.0, 5.0, 12.0):
        at, out = plane.line(height)
        assert plane.beyond(Vec(*at, height)) == pytest.approx(0.0, abs=1e-12)
        assert out == Point(1.0, 0.0)
    assert plane.beyond(Vec(11.0, 0.0, 5.0)) == pytest.approx(0.6)
    assert plane.set_in(2.0).beyond(plane.at) == pytest.approx(2.0)
    with pytest.raises(ValueError, match="level"):
        Plane(Vec(0.0, 0.0, 0.0), Z).line(1.0)


def test_a_plane_is_carried_by_a_mirrored_frame() -> None:
    frame = Frame(Vec(1.0, 2.0, 3.0), X, Y.negated(), Z)
    plane = Plane(Vec(5.0, 0.0, 0.0), Vec(0.6, 0.8, 0.0))
    placed = plane.placed(frame)
    for place in (Vec(0.0, 0.0, 0.0), Vec(9.0, -4.0, 2.0)):
        assert placed.beyond(frame.place(*place)) == pytest.approx(plane.beyond(place))


@pytest.mark.parametrize(
    ("outline", "convex", "square"),
    [
        (rectangle(3.0, 2.0), True, True),
        (closed(((0, 0, 0), (5, 0, 0), (4, 2, 0), (1, 2, 0))), True, False),
        (SHAPES["notched"], False, False),
        (closed(((0, 0, 0), (5, 0, 0), (5, 5, 0), (4, 1, 0))), False, False),
        (rectangle(3.0, 2.0).reversed(), False, True),
    ],
)
def test_which_outlines_are_convex_or_square(outline: Outline, convex: bool, square: bool) -> None:
    assert is_convex(outline) is convex
    assert is_rectangle(outline) is square
