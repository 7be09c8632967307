"""The lid's prop: where the arms pivot, how long they are, and where the racks' notches go.

Hinge frame, from the lid's underside down: batten, clearance and rod; the rack's top; its notches;
the web under them.
"""

from __future__ import annotations

import math

from flatpack.geometry import Point
from flatpack.joinery.pocket_screws import POCKETS_APART
from flatpack.mechanism.notches import NotchForm, seat_of
from flatpack.mechanism.prop import Prop, pivot_at
from flatpack.pieces.common.notch_forms import cornered, notch_form
from flatpack.pieces.common.propping import (
    LAND,
    Levels,
    PropSetting,
    bar_edge,
    clear_of_pockets,
    folded_at,
    longest_pivot,
    notches_for_angles,
    run_of,
)
from flatpack.pieces.cushion_box.parameters import CushionBox
from flatpack.pieces.cushion_box.setting_out import SettingOut
from flatpack.pieces.family import Workings, mm

BESIDE = 2.0
"""From a rack's ends to the posts, mm (common practice, no source)."""
PIVOT_WOOD = 4.0
"""Wood between the pivot's washer and a pocket beside it, mm (common practice, no source)."""


def set_prop(p: CushionBox, out: SettingOut, notes: Workings) -> PropSetting:
    """Arm, pivot and notches that give the wanted angles and fold under the lid."""
    form = notch_form(out.stock.notch, out.stock.rod.diameter)
    levels = _levels(p, out, form, notes)
    prop = _arm(p, out, levels, form, notes)
    folded = folded_at(prop, levels.top + prop.rod / 2.0)
    seats, datums = notches_for_angles(p.lid.angles, prop, form, levels.floor, notes, "lid")
    end = min(folded.x + prop.rod / 2.0 + LAND, rack_room(out)[1])
    start = max(datums[-1].x - form.base - run_of(form) - LAND, rack_room(out)[0])
    return PropSetting(
        prop=prop,
        folded=folded,
        form=form,
        seats=seats,
        datums=datums,
        blocks=(),
        contour=cornered(bar_edge(form, datums, levels, start, end), out.stock.notch),
        floor=levels.floor,
        top=levels.top,
        bottom=levels.bottom,
        start=start,
        end=end,
    )


def rack_room(out: SettingOut) -> tuple[float, float]:
    """Where a rack may begin and end, between the posts, hinge frame, mm."""
    depth = out.box.wish.depth
    return out.inner + BESIDE - out.axis.x, depth - out.inner - BESIDE - out.axis.x


def _levels(p: CushionBox, out: SettingOut, form: NotchForm, notes: Workings) -> Levels:
    off, batten, rod = out.stock.hinge.axis_offset, out.lid.batten, out.stock.rod.diameter
    under = notes.add(
        "Rack's top below the lid",
        batten + p.arms.clearance + rod,
        f"{mm(batten)} batten + {mm(p.arms.clearance)} clearance + {mm(rod)} rod",
    )
    notes.add(
        "Rack's lower edge below the lid",
        under + form.depth + p.rack.web,
        f"{mm(under)} to its top + {mm(form.depth)} notch + {mm(p.rack.web)} web",
    )
    notes.add("Pivot below the lid", batten / 2.0, f"half of the {mm(batten)} batten")
    top = off - under
    floor = top - form.depth
    return Levels(top, floor, floor - p.rack.web, off - batten / 2.0)


def fold_limit(p: CushionBox, out: SettingOut) -> float:
    """Greatest x of the folded rod's centre: arm's end and rod clear of the front posts."""
    front = out.box.wish.depth - out.inner - out.axis.x - p.arms.clearance
    return front - max(p.arms.width, out.stock.rod.diameter) / 2.0


def pivot_room(out: SettingOut) -> float:
    """From the pivot's middle to a pocket's beside it: washer, half a pocket and some wood, mm."""
    return out.stock.pivot.washer.outer / 2.0 + out.stock.jig.drill / 2.0 + PIVOT_WOOD


def _arm(p: CushionBox, out: SettingOut, levels: Levels, form: NotchForm, notes: Workings) -> Prop:
    limit, rod = fold_limit(p, out), out.stock.rod.diameter
    spot, slack = seat_of(form, rod / 2.0)
    seat, rest = levels.floor + spot.y, levels.top + rod / 2.0
    top, lean = max(p.lid.angles), p.arms.least_lean

    def arm_for(pivot: float) -> float:
        height = pivot_at(Prop(pivot=Point(pivot, levels.pivot), arm=1.0, rod=rod), top).y - seat
        return p.arms.length or math.ceil(height / math.cos(math.radians(lean)) + slack)

    pivot = p.arms.pivot
    if pivot is None:
        furthest = longest_pivot(arm_for, levels.pivot - rest, limit)
        pivot = _clear(p, out, math.floor(furthest))
    notes.add(
        "Arm's pivot from the hinge axis",
        pivot,
        "as asked"
        if p.arms.pivot
        else f"furthest at which the arm still folds in, rod {mm(limit)} from the axis at most, "
        "and clear of the pockets",
    )
    arm = notes.add(
        "Arm, pivot to rod",
        float(arm_for(pivot)),
        "as asked"
        if p.arms.length
        else f"leans {mm(lean)}° from upright at the highest stop, {mm(top)}°; next whole mm",
    )
    return Prop(pivot=Point(float(pivot), levels.pivot), arm=arm, rod=rod)


def _clear(p: CushionBox, out: SettingOut, most: float) -> float:
    """The pivot moved towards the hinge until every lid board's pockets find room beside it."""
    apart = out.stock.jig.drill + POCKETS_APART
    boards = [(low - out.axis.x, high - out.axis.x) for low, high in held(out)]
    return clear_of_pockets(most, boards, p.lid.screws, pivot_room(out), apart)


def held(out: SettingOut) -> tuple[tuple[float, float], ...]:
    """Where each lid board lies on the battens: from the rear side, mm."""
    lid = out.lid
    ends = ((max(r.low, lid.start), min(r.low + r.width, lid.end)) for r in lid.rows)
    return tuple((low, high) for low, high in ends)
