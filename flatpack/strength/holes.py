"""What holes leave of a part's section on edge: bolts, pockets, slots, notches of features."""

from __future__ import annotations

from collections.abc import Iterable

from flatpack.model import Part
from flatpack.strength.rules.sections import Section

Left = tuple[tuple[float, float], ...]
"""(place along the part from its end, share of the section modulus left there)."""


def left_over(part: Part) -> Left:
    """Share of W left through each hole's middle: I less each cut's (y1^3 - y0^3)/3 times depth.

    Cuts are taken as rectangles about their outlines, so that too much rather than too little goes.
    """
    x0, y0, _, y1 = part.outline.bounds
    middle, half = (y0 + y1) / 2.0, (y1 - y0) / 2.0
    whole = part.thickness * (2.0 * half) ** 3 / 12.0
    cuts = [
        (*cut.outline.bounds, min(cut.high, part.thickness) - max(cut.low, 0.0))
        for feature in part.features
        for cut in feature.cuts(part.thickness)
    ]
    found = []
    for at in sorted({round((a + c) / 2.0, 3) for a, _, c, _, _ in cuts}):
        gone = 0.0
        for a, low, c, high, deep in cuts:
            if a <= at <= c and deep > 0.0:
                z0, z1 = max(low - middle, -half), min(high - middle, half)
                gone += deep * max(z1**3 - z0**3, 0.0) / 3.0
        found.append((at - x0, max(1.0 - gone / whole, 0.01)))
    return tuple(found)


def weakest(left: Left, low: float, high: float) -> float:
    """Least share left between two places."""
    return min((share for at, share in left if low - 1.0 <= at <= high + 1.0), default=1.0)


def net_modulus(section: Section, shares: Iterable[float]) -> float:
    """Section modulus left, mm3."""
    return section.modulus * min(shares, default=1.0)
