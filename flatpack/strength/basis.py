"""What a piece's strength is judged by: its load set, and the materials of its boards and metal.

Kept apart, so that the content code on every sheet counts them before anything is judged.
"""

from __future__ import annotations

from typing import Any

from flatpack.model import Assembly
from flatpack.profiles import LoadSet, Profiles
from flatpack.strength.stuff import LOWEST, METALS, stuff_of


def loads_of(assembly: Assembly, record: Any, profiles: Profiles) -> LoadSet | None:
    """The load set that the file names, else the piece, else the family's; None: there is none.

    Raises:
        ProfileError: the one named doesn't exist.
    """
    named = getattr(record, "loads", "") or assembly.loads
    if named:
        return profiles.load_set(named)
    known = assembly.family in profiles.names("loads")
    return profiles.load_set(assembly.family) if known else None


def read(assembly: Assembly, record: Any, profiles: Profiles) -> None:
    """Have every profile read that the report may use.

    Raises:
        ProfileError: one of them has faults, or isn't there.
    """
    if loads_of(assembly, record, profiles) is None:
        return
    for part in assembly.parts.values():
        stuff_of(part.board, profiles, {})
    for key in (*METALS, LOWEST["softwood"], LOWEST["hardwood"]):
        profiles.material(key)
