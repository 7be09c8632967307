"""How far apart two parts are: what a maker wants to know whose parts don't meet.

The nearest places of two bodies with flat sides are two edges, or a corner and a side; where an
edge runs through a side they are in each other.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from flatpack.geometry import Vec
from flatpack.model import Bar, Part
from flatpack.pieces.composed.directions import AXES
from flatpack.pieces.composed.meeting import Side, sides

Edge = tuple[Vec, Vec]


class Near(NamedTuple):
    """A part's nearest neighbour, and the gap between them, mm; 0 where they touch or overlap."""

    key: str
    gap: float


class _Body(NamedTuple):
    edges: tuple[Edge, ...]
    sides: tuple[Side, ...]
    round: float
    box: tuple[tuple[float, float], ...]


def nearest_part(one: Part | Bar, others: Iterable[Part | Bar]) -> Near | None:
    """The nearest of others, of several alike the first; None where there is no other."""
    own, best = _body(one), None
    rest = [(o.key, _body(o)) for o in others if o.key != one.key]
    for key, body in sorted(rest, key=lambda row: _box_gap(own, row[1])):
        if best is not None and _box_gap(own, body) >= best.gap:
            break
        gap = _gap(own, body)
        if best is None or gap < best.gap - 1e-6:
            best = Near(key, gap)
    return best


def holds(corners: Sequence[Vec], normal: Vec, place: Vec, slack: float = 0.0) -> bool:
    """Whether a place above a flat shape lies within it, or no more than `slack` mm beside it."""
    inside, near = False, False
    along = corners[1].minus(corners[0]).unit()
    aside = normal.cross(along)
    flat = [(d.dot(along), d.dot(aside)) for d in (c.minus(place) for c in corners)]
    for (ax, ay), (bx, by) in zip(flat, flat[1:] + flat[:1], strict=True):
        if (ay > 0.0) != (by > 0.0) and ax + (bx - ax) * ay / (ay - by) > 0.0:
            inside = not inside
        square = (bx - ax) ** 2 + (by - ay) ** 2
        share = min(max(-(ax * (bx - ax) + ay * (by - ay)) / square, 0.0), 1.0) if square else 0.0
        near |= (ax + share * (bx - ax)) ** 2 + (ay + share * (by - ay)) ** 2 <= slack**2
    return inside or near


def _body(one: Part | Bar) -> _Body:
    if isinstance(one, Bar):
        axis = (one.frame.place(0.0, 0.0), one.frame.place(0.0, 0.0, one.length))
        radius = one.stock.diameter / 2.0
        return _Body((axis,), (), radius, _box(axis, radius))
    flats = tuple(sides(one))
    edges = dict.fromkeys(
        tuple(sorted(pair))
        for side in flats
        for pair in zip(side.corners, side.corners[1:] + side.corners[:1], strict=True)
    )
    corners = [c for side in flats for c in side.corners]
    return _Body(tuple((a, b) for a, b in edges), flats, 0.0, _box(corners, 0.0))


def _box(places: Iterable[Vec], more: float) -> tuple[tuple[float, float], ...]:
    every = list(places)
    return tuple(
        (min(p.dot(a) for p in every) - more, max(p.dot(a) for p in every) + more) for a in AXES
    )


def _box_gap(a: _Body, b: _Body) -> float:
    apart = (max(p[0] - q[1], q[0] - p[1], 0.0) for p, q in zip(a.box, b.box, strict=True))
    return float(sum(d * d for d in apart) ** 0.5)


def _gap(a: _Body, b: _Body) -> float:
    found = min(_edges_apart(e, f) for e in a.edges for f in b.edges)
    for ours, theirs in ((a, b), (b, a)):
        for edge in ours.edges:
            for side in theirs.sides:
                found = min(found, _from_side(edge, side))
    return max(found - a.round - b.round, 0.0)


def _from_side(edge: Edge, side: Side) -> float:
    """From the ends of an edge straight to a side; 0 where it runs through, inf beside it."""
    away = [end.minus(side.corners[0]).dot(side.normal) for end in edge]
    if away[0] * away[1] < 0.0:
        at = edge[0].plus(edge[1].minus(edge[0]), away[0] / (away[0] - away[1]))
        if holds(side.corners, side.normal, at):
            return 0.0
    over = [abs(d) for d, end in zip(away, edge, strict=True)
            if holds(side.corners, side.normal, end)]  # fmt: skip
    return min(over, default=float("inf"))


def _edges_apart(e: Edge, f: Edge) -> float:
    """Between two straight edges: where their lines are nearest, or from an end of one."""
    u, v, w = e[1].minus(e[0]), f[1].minus(f[0]), e[0].minus(f[0])
    a, b, c, d, g = u.dot(u), u.dot(v), v.dot(v), u.dot(w), v.dot(w)
    whole = a * c - b * b
    found = [_to_edge(end, other) for ends, other in ((e, f), (f, e)) for end in ends]
    if whole > 1e-9 * a * c:
        s, t = (b * g - c * d) / whole, (a * g - b * d) / whole
        if 0.0 < s < 1.0 and 0.0 < t < 1.0:
            found.append(w.plus(u, s).plus(v, -t).length)
    return min(found)


def _to_edge(place: Vec, edge: Edge) -> float:
    run, off = edge[1].minus(edge[0]), place.minus(edge[0])
    square = run.dot(run)
    share = min(max(off.dot(run) / square, 0.0), 1.0) if square else 0.0
    return off.plus(run, -share).length
