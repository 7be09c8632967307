"""Outlines cut back along a straight line: what a saw or plane takes off a part's side."""

from __future__ import annotations

import math
from enum import StrEnum
from itertools import pairwise

from flatpack.geometry import Outline, Point, Segment
from flatpack.mechanism.nearest import meeting


class Side(StrEnum):
    """A side of a part in its carrier's axes."""

    LEFT = "left"
    RIGHT = "right"
    BOTTOM = "bottom"
    TOP = "top"

    @property
    def outward(self) -> Point:
        """Unit direction out of the part."""
        return _OUTWARD[self]


_OUTWARD = {
    Side.LEFT: Point(-1.0, 0.0),
    Side.RIGHT: Point(1.0, 0.0),
    Side.BOTTOM: Point(0.0, -1.0),
    Side.TOP: Point(0.0, 1.0),
}


def trimmed(outline: Outline, side: Side, by: float) -> Outline | None:
    """The outline less what lies within `by` mm of its outermost point on one side.

    None when nothing is left, or when the cut would part it in several pieces.
    """
    nx, ny = side.outward
    x0, y0, x1, y1 = outline.bounds
    level = (x1 if nx > 0 else -x0 if nx < 0 else y1 if ny > 0 else -y0) - by
    kept = _kept(outline, Point(nx, ny), level)
    if not kept:
        return None
    joins = [
        Segment(a.end, b.start)
        for a, b in zip(kept, kept[1:] + kept[:1], strict=True)
        if a.end != b.start
    ]
    if len(joins) > 1:
        return None
    closed: list[Segment] = []
    for piece, following in zip(kept, kept[1:] + kept[:1], strict=True):
        closed.append(piece)
        if piece.end != following.start:
            closed.append(Segment(piece.end, following.start))
    return Outline(tuple(closed)) if len(closed) > 1 else None


def _kept(outline: Outline, normal: Point, level: float) -> list[Segment]:
    """Parts of the border on the inner side of the cut, in order."""
    far = 1.0 + sum(abs(v) for v in outline.bounds) + abs(level)
    foot = Point(normal.x * level, normal.y * level)
    cut = Segment(
        Point(foot.x - normal.y * far, foot.y + normal.x * far),
        Point(foot.x + normal.y * far, foot.y - normal.x * far),
    )
    parts = [part for side in outline.segments for part in _split(side, cut)]
    return [p for p in parts if p.middle.x * normal.x + p.middle.y * normal.y < level - 1e-9]


def _split(side: Segment, cut: Segment) -> list[Segment]:
    shares = sorted({_share(side, p) for p in meeting(side, cut)})
    inner = [s for s in shares if 1e-9 < s < 1.0 - 1e-9]
    places = [(0.0, side.start), *((s, side.at(s)) for s in inner), (1.0, side.end)]
    return [
        Segment(p, q, math.tan(side.sweep * (t - s) / 4.0)) for (s, p), (t, q) in pairwise(places)
    ]


def _share(side: Segment, place: Point) -> float:
    if side.bulge == 0.0:
        return math.dist(side.start, place) / side.chord
    cx, cy = side.centre
    sign = math.copysign(1.0, side.bulge)
    start = math.atan2(side.start.y - cy, side.start.x - cx)
    turn = sign * (math.atan2(place.y - cy, place.x - cx) - start) % math.tau
    return turn / abs(side.sweep)
