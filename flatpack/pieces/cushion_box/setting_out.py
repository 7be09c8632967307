r"""Setting out a cushion box: the boarded box, the lid on it, and the lanes of its prop.

Side view, rear left, the hinge axis just behind the rear side; x to the front, z up.

       o===========================================   lid's boards
      [hinge rail]   =========================   |    batten; gap under the lid all round
      |             P pivot                      |
      | rear post    \ arm       rack    front   |    the four posts carry the closed lid
      |               \__D rod           post    |

Lanes across the width, outside in: end board, rack, clearance, bolt head, arm, washer, batten,
washer, lock nut with the bolt's tail.
"""

from __future__ import annotations

import math

from flatpack.frozen import frozen, replace
from flatpack.geometry import Vec
from flatpack.pieces.common.boarded.carcass import Carcass, set_carcass
from flatpack.pieces.common.boarded.rows import Row, rows_between, swelling_gap
from flatpack.pieces.common.boarded.wish import wish_of
from flatpack.pieces.common.lanes import Lanes, set_lanes
from flatpack.pieces.cushion_box.parameters import CushionBox
from flatpack.pieces.cushion_box.stock import Stock
from flatpack.pieces.cushion_box.widths import batten_width
from flatpack.pieces.family import Workings, mm, sold_width

SAFE_GAP = 18.0
"""Gaps of 7 to 18 mm during movement are a risk to fingers (EN 581-1, as described by a test
institute); under the closed lid a wider one is left."""


@frozen
class Lid:
    """The lid closed: its underside above ground, boards from the rear, battens' places, mm.

    `start` and `end` are the battens' rear and front ends; `middle` the middles of those between
    the outer two.
    """

    under: float
    rear: float
    front: float
    gap: float
    rows: tuple[Row, ...]
    batten: float
    start: float
    end: float
    middle: tuple[float, ...]


@frozen
class SettingOut:
    """All of it.  `axis` lies on the hinge axis; `inner` is what posts take up inside a side."""

    stock: Stock
    box: Carcass
    lid: Lid
    lanes: Lanes
    axis: Vec
    rail_width: float
    under_lid: float
    inner: float


def set_out(p: CushionBox, stock: Stock, notes: Workings) -> SettingOut:
    """Derived dimensions of a cushion box."""
    under = notes.add(
        "Lid's underside above ground",
        p.size.height - stock.lid.thickness,
        f"{mm(p.size.height)} height - {mm(stock.lid.thickness)} lid board",
    )
    axis = Vec(-stock.hinge.knuckle_diameter / 2.0, 0.0, under - stock.hinge.axis_offset)
    gap = _gap(stock, notes)
    box = _box(p, stock, under - gap, gap, notes)
    inner = stock.timber.sides.thickness + max(box.corner.x, stock.timber.posts.thickness)
    rail = sold_width(stock.timber.posts, p.hinge.rail_width)
    thick = stock.timber.sides.thickness, stock.rack.thickness, stock.moving.thickness
    rod = _rod_length(p, stock, notes)
    lanes = set_lanes(
        thick, stock.pivot, p.arms.lane_clearance, rod, ("end board", "Batten"), notes
    )
    return SettingOut(
        stock=stock,
        box=box,
        lid=_lid(p, stock, (under, max(rail, inner), inner), axis, lanes, notes),
        lanes=lanes,
        axis=axis,
        rail_width=rail,
        under_lid=gap,
        inner=inner,
    )


def _gap(stock: Stock, notes: Workings) -> float:
    rail, off = stock.timber.posts.thickness, stock.hinge.axis_offset
    return notes.add(
        "Gap under the closed lid",
        rail + 2.0 * off,
        f"{mm(rail)} hinge rail + 2 x {mm(off)} axis to leaf; more than {mm(SAFE_GAP)}, so that "
        "no finger on a side is caught",
    )


def _box(p: CushionBox, stock: Stock, high: float, gap: float, notes: Workings) -> Carcass:
    notes.add("Side boards' top above ground", high, f"{mm(gap)} under the lid")
    wish = replace(
        wish_of(p, p.size.length, p.size.depth, high),
        low_side="rear",
        high_side="front",
        posts_over=gap,
    )
    return set_carcass(wish, stock.timber, notes)


def _rod_length(p: CushionBox, stock: Stock, notes: Workings) -> float:
    wall, play = stock.timber.sides.thickness, p.rack.rod_clearance
    return notes.add(
        "Rod length",
        p.size.length - 2.0 * wall - 2.0 * play,
        f"{mm(p.size.length)} outside - 2 x {mm(wall)} end board - 2 x {mm(play)} clearance",
    )


def _lid(
    p: CushionBox,
    stock: Stock,
    levels: tuple[float, float, float],
    axis: Vec,
    lanes: Lanes,
    notes: Workings,
) -> Lid:
    """`levels`: the lid's underside; what the battens keep clear of at the rear, at the front."""
    under, rear, front = levels
    width = sold_width(stock.lid, p.lid.board_width)
    gap = swelling_gap("lid board", stock.lid, width, p.lid.gap, notes)
    ends = axis.x - p.lid.rear_overhang, p.size.depth + p.lid.overhang
    batten = batten_width(p, stock, notes)
    return Lid(
        under=under,
        rear=ends[0],
        front=ends[1],
        gap=gap,
        rows=_narrow_inside(rows_between(stock.lid, width, ends, gap, notes, "Depth of the lid")),
        batten=batten,
        start=rear + p.arms.clearance,
        end=_batten_end(p, stock, p.size.depth - front, batten, axis, notes),
        middle=_middle_battens(p, stock, lanes, notes),
    )


def _narrow_inside(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """The lid's boards with a whole one last: it hangs over the front beyond the battens."""
    widths = [row.width for row in rows]
    whole = [n for n, width in enumerate(widths) if width == max(widths)]
    widths.append(widths.pop(whole[-1]))
    gap = rows[1].low - rows[0].low - rows[0].width if len(rows) > 1 else 0.0
    starts = [rows[0].low + sum(widths[:n]) + n * gap for n in range(len(widths))]
    return tuple(map(Row, starts, widths))


def _batten_end(
    p: CushionBox, stock: Stock, most: float, batten: float, axis: Vec, notes: Workings
) -> float:
    """A batten's lower front corner swings on a circle about the hinge: it must pass the posts."""
    low = batten - stock.hinge.axis_offset
    reach = most - p.arms.clearance - axis.x
    end = axis.x + math.sqrt(max(reach * reach - low * low, 0.0))
    return notes.add(
        "Battens' front end from the rear side",
        end,
        f"the corner {mm(low)} below the hinge axis swings {mm(p.arms.clearance)} clear of the "
        f"front posts, {mm(most)} from the rear side: square root of {mm(reach)}² - {mm(low)}², "
        f"{mm(-axis.x)} less",
    )


def _middle_battens(
    p: CushionBox, stock: Stock, lanes: Lanes, notes: Workings
) -> tuple[float, ...]:
    """Middles of the battens between the two that carry the arms."""
    outer = lanes.brace + stock.moving.thickness / 2.0
    clear = p.size.length - 2.0 * outer
    bays = max(math.ceil(clear / p.lid.longest_span - 1e-9), 1)
    if bays > 1:
        notes.add(
            "Battens between the outer two",
            bays - 1,
            f"{mm(clear)} between their middles / {bays} = {mm(clear / bays)}, at most "
            f"{mm(p.lid.longest_span)}",
            "",
        )
    return tuple(outer + clear / bays * i for i in range(1, bays))
