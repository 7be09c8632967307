"""Round holes worked from a face: through or blind, with a fit."""

from __future__ import annotations

from flatpack.drawings.shapes import Circle, Cross, Shape
from flatpack.features.cut import depth_cut
from flatpack.frozen import frozen, kept
from flatpack.geometry import Point
from flatpack.geometry.shapes import disc
from flatpack.model import Cut, Face


@frozen
class Hole:
    """A drilled hole; `depth` None goes through.  `fit` says which clearance rule sized it."""

    at: Point
    diameter: float
    depth: float | None = None
    face: Face = "show"
    fit: str = ""
    purpose: str = ""

    @property
    def operation(self) -> str:
        """Key of the layer: drill-through or drill-blind."""
        return "drill-through" if self.depth is None else "drill-blind"

    @property
    def radius(self) -> float:
        """Half the diameter, mm."""
        return self.diameter / 2.0

    @kept
    def callout(self) -> str:
        """Diameter and depth, e.g. 'Ø8.5 through'."""
        depth = "through" if self.depth is None else f"{self.depth:g} deep"
        return f"Ø{self.diameter:g} {depth}"

    @kept
    def key(self) -> tuple[object, ...]:
        """What makes two holes the same."""
        depth = None if self.depth is None else round(self.depth, 3)
        face = "" if self.depth is None else self.face
        return ("hole", *_rounded(self.at), round(self.diameter, 3), depth, face)

    @kept
    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """A circle on its own layer and a centre mark."""
        cross = Cross(self.at, self.diameter + 6.0)
        return ((self.operation, Circle(self.at, self.radius)), ("centre-line", cross))

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """Room that the drill leaves."""
        return (depth_cut(disc(self.radius, *self.at), thickness, self.face, self.depth),)


@frozen
class Counterbore:
    """A flat-bottomed recess about a hole, for a head, washer or nut."""

    at: Point
    diameter: float
    depth: float
    face: Face = "show"
    purpose: str = ""
    operation: str = "counterbore"

    @property
    def radius(self) -> float:
        """Half the diameter, mm."""
        return self.diameter / 2.0

    @kept
    def callout(self) -> str:
        """E.g. 'counterbore Ø24 x 6 deep'."""
        return f"counterbore Ø{self.diameter:g} x {self.depth:g} deep"

    @kept
    def key(self) -> tuple[object, ...]:
        """What makes two counterbores the same."""
        return (
            "counterbore",
            *_rounded(self.at),
            round(self.diameter, 3),
            round(self.depth, 3),
            self.face,
        )

    @kept
    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """A circle on its own layer."""
        return ((self.operation, Circle(self.at, self.radius)),)

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """Room that the cutter leaves."""
        return (depth_cut(disc(self.radius, *self.at), thickness, self.face, self.depth),)


@frozen
class Countersink:
    """A cone about a pilot hole for a countersunk head; `angle` is the whole cone's, degrees."""

    at: Point
    diameter: float
    angle: float = 90.0
    face: Face = "show"
    purpose: str = ""
    operation: str = "countersink"
    depth: float | None = None

    @property
    def radius(self) -> float:
        """Half the diameter at the face, mm."""
        return self.diameter / 2.0

    @kept
    def callout(self) -> str:
        """E.g. 'countersink Ø8 x 90°'."""
        return f"countersink Ø{self.diameter:g} x {self.angle:g}°"

    @kept
    def key(self) -> tuple[object, ...]:
        """What makes two countersinks the same."""
        return ("countersink", *_rounded(self.at), round(self.diameter, 3), self.angle, self.face)

    @kept
    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """A circle of its diameter at the face."""
        return ((self.operation, Circle(self.at, self.radius)),)

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """None: the head fills it."""
        return ()


def _rounded(at: Point) -> tuple[float, float]:
    return round(at.x, 3), round(at.y, 3)
