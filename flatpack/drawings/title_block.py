"""A3 and A2 sheets with frame (ISO 5457) and title block (fields of ISO 7200)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.drawings.ruled import fitted
from flatpack.drawings.shapes import Circle, Closed, Line, Stroke, Text
from flatpack.geometry import Point, closed
from flatpack.geometry.shapes import rectangle
from flatpack.wording import english as words

BLOCK_WIDE, BLOCK_HIGH = 180.0, 36.0
_ROW = 12.0


class Paper(NamedTuple):
    """A landscape sheet, mm (ISO 216)."""

    name: str
    width: float
    height: float

    @property
    def frame(self) -> Box:
        """Left edge wide enough to file, 10 mm elsewhere (ISO 5457)."""
        return 20.0, 10.0, self.width - 10.0, self.height - 10.0

    @property
    def block(self) -> Box:
        """Room of the title block, lower right."""
        _, y0, x1, _ = self.frame
        return x1 - BLOCK_WIDE, y0, x1, y0 + BLOCK_HIGH


A3 = Paper("A3", 420.0, 297.0)
A2 = Paper("A2", 594.0, 420.0)
WIDTH, HEIGHT, FRAME = A3.width, A3.height, A3.frame


class Heading(NamedTuple):
    """What the title block says; owner, creator and approver are left for the maker to fill in."""

    title: str
    number: str
    date: str
    sheet: str
    type: str
    scale: str


def sheet_frame(heading: Heading, paper: Paper = A3) -> Iterator[Stroke]:
    """The frame and the title block, lower right."""
    x0, y0, x1, y1 = paper.frame
    yield Stroke("outline", Closed(rectangle(x1 - x0, y1 - y0, x0, y0)))
    left = paper.block[0]
    rows = (
        (("number", 60.0), ("date", 40.0), ("scale", 28.0), ("sheet", 22.0), ("projection", 30.0)),
        (("creator", 45.0), ("approver", 45.0), ("type", 90.0)),
        (("owner", 60.0), ("title", 120.0)),
    )
    values = heading._asdict()
    for number, fields in enumerate(rows):
        bottom, x = y0 + number * _ROW, left
        yield _line(left, bottom + _ROW, x1, bottom + _ROW)
        for name, width in fields:
            yield _line(x, bottom, x, bottom + _ROW)
            yield from _field(x, bottom, width, words.TITLE_FIELDS[name], values.get(name, ""))
            x += width
    yield from first_angle_sign(x1 - 20.0, y0 + 4.2)


def _field(x: float, y: float, width: float, name: str, value: str) -> Iterator[Stroke]:
    yield Stroke("text", Text(Point(x + 1.2, y + _ROW - 1.0), name, 1.8, up="top"))
    if value:
        yield Stroke("text", Text(Point(x + 1.2, y + 2.2), fitted(value, width - 2.0, 3.5), 3.5))


def _line(x0: float, y0: float, x1: float, y1: float) -> Stroke:
    return Stroke("thin-line", Line(Point(x0, y0), Point(x1, y1)))


def first_angle_sign(x: float, y: float) -> Iterator[Stroke]:
    """The sign of first-angle projection (ISO 5456-2): a cut cone, small end left, seen from it."""
    ends = ((x - 5.0, y - 1.2), (x, y - 2.5), (x, y + 2.5), (x - 5.0, y + 1.2))
    cone = closed((px, py, 0.0) for px, py in ends)
    yield Stroke("thin-line", Closed(cone))
    for radius in (1.2, 2.5):
        yield Stroke("thin-line", Circle(Point(x + 6.0, y), radius))
    yield Stroke("centre-line", Line(Point(x - 6.0, y), Point(x + 9.5, y)))
