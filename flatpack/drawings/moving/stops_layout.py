"""Where the side view of all stops stands on its sheet, and at what reduction.

+--------------------------------+
|  side view, all stops          |     far from the moving parts the frame is broken off
|      dimensions along the rack |
|  table            +------------|
|                   | title block|
+--------------------------------+
"""

from __future__ import annotations

from typing import NamedTuple

from flatpack.drawings.boxes import Box, union
from flatpack.drawings.ga_layout import SCALES
from flatpack.drawings.moving.reduced import Paper
from flatpack.drawings.moving.views import Seen, placed
from flatpack.drawings.title_block import BLOCK_HIGH, FRAME
from flatpack.geometry import Point
from flatpack.mechanism.track import Stand

_REDUCTIONS = tuple(sorted((*SCALES, 2.5, 4.0, 6.0, 8.0)))
"""Those of ISO 5455, and steps between, which it permits where they don't fit."""
BEYOND = 150.0
"""How much of the frame is shown beyond the moving parts, mm."""
ROW = 5.5
"""From one dimension line to the next, paper mm."""
_TOP, _SIDE, _LABEL = 10.0, 12.0, 22.0
"""Room above the view and beside it, and for the angles beside the backs, paper mm."""


class Extent(NamedTuple):
    """Boxes in the hinge frame, mm: what is shown, the whole piece, and the rack alone."""

    shown: Box
    whole: Box
    rack: Box


def extent(bodies: tuple[Seen, ...], stands: tuple[Stand, ...]) -> Extent:
    """What is shown: all positions of what moves, and the frame near it."""
    still = [b for b in bodies if b.look in ("frame", "rack", "near")]
    moving = [b for b in bodies if b not in still]
    spots = [placed(b, stand).bounds for b in moving for stand in stands]
    racks = [b.outline.bounds for b in bodies if b.look == "rack"] or spots
    core = union([*spots, *racks])
    whole = union([*(b.outline.bounds for b in still), *spots])
    x0, x1 = max(whole[0], core[0] - BEYOND), min(whole[2], core[2] + BEYOND)
    return Extent((x0, whole[1], x1, whole[3]), whole, union(racks))


def paper_for(room: Extent, rows: int, table: float) -> Paper:
    """The largest scale that fits, over a table `table` paper mm high.

    `rows` dimensions stand below the rack; they may reach under the ground.
    """
    x0, y0, x1, y1 = FRAME
    wide, high = x1 - x0 - 2.0 * _SIDE - _LABEL, y1 - y0 - _TOP - max(table, BLOCK_HIGH) - 4.0
    fitting = (1.0 / s for s in _REDUCTIONS if _fits(room, 1.0 / s, rows, wide, high))
    scale = next(fitting, 1.0 / _REDUCTIONS[-1])
    a, b, c, d = room.shown
    left = x0 + _SIDE + max(wide - (c - a) * scale, 0.0) / 2.0
    origin = Point(left - a * scale, y1 - _TOP - d * scale)
    margin = 1.0
    corner = (origin.x + a * scale, origin.y + b * scale - margin)
    return Paper(origin, scale, (*corner, origin.x + c * scale, origin.y + d * scale + margin))


def _fits(room: Extent, scale: float, rows: int, wide: float, high: float) -> bool:
    a, b, c, d = room.shown
    down = max(rows * ROW + 6.0 - (room.rack[1] - b) * scale, 4.0)
    return (c - a) * scale <= wide and (d - b) * scale + down <= high
