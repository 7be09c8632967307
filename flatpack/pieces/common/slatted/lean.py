r"""How the leg frames stand: upright, or splayed one way or both.

    from the side, x to the rear        from the front, y to the right
         ___________                          ______________
        /|         |\                         /|          |\      each frame's plane holds x and
       / |<- side  | \                 front / |          | \     leans out by `front`; in it the
      /  |         |  \                     /  |          |  \    legs lean apart

Both are the angles seen in the views; at the slats' underside everything stands where it would
stand with straight legs.  Boards that lean lie further apart measured level: `deep` is a thickness,
`wide` a leg's width on the level.
"""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.geometry import Plane, Vec
from flatpack.geometry.outline import cosine_sine


@frozen
class Lean:
    """The lean of the leg frames: `front` and `side` in degrees, `under` where they end, mm."""

    front: float
    side: float
    under: float

    @property
    def straight(self) -> bool:
        """Whether the legs stand upright."""
        return self.front == 0.0 and self.side == 0.0

    @property
    def slope_x(self) -> float:
        """How far a front leg's foot stands forward for each mm of height."""
        return math.tan(math.radians(self.side))

    @property
    def slope_y(self) -> float:
        """How far a leg frame's foot stands outwards for each mm of height."""
        return math.tan(math.radians(self.front))

    @property
    def mitre(self) -> float:
        """How far the rails' ends are off square, degrees: the legs' lean within their frame.

        A rise of 1 is 1 / cos(front) long in the frame's plane.
        """
        return math.degrees(math.atan(self.slope_x * cosine_sine(self.front)[0]))

    def deep(self, thickness: float) -> float:
        """A frame's thickness measured level, mm."""
        return thickness / cosine_sine(self.front)[0]

    def wide(self, width: float) -> float:
        """A leg's width measured level, in the plane of its frame, mm."""
        return width / cosine_sine(self.mitre)[0]

    def out_x(self, z: float) -> float:
        """How far a front leg stands further forward at a height than at its top, mm."""
        return (self.under - z) * self.slope_x

    def out_y(self, z: float) -> float:
        """How far a frame stands further out at a height than at its top, mm."""
        return (self.under - z) * self.slope_y

    def inwards(self, name: str) -> Vec:
        """The way that the inner face of a leg frame looks."""
        c, s = cosine_sine(self.front)
        return Vec(0.0, c if name == "left" else -c, -s + 0.0)

    def inner_plane(self, name: str, at: float) -> Plane:
        """The plane of a frame's inner face, which stands at y = `at` at its top."""
        return Plane(Vec(0.0, at, self.under), self.inwards(name))
