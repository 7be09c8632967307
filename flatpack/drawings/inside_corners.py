"""The tightest inside corner of a part: what the cutter's radius must not exceed."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Outline
from flatpack.model import Part

_STRAIGHT = 1e-6


def smallest_inside_radius(part: Part) -> float | None:
    """Smallest radius in which the cutter must turn, mm; 0 for a sharp corner, None without one.

    On the outline that is where it turns right (anticlockwise outlines: hollows); in an opening,
    cut from inside, where it turns left.  Slots have round ends of half their width.
    """
    found = [
        *_turns(part.outline, -1.0),
        *(r for opening in part.openings for r in _turns(opening, 1.0)),
        *(float(f.width) / 2.0 for f in part.features if hasattr(f, "width")),
    ]
    return min(found, default=None)


def _turns(outline: Outline, way: float) -> Iterator[float]:
    """Radii of arcs that turn `way` (1 left, -1 right), and 0 for each sharp corner that does."""
    before = outline.segments[-1]
    for segment in outline.segments:
        a, b = before.direction(1.0), segment.direction(0.0)
        if (a.x * b.y - a.y * b.x) * way > _STRAIGHT:
            yield 0.0
        if segment.bulge * way > 0.0:
            yield segment.radius
        before = segment
