"""Keys of a planter box that can't go together: found before anything is built."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.parameters import Conflict
from flatpack.pieces.common.boarded.conflicts import LEAST_INSIDE
from flatpack.pieces.common.boarded.conflicts import conflicts as of_the_box
from flatpack.pieces.family import mm
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.setting_out import SettingOut

LEAST_DEEP = 60.0
"""Least soil, mm, below which nothing grows (common practice, no source)."""
CAP_COVER = 10.0
"""How far a cap reaches in over the boards, mm (common practice, no source)."""


def conflicts(p: Planter, out: SettingOut) -> Iterator[Conflict]:
    """What doesn't go together, first by size, then by what has to fit inside."""
    yield from of_the_box(out.box)
    yield from _heights(p, out)
    if p.cap.use:
        yield from _cap(p, out)


def _heights(p: Planter, out: SettingOut) -> Iterator[Conflict]:
    box = out.box
    floor = box.floor
    under = max(p.soil.below_top, 0.0) + LEAST_DEEP
    if box.levels.high - floor < under:
        least = p.size.height - box.levels.high + floor + under
        yield Conflict(
            "size.height",
            p.size.height,
            f"at least {mm(least)}: bottom at {mm(floor)}, {mm(LEAST_DEEP)} of soil, "
            f"{mm(p.soil.below_top)} free above it, and the cap",
            "the bottom leaves no room for soil",
        )


def _cap(p: Planter, out: SettingOut) -> Iterator[Conflict]:
    least = p.cap.overhang + out.box.timber.sides.thickness + CAP_COVER
    if out.cap_width < least:
        yield Conflict(
            "cap.width",
            p.cap.width,
            f"at least {mm(least)}: overhang {mm(p.cap.overhang)}, board "
            f"{mm(out.box.timber.sides.thickness)} and {mm(CAP_COVER)} inwards",
            "the cap doesn't cover the boards",
        )
    least = 2.0 * (out.cap_width - p.cap.overhang) + LEAST_INSIDE
    if min(p.size.depth, p.size.length) < least:
        yield Conflict(
            "cap.width",
            p.cap.width,
            f"at most {mm((p.size.depth - LEAST_INSIDE) / 2.0 + p.cap.overhang)}, so that "
            f"{mm(LEAST_INSIDE)} stay open between the caps",
            "the cap leaves no opening",
        )
