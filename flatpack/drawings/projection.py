"""Bodies seen along an axis: what their visible faces look like on paper, in model mm.

                 up
side view         |          right x up = toward (the reader)
of a prism        +--- right
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.drawings.sawn_faces import sawn_faces
from flatpack.frozen import frozen
from flatpack.geometry import Frame, Outline, Plane, Point, Segment, Vec, X, Y, Z
from flatpack.geometry.shapes import disc, through
from flatpack.model import Assembly, left_corners

_FLAT = 1e-9
_SAGITTA = 0.3
"""Arcs seen at a slope are drawn as chords no further than this from the true line, mm."""
_SHARP = math.cos(math.radians(20.0))
"""Corners that turn less than this are tangents of a rounding: no edge is drawn."""


class View(NamedTuple):
    """A direction of sight: the piece's directions that lie right, up and towards the reader."""

    name: str
    right: Vec
    up: Vec
    toward: Vec

    def at(self, place: Vec) -> Point:
        """A place of the piece on the paper, model mm."""
        return Point(place.dot(self.right), place.dot(self.up))


class Views(NamedTuple):
    """The three views of a sheet in first angle (ISO 5456-2): plan below, the end view beside.

    `main` shows the piece's longer way, `end` is seen from the main view's left.
    """

    main: View
    end: View
    plan: View


#: Longer from foot to head: the side is the main view, the front stands beside it.
LENGTHWISE = Views(
    View("side", X, Z, Y.negated()),
    View("front", Y.negated(), Z, X.negated()),
    View("plan", X, Y, Z),
)
#: Wider than deep: the front is the main view, the side stands beside it.
CROSSWISE = Views(
    View("front", Y.negated(), Z, X.negated()),
    View("side", X.negated(), Z, Y),
    View("plan", Y.negated(), X, Z),
)


_STRAIGHT = 1e-9
"""A direction this near to one of a body's own axes, as a sine, runs along it."""
#: The same for a piece whose front lies where x grows.
OPENING = Views(
    View("front", Y, Z, X),
    View("side", X, Z, Y.negated()),
    View("plan", Y, X.negated(), Z),
)


@frozen(kw_only=False)
class Body:
    """An upright prism in a frame; `key` names the part or fastener, `openings` go through.

    What lies beyond the `planes` of slanting cuts, in its own axes, is gone.
    """

    key: str
    frame: Frame
    outline: Outline
    low: float
    high: float
    openings: tuple[Outline, ...] = ()
    planes: tuple[Plane, ...] = ()

    @cached_property
    def corners(self) -> tuple[Vec, ...]:
        """The eight corners of the box round it; its own where it is sawn at a slant."""
        if self.planes:
            own = left_corners(self.outline, self.planes, self.low, self.high)
            return tuple(self.frame.place(*place) for place in own)
        x0, y0, x1, y1 = self.outline.bounds
        place = self.frame.place
        return tuple(
            place(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (self.low, self.high)
        )

    def reach(self, way: Vec) -> tuple[float, float]:
        """Least and greatest place of the body itself along a unit direction of the piece, mm.

        Of a board that lies askew a corner of the box round it may be cut off.
        """
        if self.planes:
            places = [corner.dot(way) for corner in self.corners]
            return min(places), max(places)
        x, y, z = self.frame.local_direction(way)
        flat, start = math.hypot(x, y), self.frame.origin.dot(way)
        turned = self.outline
        if min(abs(x), abs(y)) > _STRAIGHT:
            turned = turned.turned(-math.degrees(math.atan2(y, x)))
            x, y = flat, 0.0
        x0, y0, x1, y1 = turned.bounds
        ends = [
            (min(d * a, d * b), max(d * a, d * b))
            for d, a, b in ((x, x0, x1), (y, y0, y1), (z, self.low, self.high))
        ]
        return start + sum(e[0] for e in ends), start + sum(e[1] for e in ends)


def bodies(assembly: Assembly) -> tuple[Body, ...]:
    """Parts, bars, wheels, hinges, and heads and nuts of bolts."""
    parts = (
        Body(key, p.frame, p.outline, 0.0, p.thickness, p.openings, p.planes)
        for key, p in assembly.parts.items()
    )
    bars = (
        Body(key, b.frame, disc(b.stock.diameter / 2.0), 0.0, b.length)
        for key, b in assembly.bars.items()
    )
    metal = (
        Body(solid.name, solid.frame, solid.outline, solid.low, solid.high)
        for fastener in assembly.fasteners
        if "screw" not in fastener.kind
        for solid in fastener.solids
        if "shank" not in solid.name and "washer" not in solid.name
    )
    return (*parts, *bars, *metal)


class _Sight(NamedTuple):
    """A body's own axes on the paper: where its origin, and a step along x, y and z, come to."""

    origin: Point
    x: Point
    y: Point
    z: Point

    @classmethod
    def of(cls, body: Body, view: View) -> _Sight:
        f = body.frame
        return cls(view.at(f.origin), view.at(f.x), view.at(f.y), view.at(f.z))

    def at(self, x: float, y: float, z: float) -> Point:
        """A place in the body's own axes on the paper."""
        o, a, b, c = self
        return Point(
            o.x + a.x * x + b.x * y + c.x * z,
            o.y + a.y * x + b.y * y + c.y * z,
        )


def faces(body: Body, view: View) -> tuple[Outline, ...]:
    """Outlines of the visible faces, furthest first; each hides what lies behind it."""
    if body.planes:
        return sawn_faces(body, view, _visible_runs(body, view))
    slope = body.frame.z.dot(view.toward)
    sight = _Sight.of(body, view)
    height = body.high if slope > 0.0 else body.low
    if abs(slope) > 1.0 - _FLAT:
        return (_square_on(body, sight, height),)
    strips = sorted(_strips(body, view, sight), key=lambda strip: strip[0])
    found = [outline for _, outline in strips]
    if abs(slope) > _FLAT:
        found.append(through([sight.at(*p, height) for p in body.outline.sampled(_SAGITTA)]))
    return tuple(found)


def _square_on(body: Body, sight: _Sight, height: float) -> Outline:
    """The face itself, with its true arcs; seen from behind, their turn is the other way."""
    sign = 1.0 if sight.x.x * sight.y.y - sight.x.y * sight.y.x > 0.0 else -1.0
    points = [sight.at(*p, height) for p in body.outline.points]
    bulges = (sign * s.bulge for s in body.outline.segments)
    return Outline(tuple(map(Segment, points, (*points[1:], points[0]), bulges)))


def _strips(body: Body, view: View, sight: _Sight) -> Iterator[tuple[float, Outline]]:
    """Sides that face the reader, with the depth of their middles."""
    for run in _visible_runs(body, view):
        bottom = [sight.at(*p, body.low) for p in run]
        top = [sight.at(*p, body.high) for p in reversed(run)]
        middle = body.frame.place(*run[len(run) // 2], (body.low + body.high) / 2.0)
        yield middle.dot(view.toward), through([*bottom, *top])


def _visible_runs(body: Body, view: View) -> list[list[Point]]:
    """Stretches of the outline that face the reader, parted at sharp corners."""
    runs = list(_runs(body, view))
    segments = body.outline.segments
    whole = len(runs) > 1 and runs[-1][-1] == segments[0].start == runs[0][0]
    if whole and not _sharp(segments[-1], segments[0]):  # one stretch, past where it begins
        runs = [[*runs[-1], *runs[0][1:]], *runs[1:-1]]
    return runs


def _runs(body: Body, view: View) -> Iterator[list[Point]]:
    dx, dy = body.frame.x.dot(view.toward), body.frame.y.dot(view.toward)
    run: list[Point] = []
    before = body.outline.segments[-1]
    for segment in body.outline.segments:
        if run and _sharp(before, segment):
            yield run
            run = []
        for a, b in _chords(segment):
            if (b.y - a.y) * dx + (a.x - b.x) * dy > _FLAT:  # its outward direction
                run = [*run, b] if run else [a, b]
            elif run:
                yield run
                run = []
        before = segment
    if run:
        yield run


def _chords(segment: Segment) -> Iterator[tuple[Point, Point]]:
    points = (*segment.sampled(_SAGITTA), segment.end)
    return pairwise(points)


def _sharp(before: Segment, after: Segment) -> bool:
    a, b = before.direction(1.0), after.direction(0.0)
    return a.x * b.x + a.y * b.y < _SHARP


def view_box(body: Body, view: View) -> Box:
    """The box round a body on the paper, model mm."""
    points = [view.at(v) for v in body.corners]
    xs, ys = [p.x for p in points], [p.y for p in points]
    return min(xs), min(ys), max(xs), max(ys)
