"""Do two bodies share room?  Exact on their true outlines, by how their frames stand.

parallel z       both are layers over one plane: compare polygons where the heights overlap
square z         with c = zA x zB, a place (u, v, w) along zA, zB, c lies in both just when (v, w)
                 lies in A's polygon, (u, w) in B's, u and v within their heights; so clip each
                 polygon to the other's heights and see whether the two spans along c meet
askew            convex pieces and separating axes; so are bodies with slanting cuts, their pieces
                 less what lies beyond the planes
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

import numpy as np

from flatpack.checks.body import Body, Slab
from flatpack.checks.convex import Convex, axes_of, gap, middle_of_overlap, prism
from flatpack.checks.sawn import sawn_prism
from flatpack.frozen import replace
from flatpack.geometry import Frame, Outline, Plane, Vec
from flatpack.geometry.polygon import clipped, convex_pieces, mapped, pieces, spot_inside
from flatpack.geometry.shapes import rectangle

SQUARE = 1e-9
FAR = 1e6
Array = Any


def shared(a: Body, b: Body, r: float) -> Vec | None:
    """A place where a ball of radius r fits in both bodies, or None."""
    found = _meet(*_made_parallel(a, b), r, outer=True)
    if found is None or not (a.pierced or b.pierced):
        return found
    for left, right in _out_of_tunnels(a, b):
        found = _meet(left, right, r, outer=False)
        if found is not None:
            return found
    return None


def _meet(a: Body, b: Body, r: float, *, outer: bool) -> Vec | None:
    compare = _comparison(a.frame, b.frame)
    if not outer and (a.planes or b.planes):
        compare = partial(_askew, sawn=(a.sawn(r), b.sawn(r)))
    for one in a.whole(r) if outer else a.slabs(r):
        for other in b.whole(r) if outer else b.slabs(r):
            place = compare(a.frame, one, b.frame, other)
            if place is not None:
                return place
    return None


def _comparison(a: Frame, b: Frame) -> Callable[[Frame, Slab, Frame, Slab], Vec | None]:
    along = abs(a.z.dot(b.z))
    if along > 1.0 - SQUARE:
        return _parallel
    return _square if along < SQUARE else _askew


def _made_parallel(a: Body, b: Body) -> tuple[Body, Body]:
    """The bodies, a box re-read as a prism along the side that runs with the other's z."""
    along = abs(a.frame.z.dot(b.frame.z))
    if along > 1.0 - SQUARE or along < SQUARE:
        return a, b
    if a.box:
        return _reread(a, b.frame.z), b
    return (a, _reread(b, a.frame.z)) if b.box else (a, b)


def _reread(box: Body, way: Vec) -> Body:
    x0, y0, x1, y1 = box.outline.bounds
    f, low, high = box.frame, box.low, box.high
    if abs(f.x.dot(way)) > 1.0 - SQUARE:
        return _box(box, Frame(f.origin, f.y, f.z, f.x), (y0, low, y1, high), (x0, x1))
    if abs(f.y.dot(way)) > 1.0 - SQUARE:
        return _box(box, Frame(f.origin, f.z, f.x, f.y), (low, x0, high, x1), (y0, y1))
    return box


def _box(
    body: Body, frame: Frame, flat: tuple[float, float, float, float], heights: tuple[float, float]
) -> Body:
    x0, y0, x1, y1 = flat
    outline: Outline = rectangle(x1 - x0, y1 - y0, x0, y0)
    return replace(body, frame=frame, outline=outline, low=heights[0], high=heights[1], _kept={})


def _parallel(fa: Frame, a: Slab, fb: Frame, b: Slab) -> Vec | None:
    shift = fa.local(fb.origin)
    ends = (shift.z + b.low * fa.z.dot(fb.z), shift.z + b.high * fa.z.dot(fb.z))
    low, high = max(a.low, min(ends)), min(a.high, max(ends))
    if low > high:
        return None
    turn = axes_of(fa)[:2] @ axes_of(fb)[:2].T
    other = mapped(b.shape, turn, np.array(shift[:2]))
    if not a.shape.intersects(other):
        return None
    return fa.place(*spot_inside(a.shape.intersection(other)), (low + high) / 2.0)


def _square(fa: Frame, a: Slab, fb: Frame, b: Slab) -> Vec | None:
    across = fa.z.cross(fb.z)
    on_a = _strip(fa, a, fb.z, across, fb, b)
    on_b = _strip(fb, b, fa.z, across, fa, a)
    for low_a, high_a, shape_a in on_a:
        for low_b, high_b, shape_b in on_b:
            low, high = max(low_a, low_b), min(high_a, high_b)
            if low <= high:
                w = (low + high) / 2.0
                v, u = _middle_at(shape_a, w), _middle_at(shape_b, w)
                return Vec(0.0, 0.0, 0.0).plus(fa.z, u).plus(fb.z, v).plus(across, w)
    return None


def _strip(
    frame: Frame, slab: Slab, way: Vec, across: Vec, other: Frame, heights: Slab
) -> list[tuple[float, float, Any]]:
    """The slab's polygon over (along `way`, along `across`), clipped to the other's heights."""
    rows = np.array((way, across))
    turn = rows @ axes_of(frame)[:2].T
    # The frame's z is square to both rows, so the height within the slab doesn't matter.
    shape = mapped(slab.shape, turn, rows @ np.array(frame.origin))
    start = way.dot(other.origin)
    strip = clipped(shape, (start + heights.low, -FAR, start + heights.high, FAR))
    return [(p.bounds[1], p.bounds[3], p) for p in pieces(strip)]


def _middle_at(shape: Any, height: float) -> float:
    """Somewhere inside the shape at this height, as its first coordinate."""
    band = clipped(shape, (-FAR, height - 1e-6, FAR, height + 1e-6))
    return float(spot_inside(band).x) if not band.is_empty else float(spot_inside(shape).x)


Sawn = tuple[tuple[Plane, ...], tuple[Plane, ...]]
"""Slanting cuts of both bodies, in the piece's axes."""


def _askew(fa: Frame, a: Slab, fb: Frame, b: Slab, sawn: Sawn = ((), ())) -> Vec | None:
    left = list(_convex(fa, a, _near_pieces(fa, a, fb, b), sawn[0]))
    right = list(_convex(fb, b, _near_pieces(fb, b, fa, a), sawn[1]))
    if not left or not right:
        return None
    for i, j in np.argwhere(_boxes_meet(_reach(left), _reach(right))).tolist():
        if gap(left[i], right[j]) <= 0.0:
            return Vec(*(float(n) for n in middle_of_overlap(left[i], right[j])))
    return None


def _convex(
    frame: Frame, slab: Slab, flat: Iterator[Array], planes: tuple[Plane, ...]
) -> Iterator[Convex]:
    """The pieces of a slab as bodies, behind the planes."""
    for one in flat:
        if not planes:
            yield prism(one, slab.low, slab.high, frame)
        elif (left := sawn_prism(one, slab.low, slab.high, frame, planes)) is not None:
            yield left


def _reach(some: list[Convex]) -> tuple[Array, Array]:
    return (
        np.array([c.points.min(axis=0) for c in some]),
        np.array([c.points.max(axis=0) for c in some]),
    )


def _boxes_meet(a: tuple[Array, Array], b: tuple[Array, Array]) -> Array:
    return ((a[0][:, None] <= b[1][None]) & (b[0][None] <= a[1][:, None])).all(axis=2)


def _near_pieces(frame: Frame, slab: Slab, other: Frame, near: Slab) -> Iterator[Array]:
    """Convex pieces of the slab's polygon near the other body's box."""
    x0, y0, x1, y1 = near.shape.bounds
    corners = np.array([(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in near[:2]])
    seen = (corners @ axes_of(other) + np.array(other.origin) - np.array(frame.origin)) @ axes_of(
        frame
    )[:2].T
    (left, bottom), (right, top) = seen.min(axis=0) - 1e-6, seen.max(axis=0) + 1e-6
    yield from convex_pieces(clipped(slab.shape, (left, bottom, right, top)))


def _out_of_tunnels(a: Body, b: Body) -> Iterator[tuple[Body, Body]]:
    """Pairs to compare once a round body's stretches within its own edge hole are left out."""
    for left in _outside(a, b):
        for right in _outside(b, a):
            yield left, right


def _outside(rod: Body, part: Body) -> tuple[Body, ...]:
    radius = rod.disc_radius
    free = [] if radius is None else [_free(rod, part, t, radius) for t in part.tunnels]
    stretches = [(rod.low, rod.high)]
    for low, high in (f for f in free if f is not None):
        stretches = [
            (p, q)
            for start, end in stretches
            for p, q in ((start, min(end, low)), (max(start, high), end))
            if q - p > 1e-6
        ]
    return tuple(rod.cut_short(*s) for s in stretches) if any(free) else (rod,)


def _free(rod: Body, part: Body, tunnel: Any, radius: float) -> tuple[float, float] | None:
    """Heights of the round body between which it runs in the part's edge hole."""
    if tunnel.diameter / 2.0 < radius - 1e-6:
        return None
    ends = [rod.frame.local(part.frame.place(*p)) for p in (tunnel.mouth, tunnel.bottom)]
    play = tunnel.diameter / 2.0 - radius + 0.05
    if any(p.x * p.x + p.y * p.y > play * play for p in ends):
        return None
    low, high = sorted(p.z for p in ends)
    return low, high
