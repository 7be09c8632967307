"""Boards side by side that make a side or a lid: room between them to swell in the wet season.

Unlike slats they need no gap for water.  Solid wood swells across the grain (width x movement per
percent x percent of moisture gained); as each board is held by its middle, half of either one's
swelling goes into the gap, and where it has none the boards push their posts apart or cup.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.geometry import Vec
from flatpack.model import Part

BOARD = re.compile(r"(.*board)-\d+$")
"""Keys that name boards of one run: anything ending in 'board' and a number, e.g. lid-board-3."""
PARALLEL = 1e-6
LEVEL = 0.05
"""Boards whose back faces are this near to one plane, mm, lie in it."""
TOUCHING = -0.05
"""Boards that overlap by more than this lie otherwise than side by side."""


def check_boarding(setting: Setting) -> Iterator[Finding]:
    """Each gap between neighbours of one run of solid boards."""
    runs: dict[str, list[Part]] = {}
    for part in setting:
        named = BOARD.match(part.key)
        if named and part.board.movement > 0.0:
            runs.setdefault(named[1], []).append(part)
    for boards in runs.values():
        way = boards[0].frame.y
        spans = sorted((_span(b, way), b.key, b) for b in boards if _beside(boards[0], b))
        for (a, _, one), (b, _, other) in pairwise(spans):
            yield from _swelling(setting, one, other, b[0] - a[1])


def _beside(one: Part, other: Part) -> bool:
    """Whether two boards run the same way in one plane."""
    along, across = one.frame.y.dot(other.frame.y), one.frame.z.dot(other.frame.z)
    level = one.frame.z.dot(other.frame.origin.minus(one.frame.origin))
    return min(abs(along), across) > 1.0 - PARALLEL and abs(level) < LEVEL


def _span(board: Part, way: Vec) -> tuple[float, float]:
    _, y0, _, y1 = board.outline.bounds
    ends = sorted(board.frame.place(0.0, y).dot(way) for y in (y0, y1))
    return ends[0], ends[1]


def _swelling(setting: Setting, one: Part, other: Part, gap: float) -> Iterator[Finding]:
    wet = setting.limits.wet_season
    swells = sum(p.width * p.board.movement for p in (one, other)) / 2.0 * wet.value
    if TOUCHING <= gap < swells - 1e-9:
        yield Finding(
            "boards-swell", "warning", f"{one.key} / {other.key}",
            f"gap {gap:.1f} between boards that swell {swells:.1f} into it ({wet.value:g} % more "
            "moisture): they push apart what holds them, or cup",
            round(gap, 3), round(swells, 3), "mm", wet.source,
            f"widen the gap by {swells - gap:.1f} mm",
        )  # fmt: skip
