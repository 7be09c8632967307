"""A window of the hinge frame brought to paper: reduced, shifted, and cut off at its sides."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.drawings.shapes import Closed, Stroke
from flatpack.drawings.templates.clipping import clipped
from flatpack.geometry import Outline, Point, Segment


class Paper(NamedTuple):
    """`origin` is the hinge axis on the paper, `scale` paper mm a model mm, `box` the room kept."""

    origin: Point
    scale: float
    box: Box

    def at(self, x: float, y: float) -> Point:
        """A place of the hinge frame on the paper."""
        return Point(self.origin.x + x * self.scale, self.origin.y + y * self.scale)

    def segments(self, chain: Iterable[Segment]) -> tuple[Segment, ...]:
        """Lines and arcs of the hinge frame on the paper."""
        return tuple(Segment(self.at(*a), self.at(*b), bulge) for a, b, bulge in chain)

    def outline(self, outline: Outline) -> Outline:
        """An outline of the hinge frame on the paper."""
        points = [self.at(*p) for p in outline.points]
        ends = (*points[1:], points[0])
        return Outline(tuple(map(Segment, points, ends, (s.bulge for s in outline))))

    def closed(self, layer: str, outline: Outline, filled: bool = False) -> Iterator[Stroke]:
        """Strokes of an outline, cut off at the sides of the room."""
        return iter(clipped((Stroke(layer, Closed(self.outline(outline), filled)),), self.box))
