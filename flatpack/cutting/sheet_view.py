"""Filling one sheet by value: strips across the sheet, columns in a strip, parts in a column.

    +-----------------------------+      strips run along x and stack up along y;
    |  strip 2                    |      a strip is cut into columns, a column into parts,
    +------+-------+------+-------+      so three directions in turn and no more.
    |  A   |   B   |  C   |       |
    |      +-------+      | rest  |      A sheet that is cut across first is the same
    |      |   B   |      |       |      thing with x and y changed over.
    +------+-------+------+-------+

All sizes hold one kerf: a part of l x w counts as (l + k) x (w + k), a sheet as (L + k) x (W + k),
so that n parts in a row take n lengths and n - 1 kerfs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

Mode = Literal["level", "single", "stack", "recut"]
"""How free the third direction is: `level` parts as high as their strip (two stages), `single`
one part a column, trimmed (three), `stack` parts of one width over each other (three), `recut`
narrower parts over wider ones, trimmed once more (three and a trimming cut)."""


class Option(NamedTuple):
    """One way to lay a part: its number, extent along the strip, extent across it."""

    part: int
    x: int
    y: int


class Column(NamedTuple):
    """Parts over each other, all within `x`."""

    x: int
    options: tuple[Option, ...]

    @property
    def y(self) -> int:
        """Height of the column."""
        return sum(o.y for o in self.options)


class Strip(NamedTuple):
    """Columns side by side, as high as the highest."""

    columns: tuple[Column, ...]

    @property
    def y(self) -> int:
        """Height of the strip."""
        return max(c.y for c in self.columns)

    @property
    def parts(self) -> list[int]:
        """Numbers of the parts, one for each copy."""
        return [o.part for c in self.columns for o in c.options]


class Layout(NamedTuple):
    """Strips on a sheet; `across` when the first cuts run across the sheet's length."""

    across: bool
    strips: tuple[Strip, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """A sheet as seen along its first cuts: extents, and the ways to lay each part on it."""

    across: bool
    x: int
    y: int
    options: tuple[Option, ...]
    mode: Mode


def view_of(
    room: tuple[int, int],
    sizes: Sequence[tuple[int, int]],
    turns: Sequence[tuple[bool, bool]],
    across: bool,
    mode: Mode,
) -> View:
    """The view of a sheet of `room` = (length, width).

    `sizes` are the parts' (length, width); `turns` say for each part whether it may lie with its
    length along the sheet's length, and whether across it.
    """
    options = []
    for part, ((length, width), (along, cross)) in enumerate(zip(sizes, turns, strict=True)):
        lies = [(length, width)] if along else []
        lies += [(width, length)] if cross and (length != width or not along) else []
        for x, y in lies:
            if x <= room[0] and y <= room[1]:
                options.append(Option(part, y, x) if across else Option(part, x, y))
    options.sort(key=lambda o: (o.x, -o.y, o.part))
    x, y = (room[1], room[0]) if across else room
    return View(across=across, x=x, y=y, options=tuple(options), mode=mode)
