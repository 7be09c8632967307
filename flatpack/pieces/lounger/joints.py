"""The lounger's joints, in the order of making."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.model import Joint, Step
from flatpack.pieces.common.propping import PropSetting
from flatpack.pieces.lounger.back_joints import (
    arm_joints,
    back_joints,
    hinge_joints,
    rack_joints,
)
from flatpack.pieces.lounger.frame_joints import deck_joints, frame_joints, leg_joints
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.setting_out import SettingOut

STEPS = (
    Step("frame", "Side rails, end rails and hinge rail"),
    Step(
        "deck",
        "Fixed slats",
        measures=("Length covered by fixed slats", "Gap between fixed slats"),
        spacers=("between fixed slats",),
    ),
    Step(
        "racks",
        "Racks inside the side rails",
        measures=("Rack's top below", "Rack's lower edge below"),
    ),
    Step(
        "legs",
        "Legs",
        measures=("Slats' underside above ground", "Rail's underside above ground"),
    ),
    Step(
        "back",
        "Back: slats on the two braces",
        measures=(
            "Length covered by back slats",
            "Gap between back slats",
            "Brace's outer face from",
        ),
        spacers=("between back slats", "brace's outer face from"),
    ),
    Step(
        "arms",
        "Arms and rod",
        measures=("Arm, pivot to rod", "Arm's pivot from", "Pivot below the slats"),
    ),
    Step(
        "hinges",
        "Back hinged to the frame",
        measures=("Gap at the hinge", "Hinge axis from the first back slat"),
        spacers=("last fixed slat to back",),
    ),
)


def joints(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Joint]:
    """Every joint of the lounger."""
    yield from frame_joints(p, out)
    yield from deck_joints(p, out)
    yield from rack_joints(p, out, prop)
    yield from leg_joints(p, out)
    yield from back_joints(p, out, prop)
    yield from arm_joints(out, prop)
    yield from hinge_joints(p, out)
