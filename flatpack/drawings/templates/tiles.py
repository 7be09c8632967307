"""A window larger than the page, cut into tiles that overlap and share register marks.

+--------+-+--------+
|      + | | +      |       the strip between the two lines is on both tiles,
|        | |        |       and so are the marks (+) in its middle
+--------+-+--------+
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.geometry import Point

OVERLAP = 20.0
"""Strip that neighbours share, mm."""


class Mark(NamedTuple):
    """A register mark: its name, the same on both tiles, and its place in the part as seen."""

    name: str
    at: Point


class Tile(NamedTuple):
    """Part of a window: `box` in the part as seen; rows count from the top, columns from left."""

    box: Box
    row: int = 1
    rows: int = 1
    column: int = 1
    columns: int = 1
    marks: tuple[Mark, ...] = ()

    @property
    def sheets(self) -> int:
        """Tiles of the window."""
        return self.rows * self.columns

    @property
    def place(self) -> tuple[int, int, int, int]:
        """Row, rows, column, columns."""
        return self.row, self.rows, self.column, self.columns


def tiles(box: Box, room: tuple[float, float]) -> tuple[Tile, ...]:
    """Tiles that cover a box, none larger than `room` (width, height), from the upper left."""
    across, up = steps(box[2] - box[0], room[0]), steps(box[3] - box[1], room[1])
    rows, columns = len(up), len(across)
    if rows == columns == 1:
        return (Tile(box),)
    marks = tuple(_marks(box, across, up))
    found = []
    for row in range(rows):
        low, high = up[rows - 1 - row]
        for column, (left, right) in enumerate(across):
            own = (box[0] + left, box[1] + low, box[0] + right, box[1] + high)
            inside = tuple(m for m in marks if _holds(own, m.at))
            found.append(Tile(own, row + 1, rows, column + 1, columns, inside))
    return tuple(found)


def steps(length: float, room: float) -> list[tuple[float, float]]:
    """Stretches of equal length, overlapping, that cover a length."""
    if length <= room:
        return [(0.0, length)]
    count = max(math.ceil((length - OVERLAP) / (room - OVERLAP) - 1e-9), 1)
    pitch = (length - OVERLAP) / count
    return [(i * pitch, i * pitch + pitch + OVERLAP) for i in range(count)]


def _marks(
    box: Box, across: list[tuple[float, float]], up: list[tuple[float, float]]
) -> Iterator[Mark]:
    """Two marks on each shared strip of each tile, well apart."""
    number = 0
    for left, _ in across[1:]:
        for low, high in up:
            for share in (0.25, 0.75):
                number += 1
                at = Point(box[0] + left + OVERLAP / 2.0, box[1] + low + share * (high - low))
                yield Mark(f"R{number}", at)
    for low, _ in up[1:]:
        for left, right in across:
            for share in (0.25, 0.75):
                number += 1
                at = Point(box[0] + left + share * (right - left), box[1] + low + OVERLAP / 2.0)
                yield Mark(f"R{number}", at)


def _holds(box: Box, at: Point, clear: float = 5.0) -> bool:
    return box[0] + clear <= at.x <= box[2] - clear and box[1] + clear <= at.y <= box[3] - clear
