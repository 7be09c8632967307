r"""Places where the rod's path turns left: the only ones where a push can hold it.

A push in direction u holds a rod without friction where the path's heading passes u + 90 degrees
while turning left, for then the push has no share along the path and any step costs it ground:

    path  \\        /        vertex: radius 0, the fan of headings between the two faces
           \\  u   /         round seat: an arc of radius R - r about `centre`
            \\ | /          lines and right turns hold nothing: the rod balances or slides
             \\v/

Headings and turns are radians.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from flatpack.geometry import Point, Segment
from flatpack.mechanism.locus import Piece, touches

LEVEL = 1e-9  # radians: a heading this near to level is level


class Hollow(NamedTuple):
    """A left turn of the path from `heading` through `turn`, about `centre` with `radius`.

    The rod pushed along u rests at centre + radius * u.  `before` and `after` are the numbers of
    the path's pieces on both sides (the same one for an arc); `faces` are the contour's faces
    that the rod touches: one in a round seat, two or more elsewhere.
    """

    centre: Point
    radius: float
    heading: float
    turn: float
    before: int
    after: int
    faces: tuple[int, ...]

    def rest(self, push: Point) -> Point:
        """The rod's centre when pushed along the unit vector `push`."""
        return Point(self.centre.x + self.radius * push.x, self.centre.y + self.radius * push.y)

    def rim(self, side: int) -> Point:
        """The rod's centre at the end of the fan on the hinge's side (-1) or the free end's (1)."""
        heading = self.heading + (self.turn if side > 0 else 0.0)
        return self.rest(Point(math.sin(heading), -math.cos(heading)))

    def excess(self, push: Point) -> float:
        """Radians by which the push lies outside the fan; negative: inside by that margin.

        Past the far side of the fan (towards the free end) and short of its near side (towards
        the hinge) alike; `leans` tells which.
        """
        middle = self.heading + self.turn / 2.0
        return abs(_off(push, middle)) - self.turn / 2.0

    def leans(self, push: Point) -> int:
        """The side to which the push tends: 1 towards the free end, -1 towards the hinge."""
        return 1 if _off(push, self.heading + self.turn / 2.0) > 0.0 else -1


def hollows(contour: Sequence[Segment], path: Sequence[Piece], radius: float) -> tuple[Hollow, ...]:
    """Every left turn along the path, hinge end first."""
    found: list[Hollow] = []
    for number, piece in enumerate(path):
        if number > 0:
            vertex = _vertex(contour, path, number, radius)
            if vertex is not None:
                found.append(vertex)
        if piece.centre is not None and piece.sweep > 0.0:
            found.append(
                Hollow(
                    piece.centre,
                    piece.radius,
                    piece.heading,
                    piece.sweep,
                    number,
                    number,
                    (piece.touch.segment,),
                )
            )
    return tuple(found)


def _vertex(
    contour: Sequence[Segment], path: Sequence[Piece], number: int, radius: float
) -> Hollow | None:
    before, after = path[number - 1], path[number]
    turn = (after.heading - before.leaving) % math.tau
    if turn < LEVEL or turn > math.tau - 1e-6:
        return None
    faces = touches(contour, after.start, radius)
    return Hollow(after.start, 0.0, before.leaving, turn, number - 1, number, faces)


def _off(push: Point, middle: float) -> float:
    """Angle from heading `middle` to the one across the push, in (-pi, pi]."""
    return math.remainder(math.atan2(push.y, push.x) + math.pi / 2.0 - middle, math.tau)
