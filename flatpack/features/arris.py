"""An arris rounded or chamfered along one straight stretch, as an operation of its own."""

from __future__ import annotations

import math
from typing import Literal

from flatpack.drawings.shapes import Line, Shape
from flatpack.frozen import frozen, kept
from flatpack.geometry import Point
from flatpack.model import Cut, Face


@frozen
class Arris:
    """Rounding or chamfer of `size` mm along the edge from `start` to `end` (part on the left)."""

    start: Point
    end: Point
    size: float
    style: Literal["round", "chamfer"] = "round"
    face: Face = "show"
    purpose: str = ""
    operation: str = "arris"

    @property
    def at(self) -> Point:
        """Middle of the stretch."""
        return Point((self.start.x + self.end.x) / 2.0, (self.start.y + self.end.y) / 2.0)

    @property
    def depth(self) -> float | None:
        """How far it reaches down the edge, mm."""
        return self.size

    @kept
    def callout(self) -> str:
        """E.g. 'round arris R3, show face'."""
        name = "round arris R" if self.style == "round" else "chamfer "
        return f"{name}{self.size:g}, {self.face} face"

    @kept
    def key(self) -> tuple[object, ...]:
        """What makes two arrises the same."""
        numbers = (*self.start, *self.end, self.size)
        return ("arris", self.style, self.face, *(round(n, 3) for n in numbers))

    @kept
    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """The line at which the rounding meets the face."""
        dx, dy = self.end.x - self.start.x, self.end.y - self.start.y
        n = math.hypot(dx, dy)
        ix, iy = -dy / n * self.size, dx / n * self.size
        inner = Line(
            Point(self.start.x + ix, self.start.y + iy), Point(self.end.x + ix, self.end.y + iy)
        )
        return ((self.operation, inner),)

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """None: a rounded arris is judged where parts move, not as missing room."""
        return ()
