"""Boards cut to length: a page for each way that a board is cut, with how many are cut alike.

cut 3 alike: Larch 27 mm, planed 70 wide, 4800 long
|t|    K 1560    |k|    K 1560    |k|    K 1560     |k| rest |
  1570             3133             4696                        tape at each far end
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from flatpack.cutting import CutBoard
from flatpack.drawings.figures import mm
from flatpack.drawings.lettering import text_width
from flatpack.drawings.plans.paper import About, Block, flowing, lines, page, scale_for
from flatpack.drawings.shapes import Closed, Dimension, Drawing, Line, Stroke, Text
from flatpack.geometry import Point
from flatpack.geometry.shapes import rectangle
from flatpack.planning.boards import Blank, BoardPlan
from flatpack.wording import english_plan_pages as words

_LEFT, _TOP, _LONG = 30.0, 240.0, 370.0
_HIGH, _LETTER, _TAPE, _LEAST = 26.0, 4.0, 2.5, 1.3
_TABLE = 60.0
_WIDTHS = (12.0, 38.0, 22.0, 22.0, 31.0)


def board_pages(plan: BoardPlan, about: About) -> Iterator[Drawing]:
    """A page for each way of cutting: the board, and its cuts as rows below it."""
    kinds = list(kinds_of(plan.plan.boards))
    title = words.boards_title(plan.title)
    for number, (board, times) in enumerate(kinds, 1):
        scale = scale_for(board.stock.length, 1.0, (_LONG, 1.0))
        strokes = [
            *lines((words.cut_alike(times, board.stock.name, board.stock.offcut),),
                   _LEFT, 282.0, 5.0),
            *lines(tuple(_first(plan)), _LEFT, 270.0, 3.5),
            *_board(plan, board, _TOP, scale),
            *_rows(plan, board),
            *lines(words.TAPE_NOTES, 25.0, 22.0, 2.0),
        ]  # fmt: skip
        block = Block(plan.title, words.BOARDS_DOCUMENT, f"{number} / {len(kinds)}")
        said = words.page_of(title, number, len(kinds))
        yield page(f"boards-{plan.name}-{number}", said, about, strokes, scale, block)


def _first(plan: BoardPlan) -> Iterator[str]:
    if plan.saw.trim:
        yield words.trim_edges(mm(plan.saw.trim))


def _rows(plan: BoardPlan, board: CutBoard) -> Iterator[Stroke]:
    """The cuts as a table in three columns, with the rest last."""
    named = {b.mark: b for b in plan.blanks}
    made = [
        (str(count), cut.mark, mm(cut.end - cut.start), mm(cut.end),
         words.ripped(named[cut.mark].across, mm(named[cut.mark].rip))
         if named[cut.mark].across else "")
        for count, cut in enumerate(board.cuts, 1)
    ]  # fmt: skip
    top = _TOP - _HIGH - _TABLE
    columns = [(25.0 + 129.0 * n, 50.0 if n else 30.0, 0.0, top) for n in range(3)]
    strokes, _ = flowing(words.ROW_HEADER, made, _WIDTHS, columns)
    yield from strokes


def kinds_of(boards: Sequence[CutBoard]) -> Iterator[tuple[CutBoard, int]]:
    """Boards that are cut alike, once, with their number, in the order of the plan."""
    counts = Counter(boards)
    yield from ((board, counts[board]) for board in dict.fromkeys(boards))


def _board(plan: BoardPlan, board: CutBoard, y: float, scale: float) -> Iterator[Stroke]:
    named = {b.mark: b for b in plan.blanks}
    low = y - _HIGH
    whole = rectangle(board.stock.length / scale, _HIGH, _LEFT, low)
    yield Stroke("sheet-edge", Closed(whole))
    for number, cut in enumerate(board.cuts, 1):
        blank = named[cut.mark]
        yield from _part(number, blank, cut.start, cut.end, (low, scale))
    for start, end in board.stock.defects:
        yield from _span("not-for-cutting", start, end, (low, scale))
        text = words.defect(mm(start), mm(end))
        at = Point(_LEFT + (start + end) / 2.0 / scale, low - 7.0)
        yield Stroke("text", Text(at, text, _TAPE, 0.0, "middle", "top"))
    for start, end in board.rests:
        yield from _span("hidden-edge", start, end, (low, scale))
        at = Point(_LEFT + (start + end) / 2.0 / scale, low + _HIGH / 2.0)
        text = words.keep(mm(end - start))
        height = min(_LETTER, 0.85 * (end - start) / scale / text_width(text, 1.0))
        yield Stroke("text", Text(at, text, height, 0.0, "middle", "middle"))
    ends = Point(_LEFT, low), Point(_LEFT + board.stock.length / scale, low)
    yield Stroke("dimension", Dimension(*ends, -16.0, mm(board.stock.length)))


def _part(
    number: int, blank: Blank, start: float, end: float, place: tuple[float, float]
) -> Iterator[Stroke]:
    low, scale = place
    x0, x1 = _LEFT + start / scale, _LEFT + end / scale
    yield Stroke("outline", Closed(rectangle(x1 - x0, _HIGH, x0, low)))
    said = f"{number}: {blank.mark}  {mm(end - start)}"
    for text in (said, f"{number}: {blank.mark}", str(number)):
        height = min(_LETTER, 0.9 * (x1 - x0) / text_width(text, 1.0))
        if height >= _LEAST:
            break
    middle = Point((x0 + x1) / 2.0, low + _HIGH * (0.65 if blank.across else 0.5))
    yield Stroke("text", Text(middle, text, max(height, 0.9), 0.0, "middle", "middle"))
    if blank.across:
        rip = words.ripped(blank.across, mm(blank.rip))
        small = min(_TAPE, 0.9 * (x1 - x0) / text_width(rip, 1.0))
        at = Point(middle.x, low + _HIGH * 0.25)
        if small >= _LEAST:
            yield Stroke("text", Text(at, rip, small, 0.0, "middle", "middle"))
    tape = min(_TAPE, 0.95 * (x1 - x0) / text_width(mm(end), 1.0))
    if tape >= _LEAST:
        yield Stroke("text", Text(Point(x1, low - 1.5), mm(end), tape, 0.0, "right", "top"))


def _span(layer: str, start: float, end: float, place: tuple[float, float]) -> Iterator[Stroke]:
    low, scale = place
    x0, x1 = _LEFT + start / scale, _LEFT + end / scale
    for x in (x0, x1):
        yield Stroke(layer, Line(Point(x, low), Point(x, low + _HIGH)))
