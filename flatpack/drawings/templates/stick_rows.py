"""A story stick folded over rows: each row a stretch at full size, joined to the next.

|-----------------------------------------------|  edge of the other hand, its figures
|   813.5 884.5   ...                           |  upside down: turn the stick end for end
|      A-L A-R: row 2 of 8, 150 to 300          |
|   813.5 884.5   ...                           |
|    |--E----|   two tiers of brackets          |
|----|-^---^-|----------------------------------|  edge to hold to the part
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.figures import mm
from flatpack.drawings.lettering import text_width
from flatpack.drawings.ruled import fitted
from flatpack.drawings.shapes import Closed, Line, Stroke, Text
from flatpack.drawings.templates.ordinates import spread_out
from flatpack.drawings.templates.stick_brackets import Way, brackets
from flatpack.drawings.templates.stick_marks import Stick, StickEdge
from flatpack.drawings.templates.tiles import OVERLAP, steps
from flatpack.drawings.templates.wrapping import BOLDER
from flatpack.geometry import Point, closed
from flatpack.geometry.shapes import rectangle
from flatpack.wording import english_templates as words

ZONE = 19.0
"""Height of the marks along one edge, mm."""
MIDDLE = 4.0
_JOIN_WORDS = 22.0
_HEIGHT = 1.8
_TICK = 5.4
"""From the edge to where the leaders start, mm: the brackets stand within."""
_FOOT = 6.9


class Row(NamedTuple):
    """A row of a stick: from `low` to `high`, mm from the datum end."""

    stick: Stick
    low: float
    high: float
    number: int
    of: int


def rows(stick: Stick, room: float) -> tuple[Row, ...]:
    """The rows of a stick on a page whose content is `room` wide."""
    cut = steps(stick.along.length, room)
    return tuple(Row(stick, a, b, i, len(cut)) for i, (a, b) in enumerate(cut, 1))


def row_height(stick: Stick) -> float:
    """Height of a row, mm: an edge is left out when no part needs it."""
    return len(stick.edges) * ZONE + MIDDLE


def row_strokes(row: Row, x: float, y: float, tail: str) -> Iterator[Stroke]:
    """Strokes of a row with its lower left at x, y; `tail` is the piece with its code."""
    height, width = row_height(row.stick), row.high - row.low
    yield Stroke("outline", Closed(rectangle(width, height, x, y)))
    first = row.stick.edges[0]
    yield from _edge(row, first, Way(x, y, 1.0))
    if len(row.stick.edges) > 1:
        yield from _edge(row, row.stick.edges[1], Way(x, y + height, -1.0))
    middle = y + ZONE + MIDDLE / 2.0
    every = " ".join(sorted(m for edge in row.stick.edges for m in edge.marks))
    said = words.stick_row(every, row.number, row.of, mm(row.low), mm(row.high))
    room = width - 2.0 * (OVERLAP / 2.0 + _JOIN_WORDS)
    whole = (f"{row.stick.name} {said}; {tail}", f"{row.stick.name} {said}", said)
    shown = next((t for t in whole if text_width(t, _HEIGHT) * BOLDER <= room), said)
    at = Point(x + width / 2.0, middle)
    text = fitted(shown, room / BOLDER, _HEIGHT)
    yield Stroke("text", Text(at, text, _HEIGHT, 0.0, "middle", "middle", True))
    yield from _joins(row, x, y, height)


def _edge(row: Row, edge: StickEdge, way: Way) -> Iterator[Stroke]:
    along = row.stick.along
    ends = (0.0, along.length)
    crossing = {v for c in along.crossings for v in (c.low, c.high)}
    inside = [v for v in sorted({*ends, *crossing, *along.pockets}) if row.low <= v <= row.high]
    width = row.high - row.low
    labels = spread_out([_inside(v - row.low, width) for v in inside], 1.5 * _HEIGHT)
    for value, place in zip(inside, labels, strict=True):
        yield from _mark(value, place, value - row.low, way)
    for pocket in along.pockets:
        if row.low <= pocket <= row.high:
            yield Stroke("thin-line", _triangle(way, pocket - row.low))
    yield from brackets(along, row.low, row.high, way)
    gap = mm(along.gap) if along.pockets else ""
    said = words.stick_edge(" ".join(edge.marks), edge.face, edge.left, along.far, gap)
    turn = 0.0 if way.up > 0.0 else 180.0
    at = way.at((row.high - row.low) / 2.0, ZONE - 0.4)
    yield Stroke("text", Text(at, said, _HEIGHT, turn, "middle", "top"))


def _inside(along: float, width: float) -> float:
    """A place for a figure that keeps off the row's sides."""
    return min(max(along, 2.0), width - 2.0)


def _mark(value: float, place: float, along: float, way: Way) -> Iterator[Stroke]:
    """A tick on the edge, a leader, and the distance read from the end of the stick."""
    yield Stroke("dimension", Line(way.at(along, 0.0), way.at(along, _TICK)))
    yield Stroke("thin-line", Line(way.at(along, _TICK), way.at(place, _FOOT - 0.3)))
    across = "left" if way.up > 0.0 else "right"
    text = Text(way.at(place, _FOOT), mm(value), _HEIGHT, 90.0, across, "middle")  # type: ignore[arg-type]  # one of its three words
    yield Stroke("text", text)


def _triangle(way: Way, along: float) -> Closed:
    corners = (way.at(along, 0.0), way.at(along + 1.2, 2.2), way.at(along - 1.2, 2.2))
    return Closed(closed((p.x, p.y, 0.0) for p in corners))


def _joins(row: Row, x: float, y: float, height: float) -> Iterator[Stroke]:
    """Lines in the strips that neighbours share, named and dimensioned alike on both."""
    for there, start, number, across in (
        (row.number > 1, row.low, row.number - 1, "left"),
        (row.number < row.of, row.high - OVERLAP, row.number, "right"),
    ):
        if there:
            value = _join(row.stick, start)
            at = x + value - row.low
            yield Stroke("centre-line", Line(Point(at, y), Point(at, y + height)))
            said = words.join_line(number, mm(value))
            place = Point(at + (0.8 if across == "left" else -0.8), y + ZONE + MIDDLE / 2.0)
            yield Stroke("text", Text(place, said, _HEIGHT, 0.0, across, "middle"))  # type: ignore[arg-type]  # one of its three words


def _join(stick: Stick, start: float) -> float:
    """Where two rows join, mm from the datum end: in their strip, as far from marks as may be."""
    along = stick.along
    marks = [v for c in along.crossings for v in (c.low, c.high)] + [*along.pockets]
    middle = start + OVERLAP / 2.0
    places = [
        middle + step for step in (0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0, 4.0, -4.0, 5.0, -5.0)
    ]
    return max(places, key=lambda p: min((abs(p - m) for m in marks), default=0.0))
