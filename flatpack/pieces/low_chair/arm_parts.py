r"""A low chair's arms and the brackets under them.

An arm seen from above, front to the right: broad over the leg, tapered to the rear; its straight
inner edge lies against the post.

     outer edge .-----------------.
           _.-''                   \
     rear |________________________/ front
                 inner edge
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.geometry import Frame, Outline, Vec, X, Y, Z
from flatpack.geometry.shapes import filleted
from flatpack.model import Part
from flatpack.pieces.low_chair.bolting import post_middle_line
from flatpack.pieces.low_chair.fan import MOST_ROUND, round_or_sharp
from flatpack.pieces.low_chair.parameters import LowChair
from flatpack.pieces.low_chair.setting_out import SettingOut

TAPER_SHARE = 0.45
"""Share of the arm's length over which it grows from its rear width to its full width."""
EASED = 55.0
"""How far the eased corner of an arm's outer edge reaches to either side, mm."""
LEAST_TAPER = 0.5
"""A lesser difference of an arm's widths is no taper, mm."""
BRACKET_HEIGHT, BRACKET_TOE, BRACKET_LIP = 120.0, 16.0, 14.0
"""The bracket: its height, its depth at the lower end, and its straight edge below the arm, mm."""
BRACKET_BACK = 25.0
"""From the bracket's outer edge to the arm's, mm, for shadow."""


def arm_parts(p: LowChair, out: SettingOut) -> Iterator[Part]:
    """The left arm, and its bracket."""
    yield _arm(p, out)
    if p.arms.bracket:
        yield _bracket(p, out)


def post_middle(out: SettingOut, z: float) -> Vec:
    """Place on the posts' middle line at a height; y = 0."""
    start = out.lines.on_back(0.0, post_middle_line(out))
    return start.plus(out.lines.up, (z - start.z) / out.lines.up.z)


def arm_rear(out: SettingOut) -> float:
    """X of the arm's rear end: the post's rear edge at the arm's upper face."""
    half = out.widths.post / 2.0 / out.lines.up.z
    return post_middle(out, out.arm_top).x + half


def _arm(p: LowChair, out: SettingOut) -> Part:
    t, rear = out.stock.frames.thickness, arm_rear(out)
    width = p.arms.width
    frame = Frame(
        Vec(rear, 2.0 * t - width, out.arm_top - out.stock.arms.thickness), X.negated(), Y, Z
    )
    return Part(
        key="arm-left",
        name="Arm",
        board=out.stock.arms,
        outline=arm_outline(p, rear + p.arms.overhang),
        frame=frame,
        hand="left",
    )


def arm_outline(p: LowChair, length: float) -> Outline:
    """The arm in its own axes: x forward from the rear end, y from its broadest outer edge."""
    width, front = p.arms.width, front_round(p)
    taper = width - p.arms.rear_width
    begins = length * TAPER_SHARE
    small = min(12.0, p.arms.rear_width / 4.0)
    corners = [(0.0, taper if taper > LEAST_TAPER else 0.0, small)]
    if taper > LEAST_TAPER:
        corners.append((begins, 0.0, _smooth(begins, taper, length - begins - front)))
    corners += [(length, 0.0, front), (length, width, front), (0.0, width, 0.0)]
    return filleted(tuple(corners))


def front_round(p: LowChair) -> float:
    """Radius of the front corners, all but a half circle at most."""
    return round_or_sharp(min(p.arms.round, MOST_ROUND * p.arms.width / 2.0))


def _smooth(begins: float, taper: float, after: float) -> float:
    """Radius that eases the corner where the taper ends, no longer than one sheet of paper."""
    turn = math.atan2(taper, begins)
    return min(begins / 3.0, after / 3.0, EASED) / math.tan(turn / 2.0)


def bracket_depth(p: LowChair, out: SettingOut) -> float:
    """How far the bracket stands out from the leg."""
    return p.arms.width - 2.0 * out.stock.frames.thickness - BRACKET_BACK


def _bracket(p: LowChair, out: SettingOut) -> Part:
    """Grain upright, square to the leg, in the middle of its width."""
    t, deep, high = out.stock.frames.thickness, bracket_depth(p, out), BRACKET_HEIGHT
    shape = filleted(
        (
            (0.0, 0.0, 0.0),
            (high, 0.0, 0.0),
            (high, deep, 0.0),
            (high - BRACKET_LIP, deep, 4.0),
            (0.0, BRACKET_TOE, 4.0),
        )
    )
    low = out.arm_top - out.stock.arms.thickness - high
    front = (out.widths.leg - t) / 2.0
    return Part(
        key="bracket-left",
        name="Arm bracket",
        board=out.stock.frames,
        outline=shape,
        frame=Frame(Vec(front, 0.0, low), Z, Y.negated(), X),
        hand="left",
    )
