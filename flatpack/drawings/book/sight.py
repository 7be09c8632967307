"""Directions of sight for pictures of the piece, and its bodies made fit for painting.

Parallel projection in a true direction (orthographic axonometry, ISO 5456-3): every body is
turned, none is distorted by hand.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from flatpack.drawings.parting import parted
from flatpack.drawings.projection import Body, View, bodies
from flatpack.frozen import replace
from flatpack.geometry import Vec, Z
from flatpack.model import Assembly, Bar, Part


def looking(name: str, x: float, y: float, z: float) -> View:
    """The view from the side to which (x, y, z) points, with the piece's up drawn upwards."""
    toward = Vec(x, y, z).unit()
    right = Z.cross(toward).unit()
    return View(name, right, toward.cross(right), toward)


_ALONG, _SHORTER = 0.45, 0.8
"""Share of the sight that runs along the piece's longer way, to 1 across it."""


def views_of(assembly: Assembly) -> tuple[View, ...]:
    """Views in order of choice: the first is the cover's, from the side on which one gets on.

    The foot (of a lounger) or front (of a bench) lies towards -x, that of what opens towards x.
    Above first, then below.
    """
    low, high = reach(assembly)
    side = _front(assembly)
    long = high.x - low.x > high.y - low.y
    ways = [
        (x, y, z)
        for z in (0.75, -0.85)
        for share in (_ALONG, _SHORTER)
        for x, y in (((share, -1.0), (share, 1.0), (-share, -1.0), (-share, 1.0)) if long
                     else ((side, -share), (side, share), (-side, -share), (-side, share)))
    ]  # fmt: skip
    return tuple(looking(f"from {x:g}, {y:g}, {z:g}", x, y, z) for x, y, z in ways)


def cover_view(assembly: Assembly) -> View:
    """Above, from the foot or front."""
    low, high = reach(assembly)
    long, side = high.x - low.x > high.y - low.y, _front(assembly)
    return looking("cover", *((-0.5, -1.0, 0.7) if long else (side, -0.5, 0.7)))


def _front(assembly: Assembly) -> float:
    """Which way along x the front of a piece that is wider than deep looks."""
    return 1.0 if assembly.bearing == "opening" else -1.0


def reach(assembly: Assembly) -> tuple[Vec, Vec]:
    """Lowest and highest x, y, z of the parts' middles."""
    spots = [*map(middle, assembly.parts.values()), *map(middle, assembly.bars.values())]
    axes = tuple(zip(*spots, strict=True))
    return Vec(*map(min, axes)), Vec(*map(max, axes))


def middle(part: Part | Bar) -> Vec:
    """Middle of a part or bar in the piece."""
    if isinstance(part, Bar):
        return part.frame.place(0.0, 0.0, part.length / 2.0)
    x0, y0, x1, y1 = part.outline.bounds
    return part.frame.place((x0 + x1) / 2.0, (y0 + y1) / 2.0, part.thickness / 2.0)


def from_below(view: View) -> bool:
    """True when the underside is seen."""
    return view.toward.z < 0.0


def paintable(assembly: Assembly) -> tuple[Body, ...]:
    """Bodies of parts, bars and metal; a bar or board is parted where it runs through a part.

    Two bodies that share room have no order of painting; a rod in its hole is parted at the
    faces of the board, so that one length lies before it, one in it and one behind.
    """
    return tuple(b for body in bodies(assembly) for b in _parted(body, assembly))


def _parted(body: Body, assembly: Assembly) -> Iterator[Body]:
    bar = assembly.bars.get(body.key)
    if bar is None:
        yield from parted(body, assembly)
        return
    ends = sorted({body.low, body.high, *_crossed(bar, assembly.parts.values())})
    for low, high in pairwise(ends):
        yield replace(body, low=low, high=high)


def _crossed(bar: Bar, parts: Iterable[Part]) -> Iterator[float]:
    """Distances along a bar at which it enters and leaves boards that lie square to it."""
    start, way = bar.frame.origin, bar.frame.z
    for part in parts:
        slope = part.frame.z.dot(way)
        if abs(abs(slope) - 1.0) > 1e-6:
            continue
        at = part.frame.local(start)
        x0, y0, x1, y1 = part.outline.bounds
        if x0 < at.x < x1 and y0 < at.y < y1:
            yield from (
                z for z in (-at.z / slope, (part.thickness - at.z) / slope) if 0.0 < z < bar.length
            )
