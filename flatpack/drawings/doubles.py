"""Finds lines drawn over one another: a machine would run there twice.

Every shape is taken apart into straight lines, circular arcs and ellipses.  Two pieces overlap
when they lie on the same line, circle or ellipse and share more than `tolerance` of it; touching
end to end isn't overlap.  Letters are not looked at.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from flatpack.drawings.plain import PlainStroke, shape_box
from flatpack.drawings.shapes import Circle, Closed, Ellipse, Line, Path
from flatpack.geometry import Point, Segment


class Overlap(NamedTuple):
    """Two strokes, by their place in the list, and the length that they share, mm."""

    first: int
    second: int
    length: float


class _Arc(NamedTuple):
    """An arc anticlockwise from `start` through `sweep`, radians; a circle sweeps a whole turn."""

    centre: Point
    radius: float
    start: float
    sweep: float


_Piece = Line | _Arc | Ellipse


def overlaps(strokes: Sequence[PlainStroke], tolerance: float = 0.001) -> tuple[Overlap, ...]:
    """Every pair of pieces that share more than `tolerance` mm; choose the strokes by layer.

    A stroke that runs over itself is a pair with itself.
    """
    pieces = [(i, piece) for i, stroke in enumerate(strokes) for piece in _pieces(stroke)]
    found = (
        Overlap(min(i, j), max(i, j), shared)
        for (i, a), (j, b) in _near(pieces)
        if (shared := _shared(a, b, tolerance)) > tolerance
    )
    return tuple(sorted(found))


def _near(pieces: Iterable[tuple[int, _Piece]]) -> Iterator[tuple[tuple[int, _Piece], ...]]:
    """Pairs whose boxes touch, found by a sweep from left to right."""
    boxed = sorted(((_box(p), i, p) for i, p in pieces), key=lambda row: row[:2])
    for k, ((_, y0, x1, y1), i, a) in enumerate(boxed):
        for (bx0, by0, _, by1), j, b in boxed[k + 1 :]:
            if bx0 > x1:
                break
            if by0 <= y1 and y0 <= by1:
                yield (i, a), (j, b)


def _box(piece: _Piece) -> tuple[float, float, float, float]:
    if isinstance(piece, _Arc):
        (x, y), r = piece.centre, piece.radius
        x0, y0, x1, y1 = x - r, y - r, x + r, y + r
    else:
        x0, y0, x1, y1 = shape_box(piece)
    return x0 - 0.01, y0 - 0.01, x1 + 0.01, y1 + 0.01


def _pieces(stroke: PlainStroke) -> Iterator[_Piece]:
    shape = stroke.shape
    if isinstance(shape, Circle):
        yield _Arc(shape.centre, shape.radius, 0.0, math.tau)
    elif isinstance(shape, Ellipse | Line):
        yield shape
    elif isinstance(shape, Closed | Path):
        chain = shape.outline.segments if isinstance(shape, Closed) else shape.segments
        yield from (_piece(segment) for segment in chain)


def _piece(segment: Segment) -> _Piece:
    if segment.bulge == 0.0:
        return Line(segment.start, segment.end)
    centre = segment.centre
    first = segment.start if segment.bulge > 0.0 else segment.end
    start = math.atan2(first.y - centre.y, first.x - centre.x)
    return _Arc(centre, segment.radius, start, abs(segment.sweep))


def _shared(a: _Piece, b: _Piece, tolerance: float) -> float:
    if isinstance(a, Line) and isinstance(b, Line):
        return _shared_line(a, b, tolerance)
    if isinstance(a, _Arc) and isinstance(b, _Arc):
        return _shared_arc(a, b, tolerance)
    if isinstance(a, Ellipse) and isinstance(b, Ellipse):
        return _shared_ellipse(a, b, tolerance)
    return 0.0


def _shared_line(a: Line, b: Line, tolerance: float) -> float:
    """Both ends of the shorter line must lie on the longer one's straight line."""
    long, brief = sorted((a, b), key=lambda line: -math.dist(line.start, line.end))
    length = math.dist(long.start, long.end)
    if length == 0.0:
        return 0.0
    (x, y), ux, uy = long.start, *_unit(long, length)
    off = [(p.x - x) * uy - (p.y - y) * ux for p in (brief.start, brief.end)]
    if max(map(abs, off)) > tolerance:
        return 0.0
    along = [(p.x - x) * ux + (p.y - y) * uy for p in (brief.start, brief.end)]
    return min(length, max(along)) - max(0.0, min(along))


def _unit(line: Line, length: float) -> tuple[float, float]:
    return (line.end.x - line.start.x) / length, (line.end.y - line.start.y) / length


def _shared_arc(a: _Arc, b: _Arc, tolerance: float) -> float:
    if math.dist(a.centre, b.centre) > tolerance or abs(a.radius - b.radius) > tolerance:
        return 0.0
    late = (b.start - a.start) % math.tau
    turn = max(0.0, min(a.sweep, late + b.sweep) - late)
    turn += max(0.0, min(a.sweep, late + b.sweep - math.tau))
    return turn * a.radius


def _shared_ellipse(a: Ellipse, b: Ellipse, tolerance: float) -> float:
    """Same centre, axes and ratio, as whole curves: part ellipses on one carrier count whole."""
    same_axis = min(
        math.dist(a.major, b.major), math.dist(a.major, (-b.major.x, -b.major.y))
    )  # an axis may be given from either end
    apart = max(math.dist(a.centre, b.centre), same_axis, abs(a.ratio - b.ratio))
    return 0.0 if apart > tolerance else 2.0 * math.hypot(*a.major)
