"""A rectangle let into an outline's edge, or left standing on it: slots and tenons.

depth > 0: a slot                      depth < 0: a tenon
                                              ,---.
  ----.   .----   mouth: the middle of        |   |        hollow corners are marked o: where a
      |   |       the edge that is cut    ----o   o----    square part must seat they want relief
      o---o
"""

from __future__ import annotations

from typing import NamedTuple

from flatpack.geometry.outline import Outline, Point, Segment
from flatpack.geometry.shapes import spliced

_NEAR = 1e-6
"""The mouth may stand this far off the edge, mm, and the edge this far out of square."""


class Recessed(NamedTuple):
    """The outline with its recess or tenon, and its two hollow corners."""

    outline: Outline
    hollow: tuple[Point, Point]


def recessed(
    outline: Outline, mouth: Point, inward: Point, width: float, depth: float
) -> Recessed | None:
    """Cut a slot `depth` mm along the unit vector `inward`, or stand a tenon up the other way.

    None when no straight edge square to `inward` has room for the whole mouth.
    """
    for index, edge in enumerate(outline.segments):
        way = _way(edge, mouth, inward, width / 2.0)
        if way is not None:
            corners = _corners(mouth, way, inward, width / 2.0, depth)
            made = _through((edge.start, *corners, edge.end))
            hollow = corners[1:3] if depth > 0.0 else (corners[0], corners[3])
            return Recessed(spliced(outline, index, made), (hollow[0], hollow[1]))
    return None


def _way(edge: Segment, mouth: Point, inward: Point, half: float) -> Point | None:
    """Direction of an edge that holds the mouth with the wood on the inward side, else None."""
    if edge.bulge:
        return None
    way = edge.direction(0.0)
    along = (mouth.x - edge.start.x) * way.x + (mouth.y - edge.start.y) * way.y
    off = (mouth.x - edge.start.x) * way.y - (mouth.y - edge.start.y) * way.x
    # Anticlockwise: the wood lies left of travel, so inward is the way turned left.
    square = abs(inward.x + way.y) < _NEAR and abs(inward.y - way.x) < _NEAR
    holds = half + _NEAR < along < edge.chord - half - _NEAR
    return way if square and holds and abs(off) < _NEAR else None


def _corners(
    mouth: Point, way: Point, inward: Point, half: float, depth: float
) -> tuple[Point, Point, Point, Point]:
    def corner(along: float, deep: float) -> Point:
        return Point(
            mouth.x + way.x * along + inward.x * deep, mouth.y + way.y * along + inward.y * deep
        )

    return corner(-half, 0.0), corner(-half, depth), corner(half, depth), corner(half, 0.0)


def _through(points: tuple[Point, ...]) -> tuple[Segment, ...]:
    return tuple(map(Segment, points[:-1], points[1:]))


def span_at(outline: Outline, at: Point, way: Point) -> tuple[float, float] | None:
    """Least and greatest distance along `way` from `at` at which its straight line meets the edge.

    Only straight edges count, and those along the line itself don't; None where fewer than two do.
    """
    found = []
    for (x0, y0), (x1, y1), bulge in outline.segments:
        first = (x0 - at.x) * way.y - (y0 - at.y) * way.x
        last = (x1 - at.x) * way.y - (y1 - at.y) * way.x
        if bulge == 0.0 and first * last <= 0.0 and first != last:
            share = first / (first - last)
            x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
            found.append((x - at.x) * way.x + (y - at.y) * way.y)
    return (min(found), max(found)) if len(found) > 1 else None
