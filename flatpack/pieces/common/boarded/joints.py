"""A boarded box's joints, in the order of making: every one a row of countersunk screws.

Screws of the long sides and of the ends cross inside a post; so those of the long sides stand a
little lower on each board and those of the ends a little higher, and a bearer's keep clear of both.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, X, Y, Z
from flatpack.joinery.axis import kept_clear, spread
from flatpack.joinery.pocket_screws import CHUCK
from flatpack.model import Joint, Step
from flatpack.pieces.common.boarded.carcass import BEARER_ROOM, Carcass
from flatpack.pieces.common.boarded.parts import bearer_places
from flatpack.pieces.common.boarded.rows import Row
from flatpack.pieces.common.boarded.screwing import (
    ASIDE,
    EDGE_IN_SCREWS,
    WOOD_BETWEEN,
    across_board,
    between,
    clear_by,
    row_heights,
    screws,
)

STEPS = (
    Step("ends", "Ends: boards on their corner posts", "", ("Gap between side boards",),
         ("between side boards",)),
    Step("bearers", "Bearers across, against posts and battens", "", ("Bottom's underside",)),
    Step("sides", "Long sides: boards on posts and battens", "", ("Gap between side boards",),
         ("between side boards",)),
    Step("bottom", "Bottom: slats on the bearers",
         "The outer two are notched round what stands at the sides.",
         ("Gap between bottom slats", "Outer bottom slat"),
         ("between bottom slats",)),
)  # fmt: skip
CHUCK_ROOM = 1.5
"""From a driver's chuck to a post beside it, mm (common practice, no source)."""
EDGE = 12.0
"""Least from a bearer's edge to its screws, mm (common practice, no source)."""


def joints(out: Carcass) -> Iterator[Joint]:
    """Every joint of the box, up to its bottom."""
    for number, row in enumerate(out.rows, 1):
        yield from _end_joints(out, number, row)
    yield from _bearer_joints(out)
    for number, row in enumerate(out.rows, 1):
        yield from _side_joints(out, number, row)
    yield from _bottom_joints(out)


def _end_joints(out: Carcass, number: int, row: Row) -> Iterator[Joint]:
    t, half = out.timber.sides.thickness, out.corner.x / 2.0
    for end, y, way in (("left", 0.0, Y), ("right", out.wish.length, Y.negated())):
        for side, x in zip(out.sides, (t + half, out.wish.depth - t - half), strict=True):
            yield screws(
                out,
                key=f"{end}-board-{number}-on-{side}-post",
                step="ends",
                through=f"{end}-board-{number}",
                into=f"post-{side}-{end}",
                places=tuple(Vec(x, y, z) for z in row_heights(out, row, ASIDE)),
                direction=way,
            )


def _side_joints(out: Carcass, number: int, row: Row) -> Iterator[Joint]:
    inset = out.timber.sides.thickness + out.corner.y / 2.0
    middle = [(f"batten-{{}}-{n}", at) for n, at in enumerate(out.battens, 1)]
    carried = [("post-{}-left", inset), *middle, ("post-{}-right", out.wish.length - inset)]
    heights = row_heights(out, row, -ASIDE)
    low, high = out.sides
    for side, x, way in ((low, 0.0, X), (high, out.wish.depth, X.negated())):
        for name, y in carried:
            into = name.format(side)
            yield screws(
                out,
                key=f"{side}-board-{number}-on-{into}",
                step="sides",
                through=f"{side}-board-{number}",
                into=into,
                places=tuple(Vec(x, y, z) for z in heights),
                direction=way,
            )


def bearer_heights(out: Carcass) -> tuple[float, ...]:
    """Heights of a bearer's screws, clear of those that cross them; one where two have no room."""
    low = max(out.levels.bearer_low, out.levels.low) + EDGE
    high = out.levels.bearer_high - EDGE
    room = clear_by(out)
    crossing = [z for row in out.rows for d in (ASIDE, -ASIDE) for z in row_heights(out, row, d)]
    blocked = [(z - room, z + room) for z in crossing]
    apart = out.timber.screw.head_diameter + WOOD_BETWEEN + 0.5
    for count in (2, 1):
        wanted = spread(low, high, count)
        found = kept_clear(wanted, low, high, blocked, apart, None if count > 1 else ())
        if found:
            return found
    return wanted


def _bearer_joints(out: Carcass) -> Iterator[Joint]:
    t, heights = out.timber.sides.thickness, bearer_heights(out)
    for key, plane, way in bearer_places(out):
        where = key.removeprefix("sleeper-")
        corner = not where.startswith("middle")
        half = (out.corner.x if corner else out.timber.posts.thickness) / 2.0
        for side, x in zip(out.sides, (t + half, out.wish.depth - t - half), strict=True):
            number = where.removeprefix("middle-")
            into = f"post-{side}-{where}" if corner else f"batten-{side}-{number}"
            yield screws(
                out,
                key=f"{key}-on-{into}",
                step="bearers",
                through=key,
                into=into,
                places=tuple(Vec(x, plane, z) for z in heights),
                direction=way,
            )


def slat_places(out: Carcass, number: int) -> tuple[float, ...]:
    """Where slat `number` (from 0) takes its screws, from the low side to the high one.

    Beside a post a driver's chuck needs room; nowhere may a screw miss the bearer.
    """
    bottom, width, t = out.bottom, out.widths.slat, out.timber.sides.thickness
    low = max(bottom.first + number * (width + bottom.gap), t + BEARER_ROOM)
    high = min(low + width, out.wish.depth - t - BEARER_ROOM)
    beside = t + out.corner.x + CHUCK[0] + CHUCK_ROOM
    if low >= beside and high <= out.wish.depth - beside:
        return across_board(out, out.timber.bottom, low, high, out.wish.slat_screws)
    edge = EDGE_IN_SCREWS * out.timber.screw.diameter
    inner = max(low + edge, beside), min(high - edge, out.wish.depth - beside)
    if inner[0] > inner[1]:
        inner = min(max(inner[0], low + edge), high - edge), max(min(inner[1], high - edge), low)
        inner = (inner[0], inner[0]) if low < beside else (inner[1], inner[1])
    return between(out, out.timber.bottom, *inner, out.wish.slat_screws)


def _bottom_joints(out: Carcass) -> Iterator[Joint]:
    half, z = out.timber.posts.thickness / 2.0, out.levels.bearer_high
    for i in range(out.bottom.count):
        xs = slat_places(out, i)
        for key, plane, way in bearer_places(out):
            yield screws(
                out,
                key=f"bottom-slat-{i + 1}-on-{key}",
                step="bottom",
                through=f"bottom-slat-{i + 1}",
                into=key,
                places=tuple(Vec(x, plane - way.y * half, z) for x in xs),
                direction=Z.negated(),
            )
