"""An A3 page of a plan: its scale, its frame, and tables that flow from column to column."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.drawings.faulty import across
from flatpack.drawings.ruled import ruled_table
from flatpack.drawings.shapes import Drawing, Line, Stroke, Text
from flatpack.drawings.title_block import A3, HEIGHT, WIDTH, Heading, sheet_frame
from flatpack.geometry import Point
from flatpack.wording import english_plans as words

#: Reductions of ISO 5455, and between them those that a tape's user can still halve.
SCALES = (2.0, 5.0, 10.0, 15.0, 20.0, 25.0, 50.0, 100.0)
ROW = 4.4


class About(NamedTuple):
    """What every page says of the plan: pieces, code, date, and whether it is complete."""

    pieces: str
    code: str
    date: str
    incomplete: bool


class Block(NamedTuple):
    """What the title block says of one page: title, kind of document, and which sheet it is."""

    title: str
    kind: str
    sheet: str


def offcut_strokes(low: Point, high: Point, said: str) -> Iterator[Stroke]:
    """A rest that is kept, corner to corner: its diagonals, and its size near one end."""
    yield Stroke("thin-line", Line(low, high))
    yield Stroke("thin-line", Line(Point(low.x, high.y), Point(high.x, low.y)))
    long, high_ = high.x - low.x, high.y - low.y
    height = min(2.0, 0.4 * min(long, high_))
    if long >= high_:
        at = Point(low.x + 0.04 * long, (low.y + high.y) / 2.0)
        yield Stroke("text", Text(at, said, height, 0.0, "left", "middle"))
    else:
        at = Point((low.x + high.x) / 2.0, low.y + 0.04 * high_)
        yield Stroke("text", Text(at, said, height, 90.0, "left", "middle"))


def scale_for(length: float, width: float, room: tuple[float, float]) -> float:
    """The least reduction at which a rectangle fits a room, as model mm a paper mm."""
    need = max(length / room[0], width / room[1])
    return next((s for s in SCALES if s >= need - 1e-9), need)


def page(
    name: str, title: str, about: About, strokes: Sequence[Stroke], scale: float, block: Block
) -> Drawing:
    """The strokes in a frame with a title block."""
    heading = Heading(block.title, about.code, about.date, block.sheet, block.kind,
                      f"1:{scale:g}")  # fmt: skip
    notes = (("pieces", about.pieces), ("code", about.code))
    every = (*sheet_frame(heading, A3), *strokes)
    made = Drawing(name, title, (0.0, 0.0, WIDTH, HEIGHT), every, notes, 1.0 / scale)
    return across(made, words.INCOMPLETE) if about.incomplete else made


def flowing(
    header: Sequence[str], rows: Sequence[Sequence[str]], widths: Sequence[float],
    columns: Sequence[Box],
) -> tuple[tuple[Stroke, ...], tuple[Sequence[str], ...]]:  # fmt: skip
    """Rows in columns (boxes filled from the top), and the rows that found no room."""
    strokes: list[Stroke] = []
    left = tuple(rows)
    for x0, y0, _, y1 in columns:
        room = int((y1 - y0) / ROW) - 1
        if not left or room < 1:
            continue
        strokes += ruled_table(header, left[:room], widths, Point(x0, y1), ROW)
        left = left[room:]
    return tuple(strokes), left


def lines(given: Sequence[str], x: float, y: float, height: float = 2.5) -> Iterator[Stroke]:
    """Lines of text downwards."""
    for number, text in enumerate(given):
        yield Stroke("text", Text(Point(x, y - 1.8 * height * number), text, height, up="top"))
