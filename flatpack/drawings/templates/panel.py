"""Windows of one face of a part on paper: words, stretches at full size, distances, hole table.

A-L: Side rail, left hand             words
Lay on the BACK face ...
[=|======|=]  <-- grain -->           map of the part, these windows heavy
   ~~~+-------------+
130 --|  o   o      ~                 zigzag: the part goes on
 60 --|--o---o------~
      +==|===|======+                 datum edge, heavy
        120 180
no.  x    y   hole    for             table
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from flatpack.drawings.figures import mm
from flatpack.drawings.holes import depth_of, size_of
from flatpack.drawings.marks import PartGroup
from flatpack.drawings.part_view import hidden_count
from flatpack.drawings.ruled import ruled_table
from flatpack.drawings.shapes import Closed, Stroke
from flatpack.drawings.templates.part_map import MAP_HEIGHT, part_map
from flatpack.drawings.templates.tiles import Tile
from flatpack.drawings.templates.view import ABOVE, BELOW, cell_width, marks_below, view
from flatpack.drawings.templates.windows import Window
from flatpack.drawings.templates.wrapping import block, block_height
from flatpack.geometry import Point
from flatpack.geometry.shapes import rectangle
from flatpack.model import Feature
from flatpack.wording import english as part_words
from flatpack.wording import english_templates as words

LEAST = 84.0
"""Least width of a panel, so that its words and table can be read, mm."""
INSET = 2.0
_ROW = 5.0
_BETWEEN = 2.0

Texts = list[tuple[str, float, bool]]


class Shown(NamedTuple):
    """A window, or the tile of it, that a panel shows."""

    window: Window
    tile: Tile

    @property
    def size(self) -> tuple[float, float]:
        """Room that the stretch takes with its distances, mm."""
        box = self.tile.box
        return cell_width(box), ABOVE + box[3] - box[1] + BELOW


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """Windows of one face of a part, to be put on a page no wider than `most` mm.

    `groups` are the parts that it is for: all are marked alike.  `others` are the marks of the
    other hand.
    """

    shown: tuple[Shown, ...]
    groups: tuple[PartGroup, ...]
    most: float
    piece: str
    code: str
    others: tuple[str, ...] = ()

    @property
    def window(self) -> Window:
        """The first window."""
        return self.shown[0].window

    @property
    def size(self) -> tuple[float, float]:
        """Width and height on the page, mm."""
        lines = self.lines()
        width = max(LEAST, *(_width(line) + 2.0 * INSET for line in lines))
        rows = table_rows(self)
        table = _ROW * (1 + len(rows)) if rows else 0.0
        said = block_height(self.texts(), width - 2.0 * INSET)
        return width, said + MAP_HEIGHT + sum(map(_height, lines)) + table + 2.0 * INSET

    def lines(self) -> list[list[Shown]]:
        """The stretches side by side, in as many lines as the width asks for."""
        found: list[list[Shown]] = []
        for one in self.shown:
            if found and _width([*found[-1], one]) <= self.most - 2.0 * INSET:
                found[-1].append(one)
            else:
                found.append([one])
        return found

    def texts(self) -> Texts:
        """Words above the drawing: (text, height, bold)."""
        part, window = self.window.part, self.window
        heading = words.marks_heading(
            [g.mark for g in self.groups], part.name, [g.part.hand for g in self.groups]
        )
        return [(heading, 3.5, True), (words.lay_on(window.face, window.left), 2.5, True),
                *((line, 2.5, False) for line in self._sentences())]  # fmt: skip

    def _sentences(self) -> Iterator[str]:
        window, tile = self.window, self.shown[0].tile
        yield words.LINE_UP
        if tile.count > 1:
            yield words.tile(*tile.place)
        yield words.other_hand(", ".join(self.others)) if self.others else words.NOT_HANDED
        hidden = hidden_count(window.part, window.face)
        if not window.first:
            yield words.SECOND_FACE
        elif hidden:
            yield words.under_here(hidden, "back" if window.face == "show" else "show")
        count = sum(g.count for g in self.groups)
        yield words.stock(count, mm(window.part.thickness), self.piece, self.code)

    def strokes(self, x: float, y: float) -> Iterator[Stroke]:
        """The panel with its lower left at x, y of the page."""
        width, height = self.size
        room, left = width - 2.0 * INSET, x + INSET
        yield Stroke("thin-line", Closed(rectangle(width, height, x, y)))
        top = y + height - INSET
        yield from block(self.texts(), Point(left, top), room)
        top -= block_height(self.texts(), room)
        yield from part_map(self.window, [s.tile.box for s in self.shown], Point(left, top), room)
        top -= MAP_HEIGHT
        for line in self.lines():
            at = left + (room - _width(line)) / 2.0
            for one in line:
                yield from view(one.window, one.tile, Point(at, top))
                at += one.size[0] + _BETWEEN
            top -= _height(line)
        if rows := table_rows(self):
            yield from ruled_table(words.TABLE, rows, _columns(room), Point(left, top))


def _width(line: Sequence[Shown]) -> float:
    return sum(one.size[0] for one in line) + _BETWEEN * (len(line) - 1)


def _height(line: Sequence[Shown]) -> float:
    return max(one.size[1] for one in line)


def _columns(width: float) -> tuple[float, ...]:
    fixed = (8.0, 15.0, 13.0, 27.0)
    return (*fixed, width - sum(fixed))


def table_rows(panel: Panel) -> Sequence[tuple[str, ...]]:
    """Rows of the hole table: number, x from datum end, y from datum edge, hole, what for."""
    return [
        (str(spot.number), mm(spot.x), mm(spot.y), hole_words(feature), feature.purpose)
        for one in panel.shown
        for spot in marks_below(one.window, one.tile.box)
        for feature in spot.features
    ]


def hole_words(feature: Feature) -> str:
    """Diameter and depth, e.g. 'Ø9 through', 'Ø3 x 18', 'pocket Ø9.5'."""
    size = size_of(feature)
    name = part_words.SHORT.get(feature.operation, "")
    text = name if size is None else f"{name}Ø{mm(size)}"
    if feature.depth is not None:
        return f"{text} x {mm(feature.depth)}"
    through = depth_of(feature) == part_words.THROUGH
    return f"{text} {part_words.THROUGH}" if through else text
