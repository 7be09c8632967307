"""Shapes cut off at the sides of a box: lines, arcs and ellipses stay what they are.

A window shows part of a drawing; what runs out of it is cut where it crosses the side, exactly.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from flatpack.drawings.boxes import Box, box_of
from flatpack.drawings.ellipses import at_parameter, sweep_of
from flatpack.drawings.shapes import (
    Circle,
    Closed,
    Cross,
    Dimension,
    Ellipse,
    Line,
    Path,
    Shape,
    Stroke,
    Text,
)
from flatpack.geometry import Point, Segment
from flatpack.geometry.shapes import disc

_TINY = 1e-9


def clipped(strokes: Iterable[Stroke], box: Box) -> tuple[Stroke, ...]:
    """What of the strokes lies in the box, on the same layers."""
    return tuple(Stroke(s.layer, shape) for s in strokes for shape in _cut(s.shape, box))


def _cut(shape: Shape, box: Box) -> Iterator[Shape]:
    if isinstance(shape, Cross | Text):
        at = shape.centre if isinstance(shape, Cross) else shape.at
        if within(at, box):
            yield shape
        return
    own = box_of(shape)
    if own[2] < box[0] or own[0] > box[2] or own[3] < box[1] or own[1] > box[3]:
        return
    if isinstance(shape, Dimension) or _lies_in(own, box):
        yield shape
    elif isinstance(shape, Ellipse):
        yield from _ellipse(shape, box)
    else:
        yield from map(_unless_line, chains(_segments(shape), box))


def _segments(shape: Closed | Path | Line | Circle) -> Sequence[Segment]:
    if isinstance(shape, Closed):
        return shape.outline.segments
    if isinstance(shape, Circle):
        return disc(shape.radius, *shape.centre).segments
    return (Segment(shape.start, shape.end),) if isinstance(shape, Line) else shape.segments


def _unless_line(chain: tuple[Segment, ...]) -> Shape:
    if len(chain) == 1 and chain[0].bulge == 0.0:
        return Line(chain[0].start, chain[0].end)
    return Path(chain)


def within(point: Point, box: Box) -> bool:
    """True when the point lies in the box or on its side."""
    x, y = point
    return box[0] - _TINY <= x <= box[2] + _TINY and box[1] - _TINY <= y <= box[3] + _TINY


def _lies_in(inner: Box, box: Box) -> bool:
    return within(Point(inner[0], inner[1]), box) and within(Point(inner[2], inner[3]), box)


def chains(segments: Sequence[Segment], box: Box) -> list[tuple[Segment, ...]]:
    """Runs of the chain that lie in the box, each as long as it holds together."""
    runs: list[list[Segment]] = []
    for segment in segments:
        for piece in _pieces(segment, box):
            if runs and runs[-1][-1].end == piece.start:
                runs[-1].append(piece)
            else:
                runs.append([piece])
    if len(runs) > 1 and runs[-1][-1].end == runs[0][0].start:
        runs[0] = runs.pop() + runs[0]
    return [tuple(run) for run in runs]


def _pieces(segment: Segment, box: Box) -> Iterator[Segment]:
    cuts = sorted({0.0, 1.0, *(t for t in _crossings(segment, box) if 0.0 < t < 1.0)})
    spots = [segment.start, *(segment.at(t) for t in cuts[1:-1]), segment.end]
    low: int | None = None
    for i in range(len(cuts) - 1):
        if within(segment.at((cuts[i] + cuts[i + 1]) / 2.0), box):
            low = i if low is None else low
        elif low is not None:
            yield _part(segment, cuts, spots, low, i)
            low = None
    if low is not None:
        yield _part(segment, cuts, spots, low, len(cuts) - 1)


def _part(
    segment: Segment, cuts: Sequence[float], spots: Sequence[Point], low: int, high: int
) -> Segment:
    share = cuts[high] - cuts[low]
    bulge = segment.bulge if share == 1.0 else math.tan(segment.sweep * share / 4.0)
    return Segment(spots[low], spots[high], bulge)


def _crossings(segment: Segment, box: Box) -> Iterator[float]:
    """Shares of the way along at which the segment meets the sides' lines."""
    (x0, y0), (x1, y1) = segment.start, segment.end
    if segment.bulge == 0.0:
        for start, run, sides in ((x0, x1 - x0, box[::2]), (y0, y1 - y0, box[1::2])):
            if run:
                yield from ((side - start) / run for side in sides)
        return
    centre, radius, sweep = segment.centre, segment.radius, segment.sweep
    first = math.atan2(y0 - centre.y, x0 - centre.x)
    way = math.copysign(1.0, sweep)
    for angle in _angles(centre, Point(radius, 0.0), Point(0.0, radius), box):
        yield (angle - first) * way % math.tau / abs(sweep)


def _angles(centre: Point, a: Point, b: Point, box: Box) -> Iterator[float]:
    """Parameters t at which centre + a cos t + b sin t meets the sides' lines, radians."""
    for middle, p, q, sides in (
        (centre.x, a.x, b.x, box[::2]),
        (centre.y, a.y, b.y, box[1::2]),
    ):
        reach, turn = math.hypot(p, q), math.atan2(q, p)
        for side in sides:
            if reach and abs(side - middle) < reach:
                away = math.acos((side - middle) / reach)
                yield turn + away
                yield turn - away


def _ellipse(shape: Ellipse, box: Box) -> Iterator[Shape]:
    a = shape.major
    b = Point(-a.y * shape.ratio, a.x * shape.ratio)
    start, sweep = math.radians(shape.start), math.radians(sweep_of(shape))
    cuts = {(t - start) % math.tau for t in _angles(shape.centre, a, b, box)}
    stops = sorted({0.0, sweep, *(t for t in cuts if t < sweep)})
    for low, high in pairwise(stops):
        middle = at_parameter(shape, math.degrees(start + (low + high) / 2.0))
        if within(middle, box):
            ends = (math.degrees(start + t) for t in (low, high))
            yield Ellipse(shape.centre, shape.major, shape.ratio, *ends)
