"""Where lines and arcs meet, and how far a place is from one; exact, no chords."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.geometry.outline import Point, Segment

_TINY = 1e-9


def meetings(a: Segment, b: Segment) -> Iterator[tuple[float, float]]:
    """Shares of the way along a and b (0 to 1) at each place where they meet.

    Lines or arcs that lie on one another meet nowhere: their ends are shared already.
    """
    for point in _points(a, b):
        along, other = share_at(a, point), share_at(b, point)
        if along is not None and other is not None:
            yield along, other


def _points(a: Segment, b: Segment) -> tuple[Point, ...]:
    if a.bulge == 0.0 and b.bulge == 0.0:
        return _lines(a, b)
    if a.bulge == 0.0:
        return _line_circle(a, b)
    if b.bulge == 0.0:
        return _line_circle(b, a)
    return _circles(a, b)


def _lines(a: Segment, b: Segment) -> tuple[Point, ...]:
    ax, ay = a.end.x - a.start.x, a.end.y - a.start.y
    bx, by = b.end.x - b.start.x, b.end.y - b.start.y
    cross = ax * by - ay * bx
    if abs(cross) <= 1e-12 * (a.chord * b.chord):
        return ()
    t = ((b.start.x - a.start.x) * by - (b.start.y - a.start.y) * bx) / cross
    return (Point(a.start.x + t * ax, a.start.y + t * ay),)


def _line_circle(line: Segment, arc: Segment) -> tuple[Point, ...]:
    centre, radius, chord = arc.centre, arc.radius, line.chord
    ux, uy = (line.end.x - line.start.x) / chord, (line.end.y - line.start.y) / chord
    dx, dy = centre.x - line.start.x, centre.y - line.start.y
    along, off = dx * ux + dy * uy, dx * uy - dy * ux
    rest = radius * radius - off * off
    if rest < -_TINY * radius:
        return ()
    half = math.sqrt(max(rest, 0.0))
    feet = (along - half, along + half)
    return tuple(Point(line.start.x + ux * t, line.start.y + uy * t) for t in feet)


def _circles(a: Segment, b: Segment) -> tuple[Point, ...]:
    (ax, ay), (bx, by) = a.centre, b.centre
    apart = math.hypot(bx - ax, by - ay)
    if apart < _TINY:
        return ()
    along = (apart * apart + a.radius**2 - b.radius**2) / (2.0 * apart)
    rest = a.radius**2 - along * along
    if rest < -_TINY * a.radius:
        return ()
    half = math.sqrt(max(rest, 0.0))
    ux, uy = (bx - ax) / apart, (by - ay) / apart
    foot = Point(ax + ux * along, ay + uy * along)
    return (
        Point(foot.x - uy * half, foot.y + ux * half),
        Point(foot.x + uy * half, foot.y - ux * half),
    )


def share_at(segment: Segment, point: Point, slack: float = 1e-7) -> float | None:
    """How far along the segment a place of its line or circle lies; None when beyond its ends.

    `slack` is in mm.
    """
    if segment.bulge == 0.0:
        chord = segment.chord
        dx, dy = segment.end.x - segment.start.x, segment.end.y - segment.start.y
        t = ((point.x - segment.start.x) * dx + (point.y - segment.start.y) * dy) / (chord * chord)
        return min(max(t, 0.0), 1.0) if -slack / chord <= t <= 1.0 + slack / chord else None
    turn, sweep = _turned(segment, point), abs(segment.sweep)
    over = slack / segment.radius
    if turn > math.tau - over:
        turn = 0.0
    return min(turn / sweep, 1.0) if turn <= sweep + over else None


def _turned(arc: Segment, point: Point) -> float:
    """Angle from the arc's start to the place, in the arc's own direction, 0 to a whole turn."""
    cx, cy = arc.centre
    first = math.atan2(arc.start.y - cy, arc.start.x - cx)
    turn = math.atan2(point.y - cy, point.x - cx) - first
    return (turn if arc.bulge > 0.0 else -turn) % math.tau


def distance(segment: Segment, point: Point) -> float:
    """Least distance from a place to a line or arc, mm."""
    ends = min(math.dist(point, segment.start), math.dist(point, segment.end))
    if segment.bulge == 0.0:
        t = share_at(segment, point, 0.0)
        return ends if t is None else math.dist(point, segment.at(t))
    if _turned(segment, point) <= abs(segment.sweep):
        return min(ends, abs(math.dist(point, segment.centre) - segment.radius))
    return ends


def part_of(segment: Segment, low: float, high: float) -> Segment:
    """The stretch of a segment between two shares of its way."""
    if low == 0.0 and high == 1.0:
        return segment
    bulge = math.tan(segment.sweep * (high - low) / 4.0) if segment.bulge else 0.0
    start = segment.start if low == 0.0 else segment.at(low)
    return Segment(start, segment.end if high == 1.0 else segment.at(high), bulge)
