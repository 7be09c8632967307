"""Convex shapes as a cycle of corners and arcs, and the signed gap between two of them.

A convex outline is known by which point carries it in each direction (its support): a corner
over a fan of normals, an arc over its own normals.  The gap along a direction u is the near side
of one shape less the far side of the other; the largest such gap over all directions is the
distance when positive and, when negative, the shortest shift that would part the two.

                 u
           A  |----->|  B        gap(u) = min over B of q.u  -  max over A of p.u

Between two changes of carrier the sum is c.u + r, so its best direction is known in closed form.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise
from math import atan2, hypot
from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry import Outline, Point, Segment

TAU = math.tau
SMOOTH = 1e-9  # radians: a corner that turns less is no corner


class Pose(NamedTuple):
    """A turn (radians, with its cosine and sine) and then a shift to (x, y), mm."""

    turn: float
    c: float
    s: float
    x: float
    y: float


HOME = Pose(0.0, 1.0, 0.0, 0.0, 0.0)
_Placed = Sequence[tuple[float, float, float]]


def pose(turn: float, x: float = 0.0, y: float = 0.0) -> Pose:
    """Pose with its cosine and sine filled in; `turn` in radians."""
    return Pose(turn, math.cos(turn), math.sin(turn), x, y)


class Gap(NamedTuple):
    """Signed gap in mm (negative: the shift that parts) and its unit direction, first to second."""

    value: float
    ux: float
    uy: float


@frozen(kw_only=False)
class Convex:
    """A convex shape: carriers (x, y, radius), each from its own normal's angle to the next's.

    `starts` rise from starts[0] to less than a full turn above it, radians; `near` and `reach`
    are the nearest and furthest points' distances from the axes' origin, mm (near 0: inside).
    """

    starts: tuple[float, ...]
    carriers: tuple[tuple[float, float, float], ...]
    normals: tuple[tuple[float, float], ...]
    near: float
    reach: float
    box: tuple[float, float, float, float]

    def moved(self, dx: float, dy: float) -> Convex:
        """The same shape shifted in its own axes."""
        shifted = tuple((x + dx, y + dy, r) for x, y, r in self.carriers)
        return _made(self.starts, shifted)

    def carrier(self, ux: float, uy: float, turn: float = 0.0) -> tuple[float, float, float]:
        """The corner or arc that reaches furthest along (ux, uy) when turned by `turn`."""
        first = self.starts[0]
        angle = (math.atan2(uy, ux) - turn - first) % math.tau + first
        return self.carriers[bisect_right(self.starts, angle) - 1]

    def furthest(self, ux: float, uy: float, at: Pose) -> float:
        """Furthest extent along the unit direction (ux, uy) with the shape at a pose, mm."""
        x, y, r = self.carrier(ux, uy, at.turn)
        return (x * at.c - y * at.s + at.x) * ux + (x * at.s + y * at.c + at.y) * uy + r


def convex(outline: Outline) -> Convex | None:
    """The support cycle of an anticlockwise outline; None when it isn't convex."""
    fans: list[tuple[float, float, tuple[float, float, float]]] = []
    segments = outline.segments
    angle = _heading(segments[0], 0.0) - math.pi / 2.0
    first = angle
    for now, following in zip(segments, segments[1:] + segments[:1], strict=True):
        if now.bulge < 0.0:
            return None
        if now.bulge > 0.0:
            fans.append((angle, now.sweep, (*now.centre, now.radius)))
            angle += now.sweep
        turn = math.remainder(_heading(following, 0.0) - _heading(now, 1.0), math.tau)
        if turn < -SMOOTH:
            return None
        if turn > SMOOTH:
            fans.append((angle, turn, (now.end.x, now.end.y, 0.0)))
        angle += turn
    if abs(angle - first - math.tau) > 1e-6:
        return None
    return _merged(fans)


def signed_gap(a: Convex, at_a: Pose, b: Convex, at_b: Pose) -> Gap:
    """Distance between two convex shapes, or less the shortest shift that parts them; exact."""
    turn, c_a, s_a, _, _ = at_a
    other, c_b, s_b, _, _ = at_b
    half = other + math.pi  # b's mirror image through the origin has opposite normals
    count = len(a.starts)  # from here on a number is one of b's
    events = [((s + turn) % TAU, i) for i, s in enumerate(a.starts)]
    events += [((s + half) % TAU, j) for j, s in enumerate(b.starts, count)]
    events.sort()
    pa, pb = _placed(a, at_a), _placed(b, at_b)
    (ax, ay, ar), (bx, by, br) = _before(events, count, pa, pb)
    best, best_x, best_y = -math.inf, 1.0, 0.0
    events.append((events[0][0] + TAU, 0))
    for (angle, i), (until, _) in pairwise(events):
        if i < count:
            ax, ay, ar = pa[i]
            nx, ny = a.normals[i]
            ux, uy = nx * c_a - ny * s_a, nx * s_a + ny * c_a
        else:
            bx, by, br = pb[i - count]
            nx, ny = b.normals[i - count]
            ux, uy = ny * s_b - nx * c_b, -nx * s_b - ny * c_b
        cx, cy, r = bx - ax, by - ay, ar + br
        value = cx * ux + cy * uy - r
        if value > best:
            best, best_x, best_y = value, ux, uy
        length = hypot(cx, cy)
        if length - r > best and (atan2(cy, cx) - angle) % TAU <= until - angle:
            best, best_x, best_y = length - r, cx / length, cy / length
    return Gap(best, best_x, best_y)


def _before(
    events: list[tuple[float, int]], count: int, pa: _Placed, pb: _Placed
) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """What carries each shape just before the first event: what its own last one started."""
    last_a = last_b = -1
    for _, i in reversed(events):
        if i >= count:
            if last_b < 0:
                last_b = i - count
        elif last_a < 0:
            last_a = i
        if last_a >= 0 and last_b >= 0:
            break
    return pa[last_a], pb[last_b]


def witness(a: Convex, at_a: Pose, b: Convex, at_b: Pose, gap: Gap) -> Point:
    """A place on the second shape's border, nearest to (or deepest in) the first.

    Where two faces lie square to the gap it is the middle of what they share.
    """
    _, (a_low, a_high) = _side(_placed(a, at_a), gap.ux, gap.uy)
    out, (low, high) = _side(_placed(b, at_b), -gap.ux, -gap.uy)
    along = (max(-a_high, low) + min(-a_low, high)) / 2.0
    return Point(gap.uy * along - gap.ux * out, -gap.ux * along - gap.uy * out)


def _side(carriers: _Placed, ux: float, uy: float) -> tuple[float, tuple[float, float]]:
    """How far a shape reaches along u, and from where to where across it (to the left of u)."""
    reach = max(x * ux + y * uy + r for x, y, r in carriers)
    ends = [y * ux - x * uy for x, y, r in carriers if x * ux + y * uy + r > reach - 1e-7]
    return reach, (min(ends), max(ends))


def _placed(shape: Convex, at: Pose) -> _Placed:
    if at is HOME:
        return shape.carriers
    _, c, s, dx, dy = at
    return [(x * c - y * s + dx, x * s + y * c + dy, r) for x, y, r in shape.carriers]


def _heading(segment: Segment, share: float) -> float:
    d = segment.direction(share)
    return math.atan2(d.y, d.x)


def _merged(fans: list[tuple[float, float, tuple[float, float, float]]]) -> Convex:
    """Neighbouring arcs of one circle become one carrier."""
    kept: list[tuple[float, tuple[float, float, float]]] = []
    for start, _, carrier in fans:
        if not kept or not _same(kept[-1][1], carrier):
            kept.append((start, carrier))
    if len(kept) > 1 and _same(kept[-1][1], kept[0][1]):
        last = kept.pop()
        kept[0] = (last[0] - math.tau, kept[0][1])
    return _made(tuple(k[0] for k in kept), tuple(k[1] for k in kept))


def _same(a: tuple[float, float, float], b: tuple[float, float, float]) -> bool:
    return all(abs(p - q) < 1e-9 for p, q in zip(a, b, strict=True))


def _made(starts: tuple[float, ...], carriers: tuple[tuple[float, float, float], ...]) -> Convex:
    bare = Convex(
        starts=starts,
        carriers=carriers,
        normals=tuple((math.cos(t), math.sin(t)) for t in starts),
        near=0.0,
        reach=max(math.hypot(x, y) + r for x, y, r in carriers),
        box=(0.0, 0.0, 0.0, 0.0),
    )
    east, north, west, south = (
        bare.furthest(ux, uy, HOME) for ux, uy in ((1, 0), (0, 1), (-1, 0), (0, -1))
    )
    box = (-west, -south, east, north)
    near = max(signed_gap(_ORIGIN, HOME, bare, HOME).value, 0.0)
    return Convex(starts, carriers, bare.normals, near, bare.reach, box)


def dot(x: float, y: float) -> Convex:
    """A single point as a shape."""
    return Convex((0.0,), ((x, y, 0.0),), ((1.0, 0.0),), 0.0, 0.0, (x, y, x, y))


_ORIGIN = dot(0.0, 0.0)
