"""Keys of a boarded box that can't go together: found before anything is built.

Every family of such boxes has the same tables: size, corners, sides, ground, bottom.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.parameters import Conflict
from flatpack.pieces.common.boarded.bottom import notch_depth
from flatpack.pieces.common.boarded.carcass import Carcass, inner_ends
from flatpack.pieces.common.boarded.rows import LEAST_RIP
from flatpack.pieces.family import mm

LEAST_INSIDE = 60.0
"""Least clear room between posts, mm: a hand with a driver (common practice, no source)."""
LEAST_LEFT = 20.0
"""Wood left beside a notch in a slat, mm (common practice, no source)."""
LEAST_LAP = 40.0
"""Least that a skid laps its posts above the boards' lower edge, mm (common practice)."""


def conflicts(out: Carcass) -> Iterator[Conflict]:
    """What doesn't go together, first by size, then by what has to fit inside."""
    yield from _plan(out)
    yield from _levels(out)
    yield from _bottom(out)


def _plan(out: Carcass) -> Iterator[Conflict]:
    t = out.timber.sides.thickness
    low, high = inner_ends(out.wish, out.timber, out.corner)
    least = 2.0 * low + LEAST_INSIDE + 2.0 * out.timber.posts.thickness
    if high - low < LEAST_INSIDE + 2.0 * out.timber.posts.thickness:
        yield Conflict(
            "size.length",
            out.wish.length,
            f"at least {mm(least)}: boards, posts, bearers and {mm(LEAST_INSIDE)} between them",
            "the posts and bearers leave no room between them",
        )
    least = 2.0 * (t + out.corner.x) + LEAST_INSIDE
    if out.wish.depth < least:
        yield Conflict(
            "size.depth",
            out.wish.depth,
            f"at least {mm(least)}: boards, posts and {mm(LEAST_INSIDE)} between them",
            "the posts leave no room between them",
        )
    step = (high - low) / (len(out.battens) + 1)
    least = out.widths.post + out.timber.posts.thickness + LEAST_INSIDE
    if out.battens and step < least + out.timber.posts.thickness:
        yield Conflict(
            "corners.longest_span",
            out.wish.longest_span,
            f"so much that battens stand at least {mm(least + out.timber.posts.thickness)} apart, "
            f"not {mm(step)}",
            "the battens and bearers leave no room between them",
        )


def _levels(out: Carcass) -> Iterator[Conflict]:
    lap = out.levels.bearer_high - out.levels.low
    if not out.wish.feet and lap < LEAST_LAP:
        yield Conflict(
            "bottom.bearer_width",
            out.wish.bearer_width,
            f"at least {mm(out.wish.clear + LEAST_LAP)}: {mm(out.wish.clear)} off the ground and "
            f"{mm(LEAST_LAP)} against the posts",
            "the skids hardly reach the posts",
        )
    narrow = min(row.width for row in out.rows)
    if narrow < LEAST_RIP - 1e-6:
        yield Conflict(
            "sides.board_width",
            out.wish.board_width,
            f"a width that leaves no board narrower than {mm(LEAST_RIP)}, not {mm(narrow)}",
            "a side board comes out too narrow to screw",
        )


def _bottom(out: Carcass) -> Iterator[Conflict]:
    bottom, width = out.bottom, out.widths.slat
    if bottom.gap < 0.0:
        room = bottom.count * width + (bottom.count - 1) * bottom.gap
        yield Conflict(
            "bottom.slat_width",
            out.wish.slat_width,
            f"at most {mm(room / 2.0)}: two slats in {mm(room)}",
            "the bottom's slats are wider than the box",
        )
    deep = notch_depth(out, max(out.corner.x, out.timber.posts.thickness))
    if width - deep < LEAST_LEFT:
        yield Conflict(
            "bottom.slat_width",
            out.wish.slat_width,
            f"at least {mm(deep + LEAST_LEFT)}: notches {mm(deep)} deep round the posts and "
            f"{mm(LEAST_LEFT)} of wood",
            "the outer slats are too narrow for their notches",
        )
