"""Putting a folding stool together."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.joinery import machine
from flatpack.model import Assembly, Comfort, Cutting, Folding, Part
from flatpack.pieces.family import Workings, mm
from flatpack.pieces.folding_stool.conflicts import conflicts
from flatpack.pieces.folding_stool.joints import STEPS, joints
from flatpack.pieces.folding_stool.parameters import FoldingStool
from flatpack.pieces.folding_stool.parts import bars, low_rail, nested, stowing
from flatpack.pieces.folding_stool.parts import parts as _parts
from flatpack.pieces.folding_stool.setting_out import SettingOut, set_out
from flatpack.pieces.folding_stool.stock import stock_for
from flatpack.profiles import Profiles

__all__ = ["build", "conflicts"]


def build(p: FoldingStool, profiles: Profiles) -> Assembly:
    """The whole stool, open, joints made."""
    notes = Workings()
    out = set_out(p, stock_for(p, profiles), notes)
    _thickness(p, out, notes)
    made = {part.key: part for part in _parts(p, out)}
    return machine(
        Assembly(
            family="folding-stool",
            name=p.name,
            date=p.date or "",
            parts=made,
            bars={bar.key: bar for bar in bars(p, out)},
            joints=tuple(joints(p, out, made)),
            steps=STEPS,
            workings=tuple(notes.rows),
            spacers=_spacers(p, out),
            comfort=tuple(_comfort(p)),
            folding=_folding(p, out, made),
        )
    )


def _comfort(p: FoldingStool) -> Iterator[Comfort]:
    yield Comfort("seat height", p.size.height, "size.height")


def _spacers(p: FoldingStool, out: SettingOut) -> tuple[Cutting, ...]:
    row = Cutting("Gap spacer, seat", 95.0, out.seat.gap, 2, "between seat slats")
    return (row,) if row.width > 0.0 else ()


def _folding(p: FoldingStool, out: SettingOut, parts: dict[str, Part]) -> Folding:
    legs, half = out.legs, out.widths.leg / 2.0
    moving = ("leg-outer-left", "leg-outer-right", "low-rail", "bar-rear")
    loose = tuple(k for k in parts if k.startswith(("batten", "slat")))
    return Folding(
        pivot=out.pivot,
        angle=p.legs.angle,
        turning=moving,
        loose=loose,
        seat_open=Frame(Vec(p.size.depth / 2.0, 0.0, p.size.height), X, Y, Z),
        seat_stowed=_stowed(p, out),
        low=legs.low,
        long=legs.long,
        short=legs.short,
        apart=legs.apart,
        half=half,
        end=out.end,
        bar=out.stock.bar.diameter / 2.0,
        rail=low_rail(p, out),
        slot=(out.seat.front_slot, out.seat.rear_slot),
        front=-out.pivot.x,
        rear=p.size.depth - out.pivot.x,
        keys=(
            ("angle", "legs.angle"),
            ("apart", "legs.bar_inset"),
            ("step", "legs.clearance"),
            ("rail", "legs.rail_height"),
            ("slot", "seat.batten"),
        ),
    )


def _stowed(p: FoldingStool, out: SettingOut) -> Frame:
    """The seat on the folded legs' rear edges, in the middle of the stretch between the bars.

    Where its battens fit between the inner legs the slats lie outside, else it is turned over.
    """
    low, high = stowing(p, out)
    c, s = math.cos(out.lean), math.sin(out.lean)
    up, rear = Vec(-s, 0.0, c), Vec(c, 0.0, s)
    middle = out.pivot.plus(up, (low + high) / 2.0).plus(rear, out.widths.leg / 2.0)
    if nested(p, out):
        return Frame(middle.plus(rear, out.stock.slats.thickness), up.negated(), Y, rear)
    return Frame(middle, up, Y, rear.negated())


def _thickness(p: FoldingStool, out: SettingOut, notes: Workings) -> None:
    """Folded: legs, low rail, and the seat with its battens nested or outside."""
    leg, rail = out.widths.leg, out.stock.frames.thickness
    slat, batten = out.stock.slats.thickness, out.widths.batten
    if nested(p, out):
        front = max(rail, batten - leg)
        how = f"{mm(leg)} legs + {mm(slat)} slats + {mm(front)} low rail or battens in front"
        notes.add("Folded flat, thick", leg + slat + front, how)
        return
    how = f"{mm(leg)} legs + {mm(rail)} low rail + {mm(slat)} slats + {mm(batten)} battens outside"
    notes.add("Folded flat, thick", leg + rail + slat + batten, how)
