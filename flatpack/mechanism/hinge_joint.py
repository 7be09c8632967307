"""The gap between deck and back at the hinge: how far the back rises before the slats meet.

         fixed slat   |<- gap ->|  back slat
    ==================.         .==================   --- top
                      |         |                      |  thickness
    ==================+         +==================   ---
                           o  hinge axis, `axis_depth` below the underside (negative: above)
                      |<-->|
                 axis_from_fixed

With the axis at mid-gap the two upper arrises meet: tan(angle / 2) = gap / (2 T) with
T = thickness + axis_depth.  Elsewhere an arris meets the other slat's end or passes over it; that
and rounded arrises are solved as contacts of lines and arcs turning about the axis.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from enum import StrEnum

from flatpack.frozen import frozen, replace
from flatpack.geometry import Outline, Point, Segment, closed
from flatpack.mechanism.convex import Convex, convex
from flatpack.mechanism.turning import first_overlap

CLOSE = 1e-7  # mm: a remedy's number is found this closely, on the safe side


@frozen
class HingeJoint:
    """The joint's numbers, mm.

    `axis_from_fixed` runs from the fixed slat's end to the axis, 0 to `gap`.  The roundings are
    radii of the upper arrises, no more than the thickness.
    """

    gap: float
    thickness: float
    axis_depth: float
    axis_from_fixed: float
    round_fixed: float = 0.0
    round_moving: float = 0.0

    @classmethod
    def mid_gap(cls, gap: float, thickness: float, axis_depth: float = 0.0) -> HingeJoint:
        """A joint with its axis in the middle of the gap and square arrises."""
        return cls(gap=gap, thickness=thickness, axis_depth=axis_depth, axis_from_fixed=gap / 2.0)

    @property
    def fixed_slat(self) -> Outline:
        """The fixed slat's end in the hinge frame."""
        return _slat(self, self.axis_from_fixed, self.round_fixed).mirrored_x(0.0)

    @property
    def moving_slat(self) -> Outline:
        """The back slat's end in the hinge frame, back flat."""
        return _slat(self, self.gap - self.axis_from_fixed, self.round_moving)


class Cure(StrEnum):
    """What can be changed at the joint."""

    WIDER_GAP = "wider gap"
    AXIS_TO_FIXED = "axis towards the fixed slat"
    AXIS_TO_BACK = "axis towards the back slat"
    AXIS_HIGHER = "axis nearer the underside"
    ROUND_FIXED = "rounded arris on the fixed slat"
    ROUND_MOVING = "rounded arris on the back slat"
    ROUND_BOTH = "both arrises rounded"


@frozen
class JointRemedy:
    """A changed joint: the number that changes, its new value in mm, and the angle it then gives.

    `enough` is False when no value of that number reaches the angle wanted; then `value` is the
    furthest that it goes.
    """

    cure: Cure
    value: float
    joint: HingeJoint
    reaches: float
    enough: bool


def largest_angle(joint: HingeJoint) -> float:
    """The back angle in degrees at which the slats meet; 180 when they never do."""
    turn = first_overlap(_shaped(joint.fixed_slat), _shaped(joint.moving_slat))
    return 180.0 if turn is None else math.degrees(turn)


def gap_for(degrees: float, joint: HingeJoint, axis_share: float | None = None) -> float | None:
    """The smallest gap that lets the back reach an angle, mm; None when ten times T doesn't.

    The axis keeps its distance from the fixed slat, or with `axis_share` (0 to 1) that share of
    the gap.
    """

    def widened(gap: float) -> HingeJoint:
        from_fixed = joint.axis_from_fixed if axis_share is None else gap * axis_share
        return replace(joint, gap=gap, axis_from_fixed=from_fixed)

    most = 10.0 * (joint.thickness + abs(joint.axis_depth)) + joint.axis_from_fixed
    least = joint.axis_from_fixed if axis_share is None else 0.0
    return _least_value(degrees, widened, least, most)


def joint_remedies(degrees: float, joint: HingeJoint) -> tuple[JointRemedy, ...]:
    """What each change alone needs to reach an angle; each is tried with `largest_angle`.

    A wider gap moves the back slat away and leaves the axis where it is.
    """
    return tuple(
        _tried(degrees, cure, change, joint, least, most)
        for cure, change, least, most in _cures(joint)
    )


def opening_limit(opens: float, leaves_at_flat: float = 180.0) -> float:
    """The back angle at which the hinge itself is open to its stop, degrees.

    `leaves_at_flat` is the angle between the leaves' screwed faces with the back flat, and
    `opens` the hinge's whole opening: leaves under the slats lie at 180 when flat, so a hinge
    that opens to 270 lets the back rise by 90 and one that stops at 180 not at all.
    """
    return max(opens - leaves_at_flat, 0.0)


def _cures(
    joint: HingeJoint,
) -> tuple[tuple[Cure, Callable[[float], HingeJoint], float, float], ...]:
    """Each cure with its changed joint as a function of the number, and the number's range."""
    at, gap, thick = joint.axis_from_fixed, joint.gap, joint.thickness
    widest = 10.0 * (thick + abs(joint.axis_depth)) + gap
    return (
        (Cure.WIDER_GAP, lambda v: replace(joint, gap=v), gap, widest),
        (Cure.AXIS_TO_FIXED, lambda v: replace(joint, axis_from_fixed=v), at, 0.0),
        (Cure.AXIS_TO_BACK, lambda v: replace(joint, axis_from_fixed=v), at, gap),
        (Cure.AXIS_HIGHER, lambda v: replace(joint, axis_depth=v), joint.axis_depth, 0.0),
        (Cure.ROUND_FIXED, lambda v: replace(joint, round_fixed=v), joint.round_fixed, thick),
        (Cure.ROUND_MOVING, lambda v: replace(joint, round_moving=v), joint.round_moving, thick),
        (
            Cure.ROUND_BOTH,
            lambda v: replace(joint, round_fixed=v, round_moving=v),
            max(joint.round_fixed, joint.round_moving),
            thick,
        ),
    )


def _tried(
    degrees: float,
    cure: Cure,
    change: Callable[[float], HingeJoint],
    joint: HingeJoint,
    least: float,
    most: float,
) -> JointRemedy:
    value = _least_value(degrees, change, least, most)
    changed = change(most if value is None else value)
    reaches = largest_angle(changed)
    return JointRemedy(
        cure=cure,
        value=most if value is None else value,
        joint=changed,
        reaches=reaches,
        enough=value is not None and reaches >= degrees,
    )


def _least_value(
    degrees: float, change: Callable[[float], HingeJoint], least: float, most: float
) -> float | None:
    """The value nearest `least`, towards `most`, at which the joint reaches the angle."""
    if largest_angle(change(least)) >= degrees:
        return least
    if largest_angle(change(most)) < degrees:
        return None
    while abs(most - least) > CLOSE:
        middle = (least + most) / 2.0
        if largest_angle(change(middle)) >= degrees:
            most = middle
        else:
            least = middle
    return most


def _slat(joint: HingeJoint, start: float, rounding: float) -> Outline:
    """A slat from `start` rightwards, long enough that its far end can't matter."""
    low, high = joint.axis_depth, joint.axis_depth + joint.thickness
    r = min(rounding, joint.thickness)
    far = start + 4.0 * (joint.gap + joint.thickness + abs(joint.axis_depth)) + 1.0
    corners = [(start, low, 0.0), (far, low, 0.0), (far, high, 0.0)]
    if r == 0.0:
        return closed((*corners, (start, high, 0.0)))
    quarter = math.tan(math.pi / 8.0)
    if r == joint.thickness:  # no upright part is left
        return closed((*corners, (start + r, high, quarter)))
    return closed((*corners, (start + r, high, quarter), (start, high - r, 0.0)))


def _shaped(slat: Outline) -> tuple[Convex, tuple[Segment, ...]]:
    """A slat as a convex shape and as its sides without the far end."""
    shape = convex(slat)
    assert shape is not None
    far = max(abs(p.x) for p in slat.points)
    return shape, tuple(s for s in slat.segments if not _upright_at(s, far))


def _upright_at(side: Segment, x: float) -> bool:
    return all(abs(abs(p.x) - x) < 1e-9 for p in (Point(*side.start), Point(*side.end)))
