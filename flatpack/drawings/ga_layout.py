"""Where the three views stand on the sheet, on which paper, and at what reduction.

| rows |   main   | rows rows |  end  | rows |     rows: lines of dimensions beside a view
| rows |   plan   | rows      parts list
|      |          |           title block
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from flatpack.drawings.boxes import Box, meet
from flatpack.drawings.ga_measure import Measure, Room, Where
from flatpack.drawings.projection import CROSSWISE, LENGTHWISE, OPENING, View, Views
from flatpack.drawings.shapes import Dimension
from flatpack.drawings.title_block import A2, A3, Paper
from flatpack.geometry import Point, Vec
from flatpack.model import Bearing

SCALES = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
"""Reductions of ISO 5455."""
_LEGIBLE = 10.0
"""Beyond this reduction a larger sheet is taken first, where it saves a step."""
_TRIED = (
    *((A3, s) for s in SCALES if s <= _LEGIBLE),
    (A2, _LEGIBLE),
    *((A3, s) for s in SCALES if s > _LEGIBLE),
)
_ROW, _FIRST, _TEXT = 6.8, 1.5, 4.5
"""From one dimension line to the next; from the view to where rows count from; text beside, mm."""
TITLE = 4.0
"""From a view up to its title, mm."""
_TITLE_ROOM, _CLEAR = 8.5, 4.0

Rows = Mapping[tuple[str, Where], int]
"""Dimension lines beside a view, by its name and side."""


class Layout(NamedTuple):
    """The views, the reduction, and each view's place: paper of its origin, and its box, mm.

    `rooms` are the views' boxes with titles and dimensions, `table` the upper left of each block
    of the parts list (none where there is no room for one).
    """

    views: Views
    paper: Paper
    scale: float
    origins: dict[str, Point]
    boxes: dict[str, Box]
    rooms: tuple[Box, ...]
    table: tuple[Point, ...]

    def at(self, view: View, place: Point) -> Point:
        """A place of a view, model mm, on the paper."""
        corner = self.origins[view.name]
        return Point(corner.x + place.x * self.scale, corner.y + place.y * self.scale)

    def on_paper(self, view: View, place: Vec) -> Point:
        """A place of the piece on the paper."""
        return self.at(view, view.at(place))

    def dimension(self, measure: Measure) -> Dimension:
        """The dimension on the paper, beside its view's box."""
        a, b = (self.on_paper(measure.view, v) for v in (measure.a, measure.b))
        x0, y0, x1, _ = self.boxes[measure.view.name]
        away = _FIRST + _ROW * measure.row
        if measure.where == "along":
            a, b = sorted((a, b))
            return Dimension(a, b, away, measure.text, 2.5)
        if measure.where == "below":
            low, high = sorted((a.x, b.x))
            return Dimension(Point(low, y0), Point(high, y0), -away, measure.text, 2.5)
        x, away = (x0, away) if measure.where == "left" else (x1, -away)
        low, high = sorted((a.y, b.y))
        return Dimension(Point(x, low), Point(x, high), away, measure.text, 2.5)


def views_for(room: Room, bearing: Bearing = "") -> Views:
    """The longer way of a piece is seen in its main view; its front where it has one."""
    size = room.high.minus(room.low)
    if bearing == "opening":
        return OPENING
    return LENGTHWISE if size.x >= size.y else CROSSWISE


def rows_of(found: Iterable[Measure]) -> Rows:
    """Most lines of dimensions that stand beside each view."""
    rows: dict[tuple[str, Where], int] = {}
    for measure in found:
        key = measure.view.name, measure.where
        rows[key] = max(rows.get(key, 0), measure.row)
    return rows


def layout_for(
    room: Room,
    rows: Rows | None = None,
    table: tuple[float, float] = (0, 0),
    bearing: Bearing = "",
) -> Layout:
    """The largest scale at which views, dimensions and parts list fit; the list may be left out.

    Args:
        room: the box round the piece in all its poses.
        rows: from `rows_of`.
        table: width and height of the parts list, mm.
        bearing: how somebody uses the piece, for where its front lies.
    """
    views = views_for(room, bearing)
    tried = [_layout(room, views, rows or {}, table, paper, scale) for paper, scale in _TRIED]
    fitting = [layout for layout in tried if _fits(layout)]
    best = next((layout for layout in fitting if layout.table), None)
    return best or next(iter(fitting), tried[-1])


def _layout(
    room: Room,
    views: Views,
    rows: Rows,
    table: tuple[float, float],
    paper: Paper,
    reduction: float,
) -> Layout:
    scale = 1.0 / reduction
    origins, boxes = {}, {}
    for view, corner in zip(views, _corners(room, views, rows, paper, scale), strict=True):
        u0, v0, u1, v1 = _extent(view, room)
        origins[view.name] = Point(corner.x - u0 * scale, corner.y - v0 * scale)
        boxes[view.name] = (*corner, corner.x + (u1 - u0) * scale, corner.y + (v1 - v0) * scale)
    rooms = tuple(_with_rows(boxes[v.name], v, rows) for v in views)
    return Layout(views, paper, scale, origins, boxes, rooms, _table(table, rooms, paper))


def _corners(
    room: Room, views: Views, rows: Rows, paper: Paper, scale: float
) -> tuple[Point, Point, Point]:
    """Lower left of main, end and plan."""
    x0, _, _, y1 = paper.frame
    size = room.high.minus(room.low)
    wide, deep = max(size.x, size.y) * scale, min(size.x, size.y) * scale
    main, end, plan = (view.name for view in views)
    left = x0 + _CLEAR + max(_room(rows, main, "left"), _room(rows, plan, "left"))
    beside = _room(rows, main, "right") + max(_room(rows, end, "left"), 8.0) + _CLEAR
    base = y1 - _TITLE_ROOM - 1.0 - size.z * scale
    under = max(_room(rows, main, "below"), 2.0) + _TITLE_ROOM + 2.0
    return (
        Point(left, base),
        Point(left + wide + beside, base),
        Point(left, base - under - deep),
    )


def _room(rows: Rows, name: str, where: Where) -> float:
    lines = rows.get((name, where), 0)
    return _FIRST + _ROW * lines + (_TEXT if where == "left" else 2.0) if lines else 0.0


def _with_rows(box: Box, view: View, rows: Rows) -> Box:
    left, right, below = (_room(rows, view.name, w) for w in ("left", "right", "below"))
    return box[0] - max(left, 2.0), box[1] - max(below, 2.0), box[2] + right, box[3] + _TITLE_ROOM


def _extent(view: View, room: Room) -> Box:
    a, b = view.at(room.low), view.at(room.high)
    return min(a.x, b.x), min(a.y, b.y), max(a.x, b.x), max(a.y, b.y)


def _fits(layout: Layout) -> bool:
    x0, y0, x1, y1 = layout.paper.frame
    return all(
        x0 <= a and y0 + 1.0 <= b and c <= x1 - 1.0 and d <= y1 and not meet(r, layout.paper.block)
        for r in layout.rooms
        for a, b, c, d in (r,)
    )


def _table(size: tuple[float, float], rooms: tuple[Box, ...], paper: Paper) -> tuple[Point, ...]:
    """Upper left of the list's one or two blocks: above the title block, else in a free corner."""
    for wide, high, blocks in ((size[0], size[1], 1), (2.0 * size[0] + 4.0, size[1] / 2 + 5.0, 2)):
        for x, y in _places(wide, high, paper):
            if not any(meet((x, y - high, x + wide, y), room) for room in rooms):
                return tuple(Point(x + n * (size[0] + 4.0), y) for n in range(blocks))
    return ()


def _places(wide: float, high: float, paper: Paper) -> Iterator[Point]:
    x0, y0, x1, y1 = paper.frame
    left, block = x1 - wide - 3.0, paper.block
    if block[3] + 5.0 + high <= y1 - 3.0 and left >= x0:
        yield Point(left, block[3] + 5.0 + high)
        yield Point(left, y1 - 4.0)
    if y0 + 5.0 + high <= y1 and block[0] - 5.0 - wide >= x0:
        yield Point(block[0] - 5.0 - wide, y0 + 4.0 + high)
