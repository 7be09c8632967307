"""Shapes seen from the other side: moved, and mirrored left to right, in one step."""

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
from flatpack.geometry import Outline, Point, Segment


class Seen(NamedTuple):
    """How a part's own axes come to the paper: x to `x0` + x, or to `x0` - x when mirrored."""

    mirrored: bool = False
    x0: float = 0.0
    y0: float = 0.0

    def point(self, at: Point) -> Point:
        """Place on the paper."""
        return Point(self.x0 - at.x if self.mirrored else self.x0 + at.x, self.y0 + at.y)

    def outline(self, outline: Outline) -> Outline:
        """Outline on the paper, anticlockwise again."""
        if not self.mirrored:
            return outline.moved(self.x0, self.y0)
        return outline.mirrored_x(self.x0 / 2.0).moved(0.0, self.y0)

    def box(self, box: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
        """Bounds on the paper, of bounds in the part's own axes."""
        a, b = self.point(Point(box[0], box[1])), self.point(Point(box[2], box[3]))
        return min(a.x, b.x), a.y, max(a.x, b.x), b.y

    def shape(self, shape: Shape) -> Shape:
        """Shape on the paper; lettering moves, but is never itself mirrored."""
        if isinstance(shape, Circle):
            return Circle(self.point(shape.centre), shape.radius)
        if isinstance(shape, Line):
            return Line(self.point(shape.start), self.point(shape.end))
        if isinstance(shape, Cross):
            return Cross(self.point(shape.centre), shape.size)
        if isinstance(shape, Closed):
            return Closed(self.outline(shape.outline), shape.filled)
        if isinstance(shape, Ellipse):
            return self._ellipse(shape)
        return self._chain_or_words(shape)

    def _ellipse(self, e: Ellipse) -> Ellipse:
        """Mirrored, the parameter runs the other way: t becomes -t."""
        at = self.point(e.centre)
        if not self.mirrored:
            return Ellipse(at, e.major, e.ratio, e.start, e.end)
        major = Point(-e.major.x, e.major.y)
        if e.end - e.start >= 360.0:
            return Ellipse(at, major, e.ratio, e.start, e.end)
        start = -e.end % 360.0
        return Ellipse(at, major, e.ratio, start, start + (e.end - e.start))

    def _chain_or_words(self, shape: Path | Dimension | Text) -> Shape:
        if isinstance(shape, Path):
            sign = -1.0 if self.mirrored else 1.0
            return Path(
                tuple(
                    Segment(self.point(s.start), self.point(s.end), sign * s.bulge)
                    for s in shape.segments
                )
            )
        if isinstance(shape, Dimension):
            offset = -shape.offset if self.mirrored else shape.offset
            ends = self.point(shape.start), self.point(shape.end)
            return Dimension(*ends, offset, shape.text, shape.height)
        return Text(
            self.point(shape.at),
            shape.text,
            shape.height,
            shape.turn,
            shape.across,
            shape.up,
            shape.bold,
        )
