"""What the summary tells of one design: key sizes, stops, mass, what the checks found."""

from __future__ import annotations

from collections import Counter
from typing import Any

from flatpack.finding import ORDER
from flatpack.job import Design
from flatpack.model import Assembly, Part, placed_corners, volume

#: Columns of the summary that come from a design, in order, with their heads.
COLUMNS: tuple[tuple[str, str], ...] = (
    ("piece", "Piece"),
    ("family", "Family"),
    ("code", "Content code"),
    ("length", "Length mm"),
    ("width", "Width mm"),
    ("height", "Height mm"),
    ("mass", "Timber kg"),
    ("parts", "Parts"),
    ("stops", "Stops degrees"),
    ("strength", "Strength"),
    ("fault", "Faults"),
    ("not done", "Not done"),
    ("warning", "Warnings"),
    ("note", "Notes"),
    ("worst", "Worst finding"),
)
MONEY: tuple[tuple[str, str], ...] = (
    ("price", "Price"),
    ("currency", "Currency"),
    ("unpriced", "Items without a price"),
    ("waste", "Waste %"),
)


def facts(made: Design) -> dict[str, Any]:
    """The row of one design, by column; sizes of the piece as it stands, its back flat."""
    counts = Counter(finding.severity for finding in made.findings)
    return {
        "piece": made.assembly.name,
        "family": made.family,
        "code": made.code,
        **sizes(made.assembly),
        "stops": [round(stop.angle, 1) for stop in made.study.found.stops] if made.study else [],
        "strength": made.strength.headline if made.strength else "",
        **{severity: counts[severity] for severity in ORDER},
        "worst": worst(made, ""),
    }


def sizes(assembly: Assembly) -> dict[str, Any]:
    """Overall size, mm, the longer way first; mass of the timber, kg; how many parts."""
    corners: list[Any] = [c for part in assembly.parts.values() for c in placed_corners(part)]
    corners += [c for bar in assembly.bars.values() for c in _ends(bar)]
    spans = [max(axis) - min(axis) for axis in zip(*corners, strict=True)] if corners else [0.0] * 3
    width, length = sorted(spans[:2])
    mass = sum(_mass(part) for part in assembly.parts.values())
    return {
        "length": round(length, 1),
        "width": round(width, 1),
        "height": round(spans[2], 1),
        "mass": round(mass, 2),
        "parts": len(assembly.parts),
    }


def _ends(bar: Any) -> list[Any]:
    return [bar.frame.place(0.0, 0.0, z) for z in (0.0, bar.length)]


def _mass(part: Part) -> float:
    return volume(part) * part.board.density * 1e-9


def worst(made: Design, state: str) -> str:
    """The worst finding in words; with the state *made* nothing, since nothing is the matter."""
    if state == "made" or not made.findings:
        return ""
    first = made.findings[0]
    where = f"{first.part}: " if first.part else ""
    return f"{first.severity}: {where}{first.message}"
