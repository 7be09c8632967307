r"""Compound angles: legs that splay two ways, boxes with sloping sides, and a saw set for them.

All angles are in degrees, all lengths in mm.  A saw setting is told for a board that lies flat,
its length against the fence:

       blade   /                table turned by `table` from square across
     tilted   /                    |\
      by     / blade               | \  table
            /                 fence=====\=====
    -------+-------- table         board    \

The cut's plane has the unit normal n = (nx, ny, nz) in the board's axes (x along, y across, z out
of the face that lies up):  table = atan |ny / nx|,  blade = asin |nz|.  (The blade's plane holds
the line that it cuts on the table, turned by `table`, and leans by `blade` about that line.)
"""

from __future__ import annotations

import math
from typing import NamedTuple

from flatpack.geometry.frame import Vec

RIP = 89.95
"""A cut turned further than this from square across runs along the board."""


class SawSetting(NamedTuple):
    """Turn of the table from square across, and tilt of the blade from upright, degrees."""

    table: float
    blade: float


def setting_of(normal: Vec) -> SawSetting:
    """Setting for a cut whose plane has this unit normal in the board's own axes."""
    table = math.degrees(math.atan2(abs(normal.y), abs(normal.x)))
    flat = math.hypot(normal.x, normal.y)
    return SawSetting(table, math.degrees(math.atan2(abs(normal.z), flat)))


class Splay(NamedTuple):
    """A leg that leans two ways.

    `lean` is the true angle from plumb, `sight` the direction of the lean in plan, from the
    front's level line towards the side (0: seen fully from the front), `stretch` the leg's true
    length for each mm of height.
    """

    lean: float
    sight: float
    stretch: float


def splay(front: float, side: float) -> Splay:
    r"""True lean of a leg that leans `front` degrees from the front and `side` from the side.

              tan a          Over a height of 1 the foot moves tan a sideways and tan b to the
            <------>         front, so that
            +              tan lean = sqrt(tan2 a + tan2 b)
          a |\\              tan sight = tan b / tan a
            | \  1          stretch = sqrt(1 + tan2 a + tan2 b)

    Chairmakers call the lean the resultant angle.  (Plane trigonometry.)
    """
    a, b = math.tan(math.radians(front)), math.tan(math.radians(side))
    flat = math.hypot(a, b)
    return Splay(
        math.degrees(math.atan(flat)), math.degrees(math.atan2(b, a)), math.hypot(1.0, flat)
    )


def leg_end(front: float, side: float) -> SawSetting:
    """Level end of a board-shaped leg whose wide face is level from side to side.

    The face leans by `side` as a whole, and the leg leans within it: measured square to the
    front, `front`.  On the face the level line turns from square by

        table:  tan m = tan(front) cos(side)        blade = side

    since a height of 1 is 1 / cos(side) long on the face while the sideways run stays tan(front).
    For a leg whose wide face looks to the side, exchange the two angles.
    """
    run = math.tan(math.radians(front)) * math.cos(math.radians(side))
    return SawSetting(abs(math.degrees(math.atan(run))), abs(side))


def turned_leg_end(front: float, side: float) -> SawSetting:
    """Level end of a leg turned so that its wide face lies in the direction of its lean."""
    return SawSetting(splay(front, side).lean, 0.0)


def mitred_corner(slope: float, sides: int) -> SawSetting:
    """Mitred corner of a box of equal sides, each sloping `slope` degrees from level.

    A slope of 0 is a flat frame, 90 an upright box.  With w = 180 / sides:

        table:  tan m = cos(slope) tan w            blade:  sin b = sin(slope) sin w

    The side's end line runs from the lower to the upper corner: for 1 up the slope the corner
    moves cos(slope) outwards and so cos(slope) tan w along the side.  The mitre's plane is upright
    and leans by w from square across the side in plan, so its normal, level, makes sin w with the
    side's plan normal, of which the face's normal holds sin(slope).
    """
    p, w = math.radians(slope), math.pi / sides
    table = math.atan(math.cos(p) * math.tan(w))
    return SawSetting(math.degrees(table), math.degrees(math.asin(math.sin(p) * math.sin(w))))


def butt_corner(slope: float, sides: int) -> SawSetting:
    """Butt corner of such a box: the end lies flat against its neighbour's face.

    The end line is the mitred corner's; the blade is tilted until the cut runs with the
    neighbour's face, whose normal makes cos(90 - b) with this one's:

        sin b = cos2(slope) + sin2(slope) cos(360 / sides)

    Four sides at a slope of 90 are square.  Negative where the short face of the end is the outer.
    """
    p, w = math.radians(slope), math.pi / sides
    table = math.atan(math.cos(p) * math.tan(w))
    between = math.cos(p) ** 2 + math.sin(p) ** 2 * math.cos(2.0 * w)
    return SawSetting(math.degrees(table), math.degrees(math.asin(between)))


def dihedral(slope: float, sides: int) -> float:
    """Angle inside the wood between neighbouring faces of such a box, degrees.

    180 less twice the mitred corner's blade: each side gives half of the turn.
    """
    return 180.0 - 2.0 * mitred_corner(slope, sides).blade


def between_faces(one: Vec, other: Vec) -> float:
    """Dihedral angle, 0 to 180 degrees, of two faces with these unit normals out of the wood."""
    return 180.0 - math.degrees(math.atan2(one.cross(other).length, one.dot(other)))
