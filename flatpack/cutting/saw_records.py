"""A saw plan as the man at the saw reads it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from flatpack.cutting.bounds import Bound
from flatpack.cutting.records import StockSheet, Trouble


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A part on its sheet: corner nearest the datum corner, extents along and across the sheet.

    `turned` when the part's length lies across the sheet's length.
    """

    mark: str
    x: float
    y: float
    length: float
    width: float
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One straight-through cut.

    `number` counts on the sheet; `stage` 0 is the trimming of the sheet's edges.  `way` is "rip"
    along the sheet's length or "cross" across it.  The fence is set to `setting` mm and the piece
    called `of` is cut; what lies at the fence is called `gives`, the rest keeps its name.
    `finished` when what lies at the fence is a part and needs no further cut.
    """

    number: int
    stage: int
    way: Literal["rip", "cross"]
    setting: float
    of: str
    gives: str
    finished: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """What is left over and large enough to keep: corner and extents, mm."""

    x: float
    y: float
    length: float
    width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSheet:
    """One sheet of the plan: where the parts lie, the cuts in order, what goes back to the rack."""

    stock: StockSheet
    parts: tuple[Laid, ...]
    cuts: tuple[Cut, ...]
    rests: tuple[Rest, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SawPlan:
    """A saw plan, with the number of new sheets that no plan can undercut.

    `settings` counts how often the fence is moved in the order given.  `missing` lists parts
    without a place as (mark, count).  `repeatable` is False when a clock or a hand stopped the
    search.  `cost` is None where a price is missing.
    """

    sheets: tuple[CutSheet, ...]
    new_sheets: int
    bound: Bound
    cost: float | None
    settings: int
    missing: tuple[tuple[str, int], ...]
    troubles: tuple[Trouble, ...]
    steps: int
    repeatable: bool

    @property
    def proved(self) -> bool:
        """True when no plan needs fewer new sheets."""
        return not self.missing and self.new_sheets <= self.bound.sheets

    @property
    def cut_count(self) -> int:
        """Cuts of the whole plan, edge trims included."""
        return sum(len(s.cuts) for s in self.sheets)
