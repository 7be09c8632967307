"""Where two pieces of the rod centre's path cross, as shares of the way along each."""

from __future__ import annotations

import math
from collections.abc import Iterable

from flatpack.geometry import Point
from flatpack.mechanism.offset import Piece
from flatpack.mechanism.prop import Miss, circle_circle

GRAZE = 4e-9  # mm: paths that overlap by less only touch
END = 1e-7  # mm: a crossing this close to a piece's end counts as on it


def crossings(a: Piece, b: Piece) -> Iterable[tuple[float, float]]:
    """Shares of the way along `a` and `b` at which they cross (not where they merely graze)."""
    if a.centre is None and b.centre is None:
        return _line_line(a, b)
    if a.centre is None:
        return _line_arc(a, b)
    if b.centre is None:
        return [(s, t) for t, s in _line_arc(b, a)]
    return _arc_arc(a, b)


def share_on(piece: Piece, place: Point) -> float | None:
    """Share of the way along `piece` to a point on its line or circle; None beyond its ends."""
    if piece.centre is None:
        return _share_on_line(piece, place)
    if piece.radius == 0.0:
        return None
    sign = math.copysign(1.0, piece.sweep)
    from_start = math.atan2(place.y - piece.centre.y, place.x - piece.centre.x) - (
        piece.heading - sign * math.pi / 2.0
    )
    travelled = sign * from_start % math.tau
    slack = END / piece.radius
    if travelled > math.tau - slack:
        return 0.0
    sweep = abs(piece.sweep)
    return None if travelled > sweep + slack else min(travelled / sweep, 1.0)


def _share_on_line(piece: Piece, place: Point) -> float | None:
    (x0, y0), (x1, y1) = piece.start, piece.end
    dx, dy = x1 - x0, y1 - y0
    length = math.hypot(dx, dy)
    if length == 0.0:
        return None
    along = ((place.x - x0) * dx + (place.y - y0) * dy) / length
    if not -END <= along <= length + END:
        return None
    return min(max(along / length, 0.0), 1.0)


def _line_line(a: Piece, b: Piece) -> Iterable[tuple[float, float]]:
    ax, ay = a.end.x - a.start.x, a.end.y - a.start.y
    bx, by = b.end.x - b.start.x, b.end.y - b.start.y
    cross = ax * by - ay * bx
    if abs(cross) < 1e-12 * (abs(ax) + abs(ay)) * (abs(bx) + abs(by)) or cross == 0.0:
        return ()
    dx, dy = b.start.x - a.start.x, b.start.y - a.start.y
    s = (dx * by - dy * bx) / cross
    return _both(a, b, (Point(a.start.x + ax * s, a.start.y + ay * s),))


def _line_arc(line: Piece, arc: Piece) -> Iterable[tuple[float, float]]:
    assert arc.centre is not None
    c, s = math.cos(line.heading), math.sin(line.heading)
    dx, dy = arc.centre.x - line.start.x, arc.centre.y - line.start.y
    along, off = dx * c + dy * s, dy * c - dx * s
    if arc.radius - abs(off) < GRAZE:
        return ()
    half = math.sqrt((arc.radius - off) * (arc.radius + off))
    return _both(
        line,
        arc,
        (Point(line.start.x + k * c, line.start.y + k * s) for k in (along - half, along + half)),
    )


def _arc_arc(a: Piece, b: Piece) -> Iterable[tuple[float, float]]:
    assert a.centre is not None
    assert b.centre is not None
    d = math.hypot(b.centre.x - a.centre.x, b.centre.y - a.centre.y)
    if a.radius + b.radius - d < GRAZE or d - abs(a.radius - b.radius) < GRAZE:
        return ()
    found = circle_circle(a.centre, a.radius, b.centre, b.radius)
    return () if isinstance(found, Miss) else _both(a, b, found)


def _both(a: Piece, b: Piece, places: Iterable[Point]) -> list[tuple[float, float]]:
    shares = ((share_on(a, p), share_on(b, p)) for p in places)
    return [(s, t) for s, t in shares if s is not None and t is not None]
