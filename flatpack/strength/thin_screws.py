"""Wood screws across their axis after EC5 8.7.1 and 8.3.1, and 6 mm ones along it after 8.7.2.

Screws up to 6 mm count as nails with the effective diameter 1.1 times the root's (8.7.1(3), (5)).
Holes are drilled.  Distances are those of table 8.2, in panels 0.85 of its spacings (8.3.1.3(1)).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from flatpack.geometry import Vec
from flatpack.model import Fastener, Part
from flatpack.profiles import Screw
from flatpack.strength.distances import Lack, force_in, lacks, spots
from flatpack.strength.layout import Link
from flatpack.strength.rules import dowels
from flatpack.strength.rules.johansen import Modes, single_shear
from flatpack.strength.rules.spacing import Distances, nails
from flatpack.strength.setting import Setting

LEAST_BITE = 6.0
"""Least length in the point's part, diameters (EC5 8.3.1.2(2); axially 8.7.2(3))."""
STRAIGHT_IN = 0.999
"""Cosine from which a screw counts as square to the faces."""
PANEL_SPACING = 0.85
"""Share of table 8.2's spacings in panels (EC5 8.3.1.3(1))."""


class Bearing(NamedTuple):
    """Johansen's modes of one screw, its effective diameter, and n_ef/n of its row."""

    modes: Modes
    diameter: float
    row: float


def profile_of(setting: Setting, fastener: Fastener) -> Screw | None:
    """The screw that a fastener is, by its name in lists."""
    key = "screw", fastener.item
    if key not in setting.memo:
        every = setting.profiles.every("screws")
        setting.memo[key] = next((s for s in every if s.name == fastener.item), None)
    found = setting.memo[key]
    assert found is None or isinstance(found, Screw)
    return found


def reasons(setting: Setting, link: Link) -> list[str]:
    """Why EC5 8.7.1 doesn't cover a link of screws; empty when it does."""
    return list(_reasons(setting, link, link.fasteners[0]))


def _reasons(setting: Setting, link: Link, screw: Fastener) -> Iterator[str]:
    profile = profile_of(setting, screw)
    if profile is None or profile.root is None:
        yield "the screw's root diameter isn't known"
    if screw.diameter > 6.0:
        yield f"screw of {screw.diameter:g} mm: rules of bolts, not worked out here"
    bite = screw.bite or 0.0
    if bite < LEAST_BITE * screw.diameter:
        needs = LEAST_BITE * screw.diameter
        yield f"bite {bite:.1f} mm, less than {LEAST_BITE:g} d = {needs:.0f}"
    if abs(screw.direction.dot(link.normal)) < STRAIGHT_IN:
        yield "the screw runs askew"
    if not link.touching:
        yield "the parts don't touch"
    for key in (link.first, link.second):
        part = setting.part(key)
        along = abs(screw.direction.dot(part.frame.x))
        if setting.stuff(part).panel and abs(screw.direction.dot(part.frame.z)) < 0.5:
            yield f"in the edge of plywood ({part.name.lower()})"
        elif along > 0.5:
            yield f"in end grain ({part.name.lower()}; EC5 8.3.1.2(3))"


def modes(setting: Setting, link: Link, screw: Fastener, way: Vec) -> Bearing | None:
    """Capacity of one screw, characteristic; None where the root or a material isn't known."""
    profile = profile_of(setting, screw)
    if profile is None or profile.root is None or screw.bite is None:
        return None
    d = dowels.effective_diameter(screw.diameter, profile.root, 0.0, 0.0)
    fh, factor = [], 1.0
    for key in (link.first, link.second):
        part = setting.part(key)
        row = setting.stuff(part).row
        if row is None:
            return None
        if setting.stuff(part).panel:
            fh.append(dowels.embedment_plywood_nail(d, row.density_low))
        else:
            fh.append(dowels.embedment_drilled(d, row.density_low))
            factor = min(factor, _row(part, link, screw.diameter, way))
    wire = setting.profiles.material("screw-wire").tensile or 0.0
    moment = dowels.yield_moment(d, wire)
    t1 = max(screw.length - screw.bite, 1.0)
    t2 = max(screw.bite - profile.tip_length, 1.0)
    return Bearing(single_shear(fh[0], t1, fh[1], t2, d, moment, share=1.0), d, factor)


def _row(part: Part, link: Link, diameter: float, way: Vec) -> float:
    """n_ef/n of screws in one row along the grain, for a force along it (EC5 8.3.1.1(8))."""
    places = [part.frame.local(f.start) for f in link.fasteners]
    rows = [abs(a.x - b.x) for a, b in combinations(places, 2) if abs(a.y - b.y) < diameter]
    apart = min((r for r in rows if r > diameter), default=None)
    force = part.frame.local_direction(way)
    if apart is None or abs(force.x) <= abs(force.y) or apart < 4.0 * diameter:
        return 1.0
    n = len(link.fasteners)
    return dowels.n_ef_nails(n, apart, diameter, True) / n


def shortfalls(setting: Setting, link: Link, way: Vec) -> list[Lack]:
    """Distances of screws less than table 8.2's, for the force's direction in each part."""
    found: list[Lack] = []
    for key, turn in ((link.first, -1.0), (link.second, 1.0)):
        part = setting.part(key)
        u, v = force_in(part, link, way)
        panel = setting.stuff(part).panel
        least = _least(link.fasteners[0].diameter, u, v, panel)
        share = PANEL_SPACING if panel else 1.0
        found += lacks(part, spots(part, link), (turn * u, turn * v), least, share)
    return found


def _least(d: float, u: float, v: float, panel: bool) -> Distances:
    """Table 8.2; in panels (3 + 4 sin a) d at loaded and 3 d at free ends and edges (8.3.1.3)."""
    turned = math.degrees(math.atan2(abs(v), abs(u)))
    least = nails(d, turned, drilled=True)
    if not panel:
        return least
    loaded = (3.0 + 4.0 * math.sin(math.radians(turned))) * d
    return least._replace(
        loaded_end=loaded, free_end=3.0 * d, loaded_edge=loaded, free_edge=3.0 * d
    )
