"""Slots: long round-ended holes that let a fastener move, e.g. with the season."""

from __future__ import annotations

import math

from flatpack.drawings.shapes import Closed, Cross, Shape
from flatpack.features.cut import depth_cut
from flatpack.frozen import frozen, kept
from flatpack.geometry import Outline, Point
from flatpack.geometry.shapes import round_ended
from flatpack.model import Cut, Face


@frozen
class Slot:
    """A slot `width` wide between two end centres; `depth` None goes through."""

    start: Point
    end: Point
    width: float
    depth: float | None = None
    face: Face = "show"
    purpose: str = ""
    operation: str = "slot"
    fit: str = ""

    @property
    def at(self) -> Point:
        """Middle of the slot."""
        return Point((self.start.x + self.end.x) / 2.0, (self.start.y + self.end.y) / 2.0)

    @property
    def outline(self) -> Outline:
        """Its edge, as true arcs and lines."""
        dx, dy = self.end.x - self.start.x, self.end.y - self.start.y
        bar = round_ended(math.hypot(dx, dy), self.width / 2.0)
        return bar.turned(math.degrees(math.atan2(dy, dx))).moved(*self.start)

    @kept
    def callout(self) -> str:
        """E.g. 'slot 9 x 20 through'."""
        dx, dy = self.end.x - self.start.x, self.end.y - self.start.y
        depth = "through" if self.depth is None else f"{self.depth:g} deep"
        return f"slot {self.width:g} x {math.hypot(dx, dy) + self.width:g} {depth}"

    @kept
    def key(self) -> tuple[object, ...]:
        """What makes two slots the same."""
        numbers = (*self.start, *self.end, self.width, self.depth or 0.0)
        return ("slot", self.face, *(round(n, 3) for n in numbers))

    @kept
    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """Its outline and the centres of its ends."""
        size = self.width + 6.0
        return (
            (self.operation, Closed(self.outline)),
            ("centre-line", Cross(self.start, size)),
            ("centre-line", Cross(self.end, size)),
        )

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """Room that the cutter leaves."""
        return (depth_cut(self.outline, thickness, self.face, self.depth),)
