"""Putting a planter box together."""

from __future__ import annotations

from collections.abc import Iterable

from flatpack.joinery import machine
from flatpack.model import Assembly
from flatpack.parameters import Conflict
from flatpack.pieces.common.boarded import joints as box_joints
from flatpack.pieces.common.boarded.bottom import notch_sizes, spacers
from flatpack.pieces.common.boarded.parts import parts as box_parts
from flatpack.pieces.family import Workings, fixings_fit
from flatpack.pieces.planter.cap import cap
from flatpack.pieces.planter.cap_joints import cap_joints
from flatpack.pieces.planter.conflicts import conflicts as _conflicts
from flatpack.pieces.planter.filling import liner, soil
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.setting_out import set_out
from flatpack.pieces.planter.steps import steps
from flatpack.pieces.planter.stock import stock_for
from flatpack.profiles import Profiles


def build(p: Planter, profiles: Profiles) -> Assembly:
    """The whole planter box, joints made."""
    notes = Workings()
    out = set_out(p, stock_for(p, profiles), notes)
    bought = liner(p, out, notes)
    remarks = soil(p, out, notes)
    notch_sizes(out.box, notes)
    made = (*box_parts(out.box), *(cap(p, out) if p.cap.use else ()))
    joints = (*box_joints.joints(out.box), *(cap_joints(p, out) if p.cap.use else ()))
    return machine(
        Assembly(
            family="planter",
            name=p.name,
            date=p.date or "",
            parts={part.key: part for part in made},
            joints=joints,
            hardware=bought,
            steps=steps(p),
            workings=tuple(notes.rows),
            spacers=spacers(out.box),
            bearing="standing",
            remarks=remarks,
        )
    )


def conflicts(p: Planter, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together, each with what would do."""
    out = set_out(p, stock_for(p, profiles), Workings())
    yield from _conflicts(p, out)
    yield from fixings_fit(p.fixings, profiles, ())
