"""Putting a slatted top on two leg frames together."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.joinery import machine
from flatpack.model import Assembly, Comfort, Cutting, Step
from flatpack.pieces.common.slatted.frame_joints import frame_joints
from flatpack.pieces.common.slatted.parts import parts as _parts
from flatpack.pieces.common.slatted.plan import Plan, stock_for
from flatpack.pieces.common.slatted.setting_out import SettingOut, knee_room, set_out
from flatpack.pieces.common.slatted.top_joints import top_joints
from flatpack.pieces.family import Workings
from flatpack.profiles import Profiles

_FRAMES = Step(
    "leg frames",
    "Leg frames: rails between the legs",
    "",
    ("Top rail",),
)
_TOP = Step(
    "top",
    "Top: slats on their bearers, from below",
    "Slats get no glue: each is held by its own screws, so that it can swell and shrink into the "
    "gaps beside it.",
    ("Gap between slats",),
    ("between slats",),
)
_STRETCHER = Step("stretcher", "Stretcher between the low rails")
_AGAIN = "To pack it flat, undo these bolts again: the top stays in one piece."
WORKSHOP_STEPS = (
    _FRAMES,
    Step(
        "aprons",
        "Aprons bolted between the leg frames",
        "",
        ("Clear between the leg frames",),
    ),
    Step("bearers", "Bearers that carry the slats", "", ("Bearers,",)),
    _TOP,
    _STRETCHER,
)
KNOCK_DOWN_STEPS = (
    Step("bearers", "Aprons and bearers of the top", "", ("Bearers,",)),
    _TOP,
    _FRAMES,
    Step("legs", "Leg frames bolted to the top", _AGAIN, ("Clear between the leg frames", "Feet")),
    _STRETCHER,
)


def build(p: Plan, profiles: Profiles) -> Assembly:
    """The whole piece, joints made."""
    notes = Workings()
    out = set_out(p, stock_for(p.boards, p.fixings, profiles), notes)
    parts = {part.key: part for part in _parts(p, out)}
    return machine(
        Assembly(
            family=p.family,
            name=p.name,
            date=p.date,
            parts=parts,
            joints=(*frame_joints(p, out, parts), *top_joints(p, out)),
            steps=steps(p),
            workings=(*p.notes, *notes.rows),
            spacers=_spacers(out),
            bearing=p.bearing,
            comfort=(*p.comfort, *_at_table(p, out)),
        )
    )


def steps(p: Plan) -> tuple[Step, ...]:
    """Steps in order, less those that this piece doesn't have."""
    every = KNOCK_DOWN_STEPS if p.loose else WORKSHOP_STEPS
    return tuple(step for step in every if p.rails.low or step is not _STRETCHER)


def _spacers(out: SettingOut) -> tuple[Cutting, ...]:
    row = Cutting("Gap spacer, top", out.widths.slat, out.gap, 2, "between slats")
    return (row,) if row.width > 0.0 else ()


def _at_table(p: Plan, out: SettingOut) -> Iterator[Comfort]:
    """What somebody feels who sits at it: knees go under the apron as far as the other one."""
    if p.sat_at:
        _, across, height = p.sizes.keys
        yield Comfort("table height", p.sizes.height, height)
        yield Comfort("knee room", knee_room(out), "rails.apron")
        yield Comfort("knee depth", out.bearers.high, across)
