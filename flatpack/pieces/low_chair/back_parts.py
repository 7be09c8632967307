"""Parts of a low chair's back: fanned slats and the two cross rails behind them."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Frame, Vec, Y, cosine_sine
from flatpack.geometry.shapes import filleted, rectangle
from flatpack.model import Part
from flatpack.pieces.low_chair.fan import middle_of, slat_outline
from flatpack.pieces.low_chair.parameters import LowChair
from flatpack.pieces.low_chair.setting_out import SIDE_ROOM, SettingOut

BEYOND = 12.0
"""How far the upper cross rail reaches past the outermost slats, mm."""


def back_parts(p: LowChair, out: SettingOut) -> Iterator[Part]:
    """Cross rails, then slats from left to right."""
    yield _cross(p, out, "lower", low_cross(p), out.clear - 2.0 * SIDE_ROOM)
    yield _cross(p, out, "upper", upper_cross(p, out), upper_length(p, out))
    yield from _slats(p, out)


def low_cross(p: LowChair) -> float:
    """V of the lower cross rail's lower edge."""
    return -p.back.below


def upper_cross(p: LowChair, out: SettingOut) -> float:
    """V of the upper cross rail's lower edge."""
    return p.back.rail_height - out.widths.cross / 2.0


def upper_length(p: LowChair, out: SettingOut) -> float:
    """Over the posts, and past the outermost slats where the fan is wider there."""
    fan = 2.0 * (out.fan.half_width(p.back.rail_height + out.widths.cross / 2.0) + BEYOND)
    return max(out.clear - 2.0 * SIDE_ROOM, fan)


def _cross(p: LowChair, out: SettingOut, which: str, low: float, length: float) -> Part:
    width = out.widths.cross
    right = p.size.width / 2.0 + length / 2.0
    origin = out.lines.on_back(low, out.stock.slats.thickness + out.stock.frames.thickness, right)
    rounding = min(15.0, width / 3.0)
    corners = tuple((x, y, rounding) for x, y in ((0, 0), (length, 0), (length, width), (0, width)))
    return Part(
        key=f"cross-{which}",
        name=f"{which.capitalize()} cross rail",
        board=out.stock.frames,
        outline=filleted(corners) if which == "upper" else rectangle(length, width),
        frame=Frame(origin, Y.negated(), out.lines.up, out.lines.forward),
    )


def slat_axis(p: LowChair, out: SettingOut, angle: float) -> tuple[Vec, Vec, Vec]:
    """Lower end of a slat's axis at its back face, the way up along it, and the way across it."""
    c, s = cosine_sine(angle % 360.0)
    up = Vec(*(u * c for u in out.lines.up)).plus(Y, s)
    across = Vec(*(u * -s for u in out.lines.up)).plus(Y, c)
    apex = out.lines.on_back(
        out.fan.low - out.fan.apex, out.stock.slats.thickness, p.size.width / 2.0
    )
    return apex.plus(up, out.fan.apex), up, across


def _slats(p: LowChair, out: SettingOut) -> Iterator[Part]:
    for number, ray in enumerate(out.fan.rays, 1):
        foot, up, across = slat_axis(p, out, ray.angle)
        outline = slat_outline(out.fan, ray.length, p.back.rounding)
        yield Part(
            key=f"back-slat-{number}",
            name="Back slat",
            board=out.stock.slats,
            outline=outline,
            frame=Frame(foot.plus(across, -middle_of(outline)), up, across, out.lines.forward),
        )
