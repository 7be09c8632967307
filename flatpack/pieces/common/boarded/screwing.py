"""How a boarded box is screwed: how deep the screws bite, and at which heights they stand."""

from __future__ import annotations

from flatpack.geometry import Vec
from flatpack.joinery import FaceScrews
from flatpack.joinery.axis import spread
from flatpack.pieces.common.boarded.carcass import Carcass
from flatpack.pieces.common.boarded.rows import Row
from flatpack.profiles import Board

BITE = 9.0
"""Bite wanted in edge and post, in the screw's diameters: 8 d and its tip (common practice)."""
ASIDE = 5.0
"""How far crossing screws stand from the middle between them, mm: one below, one above."""
WOOD_BETWEEN = 4.0
"""Wood between two screws that pass one another, mm (common practice, no source)."""
LEAST_SHARE = 40.0
"""Width of a board for each of its screws, mm; a narrower one gets fewer (common practice)."""
OVER_THE_YEAR = 12.0
"""Change of a board's moisture from dry summer to wet autumn, % (common practice, no source)."""
MOVES = 1.4
"""Movement between two screws across the grain that wood and holes take, mm (common practice)."""
EDGE_IN_SCREWS = 3.0
"""Edge distance of a screw in its diameters: Eurocode 5 table 8.2, predrilled (3 d)."""


def screws(
    out: Carcass,
    *,
    key: str,
    step: str,
    through: str,
    into: str,
    places: tuple[Vec, ...],
    direction: Vec,
) -> FaceScrews:
    """Countersunk screws with the box's screw, tip cover and bite."""
    return FaceScrews(
        key=key,
        step=step,
        through=through,
        into=into,
        places=places,
        direction=direction,
        screw=out.timber.screw,
        tip_cover=out.timber.tip_cover,
        most_bite=BITE * out.timber.screw.diameter,
    )


def row_heights(out: Carcass, row: Row, aside: float) -> tuple[float, ...]:
    """Heights of the screws in one board, moved aside from the even spread."""
    low, high = row.low, row.low + row.width
    found = across_board(out.timber.sides, low, high, out.wish.board_screws)
    return tuple(z + aside for z in found)


def across_board(board: Board, low: float, high: float, count: int) -> tuple[float, ...]:
    """Places of up to `count` screws across a board: evenly, but no further apart than it moves."""
    count = max(min(count, int((high - low) / LEAST_SHARE)), 1)
    if board.movement > 0.0 and count > 1:
        most = MOVES / (board.movement * OVER_THE_YEAR) * count / (count - 1)
        middle, half = (low + high) / 2.0, min(high - low, most) / 2.0
        low, high = middle - half, middle + half
    return spread(low, high, count)


def clear_by(out: Carcass) -> float:
    """Distance of two screws' axes that pass one another, mm."""
    return out.timber.screw.diameter + WOOD_BETWEEN
