"""Where two parts meet: the pair of flat sides that face each other with most in common."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from flatpack.geometry import Vec
from flatpack.model import Part
from flatpack.pieces.composed.directions import AXES, Plane

TOUCHING = 0.05
"""Sides no further apart than this touch, mm."""
LEAST_AREA = 1.0
"""Common area below which two sides only meet in a line, mm2."""
FACING = 1e-6
SAGITTA = 0.5
"""How true round outlines are followed, mm: enough to tell whether parts meet, and where."""

Flat = tuple[float, float]


class Side(NamedTuple):
    """A flat side of a part: the way that it looks, and its corners in the piece."""

    normal: Vec
    corners: tuple[Vec, ...]


class Meeting(NamedTuple):
    """Two sides face to face: from the first part into the second, how far apart, what they share.

    `gap` is negative where they run into each other, mm.
    """

    normal: Vec
    gap: float
    corners: tuple[Vec, ...]
    area: float

    @property
    def plane(self) -> Plane:
        """The plane of the first part's side."""
        return Plane(self.normal, self.normal.dot(self.corners[0]))

    def reach(self, way: int) -> tuple[float, float]:
        """Least and greatest place of what they share, in one of the piece's ways."""
        places = [c.dot(AXES[way]) for c in self.corners]
        return min(places), max(places)

    def ways(self) -> tuple[int, int]:
        """The two of the piece's ways that run in the plane, the longer reach first.

        Of two alike the upright one comes first, so that both hands choose the same.
        """
        across = max(range(3), key=lambda i: abs(self.normal.dot(AXES[i])))
        spans = {i: self.reach(i) for i in range(3) if i != across}
        one, two = sorted(spans, key=lambda i: (round(spans[i][0] - spans[i][1], 6), -i))
        return one, two


def sides(part: Part) -> Iterator[Side]:
    """Show face, back face, and every straight edge or end."""
    f, t = part.frame, part.thickness
    points = part.outline.sampled(SAGITTA)
    yield Side(f.z, tuple(f.place(*p, t) for p in points))
    yield Side(f.z.negated(), tuple(f.place(*p) for p in points))
    for segment in part.outline:
        (x0, y0), (x1, y1), bulge = segment
        if bulge == 0.0:
            run = segment.chord
            out = f.turn(Vec((y1 - y0) / run, (x0 - x1) / run, 0.0))
            ends = (f.place(x0, y0), f.place(x1, y1), f.place(x1, y1, t), f.place(x0, y0, t))
            yield Side(out, ends)


def meeting(one: Part, other: Part) -> Meeting | None:
    """Where two parts touch, or else would with the least move; None: no sides look that way."""
    others = tuple(sides(other))
    found = [
        made
        for a in sides(one)
        for b in others
        if a.normal.dot(b.normal) < FACING - 1.0 and (made := _facing(a, b)) is not None
    ]
    touching = [m for m in found if abs(m.gap) <= TOUCHING]
    if touching:
        return max(touching, key=lambda m: m.area)
    return min(found, key=lambda m: abs(m.gap), default=None)


def touch(one: Part, other: Part) -> Meeting | None:
    """Where two parts touch; None where they don't."""
    found = meeting(one, other)
    return found if found is not None and abs(found.gap) <= TOUCHING else None


def _facing(a: Side, b: Side) -> Meeting | None:
    origin = a.corners[0]
    gap = a.normal.dot(b.corners[0].minus(origin))
    u = a.corners[1].minus(origin).unit()
    v = a.normal.cross(u)
    some, others = (_flat(s.corners, origin, u, v) for s in (a, b))
    if not _boxes_overlap(some, others):
        return None
    shared = _in_common(some, others)
    area = abs(_area(shared))
    if area < LEAST_AREA:
        return None
    return Meeting(a.normal, gap, tuple(origin.plus(u, x).plus(v, y) for x, y in shared), area)


def _flat(corners: Sequence[Vec], origin: Vec, u: Vec, v: Vec) -> list[Flat]:
    away = [c.minus(origin) for c in corners]
    made = [(d.dot(u), d.dot(v)) for d in away]
    return made if _area(made) > 0.0 else made[::-1]


def _boxes_overlap(some: list[Flat], others: list[Flat]) -> bool:
    return all(
        min(max(p[i] for p in some), max(p[i] for p in others))
        > max(min(p[i] for p in some), min(p[i] for p in others))
        for i in (0, 1)
    )


def _in_common(some: list[Flat], others: list[Flat]) -> list[Flat]:
    """One shape cut by the other, which must be convex; where neither is, by its bounds."""
    if _convex(some):
        return _clipped(others, some)
    if _convex(others):
        return _clipped(some, others)
    x0, y0 = (min(p[i] for p in others) for i in (0, 1))
    x1, y1 = (max(p[i] for p in others) for i in (0, 1))
    return _clipped(some, [(x0, y0), (x1, y0), (x1, y1), (x0, y1)])


def _clipped(shape: list[Flat], by: list[Flat]) -> list[Flat]:
    """What of a shape lies left of every side of a convex one (Sutherland and Hodgman)."""
    for (ax, ay), (bx, by_) in zip(by, by[1:] + by[:1], strict=True):
        left = [(bx - ax) * (y - ay) - (by_ - ay) * (x - ax) for x, y in shape]
        kept: list[Flat] = []
        for i, (p, d) in enumerate(zip(shape, left, strict=True)):
            before, e = shape[i - 1], left[i - 1]
            if (d >= 0.0) != (e >= 0.0):
                share = e / (e - d)
                kept.append(
                    (before[0] + (p[0] - before[0]) * share, before[1] + (p[1] - before[1]) * share)
                )
            if d >= 0.0:
                kept.append(p)
        shape = kept
    return shape


def _convex(shape: list[Flat]) -> bool:
    triples = zip(shape, shape[1:] + shape[:1], shape[2:] + shape[:2], strict=True)
    turns = [
        (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) for a, b, c in triples
    ]  # fmt: skip
    return min(turns) >= -1e-6


def _area(shape: list[Flat]) -> float:
    pairs = zip(shape, shape[1:] + shape[:1], strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2.0
