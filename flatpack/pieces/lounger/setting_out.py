"""Setting out a lounger: every number that follows from the keys, with the sum that gave it.

Side view, foot end left; x along, z up.  The hinge axis lies under the gap between deck and back.

      |<--------- deck --------->|g|<------------ back ------------->|
      =============================o==================================   slats
      |  rail                      |      pivot P                    |
      |                            |        \\  arm                   |   rail
      |                                 rack \\__D  rod              |
      | leg                                                    leg / wheel

Lanes across the width, outside in: rail, rack, clearance, bolt head, arm, washer, brace, washer,
lock nut with the bolt's tail.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from flatpack.joinery.pocket_screws import BIT_LENGTH, CHUCK
from flatpack.mechanism.hinge_joint import HingeJoint, largest_angle
from flatpack.pieces.family import (
    Workings,
    even_gap,
    mm,
    slat_count,
    sold_width,
    wide_enough,
)
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.stock import Stock
from flatpack.profiles import Board, PocketJig

BRACE_END = 5.0
"""From a brace's ends to the rails there, mm, so that it swings free (common practice, no source)."""


POCKET_WALL = 6.0
"""Wood wanted past the far end of a pocket, mm (common practice, no source)."""
ARM_ROOM = 4.0
"""From an arm's round end to the slats above it, mm (common practice, no source)."""
BOLT_ROOM = 8.6
"""Depth that two leg bolts take below the pockets, in their diameters: 3 d to the edge, 5 d apart
along the leg's grain (Eurocode 5 table 8.4, a4,c and a1), half a hole."""
SWING_ROOM = 1.0
"""Clearance wanted between the slats as they swing at the hinge, mm (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Widths:
    """Widths of the parts as cut or as sold, mm."""

    rail: float
    leg: float
    slat: float
    brace: float
    arm: float
    cross: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Lanes:
    """Places across the width from the left rail's outer face, mm; each the lane's outer side."""

    rack: float
    arm: float
    brace: float
    free: float
    rod_length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Deck:
    """Slats of the fixed deck and of the back: counts, gaps, and the joint at the hinge, mm."""

    hinge_x: float
    axis_depth: float
    hinge_gap: float
    gap_on_deck: float
    deck_length: float
    back_length: float
    deck_count: int
    back_count: int
    deck_gap: float
    back_gap: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """Heights above the ground, mm."""

    under_slats: float
    under_rail: float
    axis: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingOut:
    """All of it."""

    stock: Stock
    widths: Widths
    lanes: Lanes
    deck: Deck
    heights: Heights


def set_out(p: Lounger, stock: Stock, notes: Workings) -> SettingOut:
    """Derived dimensions of a lounger."""
    widths = _widths(p, stock, notes)
    heights = _heights(p, stock, widths, notes)
    return SettingOut(
        stock=stock,
        widths=widths,
        heights=heights,
        lanes=_lanes(p, stock, notes),
        deck=_deck(p, stock, widths, notes),
    )


def hinge_joint(p: Lounger, slat: float, depth: float, notes: Workings) -> tuple[float, float]:
    """The axis's distance from the first back slat, and the gap at the hinge, mm.

    Swinging by a about an axis `depth` below it, the slat's lower arris dips under the rails'
    tops unless it stands depth tan(a / 2) off the axis.  The gap is the least whole mm at which
    the slats' upper arrises still clear one another.  (Plane geometry; see mechanism/hinge_joint.)
    """
    top = max(p.back.angles) + p.hinge.spare
    least = depth * math.tan(math.radians(top) / 2.0) + SWING_ROOM
    off = p.hinge.axis_from_back
    off = notes.add(
        "Hinge axis from the first back slat",
        math.ceil(2.0 * least) / 2.0 if off is None else off,
        f"{mm(depth)} x tan({mm(top)}° / 2) + {mm(SWING_ROOM)} clearance = {least:.1f}, so that "
        "the slat's lower arris clears the rails"
        if off is None
        else "as asked",
    )
    if p.hinge.gap is not None:
        return off, notes.add("Gap at the hinge", p.hinge.gap, "as asked")
    deep, turn = slat + depth, math.radians(top)
    gap = float(math.ceil(deep * math.sin(turn) - off * math.cos(turn) + off))
    while largest_angle(_joint(gap - SWING_ROOM, slat, depth, off)) < top:
        gap += 1.0
    return off, notes.add(
        "Gap at the hinge",
        gap,
        f"least whole mm with {mm(SWING_ROOM)} clearance at {mm(top)}° "
        f"({mm(max(p.back.angles))}° highest stop + {mm(p.hinge.spare)}° spare): "
        f"{mm(slat)} slat + {mm(depth)} to the axis = {mm(deep)} deep",
    )


def _joint(gap: float, slat: float, depth: float, off: float) -> HingeJoint:
    return HingeJoint(
        gap=gap, thickness=slat, axis_depth=depth, axis_from_fixed=max(gap - off, 0.0)
    )


def _widths(p: Lounger, stock: Stock, notes: Workings) -> Widths:
    brace = _brace_width(p, stock, notes)
    rail = _rail_width(p, stock, brace, notes)
    return Widths(
        rail=rail,
        cross=_cross_width(stock, rail, notes),
        leg=sold_width(stock.frame, p.frame.leg_width),
        slat=sold_width(stock.slats, p.slats.width),
        brace=brace,
        arm=p.arms.width,
    )


def pocket_reach(board: Board, jig: PocketJig) -> float:
    """How far from a board's edge the pockets along it reach on the face, mm (plane geometry)."""
    slope = math.radians(jig.angle)
    return board.thickness / 2.0 / math.tan(slope) + jig.drill / 2.0 / math.sin(slope)


def _brace_width(p: Lounger, stock: Stock, notes: Workings) -> float:
    if p.back.brace_width is not None:
        return sold_width(stock.moving, p.back.brace_width)
    reach = pocket_reach(stock.moving, stock.jig)
    least = max(reach + POCKET_WALL, p.arms.width + 2.0 * ARM_ROOM, 6.0 * stock.bolt.diameter)
    return notes.add(
        "Brace width",
        wide_enough(stock.moving, least),
        f"at least {least:.1f}: pockets reach {reach:.1f} + {mm(POCKET_WALL)} of wood, or the "
        f"{mm(p.arms.width)} arm + 2 x {mm(ARM_ROOM)}, or 3 bolt diameters each side",
    )


def _cross_width(stock: Stock, rail: float, notes: Workings) -> float:
    """End rails and hinge rail: no deeper than a driver bit reaches past, for the slat beside."""
    slope = math.radians(stock.jig.angle)
    bit = stock.jig.shoulder(stock.frame.thickness) + BIT_LENGTH
    most = bit * math.cos(slope) - CHUCK[0] * math.sin(slope)
    if rail <= most:
        return rail
    sold = [w for w in stock.frame.widths if w <= most] if stock.frame.kind == "planed" else []
    return notes.add(
        "End rail width",
        max(sold, default=float(math.floor(most))),
        f"no more than {most:.1f}, so that the chuck behind a {mm(BIT_LENGTH)} bit passes below it",
    )


def _rail_width(p: Lounger, stock: Stock, brace: float, notes: Workings) -> float:
    if p.frame.rail_width is not None:
        return sold_width(stock.frame, p.frame.rail_width)
    rod = stock.rod.diameter
    notch = stock.notch.depth * rod
    rack = brace + p.arms.clearance + rod + notch + p.rack.web
    bolts = pocket_reach(stock.frame, stock.jig) + BOLT_ROOM * stock.bolt.diameter + POCKET_WALL
    return notes.add(
        "Rail width",
        wide_enough(stock.frame, max(rack, bolts)),
        f"at least {rack:.1f} for the rack: {mm(brace)} brace + {mm(p.arms.clearance)} clearance + "
        f"{mm(rod)} rod + {mm(notch)} notch + {mm(p.rack.web)} web; "
        f"{bolts:.1f} for pockets and leg bolts",
    )


def _heights(p: Lounger, stock: Stock, widths: Widths, notes: Workings) -> Heights:
    top, slat = p.size.height, stock.slats.thickness
    under = notes.add(
        "Slats' underside above ground", top - slat, f"{mm(top)} height - {mm(slat)} slat"
    )
    rail = notes.add(
        "Rail's underside above ground",
        under - widths.rail,
        f"{mm(under)} slats' underside - {mm(widths.rail)} rail",
    )
    depth = stock.hinge.axis_offset
    axis = notes.add(
        "Hinge axis above ground",
        under - depth,
        f"{mm(under)} slats' underside - {mm(depth)} axis below the leaf's face",
    )
    return Heights(under_slats=under, under_rail=rail, axis=axis)


def _lanes(p: Lounger, stock: Stock, notes: Workings) -> Lanes:
    rail, rack, moving = (
        stock.frame.thickness,
        stock.rack.thickness,
        stock.moving.thickness,
    )
    head, washer = stock.bolt.head_height, stock.washer.thickness
    room = p.arms.lane_clearance
    arm = notes.add(
        "Arm's outer face from the rail's outer face",
        rail + rack + room + head,
        f"{mm(rail)} rail + {mm(rack)} rack + {mm(room)} clearance + {mm(head)} bolt head",
    )
    brace = notes.add(
        "Brace's outer face from the rail's outer face",
        arm + moving + washer,
        f"{mm(arm)} + {mm(moving)} arm + {mm(washer)} washer",
    )
    tail = washer + stock.nut.height + 4.0 * stock.bolt.pitch
    free = brace + moving + tail
    play = p.rack.rod_clearance
    rod = notes.add(
        "Rod length",
        p.size.width - 2.0 * rail - 2.0 * play,
        f"{mm(p.size.width)} overall - 2 x {mm(rail)} rail - 2 x {mm(play)} clearance",
    )
    return Lanes(rack=rail, arm=arm, brace=brace, free=free, rod_length=rod)


def _deck(p: Lounger, stock: Stock, widths: Widths, notes: Workings) -> Deck:
    slat, depth = stock.slats.thickness, stock.hinge.axis_offset
    hinge_x = notes.add(
        "Hinge axis from the foot end",
        p.size.length - p.back.length,
        f"{mm(p.size.length)} overall - {mm(p.back.length)} back",
    )
    off, gap = hinge_joint(p, slat, depth, notes)
    on_deck = max(gap - off, 0.0)
    deck = notes.add(
        "Length covered by fixed slats",
        hinge_x - on_deck,
        f"{mm(hinge_x)} to the axis - {mm(on_deck)} of the gap",
    )
    back = notes.add(
        "Length covered by back slats",
        p.back.length - (gap - on_deck),
        f"{mm(p.back.length)} back - {mm(gap - on_deck)} of the gap",
    )
    wanted = slat if p.slats.gap is None else p.slats.gap
    counts = [
        given or slat_count(length, widths.slat, wanted)
        for given, length in ((p.slats.deck_count, deck), (p.slats.back_count, back))
    ]
    gaps = [
        notes.add(
            f"Gap between {name} slats",
            even_gap(length, widths.slat, n),
            f"({mm(length)} - {n} x {mm(widths.slat)} slats) / {n - 1} gaps",
        )
        for name, n, length in zip(("fixed", "back"), counts, (deck, back), strict=True)
    ]
    return Deck(
        hinge_x=hinge_x,
        axis_depth=depth,
        hinge_gap=gap,
        gap_on_deck=on_deck,
        deck_length=deck,
        back_length=back,
        deck_count=counts[0],
        back_count=counts[1],
        deck_gap=gaps[0],
        back_gap=gaps[1],
    )
