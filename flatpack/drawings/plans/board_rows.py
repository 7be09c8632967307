"""Pages of boards cut to length: each kind of board once, with how many are cut alike.

3 x Larch 27 mm, planed 70 wide, 4800 long
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

_LEFT, _TOP, _LONG = 30.0, 262.0, 370.0
_HIGH, _STEP, _A_PAGE = 9.0, 34.0, 4
_LETTER, _LEAST = 2.6, 1.3
_WIDTHS = (14.0, 10.0, 32.0, 18.0, 18.0, 30.0)


def board_pages(plan: BoardPlan, about: About) -> Iterator[Drawing]:
    """All boards of one plan, four kinds a page, and the cuts as rows below them."""
    kinds = list(kinds_of(plan.plan.boards))
    title = words.boards_title(plan.title)
    pages = [kinds[i : i + _A_PAGE] for i in range(0, len(kinds), _A_PAGE)]
    for number, some in enumerate(pages, 1):
        scale = scale_for(max(b.stock.length for b, _ in some), 1.0, (_LONG, 1.0))
        strokes = [
            stroke
            for row, (board, times) in enumerate(some)
            for stroke in _board(
                plan, board, times, (number - 1) * _A_PAGE + row + 1, _TOP - _STEP * row, scale
            )
        ]
        strokes += lines((plan.title,), _LEFT, 282.0, 3.5)
        strokes += _rows(plan, some, (number - 1) * _A_PAGE, _TOP - _STEP * len(some))
        tail = "" if number == 1 else f"-{number}"
        name = f"boards-{plan.name}{tail}"
        block = Block(plan.title, words.BOARDS_DOCUMENT, f"{number} / {len(pages)}")
        said = words.page_of(title, number, len(pages))
        yield page(name, said, about, strokes, scale, block)


def _rows(
    plan: BoardPlan, some: Sequence[tuple[CutBoard, int]], before: int, top: float
) -> Iterator[Stroke]:
    """The cuts as a table in three columns; the list of cuts has what finds no room."""
    named = {b.mark: b for b in plan.blanks}
    made = [
        (f"{before + number}", str(count), cut.mark, mm(cut.end - cut.start), mm(cut.end),
         words.ripped(named[cut.mark].across, mm(named[cut.mark].rip))
         if named[cut.mark].across else "")
        for number, (board, _) in enumerate(some, 1)
        for count, cut in enumerate(board.cuts, 1)
    ]  # fmt: skip
    columns = [(25.0 + 129.0 * n, 50.0 if n else 15.0, 0.0, top) for n in range(3)]
    strokes, _ = flowing(words.ROW_HEADER, made, _WIDTHS, columns)
    yield from strokes


def kinds_of(boards: Sequence[CutBoard]) -> Iterator[tuple[CutBoard, int]]:
    """Boards that are cut alike, once, with their number, in the order of the plan."""
    counts = Counter(boards)
    yield from ((board, counts[board]) for board in dict.fromkeys(boards))


def _board(
    plan: BoardPlan, board: CutBoard, times: int, place: int, y: float, scale: float
) -> Iterator[Stroke]:
    named = {b.mark: b for b in plan.blanks}
    head = f"{place}:  {words.board_row(times, board.stock.name, board.stock.offcut)}"
    first = words.trim_edges(mm(plan.saw.trim)) if plan.saw.trim else ""
    said = "; ".join(t for t in (head, first) if t)
    yield Stroke("text", Text(Point(_LEFT, y + 4.5), said, 2.8))
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
        yield Stroke("text", Text(at, text, 2.0, 0.0, "middle", "top"))
    for start, end in board.rests:
        yield from _span("hidden-edge", start, end, (low, scale))
        at = Point(_LEFT + (start + end) / 2.0 / scale, low + _HIGH / 2.0)
        text = words.keep(mm(end - start))
        height = min(2.4, 0.85 * (end - start) / scale / text_width(text, 1.0))
        yield Stroke("text", Text(at, text, height, 0.0, "middle", "middle"))
    ends = Point(_LEFT, low), Point(_LEFT + board.stock.length / scale, low)
    yield Stroke("dimension", Dimension(*ends, -11.0, mm(board.stock.length)))


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
        small = min(1.8, 0.9 * (x1 - x0) / text_width(rip, 1.0))
        at = Point(middle.x, low + _HIGH * 0.25)
        if small >= _LEAST:
            yield Stroke("text", Text(at, rip, small, 0.0, "middle", "middle"))
    tape = min(1.8, 0.95 * (x1 - x0) / text_width(mm(end), 1.0))
    if tape >= _LEAST:
        yield Stroke("text", Text(Point(x1, low - 0.8), mm(end), tape, 0.0, "right", "top"))


def _span(layer: str, start: float, end: float, place: tuple[float, float]) -> Iterator[Stroke]:
    low, scale = place
    x0, x1 = _LEFT + start / scale, _LEFT + end / scale
    for x in (x0, x1):
        yield Stroke(layer, Line(Point(x, low), Point(x, low + _HIGH)))
