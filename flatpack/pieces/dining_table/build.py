"""Putting a dining table together, and what its keys may not be together."""

from __future__ import annotations

from collections.abc import Iterable

from flatpack.model import Assembly
from flatpack.parameters import Conflict
from flatpack.pieces.common import slatted
from flatpack.pieces.dining_table.parameters import DiningTable
from flatpack.profiles import Profiles


def build(p: DiningTable, profiles: Profiles) -> Assembly:
    """The whole dining table, joints made."""
    return slatted.build(_plan(p), profiles)


def conflicts(p: DiningTable, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together, each with what would do."""
    yield from slatted.conflicts(_plan(p), profiles)


def _plan(p: DiningTable) -> slatted.Plan:
    sizes = slatted.Sizes(p.size.length, p.size.width, p.size.height)
    return slatted.planned(p, "dining-table", sizes, slat="Top slat", sat_at=True)
