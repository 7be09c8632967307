"""The prop: where the arms pivot, how long they are, and where the rack's notches go.

Hinge frame: origin on the hinge axis, x towards the free end, y up.  The rod lies under the
braces when the back is flat:

    y = axis_depth            slats' underside, top of the brace
    - brace width             brace's lower edge
    - clearance - rod         rod's underside when folded = the rack's top
    - notch depth             floor of the notches
    - web                     the rack's lower edge
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
from flatpack.pieces.family import Workings, mm
from flatpack.pieces.lounger.notching import (
    even_rack,
    notches_cut_already,
    solved_for_cut_racks,
)
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.rack_edge import block_edge
from flatpack.pieces.lounger.setting_out import SettingOut


def set_prop(p: Lounger, out: SettingOut, notes: Workings) -> PropSetting:
    """Arm, pivot and notches that give the wanted angles and fold into the frame."""
    form = notch_form(out.stock.notch, out.stock.rod.diameter)
    levels = _levels(p, out, form, notes)
    prop = _arm(p, out, levels, form, notes)
    rod = prop.rod / 2.0
    rest = levels.top if p.rack.kind == "bar" else levels.floor
    limit, angles = fold_limit(p, out), p.back.angles
    if p.as_made.notches:
        prop = solved_for_cut_racks(p, prop, form, levels, limit, notes)
    elif p.rack.pitch is not None:
        even = even_rack(p, prop, form, levels, limit, notes)
        prop, angles = even.plan.prop, even.plan.angles
    folded = folded_at(prop, rest + rod)
    if p.as_made.notches:
        seats, datums = notches_cut_already(p, prop, form, levels.floor, notes)
    else:
        seats, datums = notches_for_angles(angles, prop, form, levels.floor, notes)
    end = min(folded.x + rod + LAND, limit + rod + p.arms.clearance - 1.0)
    start = datums[-1].x - form.base - run_of(form) - LAND
    blocks = () if p.rack.kind == "bar" else (*datums, Point(start, levels.floor))
    return PropSetting(
        prop=prop,
        folded=folded,
        form=form,
        seats=seats,
        datums=datums,
        blocks=blocks,
        contour=block_edge(form, blocks, end)
        if blocks
        else cornered(bar_edge(form, datums, levels, start, end), out.stock.notch),
        floor=levels.floor,
        top=levels.top,
        bottom=levels.bottom,
        start=start,
        end=end,
    )


def _levels(p: Lounger, out: SettingOut, form: NotchForm, notes: Workings) -> Levels:
    depth, brace, rod = out.deck.axis_depth, out.widths.brace, out.stock.rod.diameter
    under = brace + p.arms.clearance + rod
    top = depth - under
    notes.add(
        "Rack's top below the slats",
        under,
        f"{mm(brace)} brace + {mm(p.arms.clearance)} clearance + {mm(rod)} rod",
    )
    floor = top - form.depth
    notes.add(
        "Rack's lower edge below the slats",
        under + form.depth + p.rack.web,
        f"{mm(under)} to its top + {mm(form.depth)} notch + {mm(p.rack.web)} web",
    )
    below = brace / 2.0 if p.as_made.pivot_below is None else p.as_made.pivot_below
    notes.add(
        "Pivot below the slats",
        below,
        f"half of the {mm(brace)} brace" if p.as_made.pivot_below is None else "as made",
    )
    return Levels(top, floor, floor - p.rack.web, depth - below)


def fold_limit(p: Lounger, out: SettingOut) -> float:
    """Greatest x of the folded rod's centre: clear of the head legs and of the end rail."""
    rail, room = out.stock.frame.thickness, p.arms.clearance
    rod = p.back.length - rail - out.widths.leg - room - out.stock.rod.diameter / 2.0
    return min(rod, p.back.length - rail - room - out.widths.arm / 2.0)


def _arm(p: Lounger, out: SettingOut, levels: Levels, form: NotchForm, notes: Workings) -> Prop:
    limit, rod = fold_limit(p, out), out.stock.rod.diameter
    spot, slack = seat_of(form, rod / 2.0)
    seat = levels.floor + spot.y
    rest = (levels.top if p.rack.kind == "bar" else levels.floor) + rod / 2.0
    top, lean = max(p.back.angles), p.arms.least_lean

    def arm_for(pivot: float) -> float:
        height = pivot_at(Prop(pivot=Point(pivot, levels.pivot), arm=1.0, rod=rod), top).y - seat
        given = p.as_made.arm or p.arms.length
        return given or math.ceil(height / math.cos(math.radians(lean)) + slack)

    pivot = p.as_made.pivot or p.arms.pivot
    if pivot is None:
        pivot = _clear_of_pockets(
            p, out, math.floor(longest_pivot(arm_for, levels.pivot - rest, limit))
        )
    arm = float(arm_for(pivot))
    notes.add(
        "Arm's pivot from the hinge axis",
        pivot,
        "as made"
        if p.as_made.pivot
        else "as asked"
        if p.arms.pivot
        else f"furthest at which the arm still folds in, rod {mm(limit)} from the axis at most, "
        "and clear of the pockets",
    )
    notes.add(
        "Arm, pivot to rod",
        arm,
        "as made"
        if p.as_made.arm
        else "as asked"
        if p.arms.length
        else f"leans {mm(lean)}° from upright at the highest stop, {mm(top)}°; next whole mm",
    )
    return Prop(pivot=Point(float(pivot), levels.pivot), arm=arm, rod=rod)


def _clear_of_pockets(p: Lounger, out: SettingOut, most: float) -> float:
    """Next place towards the hinge, in whole mm, where the slats' pockets still find room."""
    deck, width = out.deck, out.widths.slat
    first = deck.hinge_gap - deck.gap_on_deck
    lows = [first + i * (width + deck.back_gap) for i in range(deck.back_count)]
    slats = [(low, low + width) for low in lows]
    apart = out.stock.jig.drill + POCKETS_APART
    return clear_of_pockets(most, slats, p.back.brace_screws, pivot_room(out), apart)


def pivot_room(out: SettingOut) -> float:
    """From the pivot's middle to a pocket's beside it: washer, half a pocket and some wood, mm."""
    return out.stock.washer.outer / 2.0 + out.stock.jig.drill / 2.0 + 4.0
