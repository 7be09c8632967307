"""Pocket holes: a stepped drill at a slope to the face, whose axis leaves the edge mid-thickness.

        edge |                                     pocket face
             |<------- u0 ------->|   v = 0  ------(====)--------
      axis  -E- - _               |             .-'
      leaves |      ' - _ shoulder|         . -'    slope (15 degrees)
       here  |            ' - | - - - - - '
             |              s from E along the axis

With t the thickness and a the slope: the axis meets the face at u0 = (t/2) / tan a from the edge;
a drill of diameter d leaves an ellipse d wide and d / sin a long about that point; the shoulder,
at s from E along the axis, cuts the ellipse short when it stands deeper in than the ellipse's
near end, that is when s > (t/2 - (d/2) cos a) / sin a.  (Plane geometry.)
"""

from __future__ import annotations

import math

from flatpack.drawings.shapes import Ellipse, Line, Shape
from flatpack.frozen import frozen, kept
from flatpack.geometry import Point
from flatpack.model import Cut, Face


@frozen
class PocketHole:
    """A pocket hole.

    `exit` is where its axis leaves the edge or end (seen square to the face), `inward` the unit
    vector from there into the part.  `shoulder` is s above, mm; `slope` in degrees.
    """

    exit: Point
    inward: Point
    thickness: float
    face: Face
    slope: float
    diameter: float
    pilot: float
    shoulder: float
    screw: str = ""
    collar: str = ""
    edge: str = ""
    purpose: str = ""
    operation: str = "pocket-hole"
    depth: float | None = None

    @property
    def setback(self) -> float:
        """u0: from the edge to where the axis meets the pocket face, mm."""
        return self.thickness / 2.0 / math.tan(math.radians(self.slope))

    @property
    def at(self) -> Point:
        """Centre of the ellipse on the pocket face."""
        return self._spot(self.setback, 0.0)

    @property
    def half_length(self) -> float:
        """Half the ellipse's long axis, mm."""
        return self.diameter / 2.0 / math.sin(math.radians(self.slope))

    @property
    def shoulder_line(self) -> float:
        """Distance from the edge at which the shoulder's plane meets the pocket face, mm."""
        a = math.radians(self.slope)
        return (self.shoulder - self.thickness / 2.0 * math.sin(a)) / math.cos(a)

    @property
    def near(self) -> float:
        """Distance from the edge to the pocket's near end on the face, mm."""
        return max(self.setback - self.half_length, self.shoulder_line)

    @property
    def far(self) -> float:
        """Distance from the edge to the pocket's far end on the face, mm."""
        return self.setback + self.half_length

    def _spot(self, inward: float, side: float) -> Point:
        ux, uy = self.inward
        return Point(self.exit.x + ux * inward - uy * side, self.exit.y + uy * inward + ux * side)

    @kept
    def callout(self) -> str:
        """E.g. 'pocket hole Ø9.5, 15°, from the end'."""
        where = f", from the {self.edge}" if self.edge else ""
        return f"pocket hole Ø{self.diameter:g}, {self.slope:g}°{where}"

    @kept
    def key(self) -> tuple[object, ...]:
        """What makes two pocket holes the same."""
        numbers = (*self.exit, *self.inward, self.slope, self.diameter, self.shoulder)
        return ("pocket-hole", self.face, *(round(n, 3) for n in numbers))

    @kept
    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """The ellipse on the face, cut short at the shoulder, and its centre line to the edge."""
        a, b = self.half_length, self.diameter / 2.0
        ux, uy = self.inward
        axis = Line(self._spot(-5.0, 0.0), self._spot(self.far + 5.0, 0.0))
        centre = ("centre-line", axis)
        major = Point(ux * a, uy * a)
        cut = (self.shoulder_line - self.setback) / a
        if cut <= -1.0:
            return ((self.operation, Ellipse(self.at, major, b / a)), centre)
        reach = math.degrees(math.acos(cut))
        half_width = b * math.sin(math.radians(reach))
        start, end = self._spot(self.near, half_width), self._spot(self.near, -half_width)
        return (
            (self.operation, Ellipse(self.at, major, b / a, 360.0 - reach, 360.0 + reach)),
            (self.operation, Line(start, end)),
            centre,
        )

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """None as a prism square to the faces; its screw is listed as lying inside."""
        return ()
