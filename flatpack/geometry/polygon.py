"""The only bridge to shapely: outlines become polygons within a stated sagitta."""

from __future__ import annotations

from collections.abc import Iterable

import shapely
from shapely import Polygon

from flatpack.geometry.outline import Outline

SAGITTA = 0.01
"""Largest distance of a chord from its true arc, mm, unless a caller asks for another."""


def polygon(outline: Outline, sagitta: float = SAGITTA, holes: Iterable[Outline] = ()) -> Polygon:
    """Polygon of an outline less its holes; every corner lies on the true boundary."""
    return Polygon(outline.sampled(sagitta), [hole.sampled(sagitta) for hole in holes])


def is_simple(outline: Outline, sagitta: float = SAGITTA) -> bool:
    """True when the outline doesn't cross or touch itself and encloses an area."""
    return bool(shapely.is_valid(polygon(outline, sagitta)))
