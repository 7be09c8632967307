"""Arrises near skin: rounded to a stated radius wherever a hand or leg meets them in use.

EN 581-1:2017, 5.1, asks for rounded, chamfered or covered edges of the seat, back and arm rests,
and of whatever a finger reaches under the seat within 120 mm of its edge; a description of the
standard in German has 500 mm below the edge of a table.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.limits import Limit
from flatpack.checks.safety.asked import NEAR_KNEES, NEAR_SKIN, ROUNDED, Asked
from flatpack.finding import Finding
from flatpack.model import Part, placed_corners

Box = tuple[float, float, float, float]


def check_arrises(asked: Asked) -> Iterator[Finding]:
    """Parts that are sat, leaned or leant on, then what stands near the seat's edge."""
    touched = [*asked.seat, *asked.backrest, *asked.arm_rests]
    limit = NEAR_KNEES if asked.use == "table" else NEAR_SKIN
    if not touched:
        yield Finding(
            "safety-arrises", "not done", asked.assembly.name,
            "no seat or top was found, so the arrises near it weren't judged", source=limit.source,
        )  # fmt: skip
        return
    keys = {part.key for part in touched}
    near = [p for p in _under(asked, limit.value) if p.key not in keys]
    for parts, where in (
        (touched, "that are touched in use"),
        (near, f"within {limit.value:g} mm of the edge of seat or top"),
    ):
        yield from _sharp(parts, where, limit)


def _sharp(parts: list[Part], where: str, limit: Limit) -> Iterator[Finding]:
    sharp = [p for p in parts if p.arris < ROUNDED.value]
    if sharp:
        least = min(sharp, key=lambda p: (p.arris, p.key))
        names = sorted({p.name.lower() for p in sharp})
        yield Finding(
            "safety-sharp-arris", "warning", least.key,
            f"arrises of {', '.join(names)} {where} are rounded to {least.arris:g} mm in the "
            f"design, at least {ROUNDED.value:g} is wanted",
            least.arris, ROUNDED.value, "mm", f"{limit.source}; {ROUNDED.source}",
            f"round every arris that skin can meet to {ROUNDED.value:g} mm with plane and paper",
        )  # fmt: skip


def _under(asked: Asked, inside: float) -> Iterator[Part]:
    """Parts that reach within a distance of the seat's or top's rim, measured straight."""
    seats = [_box(p) for p in asked.seat]
    rim = (
        min(b[0] for b in seats), min(b[1] for b in seats),
        max(b[2] for b in seats), max(b[3] for b in seats),
    )  # fmt: skip
    low = min(p.frame.origin.z for p in asked.seat)
    for part in asked.assembly.parts.values():
        x0, y0, x1, y1 = _box(part)
        from_rim = min(x0 - rim[0], y0 - rim[1], rim[2] - x1, rim[3] - y1)
        if part.group == "frame" and from_rim < inside and _top(part) > low - inside:
            yield part


def _box(part: Part) -> Box:
    xs, ys, _ = zip(*placed_corners(part), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _top(part: Part) -> float:
    return max(z for _, _, z in placed_corners(part))
