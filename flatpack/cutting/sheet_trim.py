"""Leaving parts out of a sheet's layout: what is over in a covering of the demand."""

from __future__ import annotations

from collections import Counter

from flatpack.cutting.sheet_view import Column, Layout, Strip


def without_spare(layout: Layout, wanted: Counter[int]) -> Layout:
    """The layout with no more of each part than `wanted`; strips and columns close up."""
    left = Counter(wanted)
    strips = []
    for strip in layout.strips:
        columns = [c for c in (_kept(column, left) for column in strip.columns) if c.options]
        if columns:
            strips.append(Strip(tuple(columns)))
    return Layout(layout.across, tuple(strips))


def _kept(column: Column, left: Counter[int]) -> Column:
    kept = []
    for option in column.options:
        if left[option.part] > 0:
            left[option.part] -= 1
            kept.append(option)
    return Column(max((o.x for o in kept), default=0), tuple(kept))
