"""Placing a flat part in space: an origin and three unit axes, which may be a mirror image."""

from __future__ import annotations

from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry.outline import cosine_sine


class Vec(NamedTuple):
    """A place or direction in space, mm: x along the piece, y across it, z up."""

    x: float
    y: float
    z: float

    def plus(self, other: Vec, times: float = 1.0) -> Vec:
        """This vector with `times` the other added."""
        return Vec(self.x + other.x * times, self.y + other.y * times, self.z + other.z * times)

    def minus(self, other: Vec) -> Vec:
        """This vector less the other."""
        return Vec(self.x - other.x, self.y - other.y, self.z - other.z)

    def dot(self, other: Vec) -> float:
        """Scalar product."""
        return self.x * other.x + self.y * other.y + self.z * other.z

    def cross(self, other: Vec) -> Vec:
        """Vector product, right-handed."""
        return Vec(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )

    @property
    def length(self) -> float:
        """Length, mm."""
        return float((self.x * self.x + self.y * self.y + self.z * self.z) ** 0.5)

    def unit(self) -> Vec:
        """The vector of length 1 in this direction."""
        n = self.length
        return Vec(self.x / n, self.y / n, self.z / n)

    def negated(self) -> Vec:
        """The opposite vector."""
        return Vec(-self.x, -self.y, -self.z)


X, Y, Z = Vec(1.0, 0.0, 0.0), Vec(0.0, 1.0, 0.0), Vec(0.0, 0.0, 1.0)
ORIGIN = Vec(0.0, 0.0, 0.0)


@frozen(kw_only=False)
class Frame:
    """Where a part's own axes lie in the piece: origin, and the unit axes x, y and z.

    x runs along the grain, y across it, z out of the show face.  A mirrored (other-hand) part
    has a left-handed frame: x cross y = -z.
    """

    origin: Vec = ORIGIN
    x: Vec = X
    y: Vec = Y
    z: Vec = Z

    @property
    def mirrored(self) -> bool:
        """True when the frame is left-handed."""
        return self.x.cross(self.y).dot(self.z) < 0.0

    def place(self, x: float, y: float, z: float = 0.0) -> Vec:
        """The place in the piece of a point given in the part's own axes."""
        o, a, b, c = self.origin, self.x, self.y, self.z
        return Vec(
            o.x + a.x * x + b.x * y + c.x * z,
            o.y + a.y * x + b.y * y + c.y * z,
            o.z + a.z * x + b.z * y + c.z * z,
        )

    def local(self, place: Vec) -> Vec:
        """The part's own coordinates of a place in the piece."""
        d = place.minus(self.origin)
        return Vec(d.dot(self.x), d.dot(self.y), d.dot(self.z))

    def turn(self, direction: Vec) -> Vec:
        """A direction given in the part's own axes, in the piece's axes."""
        return Vec(
            self.x.x * direction.x + self.y.x * direction.y + self.z.x * direction.z,
            self.x.y * direction.x + self.y.y * direction.y + self.z.y * direction.z,
            self.x.z * direction.x + self.y.z * direction.y + self.z.z * direction.z,
        )

    def local_direction(self, direction: Vec) -> Vec:
        """A direction of the piece in the part's own axes."""
        return Vec(direction.dot(self.x), direction.dot(self.y), direction.dot(self.z))

    def within(self, outer: Frame) -> Frame:
        """This frame, given in `outer`'s axes, expressed in the axes that `outer` lies in."""
        return Frame(
            outer.place(*self.origin), outer.turn(self.x), outer.turn(self.y), outer.turn(self.z)
        )

    def mirrored_across(self, y: float) -> Frame:
        """The mirror image across the plane at height `y` across the piece: the other hand."""
        flip = Vec(1.0, -1.0, 1.0)
        o = self.origin
        return Frame(
            Vec(o.x, 2.0 * y - o.y, o.z),
            *(Vec(v.x * flip.x, v.y * flip.y, v.z * flip.z) for v in (self.x, self.y, self.z)),
        )

    def swung(self, about: Vec, degrees: float) -> Frame:
        """This frame turned about the cross axis (+y) through `about`; +x rises towards +z.

        Used for a back that lifts: at 90 degrees, what pointed along +x points along +z.
        """
        c, s = cosine_sine(degrees)

        def rotate(v: Vec) -> Vec:
            return Vec(v.x * c - v.z * s, v.y, v.x * s + v.z * c)

        moved = rotate(self.origin.minus(about)).plus(about)
        return Frame(moved, rotate(self.x), rotate(self.y), rotate(self.z))
