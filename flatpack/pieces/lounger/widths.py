"""Widths of a lounger's parts: from what has to fit in them, snapped to what is sold."""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.joinery.pocket_screws import BIT_LENGTH, CHUCK
from flatpack.pieces.family import Workings, mm, sold_width, wide_enough
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.stock import Stock
from flatpack.profiles import Board, PocketJig

POCKET_WALL = 6.0
"""Wood wanted past the far end of a pocket, mm (common practice, no source)."""
ARM_ROOM = 4.0
"""From an arm's round end to the slats above it, mm (common practice, no source)."""
BOLT_ROOM = 8.6
"""Depth that two leg bolts take below the pockets, in their diameters: 3 d to the edge, 5 d apart
along the leg's grain (Eurocode 5 table 8.4, a4,c and a1), half a hole."""


@frozen
class Widths:
    """Widths of the parts as cut or as sold, mm."""

    rail: float
    leg: float
    slat: float
    brace: float
    arm: float
    cross: float


def widths_for(p: Lounger, stock: Stock, notes: Workings) -> Widths:
    """Every width, derived or as asked."""
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
