"""The table under a panel's windows: a row a hole, its words wrapped and never cut off.

no.  x      y     hole                    for
7    409.5  12    Ø4.2 through, sink Ø8   Wood screw 4 mm, into side rail; meets A-L hole 31
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from flatpack.drawings.figures import mm
from flatpack.drawings.holes import Spot, depth_of, size_of
from flatpack.drawings.lettering import text_width
from flatpack.drawings.notch_bores import is_rod, seat
from flatpack.drawings.shapes import Line, Stroke, Text
from flatpack.drawings.templates.view import marks_below
from flatpack.drawings.templates.wrapping import wrapped
from flatpack.geometry import Point
from flatpack.model import Feature, Part
from flatpack.wording import english as part_words
from flatpack.wording import english_templates as words

if TYPE_CHECKING:
    from flatpack.drawings.templates.panel import Panel

LEAST = 110.0
"""Least width with a column for what a hole is for, mm; narrower, that stands beneath the row."""
_HEIGHT = 2.5
_LINE, _PAD = 3.75, 1.25
_FIGURES = (8.0, 15.0, 13.0)
_HOLE = 40.0
"""Greatest width of the column that says what is drilled, mm."""
_SUNK = frozenset({"countersink", "counterbore"})


class HoleRow(NamedTuple):
    """A row: number, x from datum end, y from datum edge, what is drilled, what for."""

    number: str
    x: str
    y: str
    hole: str
    purpose: str


def table_rows(panel: Panel, meets: bool = True) -> tuple[HoleRow, ...]:
    """Rows of the holes in the panel's windows; `meets` adds which hole each one meets."""
    return tuple(
        _row(panel, spot, meets)
        for one in panel.shown
        for spot in marks_below(one.window, one.tile.box)
    )


def _row(panel: Panel, spot: Spot, meets: bool) -> HoleRow:
    part = panel.window.part
    hole = " + ".join(hole_words(f, part) for f in spot.features)
    purpose = _purpose(spot, sum(g.count for g in panel.groups) > 1)
    if meets:
        said = {panel.told.meets.get((g.mark, spot.number), "") for g in panel.groups}
        met = said.pop() if len(said) == 1 else ""
        # The mark of what it meets stands for its name.
        purpose = f"{words.without_mate(purpose)}; {met}" if met else purpose
    return HoleRow(str(spot.number), mm(spot.x), mm(spot.y), hole, purpose)


def _purpose(spot: Spot, several: bool) -> str:
    """What goes in; a hand is left out where the same sheet serves several parts."""
    main = [f for f in spot.features if f.operation not in _SUNK] or spot.features
    said = ", ".join(dict.fromkeys(f.purpose for f in main if f.purpose))
    for hand in filter(None, part_words.HANDS.values()):
        said = said.replace(f", {hand}", "") if several else said
    return said


def hole_words(feature: Feature, part: Part) -> str:
    """Diameter and depth, e.g. 'Ø9 through', 'Ø3 x 18', 'pocket Ø9.5'; how a notch is made."""
    if is_rod(feature):
        bore = seat(part, feature)
        return words.bored_notch(mm(2.0 * bore.radius)) if bore else words.SAWN_NOTCH
    size = size_of(feature)
    name = part_words.SHORT.get(feature.operation, "")
    text = name if size is None else f"{name}Ø{mm(size)}"
    if feature.depth is not None:
        return f"{text} x {mm(feature.depth)}"
    through = depth_of(feature) == part_words.THROUGH
    return f"{text} {part_words.THROUGH}" if through else text


def table_height(rows: Sequence[HoleRow], room: float) -> float:
    """Height of the table in a room so wide, mm; nought without rows."""
    if not rows:
        return 0.0
    return sum(_high(cells) for cells in _cells(rows, room))


def table_strokes(rows: Sequence[HoleRow], corner: Point, room: float) -> Iterator[Stroke]:
    """The table with its upper left at `corner`."""
    y, right = corner.y, corner.x + room
    yield Stroke("thin-line", Line(corner, Point(right, y)))
    for order, cells in enumerate(_cells(rows, room)):
        for x, lines, down in cells:
            for i, line in enumerate(lines):
                at = Point(corner.x + x + 1.0, y - _PAD / 2.0 - (down + i + 0.5) * _LINE)
                yield Stroke("text", Text(at, line, _HEIGHT, 0.0, "left", "middle", order == 0))
        y -= _high(cells)
        yield Stroke("thin-line", Line(Point(corner.x, y), Point(right, y)))


_Cells = list[tuple[float, list[str], int]]
"""Of a row: where each cell starts across, its lines, and how many lines down it starts."""


def _cells(rows: Sequence[HoleRow], room: float) -> Iterator[_Cells]:
    every = (HoleRow(*words.TABLE), *rows)
    drilled = min(max(text_width(row.hole, _HEIGHT) for row in every) + 3.0, _HOLE)
    for row in every:
        x, cells = 0.0, []
        for text, wide in zip(row[:3], _FIGURES, strict=True):
            cells.append((x, [text], 0))
            x += wide
        beside = room >= LEAST
        wide = drilled if beside else room - x
        hole = wrapped(row.hole, wide - 2.0, _HEIGHT)
        cells.append((x, hole, 0))
        start, down = (x + drilled, 0) if beside else (_FIGURES[0], len(hole))
        if beside or row.number != words.TABLE[0]:
            cells.append((start, wrapped(row.purpose, room - start - 2.0, _HEIGHT), down))
        yield cells


def _high(cells: _Cells) -> float:
    return max(down + len(lines) for _, lines, down in cells) * _LINE + _PAD
