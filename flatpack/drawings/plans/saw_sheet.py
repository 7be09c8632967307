"""A page for the man at the saw: the sheet with parts and numbered cuts, and the list of cuts.

+--------------------------------+   cut  times  way  fence  from  gives
| [ A 1940 x 148 ]  5 | [ G ]    |   ...
+--------------------------------+   flows down the right, then under the sheet
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.cutting import CutSheet, PanelSaw, Rest
from flatpack.drawings.figures import mm
from flatpack.drawings.lettering import text_width
from flatpack.drawings.part_view import grain_arrow
from flatpack.drawings.plans.cut_lines import CutLine, Row, cut_lines, rows
from flatpack.drawings.plans.paper import (
    About,
    Block,
    flowing,
    lines,
    offcut_strokes,
    page,
    scale_for,
)
from flatpack.drawings.shapes import Closed, Dimension, Drawing, Line, Stroke, Text
from flatpack.geometry import Point
from flatpack.geometry.shapes import rectangle
from flatpack.planning.sheets import SheetPlan
from flatpack.wording import english_plan_pages as words

_LEFT, _TOP = 36.0, 262.0
_ROOM = (250.0, 150.0)
_RIGHT = 299.0
_WIDTHS = (13.0, 7.0, 13.0, 15.0, 26.0, 37.0)
_LETTER, _LEAST, _NUMBER = 2.6, 1.2, 1.7


def saw_pages(plan: SheetPlan, about: About) -> Iterator[Drawing]:
    """One page a sheet, and more where the list of cuts is long."""
    sheets = plan.plan.sheets
    for number, sheet in enumerate(sheets, 1):
        title = words.sheet_title(plan.lot.board.name, number, len(sheets))
        made = list(_pages(plan, sheet))
        for index, (strokes, scale) in enumerate(made, 1):
            tail = "" if index == 1 else f"-{index}"
            yield page(
                f"saw-{plan.name}-{number}{tail}",
                words.page_of(title, index, len(made)),
                about,
                strokes,
                scale,
                Block(plan.lot.board.name, words.SAW_DOCUMENT, f"{number} / {len(sheets)}"),
            )


def _pages(plan: SheetPlan, sheet: CutSheet) -> Iterator[tuple[tuple[Stroke, ...], float]]:
    stock = sheet.stock
    scale = scale_for(stock.length, stock.width, _ROOM)
    view = _View(_LEFT, _TOP - stock.width / scale, scale)
    picture = (*_picture(view, sheet, plan.saw), *lines((stock.name,), _LEFT, 282.0, 3.5))
    listed = tuple(_row(r) for r in rows(sheet, plan.saw))
    low = view.y - 14.0
    columns = [
        (_RIGHT, 50.0, _RIGHT, 282.0),
        (_LEFT - 15.0, 28.0, _LEFT, low),
        (_LEFT + 105.0, 50.0, _LEFT, low),
    ]
    table, left = flowing(words.CUT_HEADER, listed, _WIDTHS, columns)
    yield (*picture, *table, *lines(words.ORDER_NOTES, 25.0, 22.0, 2.0)), scale
    while left:
        wide = [(25.0 + 126.0 * n, 50.0 if n else 15.0, 0.0, 282.0) for n in range(3)]
        table, left = flowing(words.CUT_HEADER, left, _WIDTHS, wide)
        yield table, scale


def _row(row: Row) -> tuple[str, ...]:
    number = str(row.first) if row.first == row.last else f"{row.first}-{row.last}"
    way = words.WAYS[row.cut.way] if row.cut.stage else words.TRIM
    many = str(row.last - row.first + 1)
    return number, many, way, mm(row.cut.setting), row.cut.of, row.gives


class _View:
    """Where the sheet's corner lies on paper, and how much it is reduced."""

    def __init__(self, x: float, y: float, scale: float) -> None:
        self.x, self.y, self.scale = x, y, scale

    def at(self, x: float, y: float) -> Point:
        return Point(self.x + x / self.scale, self.y + y / self.scale)

    def box(self, layer: str, x: float, y: float, length: float, width: float) -> Stroke:
        corner = self.at(x, y)
        made = rectangle(length / self.scale, width / self.scale, corner.x, corner.y)
        return Stroke(layer, Closed(made))


def _picture(view: _View, sheet: CutSheet, saw: PanelSaw) -> Iterator[Stroke]:
    stock = sheet.stock
    yield view.box("sheet-edge", 0.0, 0.0, stock.length, stock.width)
    for part in sheet.parts:
        yield view.box("outline", part.x, part.y, part.length, part.width)
        sizes = (part.width, part.length) if part.turned else (part.length, part.width)
        said = f"{part.mark}  {mm(sizes[0])} x {mm(sizes[1])}"
        yield from _fitted(view, said, part.mark, part.x, part.y, part.length, part.width)
    for rest in sheet.rests:
        yield from _rest(view, rest)
    for made in cut_lines(sheet, saw):
        yield from _number(view, made)
    yield from _overall(view, sheet, saw)
    if stock.grain:
        yield from grain_arrow(view.x + 5.0, view.y - 5.0)


def _fitted(
    view: _View, said: str, brief: str, x: float, y: float, length: float, width: float
) -> Iterator[Stroke]:
    """The text along the longer side, smaller or shorter where there is little room."""
    long, short = max(length, width) / view.scale, min(length, width) / view.scale
    turn = 0.0 if length >= width else 90.0
    for text in (said, brief):
        height = min(_LETTER, 0.55 * short, 0.85 * long / text_width(text, 1.0))
        if height >= _LEAST or text == brief:
            break
    at = view.at(x + length / 2.0, y + width / 2.0)
    yield Stroke("text", Text(at, text, max(height, 0.9), turn, "middle", "middle"))


def _rest(view: _View, rest: Rest) -> Iterator[Stroke]:
    """A box with its diagonals."""
    x0, y0, x1, y1 = rest.x, rest.y, rest.x + rest.length, rest.y + rest.width
    yield view.box("hidden-edge", x0, y0, rest.length, rest.width)
    said = words.offcut(mm(rest.length), mm(rest.width))
    yield from offcut_strokes(view.at(x0, y0), view.at(x1, y1), said)


def _number(view: _View, made: CutLine) -> Iterator[Stroke]:
    """The cut's number: outside the sheet for cuts right across it, else beside its first end."""
    x0, y0, x1, y1 = made.line
    start, end = view.at(x0, y0), view.at(x1, y1)
    yield Stroke("centre-line", Line(start, end))
    number = str(made.cut.number)
    if made.cut.stage <= 1:
        out = (-1.2, 0.0) if made.cut.way == "rip" else (0.0, 1.2)
        at = Point(start.x + out[0], start.y) if out[0] else Point(start.x, end.y + out[1])
        where = ("right", "middle") if out[0] else ("middle", "base")
        yield Stroke("text", Text(at, number, 1.8, 0.0, *where))  # type: ignore[arg-type]  # anchors
    elif made.cut.way == "cross":
        yield Stroke(
            "text", Text(Point(end.x - 0.4, end.y - 0.5), number, _NUMBER, 0.0, "right", "top")
        )
    else:
        yield Stroke("text", Text(Point(start.x + 0.5, start.y - 0.3), number, _NUMBER, up="top"))


def _overall(view: _View, sheet: CutSheet, saw: PanelSaw) -> Iterator[Stroke]:
    """Length and width, and the strips that the first cuts give."""
    stock = sheet.stock
    low, high = view.at(0.0, 0.0), view.at(0.0, stock.width)
    top = view.at(stock.length, stock.width)
    yield Stroke("dimension", Dimension(high, top, 7.0, mm(stock.length)))
    yield Stroke("dimension", Dimension(low, high, 9.0, mm(stock.width)))
    for made in cut_lines(sheet, saw):
        x0, y0, x1, y1 = made.gives
        if made.cut.stage == 1 and made.cut.way == "rip":
            side = view.at(stock.length, (y0 + y1) / 2.0)
            yield _strip(Point(side.x + 1.5, side.y), f"{made.cut.gives}: {mm(y1 - y0)}", 0.0)
        elif made.cut.stage == 1:
            side = view.at((x0 + x1) / 2.0, 0.0)
            yield _strip(Point(side.x, side.y - 2.0), f"{made.cut.gives}: {mm(x1 - x0)}", 90.0)


def _strip(at: Point, said: str, turn: float) -> Stroke:
    """Name and width of a strip, beside the sheet; under it, it ends at the sheet's edge."""
    return Stroke("text", Text(at, said, 1.8, turn, "right" if turn else "left", "middle"))
