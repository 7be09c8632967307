"""Zigzag lines where a part goes on beyond its window (ISO 128-2: long breaks, thin line)."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from flatpack.drawings.boxes import Box
from flatpack.drawings.shapes import Path, Stroke
from flatpack.drawings.templates.windows import Window
from flatpack.geometry import Outline, Point, Segment, chain


def breaks(outline: Outline, page: Box, window: Window, box: Box) -> Iterator[Stroke]:
    """A zigzag line along each side of the box at which the part goes on."""
    rim = outline.sampled(0.2)
    length, width = window.part.length, window.part.width
    x0, y0, x1, y1 = page
    sides = (
        (box[0] > 0.0, Point(x0, y0), Point(x0, y1)),
        (box[2] < length, Point(x1, y0), Point(x1, y1)),
        (box[1] > 0.0, Point(x0, y0), Point(x1, y0)),
        (box[3] < width, Point(x0, y1), Point(x1, y1)),
    )
    for cut, a, b in sides:
        if cut:
            for low, high in _inside(a, b, rim):
                yield Stroke("thin-line", Path(zigzag(low, high)))


def _inside(a: Point, b: Point, rim: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    """Stretches of the line from a to b that lie in the material."""
    shares = {0.0, 1.0}
    for p, q in zip(rim, (*rim[1:], rim[0]), strict=True):
        share = _meeting(a, b, p, q)
        if share is not None:
            shares.add(min(max(share, 0.0), 1.0))
    ordered = sorted(shares)
    for low, high in pairwise(ordered):
        if high - low > 1e-6 and _odd(_between(a, b, (low + high) / 2.0), rim):
            yield _between(a, b, low), _between(a, b, high)


def _between(a: Point, b: Point, share: float) -> Point:
    return Point(a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share)


def _meeting(a: Point, b: Point, p: Point, q: Point) -> float | None:
    """Share along a-b at which it crosses the line p-q; None when it doesn't."""
    ux, uy, vx, vy = b.x - a.x, b.y - a.y, q.x - p.x, q.y - p.y
    cross = ux * vy - uy * vx
    if abs(cross) < 1e-12:
        return None
    along = ((p.x - a.x) * vy - (p.y - a.y) * vx) / cross
    other = ((p.x - a.x) * uy - (p.y - a.y) * ux) / cross
    return along if -1e-9 <= along <= 1 + 1e-9 and -1e-9 <= other <= 1 + 1e-9 else None


def _odd(at: Point, rim: Sequence[Point]) -> bool:
    """True when the point lies within the rim."""
    inside = False
    for p, q in zip(rim, (*rim[1:], rim[0]), strict=True):
        if (p.y > at.y) != (q.y > at.y):
            inside ^= at.x < p.x + (q.x - p.x) * (at.y - p.y) / (q.y - p.y)
    return inside


def zigzag(a: Point, b: Point) -> tuple[Segment, ...]:
    """The line from a to b, 2 mm past both, with one zigzag in its middle."""
    length = math.hypot(b.x - a.x, b.y - a.y)
    ux, uy = (b.x - a.x) / length, (b.y - a.y) / length
    half = length / 2.0
    steps = ((-2.0, 0.0), (half - 2.0, 0.0), (half - 1.0, 2.0), (half + 1.0, -2.0),
             (half + 2.0, 0.0), (length + 2.0, 0.0))  # fmt: skip
    return chain([(a.x + ux * u - uy * v, a.y + uy * u + ux * v, 0.0) for u, v in steps])
