"""Keys of a planter box that can't go together: found before anything is built."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.parameters import Conflict
from flatpack.pieces.family import mm
from flatpack.pieces.planter.bottom import notch_depth
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.rows import LEAST_RIP
from flatpack.pieces.planter.setting_out import SettingOut, inner_ends

LEAST_INSIDE = 60.0
"""Least clear room between posts, mm: a hand with a driver (common practice, no source)."""
LEAST_DEEP = 60.0
"""Least soil, mm, below which nothing grows (common practice, no source)."""
LEAST_LEFT = 20.0
"""Wood left beside a notch in a slat, mm (common practice, no source)."""
LEAST_LAP = 40.0
"""Least that a skid laps its posts above the boards' lower edge, mm (common practice)."""
CAP_COVER = 10.0
"""How far a cap reaches in over the boards, mm (common practice, no source)."""


def conflicts(p: Planter, out: SettingOut) -> Iterator[Conflict]:
    """What doesn't go together, first by size, then by what has to fit inside."""
    yield from _plan(p, out)
    yield from _heights(p, out)
    yield from _bottom(p, out)
    if p.cap.use:
        yield from _cap(p, out)


def _plan(p: Planter, out: SettingOut) -> Iterator[Conflict]:
    t = out.stock.sides.thickness
    low, high = inner_ends(p, out.stock, out.corner)
    least = 2.0 * low + LEAST_INSIDE + 2.0 * out.stock.posts.thickness
    if high - low < LEAST_INSIDE + 2.0 * out.stock.posts.thickness:
        yield Conflict(
            "size.length",
            p.size.length,
            f"at least {mm(least)}: boards, posts, bearers and {mm(LEAST_INSIDE)} between them",
            "the posts and bearers leave no room between them",
        )
    least = 2.0 * (t + out.corner.x) + LEAST_INSIDE
    if p.size.depth < least:
        yield Conflict(
            "size.depth",
            p.size.depth,
            f"at least {mm(least)}: boards, posts and {mm(LEAST_INSIDE)} between them",
            "the posts leave no room between them",
        )
    step = (high - low) / (len(out.battens) + 1)
    least = out.widths.post + out.stock.posts.thickness + LEAST_INSIDE
    if out.battens and step < least + out.stock.posts.thickness:
        yield Conflict(
            "corners.longest_span",
            p.corners.longest_span,
            f"so much that battens stand at least {mm(least + out.stock.posts.thickness)} apart, "
            f"not {mm(step)}",
            "the battens and bearers leave no room between them",
        )


def _heights(p: Planter, out: SettingOut) -> Iterator[Conflict]:
    floor = out.levels.bearer_high + out.stock.bottom.thickness
    under = max(p.soil.below_top, 0.0) + LEAST_DEEP
    if out.levels.high - floor < under:
        least = p.size.height - out.levels.high + floor + under
        yield Conflict(
            "size.height",
            p.size.height,
            f"at least {mm(least)}: bottom at {mm(floor)}, {mm(LEAST_DEEP)} of soil, "
            f"{mm(p.soil.below_top)} free above it, and the cap",
            "the bottom leaves no room for soil",
        )
    lap = out.levels.bearer_high - out.levels.low
    if p.ground.kind == "skids" and lap < LEAST_LAP:
        yield Conflict(
            "bottom.bearer_width",
            p.bottom.bearer_width,
            f"at least {mm(p.ground.clear + LEAST_LAP)}: {mm(p.ground.clear)} off the ground and "
            f"{mm(LEAST_LAP)} against the posts",
            "the skids hardly reach the posts",
        )
    narrow = min(row.width for row in out.rows)
    if narrow < LEAST_RIP - 1e-6:
        yield Conflict(
            "sides.board_width",
            p.sides.board_width,
            f"a width that leaves no board narrower than {mm(LEAST_RIP)}, not {mm(narrow)}",
            "a side board comes out too narrow to screw",
        )


def _bottom(p: Planter, out: SettingOut) -> Iterator[Conflict]:
    bottom, width = out.bottom, out.widths.slat
    if bottom.gap < 0.0:
        room = bottom.count * width + (bottom.count - 1) * bottom.gap
        yield Conflict(
            "bottom.slat_width",
            p.bottom.slat_width,
            f"at most {mm(room / 2.0)}: two slats in {mm(room)}",
            "the bottom's slats are wider than the box",
        )
    deep = notch_depth(out, max(out.corner.x, out.stock.posts.thickness))
    if width - deep < LEAST_LEFT:
        yield Conflict(
            "bottom.slat_width",
            p.bottom.slat_width,
            f"at least {mm(deep + LEAST_LEFT)}: notches {mm(deep)} deep round the posts and "
            f"{mm(LEAST_LEFT)} of wood",
            "the outer slats are too narrow for their notches",
        )


def _cap(p: Planter, out: SettingOut) -> Iterator[Conflict]:
    least = p.cap.overhang + out.stock.sides.thickness + CAP_COVER
    if out.widths.cap < least:
        yield Conflict(
            "cap.width",
            p.cap.width,
            f"at least {mm(least)}: overhang {mm(p.cap.overhang)}, board "
            f"{mm(out.stock.sides.thickness)} and {mm(CAP_COVER)} inwards",
            "the cap doesn't cover the boards",
        )
    least = 2.0 * (out.widths.cap - p.cap.overhang) + LEAST_INSIDE
    if min(p.size.depth, p.size.length) < least:
        yield Conflict(
            "cap.width",
            p.cap.width,
            f"at most {mm((p.size.depth - LEAST_INSIDE) / 2.0 + p.cap.overhang)}, so that "
            f"{mm(LEAST_INSIDE)} stay open between the caps",
            "the cap leaves no opening",
        )
