"""The cushion box's steps: the box's own, then the lid and what holds it."""

from __future__ import annotations

from flatpack.model import Step
from flatpack.pieces.common.boarded.joints import STEPS as BOX

ENDS, BEARERS, SIDES, BOTTOM = BOX
STEPS = (
    ENDS,
    Step(
        "racks",
        "Racks inside the ends",
        measures=("Rack's top below", "Rack's lower edge below"),
    ),
    BEARERS,
    SIDES,
    BOTTOM,
    Step(
        "hinge rail",
        "Hinge rail on the rear side",
        "Its rear edge lies flush with the side.",
        ("Side boards' top",),
    ),
    Step(
        "lid",
        "Lid: boards on their battens",
        "With the lid face down on the bench screw the hinges to its rear board too.",
        ("Depth of the lid", "Gap between lid boards", "Batten's outer face from"),
        ("between lid boards", "batten's outer face from"),
    ),
    Step(
        "arms",
        "Arms and rod",
        measures=("Arm, pivot to rod", "Arm's pivot from", "Pivot below the lid"),
    ),
    Step(
        "hinges",
        "Lid hinged to the rail",
        "Until the rod sits in its notches nothing keeps the lid from falling.",
        ("Gap under the closed lid", "Room behind"),
    ),
)
