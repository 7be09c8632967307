"""A notch for a rod: its shape is already in the part's outline; this says where it is."""

from __future__ import annotations

from flatpack.drawings.shapes import Circle, Cross, Shape
from flatpack.frozen import frozen, kept
from flatpack.geometry import Point
from flatpack.model import Cut, Face


@frozen
class Notch:
    """Notch number `number`; `at` is the rod's centre when seated, `diameter` the rod's."""

    at: Point
    number: int
    diameter: float
    shape: str
    purpose: str = ""
    face: Face = "show"
    operation: str = "thin-line"
    depth: float | None = None

    @kept
    def callout(self) -> str:
        """E.g. 'notch 2, ramp, for rod Ø22'."""
        return f"notch {self.number}, {self.shape}, for rod Ø{self.diameter:g}"

    @kept
    def key(self) -> tuple[object, ...]:
        """What makes two notches the same."""
        return ("notch", self.number, round(self.at.x, 3), round(self.at.y, 3), self.shape)

    @kept
    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """The rod's place in thin line, off the cut layers."""
        return (
            ("thin-line", Circle(self.at, self.diameter / 2.0)),
            ("centre-line", Cross(self.at, self.diameter / 2.0)),
        )

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """None: the outline already has it."""
        return ()
