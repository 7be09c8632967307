"""Gaps that stand still: those that take a finger in and may not let it out.

The edition of 2006 asked of every accessible gap that a finger of 7 or 12 mm pushed in comes out
again; that of 2017 asks nothing of gaps that stand still.  So this gives a note, and what only a
probe at the finished piece can tell is not done.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from flatpack.checks.safety.asked import EN581, FINGER_HIGH, FINGER_LOW, Asked
from flatpack.finding import Finding
from flatpack.geometry import Vec
from flatpack.model import Part


def check_gaps(asked: Asked) -> Iterator[Finding]:
    """Gaps between neighbouring slats, and what can't be told from the design."""
    gaps = [*slat_gaps(asked.seat), *slat_gaps(asked.backrest)]
    taking = [g for g in gaps if FINGER_LOW.value <= g[0] <= FINGER_HIGH.value]
    if taking:
        gap, pair = min(taking)
        yield Finding(
            "safety-finger-gap", "note", pair,
            f"{len(taking)} gaps between slats are {FINGER_LOW.value:g} to {FINGER_HIGH.value:g} "
            "mm wide, into which a thin finger goes; straight sides let it out again, a sharp or "
            "tapering edge may not. The edition of 2017 asks nothing of gaps that stand still",
            round(gap, 2), FINGER_LOW.value, "mm", FINGER_LOW.source,
            f"gaps below {FINGER_LOW.value:g} or above {FINGER_HIGH.value:g} mm",
        )  # fmt: skip
    yield Finding(
        "safety-squeeze-under-load", "not done", asked.assembly.name,
        "shear and squeeze points that open and close under a person's weight weren't judged: "
        "try the finished piece loaded, with a rod for a finger",
        source=EN581,
    )  # fmt: skip
    if asked.study is not None and asked.study.path is None:
        yield Finding(
            "safety-squeeze-moving", "not done", asked.assembly.name,
            "shear and squeeze points of what moves weren't judged, as it doesn't move freely",
            source=EN581,
        )  # fmt: skip
    pivots = sorted({key for key, fits in _turning(asked) if fits})
    if asked.study is None and pivots:
        yield Finding(
            "safety-squeeze-moving", "not done", pivots[0],
            f"shear and squeeze points between {', '.join(pivots)}, which turn on one another, "
            "weren't judged: keep fingers off while it is folded, and try it with a rod",
            source=EN581,
        )  # fmt: skip


def _turning(asked: Asked) -> Iterator[tuple[str, bool]]:
    """Parts, and whether a hole in them has a pivot's fit."""
    for key, part in asked.assembly.parts.items():
        yield key, any("pivot" in getattr(f, "fit", "") for f in part.features)


def slat_gaps(slats: tuple[Part, ...]) -> list[tuple[float, str]]:
    """Gaps between neighbours, mm, with the two names; slats that aren't level are left out."""
    found = []
    for one, other in pairwise(slats):
        way = one.frame.y
        if abs(abs(other.frame.y.dot(way)) - 1.0) > 1e-6:
            continue
        a, b = span(one, way), span(other, way)
        gap = max(b[0] - a[1], a[0] - b[1])
        if gap > 0.0:
            found.append((gap, f"{one.key} / {other.key}"))
    return found


def span(part: Part, way: Vec) -> tuple[float, float]:
    """From where to where a part reaches along its own width's direction, mm."""
    _, y0, _, y1 = part.outline.bounds
    ends = sorted(part.frame.place(0.0, y).dot(way) for y in (y0, y1))
    return ends[0], ends[1]
