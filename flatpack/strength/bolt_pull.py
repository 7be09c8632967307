"""Bolts pulled along their axis: the bolt itself, and its head and washer on the wood.

EC5 8.5.2: 3 f_c,90 under a washer, of the ring's area; a nut with no washer would hold by less and
isn't judged.  The bolt: 0.9 f_u A_s / 1.25 (EN 1993-1-8 table 3.4).
"""

from __future__ import annotations

from typing import NamedTuple

from flatpack.model import Fastener
from flatpack.profiles import CoachBolt
from flatpack.strength.layout import Link
from flatpack.strength.loading import Loading
from flatpack.strength.rules.axial import bolt_tension, stress_area, washer_bearing
from flatpack.strength.setting import Setting
from flatpack.strength.stuff import metal_of

BOLT_SHARE = 0.9
"""k_2 of EN 1993-1-8 table 3.4."""


class Pull(NamedTuple):
    """Design capacity of a bolt in pull, N, in words; `missing`: what isn't known."""

    limit: float
    words: str
    missing: str


def capacity(setting: Setting, link: Link, bolt: Fastener, loading: Loading) -> Pull:
    """The least of the bolt, its head and its washer."""
    profile = _profile(setting, bolt)
    if profile is None:
        return Pull(0.0, "", "the bolt's thread and head aren't known")
    metal = metal_of(bolt.item, setting.profiles)
    area = stress_area(bolt.diameter, profile.pitch)
    steel = BOLT_SHARE * bolt_tension(area, metal.tensile or 0.0) / metal.gamma
    rows = [(steel, f"bolt {steel:.0f} N")]
    missing = []
    washer = _washer(bolt)
    for key, outer, what in (
        (link.first, profile.head_diameter, "head"), (link.second, washer, "washer"),
    ):  # fmt: skip
        part = setting.part(key)
        stuff = setting.stuff(part)
        lowest = setting.profiles.material("c14").rows[0].compression_across
        if stuff.row is None or outer is None:
            missing.append(f"no {what} or no strength is known in {part.name.lower()}")
            continue
        panel = stuff.panel
        if panel:
            missing.append(f"no strength of {part.board.name} against pressure on its face")
        char = lowest if panel else stuff.row.compression_across
        strength = stuff.design(char, setting.loads.service_class, loading.duration)
        limit = washer_bearing(outer, profile.hole_wood, strength)
        rows.append((limit, f"{what} {limit:.0f} N in {part.title.lower()}"))
    limit, words = min(rows)
    return Pull(limit, words, "; ".join(dict.fromkeys(missing)))


def _profile(setting: Setting, bolt: Fastener) -> CoachBolt | None:
    every = setting.profiles.every("coach-bolts")
    return next((b for b in every if b.name == bolt.item), None)


def _washer(bolt: Fastener) -> float | None:
    """Outer diameter of the washer under the nut."""
    for solid in bolt.solids:
        if solid.name.endswith("washer"):
            x0, y0, x1, y1 = solid.outline.bounds
            return min(x1 - x0, y1 - y0)
    return None
