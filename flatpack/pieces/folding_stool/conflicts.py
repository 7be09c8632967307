"""Keys of a folding stool that can't go together, each with what would do."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from flatpack.mechanism.scissor import crossed
from flatpack.parameters import Conflict
from flatpack.pieces.family import Workings, fixings_fit, mm
from flatpack.pieces.folding_stool.parameters import FoldingStool
from flatpack.pieces.folding_stool.parts import batten_start, low_bar, low_rail
from flatpack.pieces.folding_stool.setting_out import SettingOut, set_out
from flatpack.pieces.folding_stool.stock import stock_for
from flatpack.profiles import Profiles

ROUND_WALL = 8.0
"""Wood about a bar in a leg's round top, mm (common practice, no source)."""
SLAT_ROOM = 2.0
"""From the outer legs' round tops to the slats above them, mm."""
ANGLES = (40, 120)
"""Between which the key lies, degrees."""
LEAST_LEG = 60.0
"""From the pivot to a bar or to the ground, mm, for wood about the bolt."""


def conflicts(p: FoldingStool, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together."""
    out = set_out(p, stock_for(p, profiles), Workings())
    yield from _legs(p, out)
    yield from _seat(p, out)
    yield from _width(p, out)
    yield from fixings_fit(p.fixings, profiles, (("bolt", "nut"), ("bolt", "washer")))


def _legs(p: FoldingStool, out: SettingOut) -> Iterator[Conflict]:
    least = out.stock.bar.diameter + 2.0 * ROUND_WALL
    if out.widths.leg < least:
        yield Conflict(
            "legs.width", p.legs.width, f"at least {mm(least)}", "too narrow for the bars' holes"
        )
    if out.legs.apart < LEAST_LEG:
        most = math.floor((p.size.depth - LEAST_LEG) / 2.0)
        yield Conflict(
            "legs.bar_inset", p.legs.bar_inset, f"at most {mm(most)}", "the top bars lie too close"
        )
        return
    if out.legs.short < LEAST_LEG or out.legs.low < LEAST_LEG:
        yield Conflict(
            "legs.angle",
            p.legs.angle,
            _angles(out),
            "the legs don't cross between seat and ground",
        )
        return
    top = low_bar(p, out) - out.stock.bar.diameter / 2.0
    short = LEAST_LEG - min(top, low_rail(p, out))
    if short > 0.0:
        most = math.floor(p.legs.rail_height - short * math.cos(out.lean))
        yield Conflict(
            "legs.rail_height",
            p.legs.rail_height,
            f"at most {mm(most)}, or a narrower legs.rail, or another size.height",
            "the low rail comes near the pivot",
        )


def _angles(out: SettingOut) -> str:
    """Whole degrees at which the legs cross between seat and ground, bars and height kept."""
    legs, step = out.legs, out.legs.long - out.legs.short
    high = legs.pivot + legs.long * math.cos(out.lean)
    fitting = [
        angle
        for angle in range(ANGLES[0], ANGLES[1] + 1)
        for tried in (crossed(high, angle / 2.0, legs.apart, step),)
        if min(tried.short, tried.low) >= LEAST_LEG
    ]
    if not fitting:
        return "another size.height or a shallower seat"
    return f"from {fitting[0]} to {fitting[-1]}, or another size.height"


def _seat(p: FoldingStool, out: SettingOut) -> Iterator[Conflict]:
    r, half = out.stock.bar.diameter / 2.0, out.widths.leg / 2.0
    least = half - r + SLAT_ROOM
    if p.seat.over_slot < least:
        yield Conflict(
            "seat.over_slot",
            p.seat.over_slot,
            f"at least {mm(math.ceil(least))}",
            "the outer legs' tops meet the slats",
        )
    if out.seat.front_slot < 0.0:
        need = out.widths.batten - out.seat.front_slot
        yield Conflict(
            "seat.batten",
            p.seat.batten,
            f"at least {mm(math.ceil(need))}",
            "the battens don't reach down to the front bar",
        )
    if batten_start(p, out) < 0.0:
        yield Conflict(
            "legs.bar_inset",
            p.legs.bar_inset,
            f"at least {mm(math.ceil(p.legs.bar_inset - batten_start(p, out)))}",
            "the battens stand out past the seat",
        )
    if out.seat.gap < 0.0:
        yield Conflict(
            "seat.slat_width",
            p.seat.slat_width,
            f"at most {mm(p.size.depth / 2.0)}, two to the seat's depth",
            "the slats don't fit the seat",
        )


def _width(p: FoldingStool, out: SettingOut) -> Iterator[Conflict]:
    least = 2.0 * (out.lanes.batten + out.stock.frames.thickness) + 60.0
    if p.size.width < least:
        yield Conflict(
            "size.width", p.size.width, f"at least {mm(math.ceil(least))}", "the lanes don't fit"
        )
