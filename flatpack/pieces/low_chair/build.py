"""Putting a low chair together."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.joinery import machine
from flatpack.model import Assembly, Comfort, Cutting
from flatpack.pieces.family import Workings
from flatpack.pieces.low_chair.conflicts import conflicts
from flatpack.pieces.low_chair.joints import STEPS, joints
from flatpack.pieces.low_chair.parameters import LowChair
from flatpack.pieces.low_chair.parts import parts as _parts
from flatpack.pieces.low_chair.setting_out import SettingOut, set_out
from flatpack.pieces.low_chair.stock import stock_for
from flatpack.profiles import Profiles

__all__ = ["build", "conflicts"]


def build(p: LowChair, profiles: Profiles) -> Assembly:
    """The whole chair, joints made."""
    notes = Workings()
    out = set_out(p, stock_for(p, profiles), notes)
    return machine(
        Assembly(
            family="low-chair",
            name=p.name,
            date=p.date or "",
            parts={part.key: part for part in _parts(p, out)},
            joints=tuple(joints(p, out)),
            steps=STEPS,
            workings=tuple(notes.rows),
            spacers=_spacers(out),
            comfort=tuple(_comfort(p, out)),
        )
    )


def _comfort(p: LowChair, out: SettingOut) -> Iterator[Comfort]:
    """Arm height over the seat's middle, where somebody sits."""
    yield Comfort("seat height", p.size.height, "size.height")
    yield Comfort("seat depth", p.seat.depth, "seat.depth")
    yield Comfort("seat slope", p.seat.slope, "seat.slope")
    yield Comfort("back angle", p.back.angle, "back.angle")
    fall = -out.lines.along.z * p.seat.depth / 2.0
    yield Comfort("arm height", p.arms.height + fall, "arms.height")


def _spacers(out: SettingOut) -> tuple[Cutting, ...]:
    rows = (
        Cutting("Gap spacer, seat", out.widths.seat_slat, out.seat.gap, 2, "between seat slats"),
        Cutting(
            "Gap spacer, back",
            out.widths.back_slat,
            out.fan.gap,
            2,
            "between back slats, at their lower ends",
        ),
    )
    return tuple(row for row in rows if row.width > 0.0)
