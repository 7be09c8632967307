"""Keys of a low chair that can't go together, each with what would do."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from flatpack.parameters import Conflict
from flatpack.pieces.family import Workings, fixings_fit, mm
from flatpack.pieces.low_chair.arm_parts import (
    BRACKET_BACK,
    TAPER_SHARE,
    arm_rear,
    front_round,
)
from flatpack.pieces.low_chair.back_parts import upper_cross, upper_length
from flatpack.pieces.low_chair.parameters import LowChair
from flatpack.pieces.low_chair.parts import post_edge, post_foot
from flatpack.pieces.low_chair.setting_out import SIDE_ROOM, SettingOut, set_out
from flatpack.pieces.low_chair.stock import stock_for
from flatpack.profiles import Profiles

LEAST_FOOT, LEAST_TAIL = 60.0, 45.0
"""The foot's length on the ground, and the rail's height at its rear end, mm."""
LEAST_BRACKET = 30.0
"""Depth of a bracket that is worth its screws, mm."""
TOP_ABOVE = 20.0
"""A slat's straight sides end this far above the upper cross rail, mm."""
ARM_ROOM = 2.0
"""From arms to back slats and cross rail, mm."""


def conflicts(p: LowChair, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together."""
    out = set_out(p, stock_for(p, profiles), Workings())
    yield from _seat(p, out)
    yield from _rails(p, out)
    yield from _fan(p, out)
    yield from _back(p, out)
    yield from _arms(p, out)
    yield from fixings_fit(p.fixings, profiles, (("bolt", "nut"), ("bolt", "washer")))


def _seat(p: LowChair, out: SettingOut) -> Iterator[Conflict]:
    width = out.widths.seat_slat
    if out.seat.gap < 0.0:
        yield Conflict(
            "seat.count",
            p.seat.count or out.seat.count,
            f"at most {int(out.seat.covered / width)}: {mm(out.seat.covered)} for slats "
            f"{mm(width)} wide",
            "more slats than fit",
        )
    if out.widths.apron > out.widths.rail - 10.0:
        yield Conflict(
            "rails.apron",
            p.rails.apron,
            f"at most {mm(out.widths.rail - 10.0)}, less than the rails",
            "the apron is deeper than the rails",
        )


def _rails(p: LowChair, out: SettingOut) -> Iterator[Conflict]:
    """The foot stands on the ground, and the rail is there where the posts are bolted."""
    slope, width = math.radians(p.seat.slope), out.widths.rail
    if out.foot.bearing < LEAST_FOOT:
        need = width + (LEAST_FOOT - out.foot.bearing) * math.sin(slope)
        yield Conflict(
            "rails.width",
            p.rails.width,
            f"at least {mm(math.ceil(need))}, or size.depth at least "
            f"{mm(math.ceil(p.size.depth + LEAST_FOOT - out.foot.bearing))}",
            "the rails don't reach the ground within the depth",
        )
        return
    tail = width - out.foot.rise * math.tan(slope)
    if tail < LEAST_TAIL:
        over = (LEAST_TAIL - tail) / math.sin(slope)
        yield Conflict(
            "size.depth",
            p.size.depth,
            f"at most {mm(math.floor(p.size.depth - over))}",
            "the rails taper to nothing at the rear",
        )
    yield from _posts_on_rail(p, out)


def _posts_on_rail(p: LowChair, out: SettingOut) -> Iterator[Conflict]:
    """The posts' rear corners lie on the rail, above the ground and before its end."""
    lines, low = out.lines, post_foot(p, out)
    heel = lines.on_back(low, post_edge(out) + out.widths.post)
    if heel.z < 5.0:
        yield Conflict(
            "rails.width",
            p.rails.width,
            f"at most {mm(math.floor(out.widths.rail + heel.z - 6.0))}",
            "the back posts reach the ground",
        )
    top = lines.on_back(0.0, post_edge(out) + out.widths.post)
    end = out.foot.end - top.minus(lines.corner).dot(lines.along)
    if end < 20.0:
        yield Conflict(
            "size.depth",
            p.size.depth,
            f"at least {mm(math.ceil(p.size.depth + 20.0 - end))}, or a shallower seat",
            "the rails end before the back posts do",
        )


def _fan(p: LowChair, out: SettingOut) -> Iterator[Conflict]:
    fan, rays = out.fan, out.fan.rays
    if fan.gap < p.back.least_gap - 1e-9:
        yield Conflict(
            "back.count",
            p.back.count or len(rays),
            f"fewer, narrower slats, or back.least_gap at most {mm(max(fan.gap, 0.0))}",
            "slats stand closer at their lower ends than the least gap",
        )
    half = math.radians(fan.step) / 2.0
    most = fan.width + 2.0 * (p.back.height + p.back.below) * math.tan(half)
    if p.back.top_width is not None and p.back.top_width > most:
        yield Conflict(
            "back.top_width",
            p.back.top_width,
            f"at most {mm(math.floor(most))}",
            "slats come closer towards their tops than at their lower ends",
        )
    if out.tops.radius and p.back.crown > out.tops.reach and p.back.profile == "arc":
        yield Conflict(
            "back.crown",
            p.back.crown,
            f"at most {mm(math.floor(out.tops.reach))}, half the fan's width there",
            "the arc would be more than half a circle",
        )


def _back(p: LowChair, out: SettingOut) -> Iterator[Conflict]:
    if p.back.bottom_width > out.clear - 2.0 * SIDE_ROOM:
        yield Conflict(
            "back.bottom_width",
            p.back.bottom_width,
            f"at most {mm(out.clear - 2.0 * SIDE_ROOM)}, between the rails",
            "the back slats don't fit between the rails",
        )
    top = min(_straight(p, out, length) for length in {ray.length for ray in out.fan.rays})
    high = p.back.rail_height + out.widths.cross / 2.0
    if high + TOP_ABOVE > top:
        yield Conflict(
            "back.rail_height",
            p.back.rail_height,
            f"at most {mm(math.floor(top - TOP_ABOVE - out.widths.cross / 2.0))}",
            "the upper cross rail stands above the shortest slats",
        )
    lower = out.widths.cross - p.back.below + 40.0
    if upper_cross(p, out) < lower:
        yield Conflict(
            "back.rail_height",
            p.back.rail_height,
            f"at least {mm(math.ceil(lower + out.widths.cross / 2.0))}",
            "the upper cross rail meets the lower one",
        )


def _straight(p: LowChair, out: SettingOut, length: float) -> float:
    """V at which the sides of the outermost slat of this length begin to round."""
    ray = min(out.fan.rays, key=lambda r: (abs(r.length - length), r.angle))
    given = p.back.rounding
    rounding = out.fan.width_at(length) / 2.0 if given is None else given
    along = length - min(rounding, out.fan.width_at(length) / 2.0)
    return (out.fan.apex + along) * math.cos(math.radians(ray.angle)) - out.fan.apex + out.fan.low


def _arms(p: LowChair, out: SettingOut) -> Iterator[Conflict]:
    t = out.stock.frames.thickness
    least = 2.0 * t + (BRACKET_BACK + LEAST_BRACKET if p.arms.bracket else 0.0)
    if p.arms.width < least:
        why = "lie on the leg, meet the post" + (" and cover a bracket" if p.arms.bracket else "")
        yield Conflict("arms.width", p.arms.width, f"at least {mm(least)}", f"too narrow to {why}")
    if p.arms.rear_width > p.arms.width:
        yield Conflict(
            "arms.rear_width",
            p.arms.rear_width,
            f"at most {mm(p.arms.width)}, the width in front",
            "arms are broad in front and taper to the rear",
        )
    length = arm_rear(out) + p.arms.overhang
    if length * (1.0 - TAPER_SHARE) < front_round(p) + 40.0:
        yield Conflict(
            "seat.depth", p.seat.depth, "a deeper seat, or smaller arms.round", "arms too short"
        )
    yield from _beside_arms(p, out)


def _beside_arms(p: LowChair, out: SettingOut) -> Iterator[Conflict]:
    """Back slats pass between the arms, the upper cross rail above them."""
    lines = out.lines
    behind = out.stock.slats.thickness * lines.up.x
    v = (out.arm_top - lines.back.z + behind) / lines.up.z
    half, room = out.fan.half_width(v), out.clear / 2.0 - ARM_ROOM
    if half > room:
        fits = math.floor(p.back.bottom_width - 2.0 * (half - room) - 1.0)
        yield Conflict(
            "back.bottom_width",
            p.back.bottom_width,
            f"at most {mm(fits)}, or a lesser back.fan",
            "the fan meets the arms",
        )
    lowest = lines.on_back(upper_cross(p, out), post_edge(out)).z
    if lowest < out.arm_top + ARM_ROOM and upper_length(p, out) > out.clear - 2.0 * SIDE_ROOM:
        need = p.back.rail_height + (out.arm_top + ARM_ROOM - lowest) / lines.up.z
        yield Conflict(
            "back.rail_height",
            p.back.rail_height,
            f"at least {mm(math.ceil(need))}",
            "the upper cross rail meets the arms",
        )
