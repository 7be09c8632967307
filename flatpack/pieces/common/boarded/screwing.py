"""How a boarded box is screwed: how deep the screws bite, and at which heights they stand."""

from __future__ import annotations

from flatpack.geometry import Vec
from flatpack.joinery import FaceScrews
from flatpack.pieces.common.boarded.carcass import Carcass
from flatpack.pieces.common.boarded.rows import Row
from flatpack.profiles import Board

BITE = 9.0
"""Bite wanted in edge and post, in the screw's diameters: 8 d and its tip (common practice)."""
ASIDE = 5.0
"""How far crossing screws stand from the middle between them, mm: one below, one above."""
WOOD_BETWEEN = 4.0
"""Wood between two screws that pass one another, mm (common practice, no source)."""
APART_IN_SCREWS = 4.0
"""Least from screw to screw across the grain in their diameters: Eurocode 5 table 8.2, predrilled
(4 d)."""
OVER_THE_YEAR = 12.0
"""Change of a board's moisture from dry summer to wet autumn, % (common practice, no source)."""
MOVES = 1.4
"""Movement between two screws across the grain that wood and holes take, mm (common practice)."""
EDGE_IN_SCREWS = 3.0
"""Edge distance of a screw in its diameters: Eurocode 5 table 8.2, predrilled (3 d)."""
Places = tuple[float, ...]
"""Places across a board, rising, mm."""


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
    found = across_board(out, out.timber.sides, low, high, out.wish.board_screws)
    return tuple(z + aside for z in found)


def across_board(out: Carcass, board: Board, low: float, high: float, count: int) -> Places:
    """Places of up to `count` screws across a board, well inside its edges."""
    share = (high - low) / max(count, 1) / 2.0
    edge = max(share, min(EDGE_IN_SCREWS * out.timber.screw.diameter, (high - low) / 2.0))
    return between(out, board, low + edge, high - edge, count)


def between(out: Carcass, board: Board, low: float, high: float, count: int) -> Places:
    """Up to `count` screws from `low` to `high`, no nearer than they may be.

    Nor further apart than the wood moves between them over the year.
    """
    room = max(high - low, 0.0)
    fit = 1 + int(room / (APART_IN_SCREWS * out.timber.screw.diameter) + 1e-9)
    count, middle = max(min(count, fit), 1), (low + high) / 2.0
    if count == 1:
        return (middle,)
    if board.movement > 0.0:
        room = min(room, MOVES / (board.movement * OVER_THE_YEAR))
    return tuple(middle + room * (i / (count - 1) - 0.5) for i in range(count))


def clear_by(out: Carcass) -> float:
    """Distance of two screws' axes that pass one another, mm."""
    return out.timber.screw.diameter + WOOD_BETWEEN
