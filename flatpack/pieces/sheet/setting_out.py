r"""Setting out a stool or table from sheet: every number that follows, with its sum.

crossed, from above          sides, from the front
                             ,==============================.  top
      .-~~~-.                '--=+|--------------------|+=--'  stretcher, through, wedged
    /    |    \                  ||                    ||
   | ----+---- |  round top      ||                    ||  sides
    \    |    /                  ||                    ||
      '-___-'                   ends                  ends

x towards the rear, y from left to right, z up.
"""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.joinery import Fitting, fitting, wedge_size
from flatpack.joinery.wedged_tenon import WedgeSize
from flatpack.pieces.family import Workings, mm
from flatpack.pieces.sheet.parameters import Sheet
from flatpack.profiles import Board, Profiles

SQUARE_FEET = 6.0
"""Rounding of the feet's outer corners, so that they don't splinter, mm (common practice)."""

LEAST_ROUNDING = 0.1
"""Roundings smaller than this are left out, mm."""


@frozen
class Leg:
    """A crossed leg or a side: panel on two feet, mm."""

    tall: float
    top: float
    floor: float
    foot: float
    arch: float
    rounding: float
    corner: float
    tenon: float
    tenons: tuple[float, ...]


@frozen
class Stretchers:
    """Stretchers by the x of their middles; `low` and `width` on edge; `tenon` wide."""

    places: tuple[float, ...]
    low: float
    width: float
    tenon: float
    length: float


@frozen
class SettingOut:
    """All of it; `leg` is the panel, `faces` the sides' outer faces along y."""

    top: Board
    legs: Board
    fitting: Fitting
    crossed: bool
    under: float
    middle: float
    leg: Leg
    faces: tuple[float, float]
    stretchers: Stretchers
    wedge: WedgeSize


def set_out(p: Sheet, profiles: Profiles, notes: Workings) -> SettingOut:
    """Derived dimensions."""
    top = profiles.board(p.boards.top or p.boards.timber)
    legs = profiles.board(p.boards.legs or p.boards.timber)
    fit = fitting(profiles.workshop(p.workshop), p.fit.allowance)
    crossed = p.construction == "crossed"
    under = notes.add(
        "Legs' shoulders above ground",
        p.size.height - top.thickness,
        f"{mm(p.size.height)} height - {mm(top.thickness)} top as measured",
    )
    across = p.size.length if crossed else p.size.depth
    ends = _given(notes, "Top past the sides", p.top.ends, p.size.length, 6.0)
    return SettingOut(
        top=top,
        legs=legs,
        fitting=fit,
        crossed=crossed,
        under=under,
        middle=across / 2.0,
        leg=_leg(p, under, across, legs.thickness, fit, notes),
        faces=(ends, p.size.length - ends),
        stretchers=_stretchers(p, under, ends, legs.thickness),
        wedge=wedge_size(p.wedge.width, p.wedge.taper, legs.thickness, fit.tolerance),
    )


def worth(radius: float) -> float:
    """A rounding, or none where nobody would see it."""
    return radius if radius >= LEAST_ROUNDING else 0.0


def _given(notes: Workings, name: str, given: float | None, whole: float, share: float) -> float:
    """As the file says, or a share of something larger, to the whole mm."""
    if given is not None:
        return given
    return notes.add(name, float(round(whole / share)), f"{mm(whole)} / {share:g}")


def _leg(
    p: Sheet, under: float, across: float, thickness: float, fit: Fitting, notes: Workings
) -> Leg:
    overhang = _given(notes, "Top past the legs", p.top.overhang, across, 25.0)
    top = across - 2.0 * overhang
    floor = top if p.legs.spread is None else p.legs.spread
    foot = _given(notes, "Foot, width", p.legs.foot, floor, 5.0)
    arch = _given(notes, "Arch between the feet, height", p.legs.arch, p.size.height, 5.0)
    tenon = _given(notes, "Tenon into the top, width", p.top.tenon, top, 6.0)
    inner = thickness / 2.0 if p.construction == "crossed" else 0.0
    aside = notes.add(
        "Tenons into the top, from the leg's middle",
        (inner + top / 2.0) / 2.0,
        f"half way from {mm(inner)} to the end at {mm(top / 2.0)}",
    )
    corner = worth(min(SQUARE_FEET, foot / 3.0, arch / 3.0))
    room = max(min(arch - corner, floor / 2.0 - foot) - 1.0, 0.0)
    rounding = worth(min(max(p.legs.rounding, fit.cutter), room))
    return Leg(
        tall=under, top=top, floor=floor, foot=foot, arch=arch, rounding=rounding, corner=corner,
        tenon=tenon, tenons=(-aside, aside),
    )  # fmt: skip


def _stretchers(p: Sheet, under: float, ends: float, thickness: float) -> Stretchers:
    s = p.stretcher
    count = s.count or math.ceil(p.size.depth / 350.0)
    apart = p.size.depth / 3.0 if s.apart is None else s.apart
    first = p.size.depth / 2.0 - apart * (count - 1) / 2.0
    return Stretchers(
        places=tuple(first + apart * i for i in range(count)),
        low=under - s.drop - s.width,
        width=s.width,
        tenon=s.width - 2.0 * s.shoulder,
        length=p.size.length - 2.0 * (ends + thickness),
    )
