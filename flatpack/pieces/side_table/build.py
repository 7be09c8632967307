"""Putting a side table together, and what its keys may not be together."""

from __future__ import annotations

from collections.abc import Iterable

from flatpack.model import Assembly
from flatpack.parameters import Conflict
from flatpack.pieces.common import slatted
from flatpack.pieces.side_table.parameters import SideTable
from flatpack.profiles import Profiles


def build(p: SideTable, profiles: Profiles) -> Assembly:
    """The whole side table, joints made."""
    return slatted.build(_plan(p), profiles)


def conflicts(p: SideTable, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together, each with what would do."""
    yield from slatted.conflicts(_plan(p), profiles)


def _plan(p: SideTable) -> slatted.Plan:
    sizes = slatted.Sizes(p.size.length, p.size.width, p.size.height)
    splay = slatted.Splay(p.splay.front, p.splay.side)
    return slatted.planned(p, "side-table", sizes, slat="Top slat", splay=splay)
