"""Distances of a joint's fasteners from ends and edges and from one another, against a table's."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from flatpack.geometry import Vec
from flatpack.model import Part
from flatpack.strength.layout import Link
from flatpack.strength.rules.spacing import Distances

SLACK = 0.5
"""A distance may fall short by this, mm: what a workshop holds to (common practice, no source)."""
LOADED = 0.1
"""Share of a force from which it loads an end or edge."""


class Lack(NamedTuple):
    """A distance less than the table's, mm."""

    part: str
    what: str
    has: float
    needs: float


class Spots(NamedTuple):
    """Where fasteners stand in the plane square to them: along the grain and across it, mm."""

    places: tuple[tuple[float, float], ...]
    along: tuple[float, float]
    across: tuple[float, float]


def spots(part: Part, link: Link) -> Spots:
    """A link's fasteners in one of its parts; through an edge, across is through the thickness."""
    x0, y0, x1, y1 = part.outline.bounds
    local = [part.frame.local(f.start) for f in link.fasteners]
    if _through_edge(part, link):
        return Spots(tuple((p.x, p.z) for p in local), (x0, x1), (0.0, part.thickness))
    return Spots(tuple((p.x, p.y) for p in local), (x0, x1), (y0, y1))


def _through_edge(part: Part, link: Link) -> bool:
    return abs(link.fasteners[0].direction.dot(part.frame.y)) > 0.7


def force_in(part: Part, link: Link, way: Vec) -> tuple[float, float]:
    """A force's shares along and across, in the plane of `spots`."""
    local = part.frame.local_direction(way)
    return local.x, local.z if _through_edge(part, link) else local.y


def lacks(
    part: Part, found: Spots, force: tuple[float, float], least: Distances, share: float = 1.0
) -> Iterator[Lack]:
    """What is less than the table asks under a force; `share` of its spacings is enough."""
    size = math.hypot(*force)
    if size == 0.0:
        return
    name = part.name.lower()
    us, vs = zip(*found.places, strict=True)
    ends, edges = (least.loaded_end, least.free_end), (least.loaded_edge, least.free_edge)
    for what, has, pushed, (loaded, free) in (
        ("end", min(us) - found.along[0], -force[0], ends),
        ("end", found.along[1] - max(us), force[0], ends),
        ("edge", min(vs) - found.across[0], -force[1], edges),
        ("edge", found.across[1] - max(vs), force[1], edges),
    ):
        is_loaded = pushed > LOADED * size
        need = loaded if is_loaded else free
        if has < need - SLACK:
            yield Lack(name, f"{'loaded' if is_loaded else 'free'} {what} distance", has, need)
    for (u0, v0), (u1, v1) in combinations(found.places, 2):
        du, dv = abs(u0 - u1), abs(v0 - v1)
        if du < share * least.along - SLACK and dv < share * least.across - SLACK:
            needs = share * min(least.along, least.across)
            yield Lack(name, "spacing", math.hypot(du, dv), needs)


def told(lacking: list[Lack], table: str) -> str:
    """The worst shortfall of each kind, in words."""
    worst: dict[tuple[str, str], Lack] = {}
    for lack in lacking:
        key = lack.part, lack.what
        if key not in worst or lack.has / lack.needs < worst[key].has / worst[key].needs:
            worst[key] = lack
    return "; ".join(
        f"{n.what} {n.has:.0f} mm in {n.part}, {table} asks {n.needs:.0f}" for n in worst.values()
    )
