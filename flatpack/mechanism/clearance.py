"""Least gap between two bodies over a continuous travel, by branch and bound, never by sampling.

For a direction u that parts two shapes, every point's progress along u is a smooth function of
the travel, so between two positions it can't fall below the lower of its two end values by more
than a bound that shrinks with the square of the step:

    turning about a centre, furthest point R away, step h radians:     R h^2 / 8
    an arm on its two tracks:  the corner values of (pivot, rod) plus the sags of both tracks

and the gap itself can't shrink faster than the fastest point moves.  Spans of the travel that
can't hold a smaller gap than the best one found are dropped; the others are halved.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterable
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple, Protocol

from flatpack.frozen import frozen
from flatpack.mechanism.convex import HOME, Convex, Gap, Pose, dot, pose, signed_gap
from flatpack.mechanism.track import Stand, Stretch

_posed = lru_cache(maxsize=4096)(pose)  # most bodies turn with the back, through the same angles
TOLERANCE = 0.01  # mm: the least gap found is within this of the true one


class Sight(NamedTuple):
    """A position on a span: the share of it and the gap there."""

    share: float
    gap: Gap


class Span(Protocol):
    """Two convex shapes over a piece of the travel, share 0 to 1."""

    def floor(self) -> float:
        """A quick lower bound on the gap anywhere on the span, mm."""

    def gap(self, share: float) -> Gap:
        """The signed gap at a share."""

    def bound(self, low: Sight, high: Sight, enough: float) -> float:
        """A lower bound on the gap between two shares, mm; the first one found of `enough` does."""


class Least(NamedTuple):
    """The least gap found, and where."""

    gap: Gap
    span: Span
    share: float


@frozen(kw_only=False)
class Turn:
    """A shape turning from `start` to `end` radians about `centre` past one that stands still."""

    still: Convex
    moving: Convex
    centre: tuple[float, float]
    start: float
    end: float

    def at(self, share: float) -> Pose:
        """Placing of the moving shape."""
        return _posed(self.start + (self.end - self.start) * share, *self.centre)

    def floor(self) -> float:
        """The gap of the two rings about the centre that the shapes lie in."""
        near, far = ring(self.still, self.centre)
        return max(near - self.moving.reach, self.moving.near - far)

    def gap(self, share: float) -> Gap:
        """The signed gap at a share."""
        return signed_gap(self.still, HOME, self.moving, self.at(share))

    def bound(self, low: Sight, high: Sight, enough: float) -> float:
        """Lower bound between two shares."""
        reach, step = self.moving.reach, abs((self.end - self.start) * (high.share - low.share))
        slowest = (low.gap.value + high.gap.value - reach * step) / 2.0
        sag = reach * step * step / 8.0
        start, end = self.at(low.share), self.at(high.share)
        furthest = self.moving.furthest
        for _, ux, uy in (low.gap, high.gap):
            if slowest >= enough:
                break
            still = self.still.furthest(ux, uy, HOME)
            along = max(furthest(-ux, -uy, start), furthest(-ux, -uy, end))
            slowest = max(slowest, -along - still - sag)
        return slowest


@frozen(kw_only=False)
class Carried:
    """A shape on the arm (in its axes) past one that stands still, along one stretch."""

    still: Convex
    moving: Convex
    stretch: Stretch
    box: tuple[float, float, float, float]

    def floor(self) -> float:
        """The gap of the two boxes."""
        return box_gap(self.still.box, self.box)

    def gap(self, share: float) -> Gap:
        """The signed gap at a share."""
        return signed_gap(self.still, HOME, self.moving, self.stretch.at(share).arm)

    def bound(self, low: Sight, high: Sight, enough: float) -> float:
        """Lower bound between two shares."""
        ends = self.stretch.at(low.share), self.stretch.at(high.share)
        moved = furthest_way(self.moving, self.stretch, *ends)
        slowest = (low.gap.value + high.gap.value - moved) / 2.0
        for _, ux, uy in (low.gap, high.gap):
            if slowest >= enough:
                break
            still = self.still.furthest(ux, uy, HOME)
            slowest = max(
                slowest, -furthest_along(self.moving, self.stretch, ends, -ux, -uy) - still
            )
        return slowest


def search(
    spans: Iterable[Span], reach: float = math.inf, tolerance: float = TOLERANCE
) -> Least | None:
    """The least gap over all spans, within `tolerance` mm; None when it's proved above `reach`."""
    heap: list[tuple[float, int, Span, Sight | None, Sight | None]] = []
    for number, span in enumerate(spans):
        floor = span.floor()
        if floor < reach:
            heap.append((floor, number, span, None, None))
    heapq.heapify(heap)
    best: Least | None = None
    limit, number = reach, len(heap) + 1_000_000
    while heap and heap[0][0] < limit:
        _, _, span, low, high = heapq.heappop(heap)
        if low is None or high is None:
            sights = [Sight(0.0, span.gap(0.0)), Sight(1.0, span.gap(1.0))]
        else:
            share = (low.share + high.share) / 2.0
            sights = [low, Sight(share, span.gap(share)), high]
        for share, gap in sights:
            if best is None or gap.value < best.gap.value:
                best = Least(gap, span, share)
                limit = min(reach, gap.value - tolerance)
        for a, b in pairwise(sights):
            bound = span.bound(a, b, limit)
            if bound < limit:
                number += 1
                heapq.heappush(heap, (bound, number, span, a, b))
    return best if best is not None and best.gap.value < reach else None


def ring(shape: Convex, centre: tuple[float, float]) -> tuple[float, float]:
    """Least and greatest distance of a shape's points from a centre, mm (least 0 when inside)."""
    x0, y0 = centre
    if x0 == 0.0 and y0 == 0.0:
        return shape.near, shape.reach
    near = max(signed_gap(dot(x0, y0), HOME, shape, HOME).value, 0.0)
    return near, max(math.hypot(x - x0, y - y0) + r for x, y, r in shape.carriers)


def box_gap(a: tuple[float, ...], b: tuple[float, ...]) -> float:
    """Distance of two boxes (x0, y0, x1, y1), 0 when they overlap."""
    dx = max(b[0] - a[2], a[0] - b[2], 0.0)
    dy = max(b[1] - a[3], a[1] - b[3], 0.0)
    return math.hypot(dx, dy) if dx or dy else -math.inf


def swept_box(moving: Convex, stretch: Stretch) -> tuple[float, float, float, float]:
    """A box that holds a shape on the arm all along a stretch."""
    ends = stretch.at(0.0), stretch.at(1.0)
    east, north, west, south = (
        furthest_along(moving, stretch, ends, ux, uy)
        for ux, uy in ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))
    )
    return -west, -south, east, north


def furthest_along(
    moving: Convex, stretch: Stretch, ends: tuple[Stand, Stand], ux: float, uy: float
) -> float:
    """No point of a shape on the arm gets further along (ux, uy) between two positions, mm."""
    (_, p0, d0), (_, p1, d1) = ends
    arm = stretch.prop.arm
    sag_p, sag_d = stretch.sag(*ends)
    best = -math.inf
    for x, y, r in moving.carriers:
        kx, ky = (x * ux + y * uy) / arm, (x * uy - y * ux) / arm
        vx, vy = ux - kx, uy - ky
        pivot = max(p0.x * vx + p0.y * vy, p1.x * vx + p1.y * vy)
        rod = max(d0.x * kx + d0.y * ky, d1.x * kx + d1.y * ky)
        strays = sag_p * math.hypot(vx, vy) + sag_d * math.hypot(kx, ky)
        best = max(best, pivot + rod + strays + r)
    return best


def furthest_way(moving: Convex, stretch: Stretch, low: Stand, high: Stand) -> float:
    """No point of a shape on the arm moves further between two positions, mm."""
    pivot, rod, _ = stretch.way(low, high)
    arm = stretch.prop.arm
    return max(
        (abs(arm - x) * pivot + abs(x) * rod + (abs(y) + r) * (pivot + rod)) / arm
        for x, y, r in moving.carriers
    )
