"""Where in the maker's file a joint comes from, so that findings can say what to change."""

from __future__ import annotations

from collections.abc import Mapping

from flatpack.model import Joint
from flatpack.parameters import specs_of
from flatpack.pieces.composed.joints import entries
from flatpack.pieces.composed.layout import Layout

PLACING = ("count", "depth", "width", "height")
"""Keys of a joint that say how many fasteners there are, and where."""


def origins(layout: Layout, entered: Mapping[str, tuple[Joint, ...]]) -> dict[str, str]:
    """Each joint's entry in the file, with its keys that say where its fasteners stand."""
    found: dict[str, str] = {}
    for entry in entries(layout):
        own = [key for key in PLACING if key in specs_of(entry.made)]
        told = f": change {', '.join(own[:-1])} or {own[-1]}" if len(own) > 1 else ""
        names = ", ".join(getattr(entry.made, "through", ()))
        hint = f"in the file {entry.key}, {entry.kind} from {names}{told}"
        found |= {joint.key: hint for joint in entered.get(entry.key, ())}
    return found
