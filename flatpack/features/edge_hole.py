"""Holes bored into an edge or end, parallel to the faces or, from a slanting cut, square to it."""

from __future__ import annotations

import math

from flatpack.drawings.shapes import Line, Shape
from flatpack.frozen import frozen, kept
from flatpack.geometry import Point, Vec, cosine_sine
from flatpack.model import Cut, Face


@frozen
class EdgeHole:
    """A hole into an edge or end: `at` on the edge, `inward` the unit direction of drilling.

    `height` is where the axis enters, above the back face, mm; `rise` how it climbs towards the
    show face from there, degrees.
    """

    at: Point
    inward: Point
    height: float
    diameter: float
    depth: float | None
    fit: str = ""
    purpose: str = ""
    face: Face = "show"
    operation: str = "hidden-edge"
    rise: float = 0.0

    @property
    def reach(self) -> float:
        """Depth along the axis; an edge hole always has one."""
        return self.depth or 0.0

    @property
    def way(self) -> Vec:
        """Unit direction of drilling in the part's own axes."""
        c, s = cosine_sine(self.rise)
        return Vec(self.inward.x * c, self.inward.y * c, s)

    @kept
    def callout(self) -> str:
        """E.g. 'Ø7 x 60 deep in the edge, 9 above the back face'."""
        return (
            f"Ø{self.diameter:g} x {self.reach:g} deep in the edge, "
            f"{self.height:g} above the back face{self._climb()}"
        )

    def _climb(self) -> str:
        if self.rise == 0.0:
            return ""
        return f", {abs(self.rise):.1f}° towards the {'show' if self.rise > 0.0 else 'back'} face"

    @kept
    def key(self) -> tuple[object, ...]:
        """What makes two edge holes the same."""
        numbers = (*self.at, *self.inward, self.height, self.diameter, self.reach, self.rise)
        return ("edge-hole", *(round(n, 3) for n in numbers))

    @kept
    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """Its two sides and bottom as hidden lines, and its centre line."""
        ux, uy = self.inward
        r, d = self.diameter / 2.0, self.reach * math.cos(math.radians(self.rise))

        def spot(along: float, side: float) -> Point:
            return Point(self.at.x + ux * along - uy * side, self.at.y + uy * along + ux * side)

        return (
            ("hidden-edge", Line(spot(0.0, r), spot(d, r))),
            ("hidden-edge", Line(spot(0.0, -r), spot(d, -r))),
            ("hidden-edge", Line(spot(d, -r), spot(d, r))),
            ("centre-line", Line(spot(-6.0, 0.0), spot(d + 6.0, 0.0))),
        )

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """None as a prism square to the faces; its fastener is listed as lying inside."""
        return ()
