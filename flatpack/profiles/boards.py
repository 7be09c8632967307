"""Boards: sheets that strips are ripped from, and planed boards bought in widths and lengths."""

from __future__ import annotations

from flatpack.parameters import (
    UNSET,
    choice,
    count,
    flag,
    item,
    length,
    lengths,
    notes,
    number,
    pairs,
    record,
    text,
)


@record
class Board:
    """A board as sold.

    `thickness` is the measured one, from which everything is derived; `nominal` only names it.
    A planed board has the `widths` (measured) and `lengths` that are sold, a sheet its `sheets` as
    (length along the face grain, width).  `layers` counts a plywood's plies; solid wood has one.
    `movement` is the change of width across the grain per percent of moisture, as a fraction.
    `strength` is the class that it is marked with (a stamp on each board), as a material's name;
    left out, the lowest class of its kind is taken.
    """

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    kind: str = choice(UNSET, ("sheet", "planed"), does="ripped from sheet, or bought planed")
    nominal: float = length(UNSET, least=1, most=200, does="thickness by which it is sold")
    thickness: float = length(UNSET, least=1, most=200, does="thickness as measured")
    widths: tuple[float, ...] = lengths((), least=5, most=3000, does="planed widths sold, measured")
    lengths: tuple[float, ...] = lengths((), least=100, does="lengths in which it is sold")
    sheets: tuple[tuple[float, float], ...] = pairs((), least=100, does="sheet sizes")
    material: str = text(UNSET, does="what it is made of", longest=60)
    grain: bool = flag(True, does="whether the grain's direction matters")
    solid: bool = flag(False, does="solid wood, which moves across the grain and splits")
    density: float = number(UNSET, least=50, most=2000, unit="kg/m3", does="mean density")
    layers: int = count(1, least=1, most=50, does="plies")
    movement: float = number(0.0, least=0, most=0.01, does="change across the grain per % moisture")
    strength: str | None = item("materials", None, does="strength class it is marked with")
    source: str = text(UNSET, does="where the sizes come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")
