r"""Setting out a lounger: every number that follows from the keys, with the sum that gave it.

Side view, foot end left; x along, z up.  The hinge axis lies under the gap between deck and back.

      |<--------- deck --------->|g|<------------ back ------------->|
      =============================o==================================   slats
      |  rail                      |      pivot P                    |
      |                            |        \  arm                   |   rail
      |                                 rack \__D  rod              |
      | leg                                                    leg / wheel

Lanes across the width, outside in: rail, rack, clearance, bolt head, arm, washer, brace, washer,
lock nut with the bolt's tail.
"""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.pieces.common.lanes import Lanes, Pivot, set_lanes
from flatpack.pieces.family import Workings, even_gap, mm, slat_count
from flatpack.pieces.lounger.at_hinge import hinge_joint
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.stock import Stock
from flatpack.pieces.lounger.widths import Widths, widths_for

BRACE_END = 5.0
"""From a brace's ends to the rails there, mm, to swing free (common practice, no source)."""


@frozen
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


@frozen
class Heights:
    """Heights above the ground, mm."""

    under_slats: float
    under_rail: float
    axis: float


@frozen
class SettingOut:
    """All of it."""

    stock: Stock
    widths: Widths
    lanes: Lanes
    deck: Deck
    heights: Heights


def set_out(p: Lounger, stock: Stock, notes: Workings) -> SettingOut:
    """Derived dimensions of a lounger."""
    widths = widths_for(p, stock, notes)
    heights = _heights(p, stock, widths, notes)
    return SettingOut(
        stock=stock,
        widths=widths,
        heights=heights,
        lanes=_lanes(p, stock, notes),
        deck=_deck(p, stock, widths, notes),
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
    rod = notes.add(
        "Rod length",
        p.size.width - 2.0 * stock.frame.thickness - 2.0 * p.rack.rod_clearance,
        f"{mm(p.size.width)} overall - 2 x {mm(stock.frame.thickness)} rail - "
        f"2 x {mm(p.rack.rod_clearance)} clearance",
    )
    thick = stock.frame.thickness, stock.rack.thickness, stock.moving.thickness
    pivot = Pivot(stock.bolt, stock.nut, stock.washer)
    return set_lanes(thick, pivot, p.arms.lane_clearance, rod, ("rail", "Brace"), notes)


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
