"""A drawing brought down to the strokes that every file format knows, each written once.

Dimensions become lines and text, centre marks two lines.  A line drawn twice on one layer would
be cut twice, so a second stroke of the same geometry is left out, whichever way it runs and
whichever shape it came as.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from typing import NamedTuple

from flatpack.drawings.dimensioning import cross_lines, dimension_parts
from flatpack.drawings.ellipses import ellipse_box
from flatpack.drawings.layers import LayerSet
from flatpack.drawings.lettering import text_box
from flatpack.drawings.shapes import (
    Circle,
    Closed,
    Cross,
    Dimension,
    Drawing,
    Ellipse,
    Line,
    Path,
    Text,
)
from flatpack.geometry import Segment

Plain = Closed | Path | Line | Circle | Ellipse | Text
Box = tuple[float, float, float, float]


class PlainStroke(NamedTuple):
    """A shape without dimensions and centre marks, on the layer with key `layer`."""

    layer: str
    shape: Plain


def plain_strokes(drawing: Drawing, layers: LayerSet, once: bool = True) -> tuple[PlainStroke, ...]:
    """The strokes to write, in the order of the drawing; none of them twice if `once`.

    Raises:
        ValueError: lettering on a layer that may carry none, or a dimension of no length.
        KeyError: a layer that the table doesn't have.
    """
    seen: set[Hashable] = set()
    kept: list[PlainStroke] = []
    for stroke in _expanded(drawing):
        mark = _identity(stroke.shape)
        if once and (stroke.layer, mark) in seen:
            continue
        seen.add((stroke.layer, mark))
        kept.append(stroke)
    _refuse_lettering(kept, layers)
    return tuple(kept)


def _expanded(drawing: Drawing) -> Iterator[PlainStroke]:
    for layer, shape in ((s.layer, s.shape) for s in drawing.strokes):
        if isinstance(shape, Dimension):
            lines, text = dimension_parts(shape, drawing.scale)
            yield from (PlainStroke(layer, line) for line in lines)
            yield PlainStroke(layer, text)
        elif isinstance(shape, Cross):
            yield from (PlainStroke(layer, line) for line in cross_lines(shape))
        else:
            yield PlainStroke(layer, shape)


def _identity(shape: Plain) -> Hashable:
    """Equal for shapes that lie on one another, whatever their direction and first point."""
    if isinstance(shape, Line):  # as a path of one segment
        a, b = shape.start, shape.end
        return (a, b, 0.0) if a <= b else (b, a, -0.0)
    if isinstance(shape, Closed):
        return shape.filled, frozenset(map(_undirected, shape.outline.segments))
    if isinstance(shape, Path):
        segments = shape.segments
        if len(segments) == 1:
            return _undirected(segments[0])
        return False, frozenset(map(_undirected, segments))
    return shape


def _undirected(segment: Segment) -> Segment:
    return segment if segment.start <= segment.end else segment.reversed()


def _refuse_lettering(strokes: Iterable[PlainStroke], layers: LayerSet) -> None:
    carrying = {layer for layer, shape in strokes if type(shape) is Text}
    for key in sorted(carrying):
        if not layers[key].text:
            raise ValueError(f"text on layer {key!r}: engraved text is drawn as strokes instead")


def extents(shapes: Iterable[Plain]) -> Box | None:
    """Smallest x, y and largest x, y of the shapes, exact for arcs; None when there are none."""
    boxes = [shape_box(shape) for shape in shapes]
    if not boxes:
        return None
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return min(x0), min(y0), max(x1), max(y1)


def shape_box(shape: Plain) -> Box:
    """Smallest x, y and largest x, y of one shape; for text a safe estimate."""
    if isinstance(shape, Closed):
        return _chain_box(shape.outline.segments)
    if isinstance(shape, Path):
        return _chain_box(shape.segments)
    if isinstance(shape, Line):
        (ax, ay), (bx, by) = shape.start, shape.end
        return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)
    if isinstance(shape, Circle):
        (x, y), r = shape.centre, shape.radius
        return x - r, y - r, x + r, y + r
    return text_box(shape) if isinstance(shape, Text) else ellipse_box(shape)


def _chain_box(segments: Iterable[Segment]) -> Box:
    xs: list[float] = []
    ys: list[float] = []
    for segment in segments:
        (ax, ay), (bx, by), bulge = segment
        xs += (ax, bx)
        ys += (ay, by)
        if bulge:
            x0, y0, x1, y1 = segment.bounds()
            xs += (x0, x1)
            ys += (y0, y1)
    return min(xs), min(ys), max(xs), max(ys)
