"""Setting out a slatted top on two leg frames: every number that follows from the keys.

Plan, seen from above; y runs along the slats from the left end, x across them from the front.

    y=0   inset_ends                                          slats lie over all of it, along y
     |<------>|leg|== top rail ==|leg|   left leg frame, in one plane across the piece
              |apr| end bearer   |apr|   aprons run from leg frame to leg frame, between their
              |on |              |on |   inner faces; bearers run from apron to apron and carry
              |   | middle bearer|   |   the slats; the end ones lie against the top rails
              |leg|== top rail ==|leg|   right leg frame: the left one turned half round

Legs stand `inset_sides` in from the outer slats' edges, aprons `setback` in from the legs' edges.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.pieces.common.leg_frames import NUT_DEPTH
from flatpack.pieces.common.slatted.lean import Lean
from flatpack.pieces.common.slatted.plan import Plan, Stock
from flatpack.pieces.family import Workings, even_gap, mm, slat_count, sold_width

NUT_PAST_BEARER = 8.0
"""Wood between a barrel nut's hole and the end bearer beside it, mm (common practice)."""


@frozen
class Widths:
    """Widths of the parts as cut or as sold, mm."""

    leg: float
    apron: float
    low_rail: float
    stretcher: float
    slat: float


class Reach(NamedTuple):
    """From where to where something runs, mm."""

    low: float
    high: float

    @property
    def length(self) -> float:
        """How far, mm."""
        return self.high - self.low


@frozen
class SettingOut:
    """All of it.

    `legs` from outer edge to outer edge at the top, `frames` the places of the leg frames' left
    faces, `bearers` from apron to apron, `ends` and `middles` the left faces of the end and the
    middle bearers.
    """

    stock: Stock
    widths: Widths
    lean: Lean
    under: float
    frames: tuple[float, float]
    legs: Reach
    bearers: Reach
    ends: tuple[float, float]
    middles: tuple[float, ...]
    count: int
    gap: float

    @property
    def clear(self) -> Reach:
        """From inner face to inner face of the leg frames, along the slats, at their tops."""
        return Reach(self.frames[0] + self.lean.deep(self.stock.frames.thickness), self.frames[1])

    @property
    def outside(self) -> Reach:
        """From outer face to outer face of the leg frames, at their tops."""
        deep = self.lean.deep(self.stock.frames.thickness)
        return Reach(self.frames[0], self.frames[1] + deep)

    @property
    def rails(self) -> Reach:
        """From leg to leg within a leg frame, at the top."""
        wide = self.lean.wide(self.widths.leg)
        return Reach(self.legs.low + wide, self.legs.high - wide)

    def slat(self, number: int) -> Reach:
        """From edge to edge of a slat, counted from 1."""
        low = (number - 1) * (self.widths.slat + self.gap)
        return Reach(low, low + self.widths.slat)


def set_out(p: Plan, stock: Stock, notes: Workings) -> SettingOut:
    """Derived dimensions."""
    widths = _widths(p, stock)
    slat, t = stock.slats.thickness, stock.frames.thickness
    under = notes.add(
        "Slats' underside above ground",
        p.sizes.height - slat,
        f"{mm(p.sizes.height)} height - {mm(slat)} slat",
    )
    lean = Lean(front=p.splay.front, side=p.splay.side, under=under)
    left = p.legs.inset_ends
    frames = (left, p.sizes.length - left - lean.deep(t))
    legs = Reach(p.legs.inset_sides, p.sizes.depth - p.legs.inset_sides)
    inside = p.legs.inset_sides + p.rails.setback + t
    count, gap = _rows(p, widths, notes)
    off = _off_frames(stock) if lean.front else 0.0
    ends = (frames[0] + lean.deep(t) + off, frames[1] - off - t)
    out = SettingOut(
        stock=stock,
        widths=widths,
        lean=lean,
        under=under,
        frames=frames,
        legs=legs,
        bearers=Reach(inside, p.sizes.depth - inside),
        ends=ends,
        middles=_middles(p, ends, t, notes),
        count=count,
        gap=gap,
    )
    _lengths(p, out, notes)
    return out


def _widths(p: Plan, stock: Stock) -> Widths:
    return Widths(
        leg=sold_width(stock.frames, p.legs.width),
        apron=sold_width(stock.frames, p.rails.apron),
        low_rail=sold_width(stock.frames, p.rails.low_rail),
        stretcher=sold_width(stock.frames, p.rails.stretcher),
        slat=sold_width(stock.slats, p.top.slat_width),
    )


def _off_frames(stock: Stock) -> float:
    """From a leg frame that leans out to the end bearer, past the barrel nuts of the aprons."""
    return NUT_DEPTH + stock.barrel_nut.body_diameter / 2.0 + NUT_PAST_BEARER


def _middles(p: Plan, ends: tuple[float, float], t: float, notes: Workings) -> tuple[float, ...]:
    """Middle bearers share the stretch between the end ones; all by their left faces."""
    first, last = ends
    between = last - first
    count = max(math.ceil((between - t) / (p.rails.longest_span + t) - 1e-9) - 1, 0)
    step = between / (count + 1)
    notes.add(
        "Middle bearers",
        count,
        f"{mm(between)} from end bearer to end bearer / {count + 1} = {mm(step)}, "
        f"{mm(step - t)} clear, at most {mm(p.rails.longest_span)}",
        "",
    )
    return tuple(first + step * i for i in range(1, count + 1))


def _rows(p: Plan, widths: Widths, notes: Workings) -> tuple[int, float]:
    count = p.top.count or slat_count(p.sizes.depth, widths.slat, p.top.gap)
    gap = notes.add(
        "Gap between slats",
        even_gap(p.sizes.depth, widths.slat, count),
        f"({mm(p.sizes.depth)} - {count} x {mm(widths.slat)} slats) / {count - 1} gaps",
    )
    return count, gap


def _lengths(p: Plan, out: SettingOut, notes: Workings) -> None:
    """Lengths between the legs, and the room under the aprons."""
    t, length = out.stock.frames.thickness, p.sizes.length
    deep, wide = out.lean.deep(t), out.lean.wide(out.widths.leg)
    notes.add(
        "Clear between the leg frames",
        out.clear.length,
        f"{mm(length)} - 2 x {mm(p.legs.inset_ends)} inset - 2 x {mm(deep)} legs",
    )
    notes.add(
        "Top rail, between the legs",
        out.rails.length,
        f"{mm(p.sizes.depth)} - 2 x {mm(p.legs.inset_sides)} inset - 2 x {mm(wide)} legs",
    )
    notes.add(
        "Bearers, between the aprons",
        out.bearers.length,
        f"{mm(p.sizes.depth)} - 2 x ({mm(p.legs.inset_sides)} inset + {mm(p.rails.setback)} "
        f"setback + {mm(t)} apron)",
    )
    notes.add(
        "Room under the aprons",
        knee_room(out),
        f"{mm(out.under)} slats' underside - {mm(out.widths.apron)} apron",
    )
    if not out.lean.straight:
        _feet(out, notes)


def _feet(out: SettingOut, notes: Workings) -> None:
    """What splayed legs stand on, outside to outside, and what is sawn off square."""
    lean = out.lean
    for name, top, spread, angle in (
        ("Feet, front to rear", out.legs.length, lean.out_x(0.0), lean.side),
        ("Feet, side to side", out.outside.length, lean.out_y(0.0), lean.front),
    ):
        notes.add(
            name,
            top + 2.0 * spread,
            f"{mm(top)} at the top + 2 x {mm(lean.under)} x tan {angle:g}",
        )
    for name, angle, how in (
        (
            "Rails' ends and legs, off square across the face",
            lean.mitre,
            f"atan (tan {lean.side:g} x cos {lean.front:g})",
        ),
        ("Legs' ends, off square through the thickness", lean.front, "lean of the leg frames"),
        ("Aprons' and stretcher's ends, off square", lean.front, "lean of the leg frames"),
    ):
        notes.add(name, angle, how, "degrees")


def knee_room(out: SettingOut) -> float:
    """Height free under aprons and top rails, mm."""
    return out.under - out.widths.apron
