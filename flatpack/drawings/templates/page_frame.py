"""What every page has round its content: rulers, notes, title strip.

The frame stands 10 mm from the paper's edges (ISO 5457 asks for 10 mm on three sides; its wider
filing edge is left out, as templates are cut up and not filed).  The title strip has the fields
that ISO 7200 makes compulsory; those that only people can fill in stay blank.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.figures import mm
from flatpack.drawings.lettering import text_width
from flatpack.drawings.ruled import fitted
from flatpack.drawings.shapes import Closed, Line, Stroke, Text
from flatpack.drawings.templates.setup import AS_IT_IS, NOTES, TITLE, Area, Stretch
from flatpack.geometry import Point
from flatpack.geometry.shapes import rectangle
from flatpack.wording import english_templates as words

_ROW = TITLE / 2.0
_SHARES = (0.46, 0.2, 0.2, 0.14)
"""Widths of the title strip's fields as shares of the frame."""
NAME_HEIGHTS = (3.5, 2.5, 1.8)
"""Heights tried for a value in the title strip (ISO 3098), mm."""


class Heading(NamedTuple):
    """What the title strip says."""

    piece: str
    kind: str
    number: str
    date: str
    sheet: str


def page_frame(area: Area, heading: Heading, stretch: Stretch) -> Iterator[Stroke]:
    """Strokes round the content of a page."""
    x0, y0, x1, y1 = area.frame
    yield Stroke("thin-line", Closed(rectangle(x1 - x0, y1 - y0, x0, y0)))
    yield from _rulers(area)
    yield from _notes(area, stretch)
    values = (heading.piece, heading.kind, heading.number, heading.sheet)
    yield from _fields(area, y0 + _ROW, words.TITLE_FIELDS, values)
    yield from _fields(area, y0, words.SIGN_FIELDS, ("", "", "", heading.date))


def name_room(area: Area) -> float:
    """Room for the piece's name in the title strip, mm."""
    return (area.frame[2] - area.frame[0]) * _SHARES[0] - 2.0


def _fields(
    area: Area, y: float, names: tuple[str, ...], values: tuple[str, ...]
) -> Iterator[Stroke]:
    x, _, right, _ = area.frame
    yield _line(x, y + _ROW, right, y + _ROW)
    whole = right - x
    for name, value, share in zip(names, values, _SHARES, strict=True):
        room = whole * share - 2.0
        yield Stroke("text", Text(Point(x + 1.0, y + _ROW - 0.8), fitted(name, room, 1.8), 1.8,
                                  up="top"))  # fmt: skip
        if value:
            height = next((h for h in NAME_HEIGHTS if text_width(value, h) <= room), 1.8)
            yield Stroke("text", Text(Point(x + 1.0, y + 1.4), fitted(value, room, height), height))
        if x > area.frame[0]:
            yield _line(x, y, x, y + _ROW)
        x += whole * share


def _notes(area: Area, stretch: Stretch) -> Iterator[Stroke]:
    x0, y0, x1, _ = area.frame
    first = words.ACTUAL_SIZE
    if stretch != AS_IT_IS:
        first = words.corrected(f"{stretch.short:.4f}", f"{stretch.long:.4f}") + first
    lines = (first, words.TAPE_GOVERNS)
    for i, line in enumerate(lines):
        heights = (2.5, 1.8)
        height = next((h for h in heights if text_width(line, h) <= x1 - x0 - 2.0), 1.8)
        at = Point(x0 + 1.0, y0 + TITLE + NOTES - 0.6 - i * NOTES / 2.0)
        shown = fitted(line.strip(), x1 - x0 - 2.0, height)
        yield Stroke("text", Text(at, shown, height, up="top", bold=i == 0))


def _rulers(area: Area) -> Iterator[Stroke]:
    x0, _, _, y1 = area.frame
    low = area.frame[1] + TITLE + NOTES + 1.0
    across, up = area.rulers
    yield from _ruler(Point(x0 + 1.0, y1 - 1.0), across, level=True)
    yield from _ruler(Point(x0 + 1.0, low), up, level=False)


def _ruler(start: Point, length: float, level: bool) -> Iterator[Stroke]:
    """A line with a tick every centimetre, the ends and every tenth longer; ticks point inwards."""

    def at(along: float, out: float) -> Point:
        if level:
            return Point(start.x + along, start.y - out)
        return Point(start.x + out, start.y + along)

    turn = 0.0 if level else 90.0
    yield Stroke("dimension", Line(at(0.0, 0.0), at(length, 0.0)))
    for i in range(round(length / 10.0) + 1):
        along = 10.0 * i
        end = along in (0.0, length)
        reach = 5.0 if end else 3.5 if i % 10 == 0 else 2.0
        yield Stroke("dimension", Line(at(along, 0.0), at(along, reach)))
        if i % 10 == 0 and not end and length - along > 50.0:
            label = Text(at(along + 1.0, 5.2), mm(along), 1.8, turn)
            yield Stroke("text", label)
    said = Text(at(length - 1.5, 5.4), words.ruler(mm(length)), 2.5, turn, "right", bold=True)
    yield Stroke("text", said)


def _line(x0: float, y0: float, x1: float, y1: float) -> Stroke:
    return Stroke("thin-line", Line(Point(x0, y0), Point(x1, y1)))
