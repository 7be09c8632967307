"""Whether a joint lies within the code's scope: kinds, bites, edges, and table 8.4's distances."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from flatpack.geometry import Vec
from flatpack.model import Fastener, Part
from flatpack.strength.distances import Lack, force_in, lacks, spots
from flatpack.strength.layout import Link
from flatpack.strength.rules.spacing import bolts
from flatpack.strength.setting import Setting
from flatpack.strength.thin_screws import profile_of

LEAST_SCREW = 6.0
"""Smallest diameter, mm, for which EC5 8.7.2(4) gives withdrawal."""
LEAST_BITE = 6.0
"""Least bite in diameters (EC5 8.7.2(3))."""


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
    profile = profile_of(setting, screw)
    if profile is None or profile.root is None:
        yield "its root diameter isn't known"
    yield "the head's resistance to being pulled through isn't declared (f_head,k of EN 14592)"


def shortfalls(setting: Setting, link: Link, way: Vec) -> list[Lack]:
    """Bolt distances less than table 8.4, for the force's direction in each part."""
    found: list[Lack] = []
    for key, turn in ((link.first, -1.0), (link.second, 1.0)):
        part = setting.part(key)
        u, v = force_in(part, link, way)
        least = bolts(link.fasteners[0].diameter, math.degrees(math.atan2(abs(v), abs(u))))
        found += lacks(part, spots(part, link), (turn * u, turn * v), least)
    return found


def apart(part: Part, link: Link) -> float | None:
    """Least distance along the grain between two fasteners in one row of it; None: no row."""
    places = [part.frame.local(f.start) for f in link.fasteners]
    d = link.fasteners[0].diameter
    rows = [abs(a.x - b.x) for a, b in combinations(places, 2) if abs(a.y - b.y) < d]
    return min((r for r in rows if r > d), default=None)
