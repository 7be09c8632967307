"""Side boards one above the other: how many, how wide, and the gap that they swell into."""

from __future__ import annotations

import math
from typing import NamedTuple

from flatpack.pieces.family import Workings, mm
from flatpack.profiles import Board

WET_SEASON = 8.0
"""Moisture that a board gains from a dry workshop to a wet autumn, % (common practice, no
source)."""
LEFT_WET = 1.5
"""Gap that must be left in the wet season, mm (common practice, no source)."""
LEAST_RIP = 60.0
"""Narrowest board worth ripping, mm: it still takes two screws (common practice, no source)."""
EVEN = 0.05
"""Heights nearer than this are equal, mm."""


class Row(NamedTuple):
    """One board of a side or lid: where it begins, as above ground, and its width, mm."""

    low: float
    width: float


def swelling_gap(
    name: str, board: Board, width: float, asked: float | None, notes: Workings
) -> float:
    """Gap between boards side by side: as asked, or what one swells and a little more, mm."""
    swells = notes.add(
        f"One {name} swells in the wet season",
        width * board.movement * WET_SEASON,
        f"{mm(width)} wide x {board.movement:g} for each % of moisture x {mm(WET_SEASON)} %"
        + ("" if board.movement else " (plywood hardly moves)"),
    )
    if asked is not None:
        return notes.add(f"Gap between {name}s", asked, "as asked")
    return notes.add(
        f"Gap between {name}s",
        float(math.ceil(swells + LEFT_WET - 1e-9)),
        f"{swells:.1f} of swelling + {mm(LEFT_WET)} left, to the next whole mm",
    )


def rows_between(
    board: Board,
    wanted: float,
    ends: tuple[float, float],
    gap: float,
    notes: Workings,
    name: str = "Height of the side boards",
) -> tuple[Row, ...]:
    """Boards that fill a side: alike from sheet; bought ones with the last one ripped.

    `wanted` is the board's width as sold, `ends` the first board's and the last one's outer edge.
    """
    low, high = ends
    if high - low <= LEAST_RIP:
        return (Row(low, max(high - low, 1.0)),)
    widths = _sheet(high - low, wanted, gap) if board.kind != "planed" else ()
    widths = widths or _planed(high - low, wanted, gap)
    told = " + ".join(mm(w) for w in widths)
    notes.add(
        name,
        high - low,
        f"{told}" + (f" + {len(widths) - 1} x {mm(gap)} gaps" if len(widths) > 1 else ""),
    )
    found = []
    for width in widths:
        found.append(Row(low, width))
        low += width + gap
    return tuple(found)


def _sheet(height: float, wanted: float, gap: float) -> tuple[float, ...]:
    """Boards alike, as near to the wanted width as a whole number of them comes."""
    near = max(int((height + gap) / (wanted + gap)), 1)
    count = min((near, near + 1), key=lambda n: abs((height + gap) / n - gap - wanted))
    return ((height + gap) / count - gap,) * count


def _planed(height: float, sold: float, gap: float) -> tuple[float, ...]:
    """Whole boards from below; the rest ripped, shared with boards below when it is narrow."""
    whole = int((height + gap + EVEN) / (sold + gap))
    rest = height - whole * (sold + gap)
    if rest + gap < EVEN:
        return (sold,) * whole
    if rest >= LEAST_RIP or whole == 0:
        return (*(sold,) * whole, rest)
    for sharing in range(1, whole + 1):
        shared = (sharing * sold + rest) / (sharing + 1)
        if shared >= LEAST_RIP:
            break
    return (*(sold,) * (whole - sharing), *(shared,) * (sharing + 1))
