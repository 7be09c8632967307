"""One of every shape, each on a layer where it belongs; lengths in mm."""

from __future__ import annotations

import pytest

from flatpack.drawings.shapes import (
    Circle,
    Closed,
    Cross,
    Dimension,
    Drawing,
    Ellipse,
    Line,
    Path,
    Shape,
    Stroke,
    Text,
)
from flatpack.geometry import Point, bulge_of, chain, closed

SHAPES: dict[str, tuple[str, Shape]] = {
    "closed": ("outline", Closed(closed([(0, 0, 0), (120, 0, 1), (120, 40, 0), (0, 40, 0)]))),
    "path": ("slot", Path(chain([(10, 5, 0), (40, 5, bulge_of(90)), (50, 15, -0.3), (60, 30, 0)]))),
    "line": ("centre-line", Line(Point(0, 20), Point(140, 20))),
    "circle": ("drill-through", Circle(Point(120, 20), 4.25)),
    "ellipse": ("pocket-hole", Ellipse(Point(70, 20), Point(12, 5), 0.3)),
    "part ellipse": ("hidden-edge", Ellipse(Point(70, 20), Point(-3, 14), 0.5, 30, 250)),
    "text": ("text", Text(Point(5, 30), "Side rail")),
    "turned text": ("text", Text(Point(60, 60), "A-L", 5, 30, "middle", "top", True)),
    "dimension": ("dimension", Dimension(Point(0, 40), Point(120, 40), 12)),
    "cross": ("centre-line", Cross(Point(120, 20), 14)),
}


def drawing_of(*strokes: Stroke) -> Drawing:
    """A drawing of the strokes on a sheet of 200 by 120."""
    return Drawing("rail", "Side rail", (-20, -20, 180, 100), strokes, (("hand", "left"),))


@pytest.fixture
def every_shape() -> Drawing:
    """All shapes on one sheet."""
    return drawing_of(*(Stroke(layer, shape) for layer, shape in SHAPES.values()))
