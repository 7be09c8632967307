"""Putting a cushion box together."""

from __future__ import annotations

from collections.abc import Iterable

from flatpack.joinery import machine
from flatpack.model import Assembly, Motion
from flatpack.parameters import Conflict
from flatpack.pieces.common.boarded.bottom import notch_sizes, spacers
from flatpack.pieces.common.boarded.joints import joints as box_joints
from flatpack.pieces.common.boarded.parts import parts as box_parts
from flatpack.pieces.common.propping import PropSetting
from flatpack.pieces.cushion_box.conflicts import conflicts as _conflicts
from flatpack.pieces.cushion_box.lid_joints import lid_joints
from flatpack.pieces.cushion_box.lid_parts import lid_parts, rod
from flatpack.pieces.cushion_box.parameters import CushionBox
from flatpack.pieces.cushion_box.prop import set_prop
from flatpack.pieces.cushion_box.remarks import lid_spacer, lid_weight, remarks, room_behind
from flatpack.pieces.cushion_box.setting_out import SettingOut, set_out
from flatpack.pieces.cushion_box.steps import STEPS
from flatpack.pieces.cushion_box.stock import stock_for
from flatpack.pieces.family import Workings, fixings_fit
from flatpack.profiles import Profiles

MOVING_CLEARANCE = 1.0
"""Least gap wanted between parts that pass one another, mm (common practice, no source)."""
KEYS = (
    ("angles", "lid.angles"),
    ("arm", "arms.length"),
    ("pivot_x", "arms.pivot"),
    ("arm_width", "arms.width"),
    ("lean", "arms.least_lean"),
)
"""Parameter behind each number that a remedy may change."""


def build(p: CushionBox, profiles: Profiles) -> Assembly:
    """The whole box with its lid closed, joints made."""
    notes = Workings()
    out = set_out(p, stock_for(p, profiles), notes)
    prop = set_prop(p, out, notes)
    notch_sizes(out.box, notes)
    made = (*box_parts(out.box), *lid_parts(p, out, prop))
    kg = lid_weight(made, out, notes)
    room_behind(p, out, notes)
    return machine(
        Assembly(
            family="cushion-box",
            name=p.name,
            date=p.date or "",
            parts={part.key: part for part in made},
            bars={"rod": rod(p, out, prop)},
            joints=(*box_joints(out.box), *lid_joints(p, out, prop)),
            steps=STEPS,
            workings=tuple(notes.rows),
            spacers=(*spacers(out.box), *lid_spacer(p, out)),
            motion=_motion(p, out, prop),
            bearing="opening",
            remarks=remarks(p.name, kg),
        )
    )


def conflicts(p: CushionBox, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together, each with what would do."""
    yield from _conflicts(p, stock_for(p, profiles))
    yield from fixings_fit(p.fixings, profiles, (("bolt", "nut"), ("bolt", "washer")))


def _motion(p: CushionBox, out: SettingOut, prop: PropSetting) -> Motion:
    """The lid's own weight closes it: the load judged pushes the same way."""
    front = out.lid.front - out.axis.x
    return Motion(
        axis=out.axis,
        pivot=prop.prop.pivot,
        arm=prop.prop.arm,
        rod=prop.prop.rod,
        contour=prop.contour,
        folded=prop.folded,
        wanted=p.lid.angles,
        notches=prop.seats,
        spare=0.0,
        least_lean=p.arms.least_lean,
        gap=None,
        axis_from_fixed=0.0,
        axis_depth=out.stock.hinge.axis_offset,
        slat=out.stock.lid.thickness,
        opens=out.stock.hinge.opens,
        leaf_angle=0.0,
        push=p.lid.push,
        push_along=p.lid.push_share * front,
        grip=front,
        clearance=MOVING_CLEARANCE,
        tolerance=p.arms.tolerance,
        keys=KEYS,
        panel="lid",
        rest="closed",
        lying=("lid-board",),
        under=("post-",),
    )
