"""The whole travel of a propped back: raised, past the last tooth, released, lowered, folded.

raise:   the rod is dragged up each ramp and drops past each tooth
over:    a little further than the highest stop, far enough for the rod to clear the last tooth
lift:    the arms swing up until the rod is above all teeth
lower:   the back goes down with the rod carried above the teeth, hanging while it can't reach
settle:  with the back flat the rod is let down to its folded place
"""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.geometry import Point, Segment
from flatpack.mechanism.carry import carried_way
from flatpack.mechanism.clearing import LIMIT, clear_angle, stand_at
from flatpack.mechanism.follow import first_rest, follow, swing
from flatpack.mechanism.prop import Prop, pivot_at
from flatpack.mechanism.track import Phase, Stand, Stretch

__all__ = ["Path", "Phase", "Stand", "Stretch", "travel"]

OVERRUN = 1.0  # degrees that a hand goes too far: our own choice
MOST = 179.0  # degrees: a back turned right over is another mechanism
CARRY = 3.0  # mm above the teeth at which a rod is carried over them: our own choice


@frozen
class Path:
    """The travel as smooth stretches in order, each starting where the one before ends.

    `highest` and `seat` are the highest stop's angle and rod centre.  `passes` is the angle at
    which the rod has come past that stop's tooth, `clears` the one at which it can be lifted out
    again (None: not within the limit), and `over` the greatest angle of the travel, degrees.
    `carried` is the height of the rod's centre while it's carried over the teeth, mm.
    """

    prop: Prop
    rack: tuple[Segment, ...]
    stretches: tuple[Stretch, ...]
    highest: float
    seat: Point
    passes: float | None
    clears: float | None
    over: float
    carried: float

    @property
    def folded(self) -> Stand:
        """The position with the back flat and the rod let down."""
        return self.stretches[-1].at(1.0)

    @property
    def topmost(self) -> Stand:
        """The position at the greatest angle, before the rod is lifted."""
        return self.raising[-1].at(1.0)

    @property
    def raising(self) -> tuple[Stretch, ...]:
        """The stretches from flat to the greatest angle."""
        return tuple(s for s in self.stretches if s.phase in (Phase.RAISING, Phase.DROPPING))


def travel(
    prop: Prop,
    rack: tuple[Segment, ...],
    highest: float,
    seat: Point,
    *,
    overrun: float = OVERRUN,
    carry: float = CARRY,
    limit: float = LIMIT,
) -> Path:
    """The travel over a rack given as the rod centre's chain, hinge end to free end.

    `highest` and `seat` are the highest stop's angle (degrees) and rod centre.  The back goes
    `overrun` degrees past the angles at which the rod drops into that stop and comes free of it
    (each sought up to `limit` past the stop); `carry` is the height in mm above the highest tooth
    at which a person carries the rod down.
    """
    limit = min(limit, MOST - highest)
    whole = follow(prop, rack, 0.0, highest + limit, Phase.RAISING)
    passes = next((s.end for s in whole if s.track.end.x <= seat.x + 1e-6), None)
    clears = clear_angle(prop, rack, highest, seat, limit)
    needed = max([highest, *(a for a in (passes, clears) if a is not None)])
    over = min(needed + overrun, MOST)
    raising = follow(prop, rack, 0.0, over, Phase.RAISING)
    folded = first_rest(rack, pivot_at(prop, 0.0), prop.arm)
    way = carried_way(rack, None if folded is None else folded.rod, carry)
    return Path(
        prop=prop,
        rack=rack,
        stretches=(*raising, *_lowered(prop, rack, raising[-1].at(1.0), way)),
        highest=highest,
        seat=seat,
        passes=passes,
        clears=clears,
        over=over,
        carried=way[0].start.y,
    )


def at_angle(path: Path, degrees: float) -> Stand:
    """The position at an angle on the way up, at rest after any drop there."""
    return stand_at(path.raising, degrees)


def _lowered(
    prop: Prop, rack: tuple[Segment, ...], top: Stand, way: tuple[Segment, ...]
) -> tuple[Stretch, ...]:
    """Lift, lower and settle from the topmost position."""
    lowering = follow(prop, way, top.degrees, 0.0, Phase.LOWERING)
    lift = swing(prop, top.degrees, top.rod, lowering[0].at(0.0).rod, Phase.LIFTING)
    let_down = _settled(prop, rack, lowering[-1].at(1.0).rod)
    return tuple(s for s in (lift, *lowering, let_down) if s is not None)


def _settled(prop: Prop, rack: tuple[Segment, ...], rod: Point) -> Stretch | None:
    """With the back flat, the rod's swing down to its folded place."""
    pivot = pivot_at(prop, 0.0)
    lean = math.atan2(rod.x - pivot.x, pivot.y - rod.y)
    rest = first_rest(rack, pivot, prop.arm, lean)
    end = Point(pivot.x, pivot.y - prop.arm) if rest is None else rest.rod
    return swing(prop, 0.0, rod, end, Phase.SETTLING)
