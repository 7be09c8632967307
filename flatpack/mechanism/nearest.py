"""Closed-form distances between lines and arcs, with the two nearest points.

The nearest pair is either an end of one against the other, or square to both; so a few
candidates settle it.  Crossing segments have distance 0.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from flatpack.geometry import Outline, Point, Segment

ON = 1e-9  # radians or mm of slack at a segment's ends


class Nearest(NamedTuple):
    """Distance in mm, and the nearest point on each of the two."""

    distance: float
    first: Point
    second: Point


def covers(arc: Segment, ux: float, uy: float) -> bool:
    """Whether an arc has a point in direction (ux, uy) from its centre."""
    cx, cy = arc.centre
    sign = math.copysign(1.0, arc.bulge)
    start = math.atan2(arc.start.y - cy, arc.start.x - cx)
    travelled = sign * (math.atan2(uy, ux) - start) % math.tau
    return travelled <= abs(arc.sweep) + ON or travelled >= math.tau - ON


def nearest_on(segment: Segment, place: Point) -> Point:
    """The point of a line or arc nearest to a place."""
    (x0, y0), (x1, y1) = segment.start, segment.end
    if segment.bulge == 0.0:
        dx, dy = x1 - x0, y1 - y0
        squared = dx * dx + dy * dy
        if squared == 0.0:
            return segment.start
        share = min(max(((place.x - x0) * dx + (place.y - y0) * dy) / squared, 0.0), 1.0)
        return Point(x0 + dx * share, y0 + dy * share)
    cx, cy = segment.centre
    ux, uy = place.x - cx, place.y - cy
    away = math.hypot(ux, uy)
    if away > 0.0 and covers(segment, ux, uy):
        k = segment.radius / away
        return Point(cx + ux * k, cy + uy * k)
    return min(segment.start, segment.end, key=lambda p: math.dist(p, place))


def between(first: Segment, second: Segment) -> Nearest:
    """Distance between two lines or arcs."""
    candidates = [(p, nearest_on(second, p)) for p in (first.start, first.end)]
    candidates += [(nearest_on(first, q), q) for q in (second.start, second.end)]
    candidates += [(p, p) for p in meeting(first, second)]
    candidates += _square_to_both(first, second)
    p, q = min(candidates, key=lambda pair: math.dist(*pair))
    return Nearest(math.dist(p, q), p, q)


def to_outline(segment: Segment, outline: Outline) -> Nearest:
    """Distance from a line or arc to an outline's border."""
    return min((between(segment, side) for side in outline.segments), key=lambda n: n.distance)


def contains(outline: Outline, place: Point) -> bool:
    """Whether a place lies inside an outline, by its winding round the place; exact for arcs."""
    turns = sum(_winding(side, place) for side in outline.segments)
    return abs(turns) > math.pi


def meeting(first: Segment, second: Segment) -> list[Point]:
    """Where two segments cross or touch (a common stretch counts by its ends only)."""
    if first.bulge == 0.0 and second.bulge == 0.0:
        found = _line_line(first, second)
    elif first.bulge == 0.0:
        found = _line_circle(first, second)
    elif second.bulge == 0.0:
        found = _line_circle(second, first)
    else:
        found = _circle_circle(first, second)
    return [p for p in found if on(first, p) and on(second, p)]


def on(segment: Segment, place: Point) -> bool:
    """Whether a place known to lie on the segment's line or circle lies between its ends."""
    if segment.bulge != 0.0:
        cx, cy = segment.centre
        return covers(segment, place.x - cx, place.y - cy)
    (x0, y0), (x1, y1) = segment.start, segment.end
    dx, dy = x1 - x0, y1 - y0
    length = math.hypot(dx, dy)
    along = (place.x - x0) * dx + (place.y - y0) * dy
    return -ON * length <= along <= (length + ON) * length


def _line_line(a: Segment, b: Segment) -> list[Point]:
    ax, ay = a.end.x - a.start.x, a.end.y - a.start.y
    bx, by = b.end.x - b.start.x, b.end.y - b.start.y
    cross = ax * by - ay * bx
    if abs(cross) <= 1e-15 * math.hypot(ax, ay) * math.hypot(bx, by):
        return []
    share = ((b.start.x - a.start.x) * by - (b.start.y - a.start.y) * bx) / cross
    return [Point(a.start.x + ax * share, a.start.y + ay * share)]


def _line_circle(line: Segment, arc: Segment) -> list[Point]:
    foot, ux, uy = _foot(line, arc.centre)
    off = math.dist(foot, arc.centre)
    if off > arc.radius:
        return []
    half = math.sqrt((arc.radius - off) * (arc.radius + off))
    return [Point(foot.x + k * ux, foot.y + k * uy) for k in (-half, half)]


def _circle_circle(a: Segment, b: Segment) -> list[Point]:
    (ax, ay), (bx, by) = a.centre, b.centre
    d = math.hypot(bx - ax, by - ay)
    if d == 0.0 or d > a.radius + b.radius or d < abs(a.radius - b.radius):
        return []
    along = (a.radius**2 - b.radius**2 + d * d) / (2.0 * d)
    half = math.sqrt(max((a.radius - along) * (a.radius + along), 0.0))
    ux, uy = (bx - ax) / d, (by - ay) / d
    x, y = ax + along * ux, ay + along * uy
    return [Point(x - k * uy, y + k * ux) for k in (-half, half)]


def _square_to_both(a: Segment, b: Segment) -> list[tuple[Point, Point]]:
    """Pairs of points whose join is square to both segments, ends apart."""
    if a.bulge == 0.0 and b.bulge == 0.0:
        return []
    if a.bulge == 0.0:
        foot, _, _ = _foot(a, b.centre)
        return [(foot, nearest_on(b, foot))] if on(a, foot) else []
    if b.bulge == 0.0:
        return [(p, q) for q, p in _square_to_both(b, a)]
    (ax, ay), (bx, by) = a.centre, b.centre
    d = math.hypot(bx - ax, by - ay)
    if d == 0.0:
        return []
    ux, uy = (bx - ax) / d, (by - ay) / d
    ends_a = [(k, Point(ax + k * a.radius * ux, ay + k * a.radius * uy)) for k in (1.0, -1.0)]
    ends_b = [(k, Point(bx + k * b.radius * ux, by + k * b.radius * uy)) for k in (1.0, -1.0)]
    return [
        (p, q)
        for ka, p in ends_a
        if covers(a, ka * ux, ka * uy)
        for kb, q in ends_b
        if covers(b, kb * ux, kb * uy)
    ]


def _foot(line: Segment, place: Point) -> tuple[Point, float, float]:
    """Foot of the perpendicular on the endless line, and the line's unit direction."""
    (x0, y0), (x1, y1) = line.start, line.end
    length = math.hypot(x1 - x0, y1 - y0)
    if length == 0.0:
        return line.start, 1.0, 0.0
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    along = (place.x - x0) * ux + (place.y - y0) * uy
    return Point(x0 + along * ux, y0 + along * uy), ux, uy


def _winding(side: Segment, place: Point) -> float:
    """Angle that a segment turns through as seen from a place, radians."""
    ax, ay = side.start.x - place.x, side.start.y - place.y
    bx, by = side.end.x - place.x, side.end.y - place.y
    turn = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
    if side.bulge == 0.0 or not _in_cap(side, place):
        return turn
    return turn + math.copysign(math.tau, side.bulge)


def _in_cap(arc: Segment, place: Point) -> bool:
    """Whether a place lies between an arc and its chord."""
    if math.dist(arc.centre, place) >= arc.radius:
        return False
    (x0, y0), (x1, y1) = arc.start, arc.end
    side = (x1 - x0) * (place.y - y0) - (y1 - y0) * (place.x - x0)
    return side * arc.bulge < 0.0
