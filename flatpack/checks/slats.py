"""Gaps between slats: wide enough to drain and to swell in the wet season, none too wide.

Solid wood swells across the grain: width x movement per percent x percent of moisture gained.  As
the slats sit on their middles, a gap between two loses half of each one's swelling.  Slats that
stand at angles in one plane, like a fan, are judged where two of them come closest.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from flatpack.checks.convex import axes_of
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.geometry import Vec
from flatpack.geometry.polygon import mapped
from flatpack.model import Part

SLAT = re.compile(r"(.*slat)\W*\d+$")
"""Keys that name slats: anything ending in 'slat' and a number, e.g. back-slat-3."""
NUMBER = re.compile(r"\d+")
PARALLEL = 1e-6
FLAT = 0.05
"""Slats whose back faces are this near to one plane, mm, lie in it."""


def check_slats(setting: Setting) -> Iterator[Finding]:
    """Each gap between neighbours of one run of slats."""
    runs: dict[str, list[Part]] = {}
    for part in setting:
        named = SLAT.match(part.key)
        if named:
            runs.setdefault(named[1], []).append(part)
    for name, slats in runs.items():
        way = slats[0].frame.y
        if any(abs(abs(s.frame.y.dot(way)) - 1.0) > PARALLEL for s in slats):
            yield from _turned(setting, name, slats)
            continue
        spans = sorted((_span(s, way), s.key, s) for s in slats)
        for (a, _, one), (b, _, other) in pairwise(spans):
            yield from _gap(setting, one, other, b[0] - a[1])


def _turned(setting: Setting, name: str, slats: list[Part]) -> Iterator[Finding]:
    """Slats in the order of their numbers, each against the next."""
    first = slats[0].frame
    if any(
        s.frame.z.dot(first.z) < 1.0 - PARALLEL
        or abs(first.z.dot(s.frame.origin.minus(first.origin))) > FLAT
        for s in slats
    ):
        text = "the slats don't lie in one plane, so their gaps weren't measured"
        yield Finding("slat-gaps", "not done", name, text)
        return
    for one, other in pairwise(sorted(slats, key=lambda s: int(NUMBER.findall(s.key)[-1]))):
        turn = axes_of(one.frame)[:2] @ axes_of(other.frame)[:2].T
        shift = np.array(one.frame.local(other.frame.origin)[:2])
        there = mapped(setting.face(other), turn, shift)
        yield from _gap(setting, one, other, float(setting.face(one).distance(there)), fan=True)


def _span(slat: Part, way: Vec) -> tuple[float, float]:
    _, y0, _, y1 = slat.outline.bounds
    ends = sorted(slat.frame.place(0.0, y).dot(way) for y in (y0, y1))
    return ends[0], ends[1]


def _gap(
    setting: Setting, one: Part, other: Part, gap: float, *, fan: bool = False
) -> Iterator[Finding]:
    limits, pair = setting.limits, f"{one.key} / {other.key}"
    if gap < limits.slat_gap_least.value:
        yield Finding(
            "slat-gap", "fault" if gap <= 0.0 else "warning", pair,
            f"gap {gap:.1f} between slats; water wants {limits.slat_gap_least.value:g} to drain",
            round(gap, 3), limits.slat_gap_least.value, "mm", limits.slat_gap_least.source,
            f"widen the gap by {limits.slat_gap_least.value - gap:.1f} mm",
        )  # fmt: skip
    elif gap > limits.slat_gap_most.value and not fan:
        yield Finding(
            "slat-gap", "warning", pair, f"gap {gap:.1f} between slats is wide to lie on",
            round(gap, 3), limits.slat_gap_most.value, "mm", limits.slat_gap_most.source,
        )  # fmt: skip
    swelling = sum(p.width * p.board.movement for p in (one, other)) / 2.0
    swelling *= limits.wet_season.value
    left, least = gap - swelling, limits.wet_gap_least
    if gap > 0.0 and left < least.value:
        yield Finding(
            "slat-gap-wet", "fault" if left <= 0.0 else "warning", pair,
            f"gap {gap:.1f} less {swelling:.1f} of swelling ({limits.wet_season.value:g} % more "
            f"moisture) leaves {left:.1f} in the wet season",
            round(left, 3), least.value, "mm", least.source,
            f"widen the gap by {least.value - left:.1f} mm",
        )  # fmt: skip
