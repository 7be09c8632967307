"""Putting a planter box together."""

from __future__ import annotations

from collections.abc import Iterable

from flatpack.joinery import machine
from flatpack.model import Assembly, Cutting
from flatpack.parameters import Conflict
from flatpack.pieces.family import Workings, fixings_fit
from flatpack.pieces.planter.bottom import notch_sizes
from flatpack.pieces.planter.conflicts import conflicts as _conflicts
from flatpack.pieces.planter.filling import liner, soil
from flatpack.pieces.planter.joints import joints, steps
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.parts import parts as _parts
from flatpack.pieces.planter.setting_out import SettingOut, set_out
from flatpack.pieces.planter.stock import stock_for
from flatpack.profiles import Profiles


def build(p: Planter, profiles: Profiles) -> Assembly:
    """The whole planter box, joints made."""
    notes = Workings()
    out = set_out(p, stock_for(p, profiles), notes)
    bought = liner(p, out, notes)
    remarks = soil(p, out, notes)
    notch_sizes(p, out, notes)
    parts = {part.key: part for part in _parts(p, out)}
    return machine(
        Assembly(
            family="planter",
            name=p.name,
            date=p.date or "",
            parts=parts,
            joints=tuple(joints(p, out)),
            hardware=bought,
            steps=steps(p),
            workings=tuple(notes.rows),
            spacers=_spacers(out),
            bearing="standing",
            remarks=remarks,
        )
    )


def _spacers(out: SettingOut) -> tuple[Cutting, ...]:
    rows = (
        Cutting("Gap spacer, sides", 60.0, out.gap, 4, "between side boards"),
        Cutting("Gap spacer, bottom", out.widths.slat, out.bottom.gap, 2, "between bottom slats"),
    )
    return tuple(row for row in rows if row.width > 0.0)


def conflicts(p: Planter, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together, each with what would do."""
    out = set_out(p, stock_for(p, profiles), Workings())
    yield from _conflicts(p, out)
    yield from fixings_fit(p.fixings, profiles, ())
