"""Putting a stool or table from sheet together."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.joinery import fit_trials, machine
from flatpack.model import Assembly, Comfort
from flatpack.pieces.family import Workings
from flatpack.pieces.sheet.joints import joints, steps, wedges
from flatpack.pieces.sheet.parameters import Sheet, SheetStool, SheetTable
from flatpack.pieces.sheet.parts import parts as _parts
from flatpack.pieces.sheet.setting_out import SettingOut, set_out
from flatpack.profiles import Profiles


def build_stool(p: SheetStool, profiles: Profiles) -> Assembly:
    """The whole stool, joints made."""
    return _built(p, profiles, "sheet-stool")


def build_table(p: SheetTable, profiles: Profiles) -> Assembly:
    """The whole table, joints made."""
    return _built(p, profiles, "sheet-table")


def _built(p: Sheet, profiles: Profiles, family: str) -> Assembly:
    notes = Workings()
    out = set_out(p, profiles, notes)
    parts = {part.key: part for part in _parts(p, out)}
    if not out.crossed:
        parts |= {wedge.key: wedge for wedge in wedges(p, out, parts)}
    table = family == "sheet-table"
    return machine(
        Assembly(
            family=family,
            name=p.name,
            date=p.date or "",
            parts=parts,
            joints=tuple(joints(p, out, parts)),
            steps=steps(p, out),
            workings=tuple(notes.rows),
            bearing="standing" if table else "",
            comfort=tuple(_at_table(p, out) if table else _on_stool(p)),
            trials=fit_trials((out.legs, out.top), out.fitting) if p.fit.trial else (),
        )
    )


def _on_stool(p: Sheet) -> Iterator[Comfort]:
    yield Comfort("seat height", p.size.height, "size.height")


def _at_table(p: Sheet, out: SettingOut) -> Iterator[Comfort]:
    """Knees go under the stretchers of sides; nothing hangs down between crossed legs."""
    yield Comfort("table height", p.size.height, "size.height")
    if out.crossed:
        yield Comfort("knee room", out.under, "size.height")
    else:
        yield Comfort("knee room", out.stretchers.low, "stretcher.width")
