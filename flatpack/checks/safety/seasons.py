"""Solid wood over the year: gaps that close and open, joints that are strained across the grain.

Width x coefficient x change of moisture in % (Wood Handbook, eq. 13-2); coefficients from the
boards' profiles.  Along the grain, and in plywood, wood hardly moves.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.safety.asked import BOLTS_APART, DRIER, WETTER, Asked
from flatpack.checks.safety.gaps import slat_gaps
from flatpack.finding import Finding
from flatpack.geometry import Vec
from flatpack.model import Fastener, Part
from flatpack.strength.rules.handbook import movement

HANDBOOK = "Wood Handbook (FPL-GTR-190), eq. 13-2; moisture over the year: common practice"


def check_seasons(asked: Asked) -> Iterator[Finding]:
    """Gaps in the wet and the dry season; pairs of fasteners across the grain."""
    solid = [p for p in asked.assembly.parts.values() if p.board.solid]
    if not solid:
        return
    still = sorted({p.board.name for p in solid if p.board.movement <= 0.0})
    if still:
        yield Finding(
            "safety-seasons", "not done", asked.assembly.name,
            f"no movement across the grain is known for {', '.join(still)}, so its gaps and "
            "joints weren't judged over the year",
            source=HANDBOOK,
        )  # fmt: skip
    yield from _gaps(asked)
    yield from _joints(asked)


def _gaps(asked: Asked) -> Iterator[Finding]:
    rows = [(gap, pair) for s in (asked.seat, asked.backrest) for gap, pair in slat_gaps(s)]
    moving = [(gap, pair, *_seasons(asked, gap, pair)) for gap, pair in rows]
    if not any(wet != gap for gap, _, wet, _ in moving):
        return
    gap, pair, wet, _ = min(moving, key=lambda row: (row[2], row[1]))
    _, _, _, dry = max(moving, key=lambda row: (row[3], row[1]))
    yield Finding(
        "safety-season-gaps", "note", pair,
        f"made at {gap:.1f} mm this gap is {wet:.1f} in a wet autumn ({WETTER.value:g} % more "
        f"moisture), the widest is {dry:.1f} in a dry summer ({DRIER.value:g} % less)",
        round(wet, 2), None, "mm", HANDBOOK,
    )  # fmt: skip


def _seasons(asked: Asked, gap: float, pair: str) -> tuple[float, float]:
    """The gap in the wet and in the dry season: half of either slat's movement goes into it."""
    parts = [asked.assembly.parts[key] for key in pair.split(" / ")]
    widths = [(p.width, p.board.movement if p.board.solid else 0.0) for p in parts]
    wet, dry = (
        sum(movement(width, coefficient, change) for width, coefficient in widths) / 2.0
        for change in (WETTER.value, DRIER.value)
    )
    return gap - wet, gap + dry


def _joints(asked: Asked) -> Iterator[Finding]:
    """The pair of parts whose fasteners stand furthest apart across a solid board's grain."""
    strained = [
        row
        for (a, b), some in _pairs(asked).items()
        for row in _strain(asked.assembly.parts[a], asked.assembly.parts[b], some)
    ]
    if not strained:
        return
    worst = max(strained, key=lambda row: (round(row[0], 3), row[2]))
    over = [row for row in strained if row[0] > BOLTS_APART.value]
    change, apart, name = worst
    yield Finding(
        "safety-season-joints", "warning" if over else "note", name,
        f"its fasteners stand {apart:.0f} mm apart across the grain, which moves by {change:.1f} "
        f"mm between them over the year"
        + (f" ({len(over)} such joints): the wood may split" if over else ""),
        round(change, 2), BOLTS_APART.value, "mm", f"{HANDBOOK}; the limit: {BOLTS_APART.source}",
        "fasteners nearer together, or one hole slotted across the grain" if over else "",
    )  # fmt: skip
    yield Finding(
        "safety-season-bolts", "note", asked.assembly.name,
        "solid boards get thinner in a dry summer: tighten fixed bolts again after the first "
        "dry weeks and once a year", source="common practice, no source",
    )  # fmt: skip


def _pairs(asked: Asked) -> dict[tuple[str, str], list[Fastener]]:
    found: dict[tuple[str, str], list[Fastener]] = {}
    for fastener in asked.assembly.fasteners:
        if len(fastener.passes) == 2 and all(k in asked.assembly.parts for k in fastener.passes):
            a, b = fastener.passes
            found.setdefault((a, b) if a <= b else (b, a), []).append(fastener)
    return found


def _strain(a: Part, b: Part, some: list[Fastener]) -> Iterator[tuple[float, float, str]]:
    """Movement between fasteners across one part's grain that the other doesn't follow."""
    for part, other in ((a, b), (b, a)):
        across = part.frame.y
        spots = [f.start.dot(across) for f in some]
        apart = max(spots) - min(spots)
        if apart > 0.0 and not _lengthwise_pair(some, across):
            own, follows = _coefficient(part, across), _coefficient(other, across)
            change = abs(movement(apart, own - follows, WETTER.value + DRIER.value))
            if change > 0.0:
                yield change, apart, f"{part.key} / {other.key}"


def _lengthwise_pair(some: list[Fastener], across: Vec) -> bool:
    """True when the fasteners themselves run across: then they hold at one place of the width."""
    return all(abs(f.direction.dot(across)) > 0.9 for f in some)


def _coefficient(part: Part, way: Vec) -> float:
    """Movement of a part along a direction, a share per % of moisture."""
    if not part.board.solid:
        return 0.0
    along = part.frame.x.dot(way)
    return part.board.movement * (1.0 - along * along)
