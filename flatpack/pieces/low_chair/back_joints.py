"""A low chair's joints above the seat: cross rails, fanned slats, arms and brackets."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, X, Y, Z
from flatpack.joinery import FaceScrews
from flatpack.model import Joint
from flatpack.pieces.common.fixings import pockets
from flatpack.pieces.low_chair.arm_parts import (
    BRACKET_HEIGHT,
    BRACKET_TOE,
    bracket_depth,
    post_middle,
)
from flatpack.pieces.low_chair.back_parts import low_cross, slat_axis, upper_cross
from flatpack.pieces.low_chair.parameters import LowChair
from flatpack.pieces.low_chair.setting_out import SettingOut

BITE_IN_SCREWS = 8.0
"""Most bite of a screw into an edge, in its diameters: longer gains little (common practice)."""
BRACKET_SCREWS = (0.32, 0.7)
"""Where a bracket's screws stand, in shares of its height."""
ARM_SCREWS = (-15.0, 15.0)
"""Where the screws from a post into an arm stand about the post's middle, mm."""


def back_joints(p: LowChair, out: SettingOut) -> Iterator[Joint]:
    """Cross rails on the posts' front edges, then the slats on the cross rails."""
    for which, low in (("lower", low_cross(p)), ("upper", upper_cross(p, out))):
        for hand in ("left", "right"):
            yield _cross(p, out, which, low, hand)
    for number, ray in enumerate(out.fan.rays, 1):
        for which, low in (("lower", low_cross(p)), ("upper", upper_cross(p, out))):
            yield _slat(p, out, number, ray.angle, which, low + out.widths.cross / 2.0)


def _cross(p: LowChair, out: SettingOut, which: str, low: float, hand: str) -> Joint:
    """Two screws into a post's front edge, in the middle of its thickness."""
    t, width = out.stock.frames.thickness, out.widths.cross
    y = 2.5 * t if hand == "left" else p.size.width - 2.5 * t
    return FaceScrews(
        key=f"cross-{which}-on-{hand}",
        step="back frame",
        through=f"cross-{which}",
        into=f"post-{hand}",
        places=tuple(out.lines.on_back(low + width * share, 0.0, y) for share in (0.25, 0.75)),
        direction=out.lines.forward.negated(),
        screw=out.stock.wood_screw,
        tip_cover=out.stock.tip_cover,
        most_bite=BITE_IN_SCREWS * out.stock.wood_screw.diameter,
    )


def _slat(
    p: LowChair, out: SettingOut, number: int, angle: float, which: str, height: float
) -> Joint:
    """Two screws where the slat's axis crosses the cross rail's middle line, square to the axis."""
    foot, up, across = slat_axis(p, out, angle)
    along = out.fan.along(out.fan.rays[number - 1], height)
    off = out.fan.width_at(along) / 4.0
    return FaceScrews(
        key=f"back-slat-{number}-on-{which}",
        step="back",
        through=f"back-slat-{number}",
        into=f"cross-{which}",
        places=tuple(foot.plus(up, along).plus(across, side) for side in (-off, off)),
        direction=out.lines.forward.negated(),
        screw=out.stock.wood_screw,
        tip_cover=out.stock.tip_cover,
    )


def arm_joints(p: LowChair, out: SettingOut) -> Iterator[Joint]:
    """Brackets on the legs; arms on legs and brackets."""
    for hand, inner in (("left", Y), ("right", Y.negated())):
        if p.arms.bracket:
            yield _bracket(p, out, hand, inner)
            yield _under_arm(out, f"bracket-{hand}", hand, X, 1)
        yield _under_arm(out, f"leg-front-{hand}", hand, inner, 2)


def _under_arm(out: SettingOut, below: str, hand: str, face: Vec, count: int) -> Joint:
    return pockets(
        out.stock,
        key=f"arm-{hand}-on-{below}",
        step="arm tops",
        through=below,
        into=f"arm-{hand}",
        outward=Z,
        pocket_face=face,
        count=count,
    )


def _bracket(p: LowChair, out: SettingOut, hand: str, inner: Vec) -> Joint:
    """Two screws from inside through the leg into the bracket's straight edge."""
    t = out.stock.frames.thickness
    low = out.arm_top - out.stock.arms.thickness - BRACKET_HEIGHT
    x = out.widths.leg / 2.0
    y = t if hand == "left" else p.size.width - t
    heights = tuple(low + BRACKET_HEIGHT * share for share in BRACKET_SCREWS)
    deep = BRACKET_TOE + (bracket_depth(p, out) - BRACKET_TOE) * BRACKET_SCREWS[0]
    return FaceScrews(
        key=f"bracket-{hand}",
        step="arm tops",
        through=f"leg-front-{hand}",
        into=f"bracket-{hand}",
        places=tuple(Vec(x, y, z) for z in heights),
        direction=inner.negated(),
        screw=out.stock.wood_screw,
        tip_cover=out.stock.tip_cover,
        most_bite=deep - out.stock.tip_cover,
    )


def arm_to_post(p: LowChair, out: SettingOut, hand: str, inner: Vec) -> Joint:
    """Two screws from inside through the post into the arm's inner edge."""
    middle = post_middle(out, out.arm_top - out.stock.arms.thickness / 2.0)
    y = 3.0 * out.stock.frames.thickness
    start = y if hand == "left" else p.size.width - y
    return FaceScrews(
        key=f"arm-{hand}-to-post",
        step="arms",
        through=f"post-{hand}",
        into=f"arm-{hand}",
        places=tuple(Vec(middle.x + dx, start, middle.z) for dx in ARM_SCREWS),
        direction=inner.negated(),
        screw=out.stock.wood_screw,
        tip_cover=out.stock.tip_cover,
        most_bite=BITE_IN_SCREWS * out.stock.wood_screw.diameter,
    )
