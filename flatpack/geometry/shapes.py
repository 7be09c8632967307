"""The outlines that parts are made of: rectangles, rounded bars, rounded corners, discs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from flatpack.geometry.outline import Outline, Point, Segment, bulge_of, closed

QUARTER = bulge_of(90.0)


def rectangle(length: float, width: float, x: float = 0.0, y: float = 0.0) -> Outline:
    """Rectangle with its lower left corner at x, y."""
    return closed(
        ((x, y, 0.0), (x + length, y, 0.0), (x + length, y + width, 0.0), (x, y + width, 0.0))
    )


def disc(radius: float, x: float = 0.0, y: float = 0.0) -> Outline:
    """Full circle as two half circles."""
    return _disc_about_origin(radius) if x == y == 0.0 else _disc(radius, x, y)


def _disc(radius: float, x: float = 0.0, y: float = 0.0) -> Outline:
    return closed(((x - radius, y, 1.0), (x + radius, y, 1.0)))


_disc_about_origin = lru_cache(maxsize=256)(_disc)
"""A piece has few sizes of screw and bolt, and hundreds of each."""


def round_ended(between: float, radius: float) -> Outline:
    """Bar with a half circle about each end's centre; the first centre lies at the origin.

      .-----------------------.
    (   +  <--- between --->  +   )   width = 2 x radius
      '-----------------------'
    """
    return closed(
        (
            (0.0, -radius, 0.0),
            (between, -radius, 1.0),
            (between, radius, 0.0),
            (0.0, radius, 1.0),
        )
    )


def one_round_end(length: float, width: float) -> Outline:
    """Bar from x = 0 (square end) to x = length, whose far end is a half circle."""
    radius = width / 2.0
    return closed(
        (
            (0.0, 0.0, 0.0),
            (length - radius, 0.0, 1.0),
            (length - radius, width, 0.0),
            (0.0, width, 0.0),
        )
    )


def filleted(corners: Sequence[tuple[float, float, float]]) -> Outline:
    """Polygon from (x, y, radius) corners, anticlockwise, each corner rounded by a true arc.

    Raises:
        ValueError: two roundings overlap on one side.
    """
    count = len(corners)
    vertices: list[tuple[float, float, float]] = []
    for i, (x, y, radius) in enumerate(corners):
        if radius == 0.0:
            vertices.append((x, y, 0.0))
            continue
        px, py, _ = corners[i - 1]
        nx, ny, _ = corners[(i + 1) % count]
        vertices.extend(_rounding((px, py), (x, y), (nx, ny), radius))
    _check_no_backtrack(corners)
    return closed(vertices)


def _rounding(
    before: tuple[float, float],
    at: tuple[float, float],
    after: tuple[float, float],
    radius: float,
) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    ax, ay = before[0] - at[0], before[1] - at[1]
    bx, by = after[0] - at[0], after[1] - at[1]
    la, lb = math.hypot(ax, ay), math.hypot(bx, by)
    inner = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
    setback = radius / abs(math.tan(inner / 2.0))
    turn = math.copysign(math.pi - abs(inner), -inner)
    return (
        (at[0] + ax / la * setback, at[1] + ay / la * setback, math.tan(turn / 4.0)),
        (at[0] + bx / lb * setback, at[1] + by / lb * setback, 0.0),
    )


def _check_no_backtrack(corners: Sequence[tuple[float, float, float]]) -> None:
    count = len(corners)
    setbacks = []
    for i, (x, y, radius) in enumerate(corners):
        (px, py, _), (nx, ny, _) = corners[i - 1], corners[(i + 1) % count]
        ax, ay, bx, by = px - x, py - y, nx - x, ny - y
        inner = abs(math.atan2(ax * by - ay * bx, ax * bx + ay * by))
        setbacks.append(radius / math.tan(inner / 2.0) if radius else 0.0)
    for i, (x, y, _) in enumerate(corners):
        j = (i + 1) % count
        if setbacks[i] + setbacks[j] > math.hypot(corners[j][0] - x, corners[j][1] - y) + 1e-9:
            raise ValueError(f"roundings overlap between corners {i + 1} and {j + 1}")


def through(points: Sequence[Point]) -> Outline:
    """Closed polygon; points on one another are taken once, so that no side has no length."""
    kept: list[Point] = []
    for p in points:
        if not kept or math.dist(p, kept[-1]) > 1e-6:
            kept.append(p)
    if len(kept) > 1 and math.dist(kept[0], kept[-1]) <= 1e-6:
        kept.pop()
    return Outline(tuple(Segment(a, b) for a, b in zip(kept, (*kept[1:], kept[0]), strict=True)))


def spliced(outline: Outline, index: int, chain: Sequence[Segment]) -> Outline:
    """Outline with segment `index` replaced by a chain, e.g. an edge with notches cut in it.

    The chain starts and ends where that segment does.
    """
    segments = outline.segments
    return Outline((*segments[:index], *chain, *segments[index + 1 :]))


def rounded_rectangle(length: float, width: float, radius: float) -> Outline:
    """Rectangle from the origin with all four corners rounded (radius 0: square)."""
    r = radius
    return filleted(((0.0, 0.0, r), (length, 0.0, r), (length, width, r), (0.0, width, r)))
