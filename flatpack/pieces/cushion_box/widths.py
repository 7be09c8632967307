"""How deep the battens under a lid are."""

from __future__ import annotations

import math

from flatpack.pieces.cushion_box.parameters import CushionBox
from flatpack.pieces.cushion_box.stock import Stock
from flatpack.pieces.family import Workings, mm, sold_width, wide_enough

POCKET_WALL = 6.0
"""Wood wanted past the far end of a pocket, mm (common practice, no source)."""
ARM_ROOM = 4.0
"""From an arm's round end to the lid above it, mm (common practice, no source)."""
BOLT_EDGE = 3.0
"""Edge distance of a bolt in its diameters: a4,c of Eurocode 5 table 8.4 (3 d)."""


def batten_width(p: CushionBox, stock: Stock, notes: Workings) -> float:
    """As asked, or the least that holds the pockets, the arm's room and the pivot, mm."""
    board, jig = stock.moving, stock.jig
    if p.lid.batten_width is not None:
        return sold_width(board, p.lid.batten_width)
    slope = math.radians(jig.angle)
    reach = board.thickness / 2.0 / math.tan(slope) + jig.drill / 2.0 / math.sin(slope)
    arm = p.arms.width + 2.0 * ARM_ROOM
    bolt = 2.0 * BOLT_EDGE * stock.pivot.bolt.diameter
    return notes.add(
        "Batten width",
        wide_enough(board, max(reach + POCKET_WALL, arm, bolt)),
        f"at least {max(reach + POCKET_WALL, arm, bolt):.1f}: pockets reach {reach:.1f} + "
        f"{mm(POCKET_WALL)} of wood, or the {mm(p.arms.width)} arm + 2 x {mm(ARM_ROOM)}, or "
        f"{mm(BOLT_EDGE)} bolt diameters each side",
    )
