"""All parts of one board laid side by side in rows, as many as are cut; not a nest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from flatpack.drawings.boxes import bounds_of
from flatpack.drawings.figures import mm
from flatpack.drawings.marks import PartGroup
from flatpack.drawings.part_view import part_strokes
from flatpack.drawings.running import top_of
from flatpack.drawings.settings import Settings
from flatpack.drawings.shapes import Drawing, Stroke, Text
from flatpack.geometry import Point
from flatpack.model import Assembly
from flatpack.profiles import Board
from flatpack.wording import english as words

_LETTER = 5.0
_NAME_ROOM = 12.0
"""Room under each part for its name, mm."""
_LONGEST = 2400.0
"""Length of a row where the board's own size doesn't give one, mm."""


class _Place(NamedTuple):
    group: PartGroup
    number: int
    x: float
    y: float


def board_drawings(
    assembly: Assembly, found: tuple[PartGroup, ...], settings: Settings
) -> tuple[Drawing, ...]:
    """One drawing per board, in the order of its first part."""
    boards: dict[tuple[str, str], list[PartGroup]] = {}
    for group in found:
        board = group.part.board
        boards.setdefault((board.key, mm(board.thickness)), []).append(group)
    keys = [key for key, _ in boards]
    return tuple(
        _drawing(assembly, rows, settings, key if keys.count(key) == 1 else f"{key}-{thickness}")
        for (key, thickness), rows in boards.items()
    )


def _drawing(assembly: Assembly, found: list[PartGroup], settings: Settings, name: str) -> Drawing:
    board = found[0].part.board
    spacing = _spacing(settings)
    strokes: list[Stroke] = []
    for place in _places(found, _row_length(board, found), spacing):
        strokes += part_strokes(place.group, settings, place.x, place.y)
        strokes.append(_name(place))
    title = words.board_title(board.name, mm(board.thickness))
    low = bounds_of(strokes, 0.0)[1]
    strokes += _heading(
        (title, words.SIDE_BY_SIDE, words.sheet_line(assembly.name, settings.code, assembly.date)),
        low - 15.0,
    )
    notes = (("piece", assembly.name), ("code", settings.code), ("board", board.name))
    every = tuple(strokes)
    return Drawing(f"all-parts-{name}", title, bounds_of(every, 10.0), every, notes)


def _spacing(settings: Settings) -> float:
    """Cutter and margin between two parts; never less than 10 mm, for the eye."""
    shop = settings.workshop
    return max(shop.spacing + max(shop.cutters, default=0.0), 10.0)


def _row_length(board: Board, found: Iterable[PartGroup]) -> float:
    longest = max(group.part.length for group in found)
    sheets = [length for length, _ in board.sheets]
    return max(longest, max(sheets, default=_LONGEST))


def _places(found: Iterable[PartGroup], row: float, spacing: float) -> Iterator[_Place]:
    """Rows downwards from the origin; a row is as high as its highest part."""
    x, y, high = 0.0, 0.0, 0.0
    for group in found:
        part = group.part
        wide = max(part.length, 45.0)
        for number in range(1, group.count + 1):
            if x > 0.0 and x + wide > row:
                x, y, high = 0.0, y - high - _NAME_ROOM - spacing, 0.0
            high = max(high, top_of(part))
            yield _Place(group, number, x, y - top_of(part))
            x += wide + spacing


def _name(place: _Place) -> Stroke:
    text = words.copy_of(place.group.mark, place.number, place.group.count)
    return Stroke("text", Text(Point(place.x, place.y - 3.0), text, _LETTER, up="top"))


def _heading(lines: Iterable[str], y: float) -> Iterator[Stroke]:
    for number, line in enumerate(lines):
        height = 10.0 if number == 0 else 7.0
        yield Stroke("text", Text(Point(0.0, y), line, height, up="top", bold=number == 0))
        y -= 1.8 * height
