"""Lettering that the cutter engraves: strokes, no text."""

from __future__ import annotations

from flatpack.drawings.shapes import Shape
from flatpack.drawings.stroke_font import stroke_width, strokes
from flatpack.frozen import frozen
from flatpack.geometry import Point
from flatpack.model import Cut, Face


@frozen
class Engraving:
    """`text` engraved in capitals `height` mm high; `at` is the left end of its base line."""

    at: Point
    text: str
    height: float
    face: Face = "show"
    purpose: str = ""
    operation: str = "part-mark"
    depth: float | None = None

    def callout(self) -> str:
        """E.g. 'engraved 0.1'."""
        return f"engraved {self.text}"

    def key(self) -> tuple[object, ...]:
        """What makes two of them the same."""
        return ("engraving", self.face, self.text, round(self.at.x, 3), round(self.at.y, 3))

    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """Its strokes."""
        return tuple((self.operation, path) for path in strokes(self.text, self.at, self.height))

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """None: it only marks the surface."""
        return ()


def engraved(text: str, middle: float, y: float, height: float, purpose: str = "") -> Engraving:
    """Lettering about x = `middle`, on a base line at y."""
    at = Point(middle - stroke_width(text, height) / 2.0, y)
    return Engraving(at=at, text=text, height=height, purpose=purpose)
