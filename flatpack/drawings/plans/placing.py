"""Shapes of a part where it lies on its sheet: turned about the origin, then moved; or mirrored."""

from __future__ import annotations

from typing import NamedTuple

from flatpack.drawings.shapes import (
    Circle,
    Closed,
    Cross,
    Dimension,
    Ellipse,
    Line,
    Path,
    Shape,
    Text,
)
from flatpack.drawings.turned import Seen
from flatpack.geometry import Outline, Point, Segment, cosine_sine


class Lies(NamedTuple):
    """Turned anticlockwise by `turn` degrees about the origin, then moved by x, y."""

    turn: float
    x: float
    y: float

    def point(self, at: Point) -> Point:
        """Place on the sheet."""
        c, s = cosine_sine(self.turn)
        return Point(self.x + at.x * c - at.y * s, self.y + at.x * s + at.y * c)

    def outline(self, outline: Outline) -> Outline:
        """Outline on the sheet."""
        return outline.turned(self.turn).moved(self.x, self.y)

    def shape(self, shape: Shape) -> Shape:
        """Shape on the sheet."""
        if isinstance(shape, Closed):
            return Closed(self.outline(shape.outline), shape.filled)
        if isinstance(shape, Circle):
            return Circle(self.point(shape.centre), shape.radius)
        if isinstance(shape, Line):
            return Line(self.point(shape.start), self.point(shape.end))
        if isinstance(shape, Cross):
            return Cross(self.point(shape.centre), shape.size)
        if isinstance(shape, Path):
            segments = (Segment(self.point(a), self.point(b), k) for a, b, k in shape.segments)
            return Path(tuple(segments))
        return self._other(shape)

    def _other(self, shape: Ellipse | Dimension | Text) -> Shape:
        if isinstance(shape, Ellipse):
            major = Lies(self.turn, 0.0, 0.0).point(shape.major)
            return Ellipse(self.point(shape.centre), major, shape.ratio, shape.start, shape.end)
        if isinstance(shape, Dimension):
            ends = self.point(shape.start), self.point(shape.end)
            return Dimension(*ends, shape.offset, shape.text, shape.height)
        turn = (shape.turn + self.turn) % 360.0
        return Text(self.point(shape.at), shape.text, shape.height, turn, shape.across, shape.up,
                    shape.bold)  # fmt: skip


def over(length: float) -> Seen:
    """The sheet turned over about its middle, left to right."""
    return Seen(True, length, 0.0)
