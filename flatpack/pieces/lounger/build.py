"""Putting a lounger together, and what its keys may not be together."""

from __future__ import annotations

from collections.abc import Iterable

from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.joinery import machine
from flatpack.model import Assembly, Bar, Cutting, Motion
from flatpack.parameters import Conflict, replace
from flatpack.pieces.common.propping import PropSetting
from flatpack.pieces.family import Workings, fixings_fit
from flatpack.pieces.lounger.back_parts import back_parts, rack_parts, rod
from flatpack.pieces.lounger.conflicts import conflicts as _conflicts
from flatpack.pieces.lounger.frame_joints import wheel_reach
from flatpack.pieces.lounger.frame_parts import frame_parts
from flatpack.pieces.lounger.joints import STEPS, joints
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.prop import set_prop
from flatpack.pieces.lounger.setting_out import SettingOut, set_out
from flatpack.pieces.lounger.stock import stock_for
from flatpack.profiles import Profiles

MOVING_CLEARANCE = 1.0
"""Least gap wanted between parts that pass one another, mm (common practice, no source)."""
KEYS = (
    ("angles", "back.angles"),
    ("arm", "arms.length"),
    ("pivot_x", "arms.pivot"),
    ("gap", "hinge.gap"),
    ("brace", "back.brace_width"),
    ("rail", "frame.rail_width"),
    ("arm_width", "arms.width"),
    ("lean", "arms.least_lean"),
)
"""Parameter behind each number that a remedy may change."""


def build(p: Lounger, profiles: Profiles) -> Assembly:
    """The whole lounger with its back flat, joints made."""
    p = as_fitted(p)
    notes = Workings()
    out = set_out(p, stock_for(p, profiles), notes)
    prop = set_prop(p, out, notes)
    made = (*frame_parts(p, out), *rack_parts(p, out, prop), *back_parts(p, out, prop))
    parts = {part.key: part for part in made}
    return machine(
        Assembly(
            family="lounger",
            name=p.name,
            date=p.date or "",
            parts=parts,
            bars=_bars(p, out, prop),
            joints=tuple(joints(p, out, prop)),
            steps=STEPS,
            workings=tuple(notes.rows),
            spacers=_spacers(out),
            motion=_motion(p, out, prop),
            bearing="lying",
        )
    )


def as_fitted(p: Lounger) -> Lounger:
    """The keys with the back as long as the hinge, where it was fitted, leaves it."""
    if p.as_made.hinge is None:
        return p
    return replace(p, back=replace(p.back, length=p.size.length - p.as_made.hinge))


def conflicts(p: Lounger, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together, each with what would do."""
    if p.as_made.hinge is not None and not 0.0 < p.size.length - p.as_made.hinge < p.size.length:
        yield Conflict(
            "as_made.hinge",
            p.as_made.hinge,
            f"less than size.length, {p.size.length:g}",
            "the hinge would stand beyond the head end",
        )
        return
    p = as_fitted(p)
    yield from _conflicts(p, stock_for(p, profiles))
    yield from fixings_fit(p.fixings, profiles, (("bolt", "nut"), ("bolt", "washer")))


def _keys(p: Lounger) -> tuple[tuple[str, str], ...]:
    """Parameter behind each number; an arm or pivot made already is changed where it is told."""
    made = {
        name: f"as_made.{key}"
        for name, key in (("arm", "arm"), ("pivot_x", "pivot"))
        if getattr(p.as_made, key) is not None
    }
    return tuple((name, made.get(name, key)) for name, key in KEYS)


def _bars(p: Lounger, out: SettingOut, prop: PropSetting) -> dict[str, Bar]:
    bars = {"rod": rod(p, out, prop)}
    if out.stock.wheel is None or out.stock.axle is None:
        return bars
    t, reach = out.stock.frame.thickness, wheel_reach(out)
    start = t - out.stock.washer.thickness - reach
    x = p.size.length - t - out.widths.leg / 2.0
    bars["axle"] = Bar(
        key="axle",
        name="Axle",
        stock=out.stock.axle,
        length=p.size.width - 2.0 * start,
        frame=Frame(Vec(x, start, out.stock.wheel.diameter / 2.0), Z, X, Y),
        fit="free in the wheel legs",
    )
    return bars


def _spacers(out: SettingOut) -> tuple[Cutting, ...]:
    deck, width = out.deck, out.widths.slat
    rows = [
        Cutting("Gap spacer, fixed slats", width, deck.deck_gap, 2, "between fixed slats"),
        Cutting("Gap spacer, back slats", width, deck.back_gap, 2, "between back slats"),
        Cutting("Gap spacer, hinge", width, deck.hinge_gap, 2, "last fixed slat to back"),
        Cutting(
            "Stop block, brace",
            width,
            out.lanes.brace,
            2,
            "brace's outer face from the slats' ends",
        ),
    ]
    return tuple(row for row in rows if row.width > 0.0)


def _motion(p: Lounger, out: SettingOut, prop: PropSetting) -> Motion:
    return Motion(
        axis=Vec(out.deck.hinge_x, 0.0, out.heights.axis),
        pivot=prop.prop.pivot,
        arm=prop.prop.arm,
        rod=prop.prop.rod,
        contour=prop.contour,
        folded=prop.folded,
        wanted=p.back.angles,
        notches=prop.seats,
        spare=p.hinge.spare,
        least_lean=p.arms.least_lean,
        gap=out.deck.hinge_gap,
        axis_from_fixed=out.deck.gap_on_deck,
        axis_depth=out.deck.axis_depth,
        slat=out.stock.slats.thickness,
        opens=out.stock.hinge.opens,
        leaf_angle=90.0,
        push=p.back.push,
        push_along=p.back.push_share * p.back.length,
        grip=p.back.length - out.widths.slat / 2.0,
        clearance=MOVING_CLEARANCE,
        tolerance=p.as_made.tolerance,
        keys=_keys(p),
        lying=("back-slat",),
        under=("rail", "end-rail", "leg"),
    )
