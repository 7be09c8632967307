"""The joint at the hinge: where the axis is, and the gap that lets the back rise."""

from __future__ import annotations

import math

from flatpack.mechanism.hinge_joint import HingeJoint, largest_angle
from flatpack.pieces.family import Workings, mm
from flatpack.pieces.lounger.parameters import Lounger

SWING_ROOM = 1.0
"""Clearance wanted between the slats as they swing at the hinge, mm (common practice)."""


def hinge_joint(p: Lounger, slat: float, depth: float, notes: Workings) -> tuple[float, float]:
    """The axis's distance from the first back slat, and the gap at the hinge, mm.

    Swinging by a about an axis `depth` below it, the slat's lower arris dips under the rails'
    tops unless it stands depth tan(a / 2) off the axis.  The gap is the least whole mm at which
    the slats' upper arrises still clear one another.  (Plane geometry; see mechanism/hinge_joint.)
    """
    top = max(p.back.angles) + p.hinge.spare
    least = depth * math.tan(math.radians(top) / 2.0) + SWING_ROOM
    off = p.hinge.axis_from_back
    off = notes.add(
        "Hinge axis from the first back slat",
        math.ceil(2.0 * least) / 2.0 if off is None else off,
        f"{mm(depth)} x tan({mm(top)}° / 2) + {mm(SWING_ROOM)} clearance = {least:.1f}, so that "
        "the slat's lower arris clears the rails"
        if off is None
        else "as asked",
    )
    if p.hinge.gap is not None:
        return off, notes.add("Gap at the hinge", p.hinge.gap, "as asked")
    deep, turn = slat + depth, math.radians(top)
    gap = float(math.ceil(deep * math.sin(turn) - off * math.cos(turn) + off))
    while largest_angle(_joint(gap - SWING_ROOM, slat, depth, off)) < top:
        gap += 1.0
    return off, notes.add(
        "Gap at the hinge",
        gap,
        f"least whole mm with {mm(SWING_ROOM)} clearance at {mm(top)}° "
        f"({mm(max(p.back.angles))}° highest stop + {mm(p.hinge.spare)}° spare): "
        f"{mm(slat)} slat + {mm(depth)} to the axis = {mm(deep)} deep",
    )


def _joint(gap: float, slat: float, depth: float, off: float) -> HingeJoint:
    return HingeJoint(
        gap=gap, thickness=slat, axis_depth=depth, axis_from_fixed=max(gap - off, 0.0)
    )
