r"""Setting out a folding stool: every number that follows from the keys, with the sum that gave it.

Side view, open, front left; x towards the rear from the pivot P, z up from the ground; the
mechanism's own view and formulas are in `mechanism.scissor`.

    ===========================   seat: slats on battens with two slots, open below
       |_B___________________A|   B: bar of the inner legs, A: bar of the outer legs, higher by
         \\                 //    the step that lets it pass the inner legs' tops
            \\   P       //
               \\  +  //          lanes across, outside in: outer leg | washer | inner leg |
               //     \\          bolt's head | batten
         rail //         \\ low bar between the inner legs
"""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.geometry import Vec
from flatpack.mechanism.scissor import Crossed, crossed, opening, reach
from flatpack.pieces.family import Workings, even_gap, mm, slat_count, sold_width
from flatpack.pieces.folding_stool.parameters import FoldingStool
from flatpack.pieces.folding_stool.stock import Stock

HEAD_ROOM = 2.0
"""From the pivot bolts' heads to the battens, mm (common practice, no source)."""
GAP = 8.0
"""Gap between slats where none is given, mm (common practice, no source)."""


@frozen
class Widths:
    """Widths of the parts as cut or as sold, mm."""

    leg: float
    rail: float
    batten: float
    slat: float


@frozen
class Lanes:
    """Outer faces of the left side's parts, y from the outer leg's outer face."""

    inner: float
    batten: float


@frozen
class Seat:
    """Slats: count and gap; slots: height of the bars' middles over the battens' lower edges."""

    count: int
    gap: float
    front_slot: float
    rear_slot: float


@frozen
class SettingOut:
    """All of it; `pivot` is P in the piece, `end` the radius of the legs' round tops."""

    stock: Stock
    widths: Widths
    lanes: Lanes
    legs: Crossed
    seat: Seat
    pivot: Vec
    end: float

    @property
    def lean(self) -> float:
        """Lean of the legs from upright, radians."""
        return math.radians(self.legs.lean)

    def on_leg(self, along: float, rear: bool, y: float = 0.0) -> Vec:
        """A place `along` a leg's axis above P; the outer legs lean to the `rear`."""
        way = 1.0 if rear else -1.0
        aside, up = along * math.sin(self.lean), along * math.cos(self.lean)
        return Vec(self.pivot.x + way * aside, y, self.pivot.z + up)


def set_out(p: FoldingStool, stock: Stock, notes: Workings) -> SettingOut:
    """Derived dimensions of a folding stool."""
    widths = Widths(
        leg=sold_width(stock.frames, p.legs.width),
        rail=sold_width(stock.frames, p.legs.rail),
        batten=sold_width(stock.frames, p.seat.batten),
        slat=sold_width(stock.slats, p.seat.slat_width),
    )
    end = widths.leg / 2.0
    legs = _legs(p, stock, end, notes)
    return SettingOut(
        stock=stock,
        widths=widths,
        lanes=_lanes(stock),
        legs=legs,
        seat=_seat(p, stock, widths, legs, notes),
        pivot=Vec(p.size.depth / 2.0 - _aside(legs), 0.0, legs.pivot),
        end=end,
    )


def _aside(legs: Crossed) -> float:
    """How far the middle between the bars, so the seat's, stands behind P."""
    return (legs.long - legs.short) * math.sin(math.radians(legs.lean)) / 2.0


def _lanes(stock: Stock) -> Lanes:
    t = stock.frames.thickness
    inner = t + stock.washer.thickness
    return Lanes(inner=inner, batten=inner + t + stock.bolt.head_height + HEAD_ROOM)


def _legs(p: FoldingStool, stock: Stock, end: float, notes: Workings) -> Crossed:
    r, lean = stock.bar.diameter / 2.0, p.legs.angle / 2.0
    high = notes.add(
        "Rear top bar's middle above ground",
        p.size.height - stock.slats.thickness - p.seat.over_slot - r,
        f"{mm(p.size.height)} - {mm(stock.slats.thickness)} slat - {mm(p.seat.over_slot)} of "
        f"batten - {mm(stock.bar.diameter)} / 2",
    )
    step = notes.add(
        "Outer legs longer than inner ones, pivot to bar",
        end + r + p.legs.clearance,
        f"{mm(end)} round top + {mm(r)} bar + {mm(p.legs.clearance)} to pass when folding",
    )
    apart = notes.add(
        "Top bars apart, level",
        p.size.depth - 2.0 * p.legs.bar_inset,
        f"{mm(p.size.depth)} seat - 2 x {mm(p.legs.bar_inset)}",
    )
    legs = crossed(high, lean, apart, step)
    _note(legs, notes)
    return legs


def _note(legs: Crossed, notes: Workings) -> None:
    f, s = f"{legs.lean:g}°", mm(legs.long)
    step = legs.long - legs.short
    notes.add(
        "Outer legs, pivot to top bar",
        legs.long,
        f"({mm(legs.apart)} / sin {f} + {mm(step)}) / 2",
    )
    notes.add("Inner legs, pivot to top bar", legs.short, f"{s} - {mm(step)}")
    notes.add(
        "Legs, pivot to the ground along them",
        legs.low,
        f"bar's height / cos {f} - {s}",
    )
    notes.add("Pivot above ground", legs.pivot, f"{mm(legs.low)} x cos {f}")
    notes.add("Feet apart on the ground, axes", legs.spread, f"2 x {mm(legs.low)} x sin {f}")
    held = reach(legs)
    angle = opening(legs, held)
    more = opening(legs, held + 1.0)
    notes.add(
        "Angle at which the seat stops the legs",
        angle or 0.0,
        f"arccos(({s}² + {mm(legs.short)}² - {mm(held)}²) / (2 x {s} x {mm(legs.short)}))",
        "degrees",
    )
    if angle is not None and more is not None:
        notes.add(
            "Angle gained by 1 mm between the slots",
            more - angle,
            f"the same with {mm(held + 1.0)}",
            "degrees",
        )


def _seat(p: FoldingStool, stock: Stock, widths: Widths, legs: Crossed, notes: Workings) -> Seat:
    depth = p.size.depth
    rear = widths.batten - p.seat.over_slot - stock.bar.diameter / 2.0
    front = notes.add(
        "Front bar's middle over the battens' lower edge",
        rear - (legs.long - legs.short) * math.cos(math.radians(legs.lean)),
        f"{mm(rear)} at the rear - {mm(legs.long - legs.short)} x cos {legs.lean:g}°",
    )
    if p.seat.kind == "boards":
        count, gap = 2, GAP if p.seat.gap is None else p.seat.gap
        return Seat(count=count, gap=gap, front_slot=front, rear_slot=rear)
    count = slat_count(depth, widths.slat, GAP if p.seat.gap is None else p.seat.gap)
    gap = notes.add(
        "Gap between seat slats",
        even_gap(depth, widths.slat, count),
        f"({mm(depth)} - {count} x {mm(widths.slat)} slats) / {count - 1} gaps",
    )
    return Seat(count=count, gap=gap, front_slot=front, rear_slot=rear)


def slat_width(p: FoldingStool, out: SettingOut) -> float:
    """Width of each slat, or of each of two boards that share the depth."""
    if p.seat.kind == "boards":
        return (p.size.depth - out.seat.gap) / 2.0
    return out.widths.slat
