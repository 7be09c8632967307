"""Slanting cuts: the saw goes right through along a line, and can be set only so far."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from flatpack.checks.limits import Limit
from flatpack.checks.setting import Setting, alike
from flatpack.finding import Finding
from flatpack.geometry.compound import RIP
from flatpack.geometry.plane import cut_short
from flatpack.model import Part

SLIVER = 1.0
"""Area that may stand beyond the line for rounding alone, mm2."""


def check_slants(setting: Setting) -> Iterator[Finding]:
    """Each cut leaves the part's outline whole on its longer face, and a saw can be set for it."""
    for part, keys in setting.distinct:
        for feature in part.features:
            if feature.operation == "bevel":
                yield from _one(setting, part, feature, keys)


def _one(setting: Setting, part: Part, cut: Any, keys: tuple[str, ...]) -> Iterator[Finding]:
    at, out = cut.plane(part.thickness).line(cut.plane(part.thickness).at.z)
    left = cut_short(part.outline, at, out)
    lost = abs(part.outline.area) - (0.0 if left is None else abs(left.area))
    if lost > SLIVER:
        yield Finding(
            "bevel-cuts-part", "fault", part.key,
            f"{cut.callout()}: {lost:.0f} mm2 of the part stand beyond the saw's line and would go "
            f"with it{alike(keys)}",
            round(lost, 1), SLIVER, "mm2", "plane geometry", "saw the whole side in one line",
        )  # fmt: skip
    limits = setting.limits
    yield from _set(part, cut, "blade", cut.setting.blade, limits.blade_tilt, keys)
    if cut.setting.table < RIP:
        yield from _set(part, cut, "table", cut.setting.table, limits.table_turn, keys)


def _set(
    part: Part, cut: Any, what: str, angle: float, limit: Limit, keys: tuple[str, ...]
) -> Iterator[Finding]:
    if angle > limit.value:
        yield Finding(
            f"bevel-{what}", "warning", part.key,
            f"{cut.callout()}: few saws set the {what} further than {limit.value:g}{alike(keys)}",
            round(angle, 1), limit.value, limit.unit, limit.source,
            "less splay, or stand the board on edge against a jig that holds it",
        )  # fmt: skip
