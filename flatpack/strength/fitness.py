"""Whether a joint lies within the code's scope: kinds, bites, edges, and table 8.4's distances."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from flatpack.geometry import Vec
from flatpack.model import Fastener, Part
from flatpack.strength.layout import Link
from flatpack.strength.loading import Loading
from flatpack.strength.rules.spacing import Distances, bolts
from flatpack.strength.setting import Setting

LEAST_SCREW = 6.0
"""Smallest diameter, mm, for which EC5 8.7.2(4) gives withdrawal."""
LEAST_BITE = 6.0
"""Least bite in diameters (EC5 8.7.2(3); 8.3.1.2(2) for shear)."""

SLACK = 0.5
"""A distance may fall short by this, mm: what a workshop holds to (common practice, no source)."""


class Lack(NamedTuple):
    """A distance less than the table's, mm."""

    part: str
    what: str
    has: float
    needs: float


def reasons(setting: Setting, link: Link) -> list[str]:
    """Why EC5's formulas don't cover a link; empty when they do."""
    key = "reasons", link.first, link.second
    known = setting.memo.get(key)
    if known is None:
        known = setting.memo[key] = _reasons(setting, link)
    assert isinstance(known, list)
    return list(known)


def _reasons(setting: Setting, link: Link) -> list[str]:
    fastener = link.fasteners[0]
    if fastener.kind == "coach bolt":
        gap = not link.touching
        return ["the parts don't touch: a washer lies between them"] if gap else []
    if "screw" not in fastener.kind:
        return [f"EC5 has no rule for a {fastener.kind}"]
    return list(_screw_reasons(setting, link, fastener))


def _screw_reasons(setting: Setting, link: Link, screw: Fastener) -> Iterator[str]:
    if screw.diameter < LEAST_SCREW:
        yield f"screw of {screw.diameter:g} mm, 8.7.2(4) begins at {LEAST_SCREW:g}"
    bite = screw.bite or 0.0
    if bite < LEAST_BITE * screw.diameter:
        yield f"bite {bite:.1f} mm, less than {LEAST_BITE:g} d = {6.0 * screw.diameter:.0f}"
    if abs(screw.direction.dot(link.normal)) < 0.999:
        yield "the screw runs askew"
    for key in (link.first, link.second):
        part = setting.part(key)
        if setting.stuff(part).panel and abs(screw.direction.dot(part.frame.z)) < 0.5:
            yield f"in the edge of plywood ({part.name.lower()})"
    yield "its root diameter isn't known"


def shortfalls(setting: Setting, link: Link, way: Vec, loading: Loading) -> list[Lack]:
    """Bolt distances less than table 8.4, for the force's direction in each part."""
    del loading
    found: list[Lack] = []
    for key, turn in ((link.first, -1.0), (link.second, 1.0)):
        part = setting.part(key)
        force = part.frame.local_direction(way)
        found += _in_part(part, link, turn * force.x, turn * force.y)
    return found


def _in_part(part: Part, link: Link, fx: float, fy: float) -> Iterator[Lack]:
    size = math.hypot(fx, fy)
    if size == 0.0:
        return
    least = bolts(link.fasteners[0].diameter, math.degrees(math.atan2(abs(fy), abs(fx))))
    places = [part.frame.local(f.start) for f in link.fasteners]
    x0, y0, x1, y1 = part.outline.bounds
    name = part.name.lower()
    for has, pushed, needs in (
        (min(p.x for p in places) - x0, -fx, (least.loaded_end, least.free_end)),
        (x1 - max(p.x for p in places), fx, (least.loaded_end, least.free_end)),
        (min(p.y for p in places) - y0, -fy, (least.loaded_edge, least.free_edge)),
        (y1 - max(p.y for p in places), fy, (least.loaded_edge, least.free_edge)),
    ):
        loaded = pushed > 0.1 * size
        need = needs[0] if loaded else needs[1]
        what = "end" if needs[0] == least.loaded_end else "edge"
        if has < need - SLACK:
            yield Lack(name, f"{'loaded' if loaded else 'free'} {what} distance", has, need)
    yield from _pairs(name, places, least)


def _pairs(name: str, places: list[Vec], least: Distances) -> Iterator[Lack]:
    for a, b in combinations(places, 2):
        dx, dy = abs(a.x - b.x), abs(a.y - b.y)
        if dx < least.along - SLACK and dy < least.across - SLACK:
            yield Lack(name, "spacing", math.hypot(dx, dy), min(least.along, least.across))


def apart(part: Part, link: Link) -> float | None:
    """Least distance along the grain between two fasteners in one row of it; None: no row."""
    places = [part.frame.local(f.start) for f in link.fasteners]
    d = link.fasteners[0].diameter
    rows = [abs(a.x - b.x) for a, b in combinations(places, 2) if abs(a.y - b.y) < d]
    return min((r for r in rows if r > d), default=None)
