"""What goes into a planter box: the liner's cut size, the soil's volume, its weight when wet."""

from __future__ import annotations

import math

from flatpack.finding import Finding
from flatpack.model import Hardware
from flatpack.pieces.family import Workings, mm
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.setting_out import SettingOut

PRACTICE = "common practice, no source"
STAPLES_APART = 100.0
"""From staple to staple along the liner's fold, mm (common practice, no source)."""


def inside(p: Planter, out: SettingOut) -> tuple[float, float, float]:
    """Length and depth between the boards, and height from the bottom to the boards' top, mm."""
    t = out.box.timber.sides.thickness
    deep = out.box.levels.high - out.box.floor
    return p.size.length - 2.0 * t, p.size.depth - 2.0 * t, deep


def liner_size(p: Planter, out: SettingOut, notes: Workings) -> tuple[float, float]:
    """Length and width to cut the liner to, one sheet folded up at the four sides, mm.

    Round a post in a corner the way is as long as into the corner; round a batten along a side it
    is longer by twice the batten's thickness.
    """
    length, depth, height = inside(p, out)
    thin, round_battens = (
        p.liner.thickness,
        2.0 * out.box.timber.posts.thickness * len(out.box.battens),
    )
    up = f"2 x ({mm(height)} height + {mm(p.liner.fold)} fold)"
    thick = f"2 x {thin:g} thickness"
    sizes = []
    for name, size, more in (("length", length, round_battens), ("width", depth, 0.0)):
        battens = f" + {mm(more)} round the battens" if more else ""
        sizes.append(
            notes.add(
                f"Liner's cut {name}",
                float(math.ceil(size - 2.0 * thin + 2.0 * (height + p.liner.fold) + more)),
                f"{mm(size)} inside - {thick} + {up}{battens}, to the next whole mm",
            )
        )
    return sizes[0], sizes[1]


def liner(p: Planter, out: SettingOut, notes: Workings) -> tuple[Hardware, ...]:
    """The liner and its staples, as bought."""
    if not p.liner.use:
        return ()
    length, width = liner_size(p, out, notes)
    around = 2.0 * (sum(inside(p, out)[:2]))
    return (
        Hardware(
            f"Planter liner {p.liner.thickness:g} mm",
            f"{length:g} x {width:g}",
            1,
            "lining; prick it over the gaps of the bottom",
        ),
        Hardware("Staple, stainless", "10 mm", math.ceil(around / STAPLES_APART), "liner's fold"),
    )


def soil(p: Planter, out: SettingOut, notes: Workings) -> tuple[Finding, ...]:
    """Notes how much soil goes in and what it weighs wet; the remarks that this calls for."""
    length, depth, height = inside(p, out)
    thin = p.liner.thickness if p.liner.use else 0.0
    deep = max(height - p.soil.below_top - thin, 0.0)
    box = out.box
    posts = 4.0 * box.corner.x * box.corner.y
    posts += 2.0 * len(box.battens) * box.timber.posts.thickness * box.widths.post
    floor = (length - 2.0 * thin) * (depth - 2.0 * thin) - posts
    litres = notes.add(
        "Soil, volume",
        floor * deep * 1e-6,
        f"({mm(length - 2.0 * thin)} x {mm(depth - 2.0 * thin)} inside - {posts:.0f} mm2 of posts) "
        f"x {mm(deep)} deep",
        "l",
    )
    kg = notes.add(
        "Soil, weight when wet",
        litres * p.soil.density * 1e-3,
        f"{litres:.0f} l x {p.soil.density:g} kg/m3 (assumed; weigh a bucket of yours)",
        "kg",
    )
    load = notes.add(
        "Load of wet soil on the ground",
        kg / (p.size.length * p.size.depth * 1e-6),
        f"{kg:.0f} kg / ({mm(p.size.length)} x {mm(p.size.depth)}), without the box itself",
        "kg/m2",
    )
    return remarks(p.name, kg, load)


def remarks(name: str, kg: float, load: float) -> tuple[Finding, ...]:
    """That a full box is heavy, and that nobody has judged the sides against the soil's push."""
    return (
        Finding(
            "caution", "note", name,
            f"Filled and wet the soil alone weighs about {kg:.0f} kg, {load:.0f} kg on each square "
            "metre under the box: fill it where it stands, never lift or drag it full. On a "
            "balcony, roof or deck have a licensed person say what the floor carries.",
            round(kg), None, "kg", PRACTICE,
        ),
        Finding(
            "soil-pressure", "not done", name,
            "whether the sides hold the push of wet or freezing soil wasn't judged",
            source=PRACTICE,
        ),
    )  # fmt: skip
