"""Tall narrow parts that tilt when they are bent on edge (torsional buckling, EC5 6.3.3)."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from flatpack.model import Part
from flatpack.strength.rules import members as m
from flatpack.strength.setting import Setting

HELD_AT_ENDS = 4
"""Marks of a part that is held near both ends only: the ends, and the two holds."""


def factor(
    setting: Setting, part: Part, size: tuple[float, float], strength: float, holds: Iterable[float]
) -> float:
    """k_crit of a part of some length and depth, bent on edge, that something holds at places.

    `strength` is the characteristic one on edge.  Held at more than two places it is loaded there,
    so l_ef is the longest stretch; else 0.9 of it and twice the depth, as for a load on the
    pressed edge (table 6.1).
    """
    row = setting.stuff(part).row
    assert row is not None
    length, depth = size
    inside = sorted({0.0, length, *(min(max(v, 0.0), length) for v in holds)})
    free = max(b - a for a, b in pairwise(inside))
    if len(inside) <= HELD_AT_ENDS:
        free = 0.9 * free + 2.0 * depth
    critical = m.critical_bending_stress(part.thickness, depth, free, row.stiffness_low)
    return m.k_crit((strength / critical) ** 0.5)


def of_fastened(setting: Setting, part: Part, strength: float) -> float:
    """The factor of a part that fasteners of other parts hold along its length."""
    key = "tilting", part.key
    known = setting.memo.get(key)
    if known is None:
        x0 = part.outline.bounds[0]
        links = [k for k in setting.links if part.key in (k.first, k.second)]
        holds = [
            sum(part.frame.local(f.start).x - x0 for f in k.fasteners) / len(k.fasteners)
            for k in links
        ]
        size = part.length, part.width
        known = setting.memo[key] = factor(setting, part, size, strength, holds)
    assert isinstance(known, float)
    return known


def share(setting: Setting, bare: Setting) -> None:
    """Let the parts of a bare frame be held by what the whole piece holds them with."""
    for key, part in bare.assembly.parts.items():
        stuff = setting.stuff(part)
        if stuff.row is not None:
            strength = stuff.bent(stuff.row, part.width, False).bending
            bare.memo["tilting", key] = of_fastened(setting, part, strength)
