"""The planter's joints, in the order of making: every one a row of countersunk screws.

Screws of the long sides and of the ends cross inside a post; so those of the long sides stand a
little lower on each board and those of the ends a little higher, and a bearer's keep clear of both.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, X, Y, Z
from flatpack.joinery.axis import kept_clear, spread
from flatpack.joinery.pocket_screws import CHUCK
from flatpack.model import Joint, Step
from flatpack.pieces.planter.cap_joints import cap_joints
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.parts import bearer_places
from flatpack.pieces.planter.rows import Row
from flatpack.pieces.planter.screwing import (
    ASIDE,
    EDGE_IN_SCREWS,
    WOOD_BETWEEN,
    across_board,
    clear_by,
    row_heights,
    screws,
)
from flatpack.pieces.planter.setting_out import BEARER_ROOM, SettingOut

STEPS = (
    Step("ends", "Ends: boards on their corner posts", "", ("Gap between side boards",),
         ("between side boards",)),
    Step("bearers", "Bearers across, against posts and battens", "", ("Bottom's underside",)),
    Step("sides", "Long sides: boards on posts and battens", "", ("Gap between side boards",),
         ("between side boards",)),
    Step("bottom", "Bottom: slats on the bearers",
         "The outer two are notched round what stands at the sides.",
         ("Gap between bottom slats", "Notch "),
         ("between bottom slats",)),
    Step("cap", "Capping rail", "", ("Side boards' top",)),
)  # fmt: skip
CHUCK_ROOM = 1.5
"""From a driver's chuck to a post beside it, mm (common practice, no source)."""
LINER = (
    "{}, fold the liner up at all four sides, corners in pleats, staple its fold along the top of "
    "the boards, and prick it over every gap of the bottom so that water drains."
)
EDGE = 12.0
"""Least from a bearer's edge to its screws, mm (common practice, no source)."""


def steps(p: Planter) -> tuple[Step, ...]:
    """Steps in order, less the cap's where there is none; the liner goes in before the cap."""
    kept = STEPS if p.cap.use else STEPS[:-1]
    if not p.liner.use:
        return kept
    last = kept[-1]
    words = LINER.format("Before the cap goes on" if p.cap.use else "When the bottom is in")
    measures = (*last.measures, "Liner's cut")
    return (*kept[:-1], last._replace(words=f"{last.words} {words}".strip(), measures=measures))


def joints(p: Planter, out: SettingOut) -> Iterator[Joint]:
    """Every joint of the planter."""
    for number, row in enumerate(out.rows, 1):
        yield from _end_joints(p, out, number, row)
    yield from _bearer_joints(p, out)
    for number, row in enumerate(out.rows, 1):
        yield from _side_joints(p, out, number, row)
    yield from _bottom_joints(p, out)
    if p.cap.use:
        yield from cap_joints(p, out)


def _end_joints(p: Planter, out: SettingOut, number: int, row: Row) -> Iterator[Joint]:
    t, half = out.stock.sides.thickness, out.corner.x / 2.0
    for end, y, way in (("left", 0.0, Y), ("right", p.size.length, Y.negated())):
        for side, x in (("front", t + half), ("rear", p.size.depth - t - half)):
            yield screws(
                p,
                out,
                key=f"{end}-board-{number}-on-{side}-post",
                step="ends",
                through=f"{end}-board-{number}",
                into=f"post-{side}-{end}",
                places=tuple(Vec(x, y, z) for z in row_heights(p, out, row, ASIDE)),
                direction=way,
            )


def _side_joints(p: Planter, out: SettingOut, number: int, row: Row) -> Iterator[Joint]:
    inset = out.stock.sides.thickness + out.corner.y / 2.0
    middle = [(f"batten-{{}}-{n}", at) for n, at in enumerate(out.battens, 1)]
    carried = [("post-{}-left", inset), *middle, ("post-{}-right", p.size.length - inset)]
    heights = row_heights(p, out, row, -ASIDE)
    for side, x, way in (("front", 0.0, X), ("rear", p.size.depth, X.negated())):
        for name, y in carried:
            into = name.format(side)
            yield screws(
                p,
                out,
                key=f"{side}-board-{number}-on-{into}",
                step="sides",
                through=f"{side}-board-{number}",
                into=into,
                places=tuple(Vec(x, y, z) for z in heights),
                direction=way,
            )


def bearer_heights(p: Planter, out: SettingOut) -> tuple[float, ...]:
    """Heights of a bearer's screws, clear of those that cross them; one where two have no room."""
    low = max(out.levels.bearer_low, out.levels.low) + EDGE
    high = out.levels.bearer_high - EDGE
    room = clear_by(out)
    crossing = [z for row in out.rows for d in (ASIDE, -ASIDE) for z in row_heights(p, out, row, d)]
    blocked = [(z - room, z + room) for z in crossing]
    apart = out.stock.screw.head_diameter + WOOD_BETWEEN + 0.5
    for count in (2, 1):
        wanted = spread(low, high, count)
        found = kept_clear(wanted, low, high, blocked, apart, None if count > 1 else ())
        if found:
            return found
    return wanted


def _bearer_joints(p: Planter, out: SettingOut) -> Iterator[Joint]:
    t, heights = out.stock.sides.thickness, bearer_heights(p, out)
    for key, plane, way in bearer_places(p, out):
        where = key.removeprefix("bearer-")
        corner = not where.startswith("middle")
        half = (out.corner.x if corner else out.stock.posts.thickness) / 2.0
        for side, x in (("front", t + half), ("rear", p.size.depth - t - half)):
            number = where.removeprefix("middle-")
            into = f"post-{side}-{where}" if corner else f"batten-{side}-{number}"
            yield screws(
                p,
                out,
                key=f"{key}-on-{into}",
                step="bearers",
                through=key,
                into=into,
                places=tuple(Vec(x, plane, z) for z in heights),
                direction=way,
            )


def slat_places(p: Planter, out: SettingOut, number: int) -> tuple[float, ...]:
    """Where slat `number` (from 0) takes its screws, front to rear.

    Beside a post a driver's chuck needs room; nowhere may a screw miss the bearer.
    """
    bottom, width, t = out.bottom, out.widths.slat, out.stock.sides.thickness
    low = bottom.first + number * (width + bottom.gap)
    high = low + width
    beside = t + out.corner.x + CHUCK[0] + CHUCK_ROOM
    edge = EDGE_IN_SCREWS * out.stock.screw.diameter
    if low < beside:
        low = min(beside, high - edge) - edge
    if high > p.size.depth - beside:
        high = max(p.size.depth - beside, low + edge) + edge
    inside = t + BEARER_ROOM
    low, high = max(low, inside), min(high, p.size.depth - inside)
    return across_board(out.stock.bottom, low, high, p.bottom.screws)


def _bottom_joints(p: Planter, out: SettingOut) -> Iterator[Joint]:
    half, z = out.stock.posts.thickness / 2.0, out.levels.bearer_high
    for i in range(out.bottom.count):
        xs = slat_places(p, out, i)
        for key, plane, way in bearer_places(p, out):
            yield screws(
                p,
                out,
                key=f"bottom-slat-{i + 1}-on-{key}",
                step="bottom",
                through=f"bottom-slat-{i + 1}",
                into=key,
                places=tuple(Vec(x, plane - way.y * half, z) for x in xs),
                direction=Z.negated(),
            )
