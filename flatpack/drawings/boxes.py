"""Room that strokes take, dimensions and centre marks included."""

from __future__ import annotations

from collections.abc import Iterable

from flatpack.drawings.dimensioning import dimension_parts
from flatpack.drawings.plain import shape_box
from flatpack.drawings.shapes import Cross, Dimension, Shape, Stroke

#: Layers of features: on a part, so within its outline and the dimensions round it.
_WITHIN = frozenset(
    {
        "arris", "bevel", "centre-line", "counterbore", "countersink", "drill-blind",
        "drill-through", "hidden-edge", "housing", "opening", "part-mark", "pocket-hole", "slot",
    }
)  # fmt: skip

Box = tuple[float, float, float, float]


def box_of(shape: Shape, scale: float = 1.0) -> Box:
    """Smallest x, y, largest x, y of one shape."""
    if isinstance(shape, Dimension):
        lines, text = dimension_parts(shape, scale)
        return union((*(shape_box(line) for line in lines), shape_box(text)))
    if isinstance(shape, Cross):
        (x, y), h = shape.centre, shape.size / 2.0
        return x - h, y - h, x + h, y + h
    return shape_box(shape)


def union(boxes: Iterable[Box]) -> Box:
    """The box round all boxes."""
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return min(x0), min(y0), max(x1), max(y1)


def bounds_of(strokes: Iterable[Stroke], margin: float = 5.0, scale: float = 1.0) -> Box:
    """The box round all strokes, with a margin; what lies within an outline isn't measured."""
    return grown(union(box_of(s.shape, scale) for s in strokes if s.layer not in _WITHIN), margin)


def grown(box: Box, margin: float) -> Box:
    """The box, larger by a margin all round."""
    return box[0] - margin, box[1] - margin, box[2] + margin, box[3] + margin


def meet(a: Box, b: Box) -> bool:
    """True when two boxes share room."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
