"""The bench's joints, in the order of making."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.model import Joint, Step
from flatpack.pieces.bench.frame_joints import (
    Parts,
    leg_frame_joints,
    seat_cleat_joints,
    seat_joints,
)
from flatpack.pieces.bench.parameters import Bench
from flatpack.pieces.bench.setting_out import SettingOut
from flatpack.pieces.bench.top_joints import arm_joints, back_joints, post_joints

_SEAT = ("Slats' underside above ground", "Gap between seat slats"), ("between seat slats",)
_POSTS = ("Rear edge of the seat",)
_BACK = ("Gap between back slats",), ("between back slats",)
WORKSHOP_STEPS = (
    Step("leg frames", "Leg frames: rails between the legs"),
    Step("cleats", "Cleats that carry the seat, on the seat rails"),
    Step("seat", "Seat slats on the cleats", "", *_SEAT),
    Step("stretcher", "Stretcher between the frames"),
    Step("posts", "Back posts on the rear legs", "", _POSTS),
    Step("back", "Back slats", "", *_BACK),
    Step("arm tops", "Arm rests on their posts"),
    Step("arms", "Arms to the frames"),
)
KNOCK_DOWN_STEPS = (
    Step("leg frames", "Leg frames: rails between the legs"),
    Step("seat", "Seat slats on their cleats", "", *_SEAT),
    Step("arm tops", "Arm rests on their posts"),
    Step("cleats", "Seat bolted into the frames"),
    Step("stretcher", "Stretcher between the frames"),
    Step("posts", "Back posts on the rear legs", "", _POSTS),
    Step("back", "Back slats", "", *_BACK),
    Step("arms", "Arms to the frames"),
)


def steps(p: Bench) -> tuple[Step, ...]:
    """Steps in order, less those that this bench doesn't have."""
    gone = set() if p.back.use else {"posts", "back"}
    gone |= set() if p.back.use and p.arms.use else {"arm tops", "arms"}
    every = KNOCK_DOWN_STEPS if p.construction == "knock-down" else WORKSHOP_STEPS
    return tuple(step for step in every if step.key not in gone)


def joints(p: Bench, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Every joint of the bench."""
    yield from leg_frame_joints(p, out, parts)
    yield from seat_joints(p, out)
    yield from seat_cleat_joints(p, out, parts)
    if p.back.use:
        yield from post_joints(p, out)
        yield from back_joints(p, out)
        if p.arms.use:
            yield from arm_joints(p, out)
