"""Planes that bound a body besides its outline and faces, and outlines cut short along a line.

z = thickness  +---------------+ long face
               |              /
               |   wood      /   out ->  (unit normal, towards what is gone)
z = 0          +------------+
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from flatpack.geometry.frame import Frame, Vec
from flatpack.geometry.outline import Outline, Point, Segment

NEAR = 1e-9
"""Places nearer than this to a line or plane lie on it, mm."""


class Plane(NamedTuple):
    """A place on it, and the unit normal that looks out of the wood."""

    at: Vec
    out: Vec

    def beyond(self, place: Vec) -> float:
        """How far a place lies beyond the plane, mm; negative on the wood's side."""
        return place.minus(self.at).dot(self.out)

    def placed(self, frame: Frame) -> Plane:
        """This plane, given in a part's own axes, in the piece's axes."""
        return Plane(frame.place(*self.at), frame.turn(self.out))

    def set_in(self, by: float) -> Plane:
        """The plane moved into the wood by `by` mm."""
        return Plane(self.at.plus(self.out, -by), self.out)

    def line(self, height: float) -> tuple[Point, Point]:
        """Where it passes a height: a place on that line, and the line's unit outward normal.

        Raises:
            ValueError: the plane is level and passes no other height than its own.
        """
        flat = math.hypot(self.out.x, self.out.y)
        if flat < NEAR:
            raise ValueError("a level plane passes no other height")
        out = Point(self.out.x / flat, self.out.y / flat)
        back = (height - self.at.z) * self.out.z / flat
        return Point(self.at.x - out.x * back, self.at.y - out.y * back), out


def cut_short(outline: Outline, at: Point, out: Point) -> Outline | None:
    """What of an outline lies behind the line through `at` with unit outward normal `out`.

    True arcs stay true arcs.  Where the line parts the outline in several, they stay joined along
    it.  None when nothing is left.
    """
    chains = [piece for segment in outline for piece in _behind(segment, at, out)]
    if not chains:
        return None
    joined: list[Segment] = []
    for piece, following in zip(chains, (*chains[1:], chains[0]), strict=True):
        joined.append(piece)
        if math.dist(piece.end, following.start) > NEAR:
            joined.append(Segment(piece.end, following.start))
    closed = _closed(joined)
    return closed if closed is not None and abs(closed.area) > NEAR else None


def _behind(segment: Segment, at: Point, out: Point) -> Iterator[Segment]:
    """The stretches of a segment that lie behind the line or on it."""
    ends = [0.0, *_crossings(segment, at, out), 1.0]
    for low, high in pairwise(ends):
        x, y = segment.at((low + high) / 2.0)
        if (high - low) * segment.length > NEAR and _beyond(x, y, at, out) <= NEAR:
            yield _stretch(segment, low, high)


def _beyond(x: float, y: float, at: Point, out: Point) -> float:
    return (x - at.x) * out.x + (y - at.y) * out.y


def _crossings(segment: Segment, at: Point, out: Point) -> list[float]:
    """Shares of the way at which a segment crosses the line, rising."""
    a = _beyond(*segment.start, at, out)
    b = _beyond(*segment.end, at, out)
    if segment.bulge == 0.0:
        crosses = (a < -NEAR and b > NEAR) or (a > NEAR and b < -NEAR)
        return [a / (a - b)] if crosses else []
    cx, cy = segment.centre
    off = -_beyond(cx, cy, at, out) / segment.radius
    if abs(off) >= 1.0:
        return []
    facing, half = math.atan2(out.y, out.x), math.acos(off)
    first = math.atan2(segment.start.y - cy, segment.start.x - cx)
    sweep = segment.sweep
    shares = (
        (turn - first) * math.copysign(1.0, sweep) % math.tau / abs(sweep)
        for turn in (facing - half, facing + half)
    )
    slack = NEAR / segment.length
    return sorted(s for s in shares if slack < s < 1.0 - slack)


def _stretch(segment: Segment, low: float, high: float) -> Segment:
    start = segment.start if low == 0.0 else segment.at(low)
    end = segment.end if high == 1.0 else segment.at(high)
    return Segment(start, end, math.tan(segment.sweep * (high - low) / 4.0))


def _closed(segments: list[Segment]) -> Outline | None:
    """An outline of segments whose ends may be a rounding apart."""
    if len(segments) < 2:
        return None
    starts = [s.start for s in segments]
    return Outline(
        tuple(
            Segment(start, end, s.bulge)
            for s, start, end in zip(segments, starts, (*starts[1:], starts[0]), strict=True)
        )
    )
