"""Plane outlines of straight lines and true arcs: the one shape that a part is cut to.

A `Segment` runs from `start` to `end`; its `bulge` is tan(sweep / 4), the form that a DXF
polyline stores: 0 is a straight line, +1 a half circle turning left (anticlockwise), -1 one
turning right.  An arc so written can't contradict itself and survives moving and turning.

                 . - ~ - .
               '     |sag   '          sagitta = |bulge| * chord / 2
        start *------+------* end      radius  = chord * (1 + bulge^2) / (4 |bulge|)

All lengths are mm, all angles in this module radians unless a name ends in `_degrees`.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

from flatpack.frozen import frozen


class Point(NamedTuple):
    """A place in the plane: x along the grain, y across it, both mm."""

    x: float
    y: float


class Segment(NamedTuple):
    """A straight line or circular arc from `start` to `end`; `bulge` = tan(sweep / 4)."""

    start: Point
    end: Point
    bulge: float = 0.0

    @property
    def chord(self) -> float:
        """Straight distance from start to end, mm."""
        return math.hypot(self.end.x - self.start.x, self.end.y - self.start.y)

    @property
    def sweep(self) -> float:
        """Signed angle of the arc in radians, anticlockwise positive; 0 for a line."""
        return 4.0 * math.atan(self.bulge)

    @property
    def length(self) -> float:
        """Length along the line or arc, mm."""
        return self.chord if self.bulge == 0.0 else abs(self.radius * self.sweep)

    @property
    def radius(self) -> float:
        """Radius of the arc, mm; infinite for a line."""
        if self.bulge == 0.0:
            return math.inf
        return self.chord * (1.0 + self.bulge * self.bulge) / (4.0 * abs(self.bulge))

    @property
    def centre(self) -> Point:
        """Centre of the arc.

        Raises:
            ValueError: the segment is a straight line.
        """
        b = self.bulge
        if b == 0.0:
            raise ValueError("a straight line has no centre")
        (x0, y0), (x1, y1) = self.start, self.end
        k = (1.0 - b * b) / (4.0 * b)
        return Point((x0 + x1) / 2.0 - (y1 - y0) * k, (y0 + y1) / 2.0 + (x1 - x0) * k)

    @property
    def middle(self) -> Point:
        """The point half way along."""
        (x0, y0), (x1, y1) = self.start, self.end
        b = self.bulge
        return Point((x0 + x1) / 2.0 + (y1 - y0) * b / 2.0, (y0 + y1) / 2.0 - (x1 - x0) * b / 2.0)

    @property
    def swept_area(self) -> float:
        """This segment's share of twice the enclosed area (the shoelace term plus the arc's)."""
        (x0, y0), (x1, y1) = self.start, self.end
        cross = x0 * y1 - x1 * y0
        if self.bulge == 0.0:
            return cross
        return cross + self.radius**2 * (self.sweep - math.sin(self.sweep))

    def reversed(self) -> Segment:
        """The same line or arc walked the other way."""
        return Segment(self.end, self.start, -self.bulge)

    def at(self, share: float) -> Point:
        """The point at `share` (0 to 1) of the way along the line or arc."""
        (x0, y0), (x1, y1) = self.start, self.end
        if self.bulge == 0.0:
            return Point(x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
        cx, cy = self.centre
        turn = self.sweep * share
        c, s = math.cos(turn), math.sin(turn)
        return Point(cx + (x0 - cx) * c - (y0 - cy) * s, cy + (x0 - cx) * s + (y0 - cy) * c)

    def direction(self, share: float) -> Point:
        """Unit vector of travel at `share` (0 to 1) of the way along."""
        chord = self.chord
        ux, uy = (self.end.x - self.start.x) / chord, (self.end.y - self.start.y) / chord
        turn = self.sweep * (share - 0.5)
        c, s = math.cos(turn), math.sin(turn)
        return Point(ux * c - uy * s, ux * s + uy * c)

    def sampled(self, sagitta: float) -> tuple[Point, ...]:
        """Points from start up to but not including end, no chord further than `sagitta` off."""
        if self.bulge == 0.0:
            return (self.start,)
        radius = self.radius
        step = 2.0 * math.acos(max(1.0 - sagitta / radius, 0.0))
        sweep, (cx, cy) = self.sweep, self.centre
        count = math.ceil(abs(sweep) / min(max(step, 1e-3), math.pi / 2.0))
        dx, dy = self.start.x - cx, self.start.y - cy
        turns = (sweep * (i / count) for i in range(1, count))
        ways = ((math.cos(turn), math.sin(turn)) for turn in turns)
        return self.start, *(Point(cx + dx * c - dy * s, cy + dx * s + dy * c) for c, s in ways)

    def bounds(self) -> tuple[float, float, float, float]:
        """Smallest x, smallest y, largest x, largest y; exact for arcs."""
        xs, ys = [self.start.x, self.end.x], [self.start.y, self.end.y]
        if self.bulge != 0.0:
            cx, cy = self.centre
            r, sweep = self.radius, self.sweep
            first = math.atan2(self.start.y - cy, self.start.x - cx)
            for quarter in range(4):
                turn = (quarter * math.pi / 2 - first) * (1 if sweep > 0 else -1) % math.tau
                if turn < abs(sweep):
                    xs.append(cx + r * (1, 0, -1, 0)[quarter])
                    ys.append(cy + r * (0, 1, 0, -1)[quarter])
        return min(xs), min(ys), max(xs), max(ys)


@frozen(kw_only=False)
class Outline:
    """A closed chain of segments, each starting where the one before ends; anticlockwise."""

    segments: tuple[Segment, ...]

    def __post_init__(self) -> None:
        """Reject a chain that isn't closed.

        Raises:
            ValueError: fewer than two segments, or a gap between one end and the next start.
        """
        if len(self.segments) < 2:
            raise ValueError("an outline needs at least two segments")
        for a, b in zip(self.segments, self.segments[1:] + self.segments[:1], strict=True):
            if a.end != b.start:
                raise ValueError(f"outline is open between {a.end} and {b.start}")

    @cached_property
    def area(self) -> float:
        """Exact enclosed area in mm2; positive when anticlockwise."""
        return sum(s.swept_area for s in self.segments) / 2.0

    @cached_property
    def length(self) -> float:
        """Exact length of the whole boundary, mm."""
        return sum(s.length for s in self.segments)

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """Smallest x, smallest y, largest x, largest y; exact for arcs."""
        lows_x, lows_y, highs_x, highs_y = zip(*(s.bounds() for s in self.segments), strict=True)
        return min(lows_x), min(lows_y), max(highs_x), max(highs_y)

    @property
    def points(self) -> tuple[Point, ...]:
        """The start of every segment, in order."""
        return tuple(s.start for s in self.segments)

    def sampled(self, sagitta: float) -> tuple[Point, ...]:
        """Points round the boundary, no chord further than `sagitta` mm from the true line."""
        return tuple(p for s in self.segments for p in s.sampled(sagitta))

    def reversed(self) -> Outline:
        """The same boundary walked the other way round."""
        return _closed(tuple(Segment(b, a, -k) for a, b, k in reversed(self.segments)))

    def moved(self, dx: float, dy: float) -> Outline:
        """The outline shifted by dx, dy."""
        return _closed(
            tuple(
                Segment(Point(x0 + dx, y0 + dy), Point(x1 + dx, y1 + dy), k)
                for (x0, y0), (x1, y1), k in self.segments
            )
        )

    def turned(self, degrees: float, about: Point | None = None) -> Outline:
        """The outline turned anticlockwise about a point, the origin unless told."""
        c, s = cosine_sine(degrees)
        ax, ay = about or (0.0, 0.0)
        return self._mapped(
            lambda p: Point(
                ax + (p.x - ax) * c - (p.y - ay) * s, ay + (p.x - ax) * s + (p.y - ay) * c
            ),
            1.0,
        )

    def mirrored_x(self, about: float) -> Outline:
        """The mirror image left to right about the line x = `about`; still anticlockwise."""
        return self._mapped(lambda p: Point(2.0 * about - p.x, p.y), -1.0).reversed()

    def mirrored_y(self, about: float) -> Outline:
        """The mirror image top to bottom about the line y = `about`; still anticlockwise."""
        return self._mapped(lambda p: Point(p.x, 2.0 * about - p.y), -1.0).reversed()

    def _mapped(self, move: Move, sign: float) -> Outline:
        return _closed(tuple(Segment(move(a), move(b), sign * k) for a, b, k in self.segments))

    def __iter__(self) -> Iterator[Segment]:
        """Segments in order."""
        return iter(self.segments)


def _closed(segments: tuple[Segment, ...]) -> Outline:
    """The outline of segments that each start where the one before ends, as is known already."""
    made = object.__new__(Outline)
    object.__setattr__(made, "__dict__", {"segments": segments})
    return made


Move = Callable[[Point], Point]


def is_rectangle(outline: Outline) -> bool:
    """True for a rectangle square to its axes."""
    return len(outline.segments) == 4 and all(
        s.bulge == 0.0 and (s.start.x == s.end.x or s.start.y == s.end.y) for s in outline
    )


def is_convex(outline: Outline) -> bool:
    """True for an anticlockwise outline of straight lines that never turns right."""
    segments = outline.segments
    return all(s.bulge == 0.0 for s in segments) and all(
        (a.end.x - a.start.x) * (b.end.y - b.start.y)
        >= (a.end.y - a.start.y) * (b.end.x - b.start.x)
        for a, b in zip(segments, (*segments[1:], segments[0]), strict=True)
    )


def cosine_sine(degrees: float) -> tuple[float, float]:
    """Cosine and sine of an angle in degrees, exact at whole quarter turns."""
    quarter, rest = divmod(degrees, 90.0)
    if rest == 0.0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    turn = math.radians(degrees)
    return math.cos(turn), math.sin(turn)


def bulge_of(sweep_degrees: float) -> float:
    """Bulge of an arc that turns through `sweep_degrees`, anticlockwise positive."""
    return math.tan(math.radians(sweep_degrees) / 4.0)


def closed(vertices: Iterable[tuple[float, float, float]]) -> Outline:
    """Outline from (x, y, bulge) corners; the last bulge leads back to the first corner."""
    corners = tuple(vertices)
    points = [Point(x, y) for x, y, _ in corners]
    following = (*points[1:], *points[:1])
    segments = tuple(map(Segment, points, following, [bulge for _, _, bulge in corners]))
    return _closed(segments) if len(segments) > 1 else Outline(segments)


def chain(vertices: Sequence[tuple[float, float, float]]) -> tuple[Segment, ...]:
    """Open chain of segments through (x, y, bulge) corners; the last corner's bulge is unused."""
    return tuple(
        Segment(Point(x, y), Point(nx, ny), b) for (x, y, b), (nx, ny, _) in pairwise(vertices)
    )
