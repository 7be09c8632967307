"""What the lid weighs, the room that it needs, and what no check can judge about it."""

from __future__ import annotations

import math
from collections.abc import Iterable

from flatpack.finding import Finding
from flatpack.model import Cutting, Part
from flatpack.pieces.cushion_box.parameters import CushionBox
from flatpack.pieces.cushion_box.setting_out import SettingOut
from flatpack.pieces.family import Workings, mm

PRACTICE = "common practice, no source"
GRAVITY = 9.80665
"""Standard gravity, m/s2 (3rd CGPM, 1901)."""


def lid_weight(made: Iterable[Part], out: SettingOut, notes: Workings) -> float:
    """Notes what the lid weighs and what lifts it at its front edge; gives its mass, kg."""
    lid = [(_mass(p), _middle(p) - out.axis.x) for p in made if p.group == "back"]
    kg = notes.add(
        "Lid, weight", sum(m for m, _ in lid), "boards and battens, without hinges and arms", "kg"
    )
    moment, grip = sum(m * x for m, x in lid), out.lid.front - out.axis.x
    notes.add(
        "Lift at the lid's front edge",
        moment * GRAVITY / grip,
        f"{kg:.1f} kg, its middle {mm(moment / kg)} from the hinge axis, the edge {mm(grip)}",
        "N",
    )
    return kg


def _mass(part: Part) -> float:
    return part.outline.area * part.thickness * part.board.density * 1e-9


def _middle(part: Part) -> float:
    x0, y0, x1, y1 = part.outline.bounds
    return part.frame.place((x0 + x1) / 2.0, (y0 + y1) / 2.0).x


def room_behind(p: CushionBox, out: SettingOut, notes: Workings) -> None:
    """Notes how far the open lid's rear edge stands out: the corner above swings back and down."""
    behind = out.axis.x - out.lid.rear
    above = out.stock.hinge.axis_offset + out.stock.lid.thickness
    furthest = math.degrees(math.atan2(above, behind)) if behind else 90.0
    turn = math.radians(min(furthest, max(p.lid.angles)))
    far = behind * math.cos(turn) + above * math.sin(turn) - out.axis.x
    notes.add(
        "Room behind the box for the lid",
        far,
        f"rear edge {mm(behind)} behind and {mm(above)} above the hinge axis, at its furthest "
        f"{math.degrees(turn):.0f}° open; axis {mm(-out.axis.x)} behind the rear side",
    )


def lid_spacer(p: CushionBox, out: SettingOut) -> tuple[Cutting, ...]:
    """Gap spacer and stop block of the lid."""
    rows = (
        Cutting("Gap spacer, lid", 60.0, out.lid.gap, 4, "between lid boards"),
        Cutting(
            "Stop block, lid batten",
            60.0,
            out.lanes.brace + p.lid.overhang,
            2,
            "batten's outer face from the lid boards' ends",
        ),
    )
    return tuple(row for row in rows if row.width > 0.0)


def remarks(name: str, kg: float) -> tuple[Finding, ...]:
    """A falling lid is the hazard: what to heed, and what wasn't judged."""
    return (
        Finding(
            "caution", "note", name,
            f"The lid weighs about {kg:.0f} kg and falls when nothing holds it: let go only when "
            "the rod sits in its notch on both sides, look before you reach in, and keep heads "
            "and hands from under it and off the tops of the posts, on which it comes down. "
            "Nobody but a grown-up opens it.",
            round(kg, 1), None, "kg", PRACTICE,
        ),
        Finding(
            "caution", "note", name,
            "Children climb into boxes: never fit a lock or catch, keep the gap under the lid and "
            "the gaps of the bottom open, and close the lid in wind.",
            source=PRACTICE,
        ),
        Finding(
            "lid-falls", "not done", name,
            "how hard a falling lid strikes a hand, and whether wind or a pull at the open lid "
            "draws the rod out of its notch, wasn't judged",
            source=PRACTICE,
        ),
        Finding(
            "rain-tight", "not done", name,
            "whether rain gets past the gaps between the lid's boards and under its edge wasn't "
            "judged",
            source=PRACTICE,
        ),
    )  # fmt: skip
