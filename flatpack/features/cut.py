"""Room that a feature takes out of a part, as a prism between two heights."""

from __future__ import annotations

from flatpack.geometry import Outline
from flatpack.model import Cut, Face


def depth_cut(outline: Outline, thickness: float, face: Face, depth: float | None) -> Cut:
    """Cut from `face` to `depth`, or right through when depth is None."""
    if depth is None or depth >= thickness:
        return Cut(outline, 0.0, thickness)
    if face == "show":
        return Cut(outline, thickness - depth, thickness)
    return Cut(outline, 0.0, depth)
