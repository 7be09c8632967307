"""Keys of a lounger that can't go together: found before anything is built."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from flatpack.mechanism.notches import Kind, notch_width
from flatpack.parameters import Conflict, replace
from flatpack.pieces.common.notch_forms import notch_form
from flatpack.pieces.common.propping import Levels
from flatpack.pieces.family import Workings, mm
from flatpack.pieces.lounger.notching import even_rack
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.prop import fold_limit, set_prop
from flatpack.pieces.lounger.rack_edge import block_profile
from flatpack.pieces.lounger.setting_out import SettingOut, set_out
from flatpack.pieces.lounger.stock import Stock

LEAST_DECK = 300.0
"""Shortest fixed deck that is still a seat, mm (common practice, no source)."""


def conflicts(p: Lounger, stock: Stock) -> Iterator[Conflict]:
    """What doesn't go together, first by size, then by what has to fit inside."""
    most = p.size.length - LEAST_DECK
    if p.back.length > most:
        yield Conflict(
            "back.length",
            p.back.length,
            f"at most {mm(most)}: size.length {mm(p.size.length)} less {mm(LEAST_DECK)} of deck",
            "the back is longer than the frame allows",
        )
        return
    out = set_out(p, stock, Workings())
    before = [*_angles(p), *_as_made(p), *_heights(p, out), *_arms(p, out)]
    yield from before
    yield from _slats(p, out)
    yield from _across(p, out)
    if not before:
        yield from _rack(p, out)


def _angles(p: Lounger) -> Iterator[Conflict]:
    angles = p.back.angles
    for before, after in pairwise(angles):
        if after <= before:
            yield Conflict(
                "back.angles",
                list(angles),
                f"each larger than the one before: {sorted(set(angles))}",
                "the angles are out of order",
            )
            return


def _as_made(p: Lounger) -> Iterator[Conflict]:
    made = p.as_made.notches
    if made and len(made) != len(p.back.angles):
        yield Conflict(
            "as_made.notches",
            list(made),
            f"{len(p.back.angles)} places, one for each of back.angles",
            "not as many notches as angles",
        )
    elif any(b >= a for a, b in pairwise(made)):
        yield Conflict(
            "as_made.notches",
            list(made),
            "falling: the lowest angle's notch is furthest from the hinge",
            "the notches are out of order",
        )


def _slats(p: Lounger, out: SettingOut) -> Iterator[Conflict]:
    width = out.widths.slat
    for key, count, gap, length in (
        ("slats.deck_count", out.deck.deck_count, out.deck.deck_gap, out.deck.deck_length),
        ("slats.back_count", out.deck.back_count, out.deck.back_gap, out.deck.back_length),
    ):
        if gap < 0.0:
            fits = int(length / width)
            yield Conflict(
                key,
                count,
                f"at most {fits}: {mm(length)} for slats {mm(width)} wide",
                "more slats than fit",
            )
    leaf = out.stock.hinge.leaf_width - (out.deck.hinge_gap - out.deck.gap_on_deck)
    if leaf > width:
        yield Conflict(
            "slats.width",
            p.slats.width,
            f"at least {mm(leaf)}, to carry the leaf of {out.stock.hinge.name}",
            "the first back slat is narrower than the hinge's leaf",
        )


def _rack(p: Lounger, out: SettingOut) -> Iterator[Conflict]:
    form = notch_form(out.stock.notch, out.stock.rod.diameter)
    if p.rack.kind == "blocks" and form.kind is not Kind.RAMP:
        yield Conflict(
            "rack.notch",
            p.rack.notch,
            'a notch of the shape "ramp", or rack.kind = "bar"',
            "tooth blocks need a ramp and a stop face",
        )
        return
    if p.rack.pitch is not None and not p.as_made.notches:
        uneven = list(_pitch(p, out))
        yield from uneven
        if uneven:
            return
    prop = set_prop(p, out, Workings())
    if not prop.contour:
        yield _meeting(p, out, notch_width(form))
        return
    rod = prop.prop.rod / 2.0
    if p.rack.kind == "blocks":
        last = block_profile(form)[-1][0] + rod * math.tan(math.radians(form.ramp) / 2.0)
    else:
        last = rod / 2.0
    over = prop.datums[0].x + last - prop.folded.x
    if over > 1e-6 and not p.as_made.notches:
        least = _least_angle(p, out, last)
        yield Conflict(
            "back.angles",
            list(p.back.angles),
            f"the lowest at least {least:g}, so that its notch ends before the folded rod",
            "the first notch lies where the rod folds away",
        )


def _meeting(p: Lounger, out: SettingOut, width: float) -> Conflict:
    if p.as_made.notches:
        return Conflict(
            "as_made.notches",
            list(p.as_made.notches),
            f"at least {mm(width)} apart",
            "the notches run into each other",
        )
    for key, asked in (("pivot", p.arms.pivot), ("length", p.arms.length)):
        if asked is not None:
            free = replace(p, arms=replace(p.arms, **{key: None}))
            plain = set_prop(free, out, Workings())
            if plain.contour:
                derived = plain.prop.pivot.x if key == "pivot" else plain.prop.arm
                return Conflict(
                    f"arms.{key}",
                    asked,
                    f"about {mm(derived)}, as derived when it is left out",
                    "the notches run into each other",
                )
    apart = _angles_apart(p, out)
    return Conflict(
        "back.angles",
        list(p.back.angles),
        f"further apart, such as {apart}" if apart else "fewer, or a longer arm",
        "the notches run into each other",
    )


def _angles_apart(p: Lounger, out: SettingOut) -> list[float]:
    """The highest angle as wanted, each other lowered by whole degrees until its notch has room."""
    apart: list[float] = []
    for wanted in reversed(p.back.angles):
        angle = min([wanted, *(math.ceil(a) - 1.0 for a in apart[:1])])
        while angle > 0.0:
            back = replace(p.back, angles=(angle, *apart))
            if set_prop(replace(p, back=back), out, Workings()).contour:
                break
            angle = math.ceil(angle) - 1.0
        else:
            return []
        apart.insert(0, angle)
    return apart


def _pitch(p: Lounger, out: SettingOut) -> Iterator[Conflict]:
    """An even pitch must leave wood between the notches and fit in the frame."""
    asked = replace(p, rack=replace(p.rack, pitch=None))
    plain = set_prop(asked, out, Workings())
    levels = Levels(plain.top, plain.floor, plain.bottom, plain.prop.pivot.y)
    found = even_rack(p, plain.prop, plain.form, levels, fold_limit(p, out), Workings())
    for problem in found.problems:
        side = "at least" if problem.limit > problem.measured else "at most"
        yield Conflict(
            "rack.pitch",
            p.rack.pitch,
            f"{side} {mm(problem.limit)}",
            f"the notches don't fit at this pitch: {problem.fault}",
        )


def _least_angle(p: Lounger, out: SettingOut, last: float) -> float:
    """Lowest first angle, in whole degrees, whose notch ends before the folded rod."""
    top = max(p.back.angles)
    for angle in range(math.ceil(p.back.angles[0]), math.floor(top) + 1):
        back = replace(p.back, angles=(float(angle), top) if angle < top else (top,))
        prop = set_prop(replace(p, back=back), out, Workings())
        if prop.datums[0].x + last <= prop.folded.x:
            return float(angle)
    return top


def _heights(p: Lounger, out: SettingOut) -> Iterator[Conflict]:
    if out.heights.under_rail < 20.0:
        most = out.widths.rail + p.size.height - out.heights.under_slats + 20.0
        yield Conflict(
            "size.height",
            p.size.height,
            f"at least {mm(most)}: slat, rail {mm(out.widths.rail)} and 20 to the ground",
            "the rail would reach the ground",
        )
    wheel = out.stock.wheel
    if wheel is not None:
        most = out.heights.under_rail - p.wheels.clearance
        if wheel.diameter > most:
            yield Conflict(
                "wheels.wheel",
                p.wheels.wheel,
                f"a wheel of at most {mm(most)}: {mm(out.heights.under_rail)} under the rail less "
                f"{mm(p.wheels.clearance)}",
                "the wheel is larger than the legs allow",
            )
        if out.stock.axle is not None and out.stock.axle.diameter != wheel.axle:
            yield Conflict(
                "wheels.axle",
                p.wheels.axle,
                f"a rod of {mm(wheel.axle)}, for {wheel.name}",
                "the axle doesn't fit the wheel",
            )
    form = notch_form(out.stock.notch, out.stock.rod.diameter)
    inside = out.widths.brace + p.arms.clearance + out.stock.rod.diameter
    need = inside + form.depth + p.rack.web
    if need > out.widths.rail + 1e-9:
        yield Conflict(
            "frame.rail_width",
            out.widths.rail,
            f"at least {mm(need)}: brace {mm(out.widths.brace)} + {mm(p.arms.clearance)} + rod "
            f"{mm(out.stock.rod.diameter)} + notch {mm(form.depth)} + web {mm(p.rack.web)}"
            f" (the rail comes out {mm(out.widths.rail)} wide)",
            "the rack doesn't fit inside the rail's depth",
        )


def _across(p: Lounger, out: SettingOut) -> Iterator[Conflict]:
    leaf = out.stock.hinge.leaf_length / 2.0 + 13.0
    inside = p.size.width * p.hinge.inset - leaf
    if inside < out.lanes.free:
        least = (out.lanes.free + leaf) / p.hinge.inset
        yield Conflict(
            "size.width",
            p.size.width,
            f"at least {mm(least)} with hinge.inset {p.hinge.inset:g}: rail, rack, arm, brace and "
            f"nut take {mm(out.lanes.free)} on each side",
            "too narrow for the lanes of the arms and the hinges",
        )


def _arms(p: Lounger, out: SettingOut) -> Iterator[Conflict]:
    if p.arms.width > out.widths.brace:
        yield Conflict(
            "arms.width",
            p.arms.width,
            f"at most {mm(out.widths.brace)}, the brace's width, so that no end meets the slats",
            "the arms are wider than the braces",
        )
    limit = fold_limit(p, out)
    for key, pivot in (("arms.pivot", p.arms.pivot), ("as_made.pivot", p.as_made.pivot)):
        if pivot is not None and pivot >= limit:
            yield Conflict(
                key,
                pivot,
                f"less than {mm(limit)}, where the folded rod must stop",
                "the pivot lies beyond the room for the folded arm",
            )
