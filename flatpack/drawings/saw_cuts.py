"""How cuts that aren't square are told: in a line, and as a list of saw settings."""

from __future__ import annotations

from flatpack.drawings.marks import PartGroup
from flatpack.drawings.page import Table
from flatpack.drawings.settings import Settings
from flatpack.geometry.compound import SawSetting
from flatpack.model import Assembly, Part, SawCut, saw_cuts
from flatpack.wording import english
from flatpack.wording import english_saw as words


def said(cut: SawCut) -> str:
    """A cut's setting in words."""
    return words.setting(*cut.setting)


def told(part: Part) -> str:
    """All cuts of a part in one line; "" for a part that is square all round."""
    cuts = saw_cuts(part)
    every = "; ".join(words.at(words.CUTS[cut.where], said(cut)) for cut in cuts)
    return words.cuts(len(cuts), every) if cuts else ""


def saw_settings(assembly: Assembly, found: tuple[PartGroup, ...], settings: Settings) -> Table:
    """One row a cut of each distinct part."""
    rows = tuple(
        (
            group.mark, group.part.name, english.HANDS[group.part.hand], words.CUTS[cut.where],
            *_angles(cut.setting), cut.long or words.EITHER_FACE,
            words.CUTS[cut.long_point] if cut.long_point else words.SQUARE_ACROSS, group.count,
        )
        for group in found
        for cut in saw_cuts(group.part)
    )  # fmt: skip
    return Table(name="saw-settings", title=words.TITLE, header=words.SETTINGS_HEADER, rows=rows)


def _angles(setting: SawSetting) -> tuple[str, str]:
    table, blade = (f"{angle:.1f}°" for angle in setting)
    return ("rip" if setting.table > 90.0 - words.FINE else table), blade
