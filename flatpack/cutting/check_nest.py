"""Independent check of a nest with true shapes: inside, apart, clear of clamps, grain kept."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any

from flatpack.cutting.nest_records import TURNS, Nest, NestedSheet, Shape, Spaces
from flatpack.geometry.polygon import polygon

_TOLERANCE = 0.01
_SAGITTA = 0.002


def faults(nest: Nest, shapes: Sequence[Shape], spaces: Spaces) -> list[str]:
    """Everything wrong with a nest, in words; empty when it can be cut as it says."""
    found = layout_faults(nest.sheets, shapes, spaces)
    made = Counter(p.mark for s in nest.sheets for p in s.parts)
    made.update(dict(nest.missing))
    wanted = Counter({s.mark: s.count for s in shapes})
    for mark in sorted(set(made) | set(wanted)):
        if made[mark] != wanted[mark]:
            found.append(f"{mark}: {made[mark]} in the nest, {wanted[mark]} wanted")
    used = Counter(s.blank for s in nest.sheets)
    for blank, count in used.items():
        limit = 1 if blank.offcut and blank.available is None else blank.available
        if limit is not None and count > limit:
            found.append(f"{count} of {blank.name} used, {limit} in stock")
    return found


def layout_faults(
    sheets: Sequence[NestedSheet], shapes: Sequence[Shape], spaces: Spaces
) -> list[str]:
    """What is wrong with the places of parts on their sheets."""
    named = {s.mark: s for s in shapes}
    unknown = [p.mark for s in sheets for p in s.parts if p.mark not in named]
    if unknown:
        return [f"there is no part {mark}" for mark in unknown]
    return [
        f"sheet {number}: {fault}"
        for number, sheet in enumerate(sheets, 1)
        for fault in _sheet_faults(sheet, named, spaces)
    ]


def _sheet_faults(sheet: NestedSheet, named: dict[str, Shape], spaces: Spaces) -> Iterator[str]:
    blank = polygon(sheet.blank.outline, _SAGITTA)
    clamps = [polygon(c, _SAGITTA) for c in sheet.blank.clamps]
    laid: list[tuple[str, Any, tuple[float, float, float, float]]] = []
    for placed in sheet.parts:
        shape = named[placed.mark]
        if placed.turn not in TURNS[shape.grain]:
            yield f"{placed.mark} is turned by {placed.turn}, against its grain"
        outline = shape.outline.turned(placed.turn).moved(placed.x, placed.y)
        openings = [o.turned(placed.turn).moved(placed.x, placed.y) for o in shape.openings]
        part = polygon(outline, _SAGITTA, openings)
        if not blank.contains(part) or (part.distance(blank.exterior) < spaces.edge - _TOLERANCE):
            yield f"{placed.mark} is nearer to the sheet's edge than {spaces.edge}"
        if any(part.distance(c) < spaces.between - _TOLERANCE for c in clamps):
            yield f"{placed.mark} is too near a clamp"
        laid.append((placed.mark, part, part.bounds))
    yield from _near(laid, spaces.between)


def _near(laid: Sequence[tuple[str, Any, Any]], space: float) -> Iterator[str]:
    ordered = sorted(laid, key=lambda t: t[2])
    for first, (mark, part, box) in enumerate(ordered):
        for other, shape, bounds in ordered[first + 1 :]:
            if bounds[0] > box[2] + space:
                break
            if bounds[1] > box[3] + space or box[1] > bounds[3] + space:
                continue
            if part.distance(shape) < space - _TOLERANCE:
                yield f"{mark} and {other} are {part.distance(shape):.3f} apart"
