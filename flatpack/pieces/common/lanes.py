"""Lanes across the width that a prop's parts have to themselves, outside in.

wall | rack | clearance | bolt head | arm | washer | brace or batten | washer, lock nut and tail
"""

from __future__ import annotations

from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.pieces.family import Workings, mm
from flatpack.profiles import CoachBolt, Nut, Washer

TAIL = 4.0
"""Thread that may stand out of the lock nut, in pitches (common practice, no source)."""


class Pivot(NamedTuple):
    """What an arm turns on."""

    bolt: CoachBolt
    nut: Nut
    washer: Washer


@frozen
class Lanes:
    """Places across the width from the left wall's outer face, mm; each the lane's outer side."""

    rack: float
    arm: float
    brace: float
    free: float
    rod_length: float


def set_lanes(
    thick: tuple[float, float, float],
    pivot: Pivot,
    room: float,
    rod: float,
    names: tuple[str, str],
    notes: Workings,
) -> Lanes:
    """The lanes; `thick` are wall, rack and moving boards, `room` the clearance by the heads, mm.

    `names` are the words for the wall and for what carries the pivots.
    """
    wall, rack, moving = thick
    outer, carrier = names
    head, washer = pivot.bolt.head_height, pivot.washer.thickness
    arm = notes.add(
        f"Arm's outer face from the {outer}'s outer face",
        wall + rack + room + head,
        f"{mm(wall)} {outer} + {mm(rack)} rack + {mm(room)} clearance + {mm(head)} bolt head",
    )
    brace = notes.add(
        f"{carrier}'s outer face from the {outer}'s outer face",
        arm + moving + washer,
        f"{mm(arm)} + {mm(moving)} arm + {mm(washer)} washer",
    )
    tail = washer + pivot.nut.height + TAIL * pivot.bolt.pitch
    return Lanes(rack=wall, arm=arm, brace=brace, free=brace + moving + tail, rod_length=rod)
