"""Dimensions and centre marks as plain lines and text, the same for every writer.

           text
  |/-----------------/|      oblique strokes at the ends (ISO 129-1 permits them);
  |                   |      the projection lines start a little off the object and
  .                   .      run a little past the dimension line
start                end
"""

from __future__ import annotations

import math
from typing import NamedTuple

from flatpack.drawings.lettering import readable_turn, text_width
from flatpack.drawings.shapes import Cross, Dimension, Line, Text
from flatpack.geometry import Point


def cross_lines(cross: Cross) -> tuple[Line, Line]:
    """The two lines of a centre mark."""
    (x, y), h = cross.centre, cross.size / 2.0
    return (
        Line(Point(x - h, y), Point(x + h, y)),
        Line(Point(x, y - h), Point(x, y + h)),
    )


def measured(dimension: Dimension, scale: float = 1.0) -> str:
    """The text of a dimension: its own, or the true length to 0.1 mm without idle zeros."""
    if dimension.text:
        return dimension.text
    (x0, y0), (x1, y1) = dimension.start, dimension.end
    return f"{math.hypot(x1 - x0, y1 - y0) / scale:.1f}".removesuffix(".0")


def dimension_parts(dimension: Dimension, scale: float = 1.0) -> tuple[tuple[Line, ...], Text]:
    """Lines and text of a dimension; `scale` is paper mm per model mm.

    A text that doesn't fit between the strokes stands past `end`, on a longer line.

    Raises:
        ValueError: start and end are the same point, so that it has no direction.
    """
    run = _Run.of(dimension)
    height, label = dimension.height, measured(dimension, scale)
    width = text_width(label, height)
    fits = width + height <= run.length
    reach = run.length if fits else run.length + height + width
    middle = run.length / 2.0 if fits else run.length + 0.8 * height + width / 2.0
    line = Line(run.at(0.0, run.offset), run.at(reach, run.offset))
    return (
        (*_projections(run, height), line, *_strokes(run, 0.4 * height)),
        _label(run, label, middle, height),
    )


class _Run(NamedTuple):
    """The measured line: its start, unit direction and length, and the offset to its left, mm."""

    start: Point
    ux: float
    uy: float
    length: float
    offset: float

    @classmethod
    def of(cls, dimension: Dimension) -> _Run:
        (x0, y0), (x1, y1) = dimension.start, dimension.end
        length = math.hypot(x1 - x0, y1 - y0)
        if length == 0.0:
            raise ValueError(f"a dimension of no length at {dimension.start}")
        return cls(
            dimension.start, (x1 - x0) / length, (y1 - y0) / length, length, dimension.offset
        )

    def at(self, along: float, out: float) -> Point:
        """The point `along` the measured line and `out` to the left of it."""
        return Point(
            self.start.x + self.ux * along - self.uy * out,
            self.start.y + self.uy * along + self.ux * out,
        )


def _projections(run: _Run, height: float) -> tuple[Line, ...]:
    if run.offset == 0.0:
        return ()
    side = math.copysign(1.0, run.offset)
    gap, past = min(1.0, abs(run.offset)) * side, run.offset + 0.6 * height * side
    return tuple(Line(run.at(along, gap), run.at(along, past)) for along in (0.0, run.length))


def _strokes(run: _Run, half: float) -> tuple[Line, ...]:
    low, high = run.offset - half, run.offset + half
    return tuple(
        Line(run.at(along - half, low), run.at(along + half, high)) for along in (0.0, run.length)
    )


def _label(run: _Run, label: str, along: float, height: float) -> Text:
    """The text stands above its line as it is read, whichever way the line was measured."""
    turn = readable_turn(run.ux, run.uy)
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    above = math.copysign(0.5 * height, c * run.ux + s * run.uy)
    return Text(run.at(along, run.offset + above), label, height, turn, "middle")
