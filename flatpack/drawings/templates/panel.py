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
from functools import cached_property
from typing import NamedTuple

from flatpack.drawings.marks import PartGroup
from flatpack.drawings.shapes import Closed, Stroke
from flatpack.drawings.templates.hole_table import table_height, table_rows, table_strokes
from flatpack.drawings.templates.in_piece import InPiece
from flatpack.drawings.templates.packing import GAP
from flatpack.drawings.templates.panel_words import heading, sentences
from flatpack.drawings.templates.part_map import MAP_HEIGHT, part_map
from flatpack.drawings.templates.tiles import Tile
from flatpack.drawings.templates.view import ABOVE, below_room, cell_width, view, whole
from flatpack.drawings.templates.windows import Window
from flatpack.drawings.templates.wrapping import block, block_height
from flatpack.frozen import frozen
from flatpack.geometry import Point
from flatpack.geometry.shapes import rectangle

LEAST = 87.0
"""Least width of a panel, so that its words and table can be read, mm."""
INSET = 2.0
_BETWEEN = 2.0
_TABLE = 72.0
"""Least width of the table, mm."""
_MAP_BESIDE = 60.0
"""Width of the map where it stands beside the words, mm."""


class Shown(NamedTuple):
    """A window, or the tile of it, that a panel shows."""

    window: Window
    tile: Tile

    @property
    def size(self) -> tuple[float, float]:
        """Room that the stretch takes with its distances, mm."""
        box = self.tile.box
        return cell_width(box), ABOVE + box[3] - box[1] + below_room(self.window, box)


class Plan(NamedTuple):
    """Sizes of a panel: words' width and height, height of the lines, where the table starts.

    `beside` is how far right of the inset the table stands; None: below the lines.
    """

    width: float
    said: float
    head: float
    lines: list[list[Shown]]
    table: float
    beside: float | None

    @property
    def height(self) -> float:
        """Height of the whole panel, mm."""
        drawn = sum(map(_height, self.lines))
        body = drawn + self.table if self.beside is None else max(drawn, self.table + ABOVE)
        return self.head + body + 2.0 * INSET


@frozen
class Panel:
    """Windows of one face of a part, to be put on a page no wider than `most` mm.

    `groups` are the parts that it is for: all are marked alike.  `others` are the marks of the
    other hand.  `wide` gives it the whole width, so that its words take fewer lines.
    """

    shown: tuple[Shown, ...]
    groups: tuple[PartGroup, ...]
    most: float
    told: InPiece
    others: tuple[str, ...] = ()
    wide: bool = False

    @property
    def window(self) -> Window:
        """The first window."""
        return self.shown[0].window

    @property
    def marks(self) -> str:
        """Marks of the parts."""
        return ", ".join(g.mark for g in self.groups)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height on the page, mm."""
        return self.plan.width, self.plan.height

    @cached_property
    def plan(self) -> Plan:
        """Where its words, stretches and table stand."""
        return _plan(self)

    def strokes(self, x: float, y: float) -> Iterator[Stroke]:
        """The panel with its lower left at x, y of the page."""
        plan = self.plan
        left, top, room = x + INSET, y + plan.height - INSET, plan.width - 2.0 * INSET
        yield Stroke("thin-line", Closed(rectangle(plan.width, plan.height, x, y)))
        yield from block(heading(self), Point(left, top), plan.said)
        beside = plan.said < room
        down = block_height(heading(self), plan.said)
        at = Point(left + plan.said, top) if beside else Point(left, top - down)
        below = max(down, MAP_HEIGHT) if beside else down + MAP_HEIGHT
        yield from block(sentences(self), Point(left, top - below), room)
        boxes = [s.tile.box for s in self.shown]
        yield from part_map(self.window, boxes, at, room - plan.said if beside else room)
        yield from _drawn(self, plan, Point(left, top - plan.head), room)


def _drawn(panel: Panel, plan: Plan, corner: Point, room: float) -> Iterator[Stroke]:
    """The stretches line by line, and the table."""
    face, top = whole(panel.window), corner.y
    for line in plan.lines:
        spare = 0.0 if plan.beside is not None else (room - _width(line)) / 2.0
        at = corner.x + spare
        # From right to left where the datum end is at the right, as the windows lie on the part.
        for one in line if panel.window.left else reversed(line):
            yield from view(one.window, one.tile, Point(at, top), face, panel.marks)
            at += one.size[0] + _BETWEEN
        top -= _height(line)
    if rows := table_rows(panel):
        x = plan.beside or 0.0
        place = Point(corner.x + x, top if plan.beside is None else corner.y - ABOVE)
        yield from table_strokes(rows, place, room - x)


def _plan(panel: Panel) -> Plan:
    lines = _lines(panel)
    widest = max(map(_width, lines))
    width = max(LEAST, widest + 2.0 * INSET)
    # With no room for another beside it, it may have the whole width.
    if panel.wide or width > (panel.most - GAP) / 2.0:
        width = panel.most
    room = width - 2.0 * INSET
    said = room - _MAP_BESIDE if room >= 2.0 * _MAP_BESIDE else room
    high = block_height(heading(panel), said)
    top = max(high, MAP_HEIGHT) if said < room else high + MAP_HEIGHT
    head = top + block_height(sentences(panel), room)
    rows = table_rows(panel)
    spare = room - widest - 4.0
    beside = widest + 4.0 if spare >= _TABLE and len(lines) == 1 else None
    table = table_height(rows, room - (beside or 0.0))
    return Plan(width, said, head, lines, table, beside)


def _lines(panel: Panel) -> list[list[Shown]]:
    """The stretches side by side, in as many lines as the width asks for."""
    found: list[list[Shown]] = []
    for one in panel.shown:
        if found and _width([*found[-1], one]) <= panel.most - 2.0 * INSET:
            found[-1].append(one)
        else:
            found.append([one])
    return found


def _width(line: Sequence[Shown]) -> float:
    return sum(one.size[0] for one in line) + _BETWEEN * (len(line) - 1)


def _height(line: Sequence[Shown]) -> float:
    return max(one.size[1] for one in line)
