"""How far the rod must be moved to leave a stop, and what the back does then.

Away from a stop the back rises with the rod's every step along its path, up to a ridge where the
thrust stands square to the path; past it the rod runs on by itself.  On a rounded crest of radius
r about C that is |P(angle) - C| = arm + r, on a straight one the pivot stands the arm's length
from the line: both closed form.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from flatpack.frozen import frozen
from flatpack.geometry import Point
from flatpack.mechanism.locus import Piece
from flatpack.mechanism.prop import Miss, Prop, angle_about, angle_at, pivot_at, thrust_at
from flatpack.mechanism.seats import Rack
from flatpack.mechanism.stops import Stop, Stops


@frozen
class Ridge:
    """The watershed beside a stop: rod centre `place`, back `angle`; `lift` above the stop's rod.

    `travel` is the straight distance from the stop's rod centre, mm.
    """

    place: Point
    angle: float
    lift: float
    travel: float


@frozen
class Knock:
    """What a knock of `size` mm on the rod does at a stop.

    `captured`: the rod falls back into the same seat.  If it doesn't, or in any stronger knock,
    the back comes down to `next_angle` (the next stop below that holds; 0: flat) if the rod
    catches there, and to flat if it doesn't.
    """

    size: float
    captured: bool
    free_side: Ridge | None
    hinge_side: Ridge | None
    next_angle: float
    drop: float


def knock(prop: Prop, rack: Rack, found: Stops, stop: Stop, size: float = 5.0) -> Knock:
    """What lifting the rod by `size` mm, or knocking it sideways, does to the back at a stop.

    A lift frees the rod over the free end's crest; a knock towards the hinge carries it over the
    hinge's ridge.  None for a ridge that the arm can't reach, or where the rack ends before it.
    """
    free = ridge(prop, rack.path, stop, 1)
    hinge = ridge(prop, rack.path, stop, -1)
    below = [s.angle for s in found.stops if s.angle < stop.angle and s.held]
    next_angle = max(below, default=0.0)
    safe = free is None or min(free.lift, free.travel) > size
    return Knock(
        size=size,
        captured=stop.held and safe and (hinge is None or hinge.travel > size),
        free_side=free,
        hinge_side=hinge,
        next_angle=next_angle,
        drop=stop.angle - next_angle,
    )


def ridge(prop: Prop, path: Sequence[Piece], stop: Stop, side: int) -> Ridge | None:
    """The watershed on the free end's side (1) or the hinge's (-1) of a stop."""
    for piece, share in _onwards(path, stop, side):
        drift = _drift(prop, piece, share, side)
        if drift is None:
            return None
        if drift > 0.0:
            place = _crown(prop, piece) or piece.at(1.0 - share)
            angle = angle_at(prop, place)
            if isinstance(angle, Miss):
                return None
            rise = place.y - stop.rod.y
            return Ridge(place=place, angle=angle, lift=rise, travel=math.dist(place, stop.rod))
    return None


def _onwards(path: Sequence[Piece], stop: Stop, side: int) -> Iterator[tuple[Piece, float]]:
    """Pieces met going that way, each with the share (0 or 1) at its far end."""
    hollow = stop.loaded.hollow
    number = hollow.after if side > 0 else hollow.before
    while 0 <= number < len(path):
        if path[number].radius > 0.0 or path[number].centre is None:
            yield path[number], 1.0 if side > 0 else 0.0
        number += side


def _drift(prop: Prop, piece: Piece, share: float, side: int) -> float | None:
    """Share of the thrust along the way at a piece's end; None out of the arm's reach."""
    place = piece.at(share)
    angle = angle_at(prop, place)
    if isinstance(angle, Miss):
        return None
    u = thrust_at(prop, angle, place)
    heading = piece.heading + piece.sweep * share
    return side * (u.x * math.cos(heading) + u.y * math.sin(heading))


def _crown(prop: Prop, piece: Piece) -> Point | None:
    """Where on a piece the thrust stands square to it: the ridge; None if not on it."""
    return _crown_of_line(prop, piece) if piece.centre is None else _crown_of_arc(prop, piece)


def _crown_of_arc(prop: Prop, piece: Piece) -> Point | None:
    assert piece.centre is not None
    if piece.sweep > 0.0:
        return None
    angle = angle_about(prop, piece.centre, prop.arm + piece.radius)
    if isinstance(angle, Miss):
        return None
    p = pivot_at(prop, angle)
    k = piece.radius / (prop.arm + piece.radius)
    return Point(
        piece.centre.x + (p.x - piece.centre.x) * k, piece.centre.y + (p.y - piece.centre.y) * k
    )


def _crown_of_line(prop: Prop, piece: Piece) -> Point | None:
    """The pivot's circle cut by the line's parallel at the arm's length; the left one of both."""
    nx, ny = -math.sin(piece.heading), math.cos(piece.heading)
    off = piece.start.x * nx + piece.start.y * ny + prop.arm
    rho = math.hypot(prop.pivot.x, prop.pivot.y)
    if abs(off) > rho:
        return None
    half = math.sqrt((rho - off) * (rho + off))
    along = piece.start.x * ny - piece.start.y * nx
    for k in (half, -half):
        if 0.0 <= k - along <= piece.length:
            out = off - prop.arm
            return Point(nx * out + ny * k, ny * out - nx * k)
    return None
