"""A picture of bodies: painted back to front, what is new in grey, with marks on leaders.

Faces are filled, so that nearer ones hide those behind.  Tone and weight of line both tell new
from old, so that the picture survives a black-and-white copy.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from flatpack.drawings.book.balloons import Patch, Target, balloons
from flatpack.drawings.book.worked import Spots
from flatpack.drawings.boxes import Box
from flatpack.drawings.hiding import painted
from flatpack.drawings.projection import Body, View, faces, view_box
from flatpack.drawings.shapes import Closed, Drawing, Stroke
from flatpack.geometry import Outline, Point, Segment

WIDE, HIGH = 132.0, 82.0
"""Room for the bodies, mm; marks stand beside it."""
_BESIDE = 20.0
_MARGIN = 4.0


class Look(NamedTuple):
    """How a body is drawn: line, and grey of its face and of its edges."""

    layer: str
    face: float
    edge: float


LOOKS: Mapping[str, Look] = {
    "old": Look("opening", 1.0, 0.96),
    "new": Look("outline", 0.82, 0.72),
    "metal": Look("opening", 0.6, 0.5),
    "new metal": Look("outline", 0.35, 0.25),
}


class Ordered(NamedTuple):
    """A body and its visible faces, model mm, in the order of painting."""

    body: Body
    faces: tuple[Outline, ...]


def ordered(bodies: tuple[Body, ...], view: View) -> tuple[Ordered, ...]:
    """Bodies with their faces, furthest first."""
    return tuple(Ordered(body, faces(body, view)) for body in painted(bodies, view, closely=True))


class Shown(NamedTuple):
    """What a picture shows: bodies, furthest first, with the name of their look by key."""

    bodies: tuple[Ordered, ...]
    looks: Mapping[str, str]
    spots: Mapping[str, Spots]
    """Holes and pockets to draw, by the part's key."""
    step: str
    """Holes that this step's fasteners go in are black."""
    marks: Mapping[str, tuple[str, ...]]
    """Keys of the bodies that a mark stands for."""


def picture(name: str, title: str, shown: Shown, view: View) -> Drawing:
    """The bodies as seen, as large as the room allows, with their marks in columns beside."""
    box = _box(shown.bodies, view)
    scale = min(WIDE / (box[2] - box[0]), HIGH / (box[3] - box[1]))
    patches = tuple(_patches(shown, view, box, scale))
    wide, high = (box[2] - box[0]) * scale, (box[3] - box[1]) * scale
    wanted = (Target(mark, keys) for mark, keys in shown.marks.items())
    labels, low, top = balloons(wanted, patches, (0.0, 0.0, wide, high))
    bounds = (-_BESIDE, low - _MARGIN, wide + _BESIDE, top + _MARGIN)
    strokes = (*(Stroke(p.layer, Closed(p.outline, True, p.tone)) for p in patches), *labels)
    return Drawing(name, title, bounds, strokes, (), scale)


def _box(bodies: Iterable[Ordered], view: View) -> Box:
    x0, y0, x1, y1 = zip(*(view_box(body, view) for body, _ in bodies), strict=True)
    return min(x0), min(y0), max(x1), max(y1)


def _patches(shown: Shown, view: View, box: Box, scale: float) -> Iterator[Patch]:
    for body, found in shown.bodies:
        look = LOOKS[shown.looks.get(body.key, "old")]
        slope = body.frame.z.dot(view.toward)
        for number, outline in enumerate(found, 1):
            cap = number == len(found) and abs(slope) > 1e-9
            tone = look.face if cap else look.edge
            yield Patch(body.key, look.layer, tone, _reduced(outline, box, scale))
        if body.key in shown.spots:
            yield from _spots(body, shown, view, box, scale)


def _spots(body: Body, shown: Shown, view: View, box: Box, scale: float) -> Iterator[Patch]:
    slope = body.frame.z.dot(view.toward)
    if abs(slope) < 0.05:
        return
    face, height = ("show", body.high) if slope > 0.0 else ("back", body.low)
    for spot in shown.spots[body.key]:
        if spot.face in (face, "") and _on(body, spot.points[0]):
            places = [view.at(body.frame.place(x, y, height)) for x, y in spot.points]
            tone = 0.0 if shown.step in spot.steps else 1.0
            corners = [_at(p, box, scale) for p in places]
            yield Patch(body.key, "thin-line", tone, _polygon(corners), small=True)


def _on(body: Body, place: Point) -> bool:
    """True when a place lies on the body, of whose part it may be a piece."""
    x0, y0, x1, y1 = body.outline.bounds
    return x0 <= place.x <= x1 and y0 <= place.y <= y1


def _reduced(outline: Outline, box: Box, scale: float) -> Outline:
    """On the paper, to a hundredth of a mm; arcs seen square on stay arcs."""
    points = [_at(p, box, scale) for p in outline.points]
    if any(s.bulge for s in outline.segments):
        ends = (*points[1:], points[0])
        bulges = (s.bulge for s in outline.segments)
        return Outline(tuple(map(Segment, points, ends, bulges)))
    return _polygon(points)


def _at(place: Point, box: Box, scale: float) -> Point:
    return Point(round((place.x - box[0]) * scale, 2), round((place.y - box[1]) * scale, 2))


def _polygon(points: list[Point]) -> Outline:
    """Points on one another are taken once; a face seen on edge becomes a sliver, not nothing."""
    kept = [p for i, p in enumerate(points) if p != points[i - 1]]
    while len(kept) < 3:
        last = kept[-1] if kept else points[0]
        kept.append(Point(last.x + 0.01 * math.cos(len(kept)), last.y + 0.01))
    return Outline(tuple(map(Segment, kept, (*kept[1:], kept[0]))))
