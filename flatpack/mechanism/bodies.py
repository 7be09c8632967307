"""What moves and what stands still: side views on carriers, each in its own lane across."""

from __future__ import annotations

from enum import StrEnum
from functools import cached_property, lru_cache

from flatpack.frozen import frozen
from flatpack.geometry import Outline, Point, closed
from flatpack.mechanism.convex import Convex
from flatpack.mechanism.pieces import pieces


class Carrier(StrEnum):
    """What a body is fixed to.  Frame and ground stand still."""

    FRAME = "frame"
    BACK = "back"
    ARM = "arm"
    ROD = "rod"
    GROUND = "ground"


@frozen
class Body:
    """A part as the sweep sees it.

    `outlines` lie in the carrier's axes: the hinge frame for frame and ground, the same with the
    back flat for the back, for an arm its pivot at the origin and the rod's centre on +x, for the
    rod its own centre at the origin.  `lane` is the interval across the width that it takes, mm.
    """

    name: str
    outlines: tuple[Outline, ...]
    lane: tuple[float, float]
    carrier: Carrier

    @property
    def fixed(self) -> bool:
        """True for what stands still."""
        return self.carrier in (Carrier.FRAME, Carrier.GROUND)

    @cached_property
    def shapes(self) -> tuple[Convex, ...]:
        """The convex pieces of all outlines."""
        return _shapes(self.outlines)


@lru_cache(maxsize=512)
def _shapes(outlines: tuple[Outline, ...]) -> tuple[Convex, ...]:
    return tuple(piece for outline in outlines for piece in pieces(outline))


def share_a_lane(first: Body, second: Body, side_play: float = 0.0) -> bool:
    """Whether two bodies overlap across the width; `side_play` mm nearer counts as overlap."""
    return (
        min(first.lane[1], second.lane[1]) - max(first.lane[0], second.lane[0]) > 1e-9 - side_play
    )


def oblong(x0: float, y0: float, x1: float, y1: float) -> Outline:
    """A rectangle between two opposite corners (x0 < x1, y0 < y1)."""
    return closed(((x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)))


def disc(centre: Point, radius: float) -> Outline:
    """A full circle, of two half circles."""
    x, y = centre
    return closed(((x - radius, y, 1.0), (x + radius, y, 1.0)))


def arm_outline(arm: float, width: float, beyond: float | None = None) -> Outline:
    """An arm in its own axes; the pivot end is always a half circle.

    `beyond` None: the rod end is a half circle too.  A number: it is cut square that many mm
    past the rod's centre.
    """
    r = width / 2.0
    if beyond is None:
        return closed(((0.0, -r, 0.0), (arm, -r, 1.0), (arm, r, 0.0), (0.0, r, 1.0)))
    end = arm + beyond
    return closed(((0.0, -r, 0.0), (end, -r, 0.0), (end, r, 0.0), (0.0, r, 1.0)))


def square_arm(arm: float, width: float, beyond: float) -> Outline:
    """An arm cut square at both ends, `beyond` mm past pivot and rod centre."""
    return oblong(-beyond, -width / 2.0, arm + beyond, width / 2.0)


def rod_body(diameter: float, lane: tuple[float, float], name: str = "rod") -> Body:
    """The rod as a body."""
    outline = disc(Point(0.0, 0.0), diameter / 2.0)
    return Body(name=name, outlines=(outline,), lane=lane, carrier=Carrier.ROD)
