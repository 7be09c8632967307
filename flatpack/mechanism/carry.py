"""The way along which a person carries the rod back over the teeth.

From the folded end towards the hinge it rises with each tooth and never sinks again, a little
above what the rod would touch; so the rod is let down as soon as no tooth lies ahead.

    .-----------------------.        carried way
    |/|   |/|   |/|         '-.__
    ' '---' '---' '--------------    rod centre's chain
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from flatpack.geometry import Point, Segment

FAR = 1e4  # mm: the way runs on level past both ends


def carried_way(
    rack: tuple[Segment, ...], folded: Point | None, carry: float
) -> tuple[Segment, ...]:
    """Chain for the carried rod's centre, hinge end to free end, `carry` mm above the rack.

    `folded` is the rod's place with the back flat; None when it then hangs.
    """
    here = rack[-1].end if folded is None else folded
    parts = [Segment(Point(here.x, here.y), Point(here.x + FAR, here.y))]
    for piece in _leftwards(rack, here.x):
        rise = _above(piece, here)
        if rise is None or rise.end.x > here.x:
            continue
        if here.x - rise.end.x > 1e-9:
            parts.append(Segment(rise.end, here))
        parts.append(rise)
        here = rise.start
    parts.append(Segment(Point(here.x - FAR, here.y), here))
    return tuple(_lifted(s, carry) for s in reversed(parts))


def _leftwards(rack: tuple[Segment, ...], until: float) -> Iterator[Segment]:
    """Pieces that rise or fall all along, from the free end on; none wholly beyond `until`."""
    for segment in reversed(rack):
        if segment.bounds()[0] <= until:
            yield from reversed(_level_cut(segment))


def _level_cut(segment: Segment) -> list[Segment]:
    """An arc parted at its top and bottom."""
    if segment.bulge == 0.0:
        return [segment]
    (cx, cy), r = segment.centre, segment.radius
    sign = math.copysign(1.0, segment.bulge)
    first = math.atan2(segment.start.y - cy, segment.start.x - cx)
    shares = []
    for quarter in (math.pi / 2.0, -math.pi / 2.0):
        share = (sign * (quarter - first) % math.tau) / abs(segment.sweep)
        if 1e-9 < share < 1.0 - 1e-9:
            shares.append((share, Point(cx, cy + math.copysign(r, quarter))))
    places = [(0.0, segment.start), *sorted(shares), (1.0, segment.end)]
    return [
        Segment(p, q, math.tan(segment.sweep * (t - s) / 4.0))
        for (s, p), (t, q) in pairwise(places)
    ]


def _above(piece: Segment, here: Point) -> Segment | None:
    """The part of a piece, rising towards the hinge, that lies above the present height."""
    if piece.start.y <= max(piece.end.y, here.y) + 1e-9:
        return None
    if piece.end.y >= here.y:
        return piece
    if piece.bulge == 0.0:
        share = (here.y - piece.start.y) / (piece.end.y - piece.start.y)
        x = piece.start.x + (piece.end.x - piece.start.x) * share
        return Segment(piece.start, Point(x, here.y))
    (cx, cy), r = piece.centre, piece.radius
    half = math.sqrt(max(r * r - (here.y - cy) ** 2, 0.0))
    x = cx + math.copysign(half, piece.middle.x - cx)
    share_turn = math.remainder(
        math.atan2(here.y - cy, x - cx) - math.atan2(piece.start.y - cy, piece.start.x - cx),
        math.tau,
    )
    return Segment(piece.start, Point(x, here.y), math.tan(share_turn / 4.0))


def _lifted(segment: Segment, dy: float) -> Segment:
    (x0, y0), (x1, y1), bulge = segment
    return Segment(Point(x0, y0 + dy), Point(x1, y1 + dy), bulge)
