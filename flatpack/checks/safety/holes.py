"""Open holes and tube ends as wide as a finger.

EN 581-1:2017 asks it of the ends of tubes, the edition of 2006 of every accessible hole: none from
7 to 12 mm wide and 10 mm deep or more.  A hole counts as filled where a fastener's body of about
its size lies in it; a pocket keeps open what lies before its screw's head.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from flatpack.checks.bored import Bored, bored
from flatpack.checks.safety.asked import FINGER_DEEP, FINGER_HIGH, FINGER_LOW, Asked
from flatpack.finding import Finding
from flatpack.geometry import Vec
from flatpack.model import Part

FILLED = 0.65
"""Share of a hole's width from which what lies in it leaves no room for a finger."""
SLANTED = 0.5
"""Sine of the angle from which an axis crosses a hole instead of lying in it."""
BESIDE = 1.0
"""How far an axis may stand from a hole's and still be in it, mm."""


def check_holes(asked: Asked) -> Iterator[Finding]:
    """One finding for the pockets of the piece, one for each other open hole."""
    pockets: list[tuple[float, str]] = []
    for key, part in asked.assembly.parts.items():
        wide = [f for f in part.features if _fits(getattr(f, "diameter", 0.0))]
        pockets += [row for f in wide for row in _pocket(part, f)]
        if any(f.operation != "pocket-hole" for f in wide):
            for hole in bored(part):
                if _fits(hole.diameter) and not _filled(asked, part, hole):
                    yield from _open(key, hole)
    if pockets:
        depth, key = max(pockets)
        yield Finding(
            "safety-open-pockets", "warning", key,
            f"{len(pockets)} pocket holes in {len({k for _, k in pockets})} parts are as wide as "
            f"a finger and open for up to {depth:.0f} mm before the screw's head. The edition of "
            "2017 asks this of tube ends only",
            round(depth, 1), FINGER_DEEP.value, "mm", FINGER_DEEP.source,
            "glue plugs into pockets that hands or children can reach",
        )  # fmt: skip


def _fits(diameter: float) -> bool:
    return FINGER_LOW.value <= diameter <= FINGER_HIGH.value


def _pocket(part: Part, feature: Any) -> Iterator[tuple[float, str]]:
    """How far a pocket is open along its axis, from its mouth's middle to the shoulder, mm."""
    if feature.operation == "pocket-hole":
        long = feature.thickness / 2.0 / math.sin(math.radians(feature.slope))
        if long - feature.shoulder >= FINGER_DEEP.value:
            yield long - feature.shoulder, part.key


def _open(key: str, hole: Bored) -> Iterator[Finding]:
    depth = math.dist(hole.mouth, hole.bottom)
    if depth >= FINGER_DEEP.value:
        yield Finding(
            "safety-open-hole", "warning", key,
            f"hole {hole.diameter:g} wide and {depth:.0f} deep has nothing in it"
            + (f" ({hole.feature.purpose})" if hole.feature.purpose else ""),
            round(depth, 1), FINGER_DEEP.value, "mm", FINGER_DEEP.source, "plug it",
        )  # fmt: skip


def _filled(asked: Asked, part: Part, hole: Bored) -> bool:
    """Whether a bar or a fastener's body nearly fills the hole, or a nut in it holds a bolt."""
    mouth, bottom = (part.frame.place(*end) for end in (hole.mouth, hole.bottom))
    middle = mouth.plus(bottom.minus(mouth), 0.5)
    if any(_crossed(mouth, bottom, f.start, f.direction) for f in asked.assembly.fasteners):
        return True
    wide = FILLED * hole.diameter
    return any(b.diameter >= wide and b.fills(middle, BESIDE) for b in asked.round_bodies)


def _crossed(mouth: Vec, bottom: Vec, start: Vec, way: Vec) -> bool:
    """Whether a fastener's axis meets the hole's across it, as a bolt does its barrel nut."""
    along = bottom.minus(mouth).unit()
    square = along.cross(way)
    if square.length < SLANTED:
        return False
    apart = start.minus(mouth).dot(square.unit())
    # Where on the hole's axis the two come nearest (two lines in space).
    near = start.minus(mouth).cross(way).dot(square) / square.dot(square)
    return abs(apart) <= BESIDE and 0.0 <= near <= bottom.minus(mouth).length
