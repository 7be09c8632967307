"""What is seen of a body sawn at a slant: its faces, each shortened by the cuts, and the cuts.

A face is a ring of corners in space.  A plane shortens it as far as it reaches beyond; a cut's own
face is the outline between the cut's lines on both faces of the board, lifted onto its slope.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from flatpack.geometry import Outline, Plane, Point, Vec
from flatpack.geometry.shapes import through
from flatpack.model import trimmed

if TYPE_CHECKING:
    from flatpack.drawings.projection import Body, View

_FLAT = 1e-9
_SAGITTA = 0.3
"""Arcs are drawn as chords no further than this from the true line, mm."""
_ON = 1e-7
"""Corners this near to a plane lie on it, mm."""

Ring = list[Vec]


def sawn_faces(body: Body, view: View, runs: Iterable[list[Point]]) -> tuple[Outline, ...]:
    """Outlines of the visible faces, furthest first; `runs` are the sides that face the reader."""
    toward = body.frame.local_direction(view.toward)
    rings = [_strip(body, run) for run in runs]
    rings += [_slope(body, cut) for cut in body.planes if cut.out.dot(toward) > _FLAT]
    rings = sorted((r for r in rings if len(r) > 2), key=lambda r: _depth(r, toward))
    if abs(toward.z) > _FLAT:
        rings.append(_level(body, body.high if toward.z > 0.0 else body.low))
    return tuple(
        through([view.at(body.frame.place(*place)) for place in ring])
        for ring in rings
        if len(ring) > 2
    )


def _depth(ring: Ring, toward: Vec) -> float:
    return sum(place.dot(toward) for place in ring) / len(ring)


def _level(body: Body, height: float) -> Ring:
    """The show or back face, as long as the cuts leave it."""
    left = trimmed(body.outline, [cut.line(height) for cut in body.planes])
    return [] if left is None else [Vec(*p, height) for p in left.sampled(_SAGITTA)]


def _strip(body: Body, run: list[Point]) -> Ring:
    """A side: a straight one shortened by each plane, a bent one along each of its uprights."""
    if len(run) == 2:
        (a, b), low, high = run, body.low, body.high
        return _shortened([Vec(*a, low), Vec(*b, low), Vec(*b, high), Vec(*a, high)], body.planes)
    uprights = [(p, *_upright(p, body)) for p in run]
    kept = [(p, low, high) for p, low, high in uprights if low <= high]
    bottom = [Vec(*p, low) for p, low, _ in kept]
    return [*bottom, *(Vec(*p, high) for p, _, high in reversed(kept))]


def _upright(at: Point, body: Body) -> tuple[float, float]:
    """Heights between which there is wood at a place of the outline."""
    low, high = body.low, body.high
    for cut in body.planes:
        limit = low - cut.beyond(Vec(*at, low)) / cut.out.z
        low, high = (low, min(high, limit)) if cut.out.z > 0.0 else (max(low, limit), high)
    return low, high


def _slope(body: Body, cut: Plane) -> Ring:
    """The face that a cut leaves."""
    lines = []
    for height, sign in ((body.low, cut.out.z), (body.high, -cut.out.z)):
        at, out = cut.line(height)
        # The wood between the two lines: behind the one further out, beyond the other.
        turn = 1.0 if sign > 0.0 else -1.0
        lines.append((at, Point(out.x * turn, out.y * turn)))
    between = trimmed(body.outline, lines)
    if between is None:
        return []
    ring = [_lifted(p, cut) for p in between.sampled(_SAGITTA)]
    return _shortened(ring, [other for other in body.planes if other is not cut])


def _lifted(at: Point, cut: Plane) -> Vec:
    """The place of a slope above a place of the board's face."""
    flat = Vec(*at, cut.at.z)
    return Vec(*at, cut.at.z - cut.beyond(flat) / cut.out.z)


def _shortened(ring: Ring, planes: Sequence[Plane]) -> Ring:
    for plane in planes:
        ring = list(_behind(ring, plane))
    return ring


def _behind(ring: Ring, plane: Plane) -> Iterator[Vec]:
    """A ring's part behind a plane."""
    beyond = [plane.beyond(place) for place in ring]
    for i, (place, here) in enumerate(zip(ring, beyond, strict=True)):
        j = (i + 1) % len(ring)
        if here <= _ON:
            yield place
        if (here < -_ON and beyond[j] > _ON) or (here > _ON and beyond[j] < -_ON):
            yield place.plus(ring[j].minus(place), here / (here - beyond[j]))
