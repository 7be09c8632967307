"""A bevelled edge or end: sawn at a slant through the thickness.

             start or end of the line on the long face
      long face  +-----------------*        slant: from square, towards the wood
                 |                /:
                 |   wood        / : t      gone: what lies beyond the plane
                 |              /s :
     other face  +-------------*---+
                 |<- t tan s ->|

The outline is the part's full extent, so the line is one of its straight segments.  The saw goes
through the whole board along the line.  With the line square across the grain the table stands at
0; with the long face up on the saw, table and blade are the two angles that it is set to.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from flatpack.drawings.shapes import Line, Shape
from flatpack.frozen import frozen, replace
from flatpack.geometry import Outline, Plane, Point, Vec
from flatpack.geometry.compound import SawSetting, setting_of
from flatpack.geometry.plane import cut_short
from flatpack.model import Cut, Face
from flatpack.wording import english_saw as words


@frozen
class Bevel:
    """A slanting cut along the outline from `start` to `end` (part on the left).

    `slant` is the angle of the cut from square to the faces, degrees, above 0 and below 90;
    `face` is the face that stays longer, on which the line lies; `thickness` the board's, mm.
    `far` is the arris on the shorter face, where it isn't just the line moved back: `bevels` gives
    it.
    """

    start: Point
    end: Point
    slant: float
    thickness: float
    face: Face = "show"
    far: tuple[Point, Point] | None = None
    purpose: str = ""
    operation: str = "bevel"
    depth: float | None = None

    @property
    def at(self) -> Point:
        """Middle of the line."""
        return Point((self.start.x + self.end.x) / 2.0, (self.start.y + self.end.y) / 2.0)

    @property
    def set_back(self) -> float:
        """How much shorter the other face is, square to the line, mm."""
        return self.thickness * math.tan(math.radians(self.slant))

    @property
    def outward(self) -> Point:
        """Unit vector out of the part, square to the line, in the plane of the faces."""
        dx, dy = self.end.x - self.start.x, self.end.y - self.start.y
        n = math.hypot(dx, dy)
        return Point(dy / n, -dx / n)

    @property
    def setting(self) -> SawSetting:
        """How table and blade are set, with the long face up, degrees."""
        return setting_of(self.plane(self.thickness).out)

    def plane(self, thickness: float) -> Plane:
        """The cut, in the part's own axes."""
        c, s = math.cos(math.radians(self.slant)), math.sin(math.radians(self.slant))
        show = self.face == "show"
        out = self.outward
        place = Vec(self.start.x, self.start.y, thickness if show else 0.0)
        return Plane(place, Vec(out.x * c, out.y * c, -s if show else s))

    def far_line(self) -> tuple[Point, Point]:
        """The arris on the other, shorter face."""
        if self.far is not None:
            return self.far
        (ox, oy), back = self.outward, self.set_back
        return (
            Point(self.start.x - ox * back, self.start.y - oy * back),
            Point(self.end.x - ox * back, self.end.y - oy * back),
        )

    def callout(self) -> str:
        """E.g. 'saw at a slant: table 7.1°, blade 12.3°, show face longer and up'."""
        return words.bevel(words.setting(*self.setting), self.face)

    def key(self) -> tuple[object, ...]:
        """What makes two bevels the same."""
        numbers = (*self.start, *self.end, self.slant, self.thickness)
        return ("bevel", self.face, *(round(n, 3) for n in numbers))

    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """The arris on the shorter face."""
        return ((self.operation, Line(*self.far_line())),)

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """None as a prism square to the faces: see `plane`."""
        return ()


class Slant(NamedTuple):
    """A slanting cut wanted along an outline from `start` to `end`: see `Bevel`."""

    start: Point
    end: Point
    slant: float
    face: Face = "show"
    purpose: str = ""


def bevels(outline: Outline, thickness: float, wanted: Sequence[Slant]) -> tuple[Bevel, ...]:
    """All bevels of a part, their arrises on the shorter faces ended where the part ends there."""
    cuts = [
        Bevel(start=w.start, end=w.end, slant=w.slant, thickness=thickness, face=w.face,
              purpose=w.purpose)
        for w in wanted
    ]  # fmt: skip
    return tuple(replace(cut, far=_far(outline, thickness, cut, cuts)) for cut in cuts)


def _far(
    outline: Outline, thickness: float, cut: Bevel, cuts: Sequence[Bevel]
) -> tuple[Point, Point]:
    """Ends of the cut's line on its shorter face, within what all cuts leave there."""
    height = 0.0 if cut.face == "show" else thickness
    left: Outline | None = outline
    for other in cuts:
        left = None if left is None else cut_short(left, *other.plane(thickness).line(height))
    at, out = cut.plane(thickness).line(height)
    on = [
        p
        for s in left or ()
        for p in s[:2]
        if abs((p.x - at.x) * out.x + (p.y - at.y) * out.y) < 1e-6
    ]
    if not on:
        return cut.far_line()
    along = sorted((p.y * out.x - p.x * out.y, p) for p in on)
    return along[0][1], along[-1][1]
