"""Independent check of a saw plan: cut every sheet again, by place and by the list of cuts.

By place: a piece is cut wherever a straight cut of the saw's width passes between its parts, in
one direction as often as it can be, then in the other, until each part is alone and true to size.
How often the direction changes is counted.  By list: the cuts are carried out on named pieces,
and what comes off the saw is measured.  Nothing here is shared with the search.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from flatpack.cutting.records import PanelSaw, Piece, StockSheet
from flatpack.cutting.saw_records import CutSheet, Laid, SawPlan

_TINY = 1e-6


class NotCuttableError(ValueError):
    """No straight-through cut separates these parts."""


class Box(NamedTuple):
    """A rectangle: low and high along the sheet, low and high across it."""

    x0: float
    x1: float
    y0: float
    y1: float


def _box(part: Laid) -> Box:
    return Box(part.x, part.x + part.length, part.y, part.y + part.width)


def _span(box: Box, axis: int) -> tuple[float, float]:
    return (box.x0, box.x1) if axis == 0 else (box.y0, box.y1)


def _groups(parts: Sequence[Box], axis: int, kerf: float) -> list[list[Box]]:
    """Parts that no cut square to `axis` can separate stay in one group."""
    groups: list[list[Box]] = []
    reach = -1e18
    for box in sorted(parts, key=lambda b: _span(b, axis)):
        low, high = _span(box, axis)
        if groups and low - reach < kerf - _TINY:
            groups[-1].append(box)
        else:
            groups.append([box])
        reach = max(reach, high)
    return groups


def stages(region: Box, parts: Sequence[Box], axis: int, kerf: float, recut: bool = False) -> int:
    """Least number of directions in turn that cut the parts from the region, `axis` first.

    Raises:
        NotCuttableError: no sequence of straight-through cuts does it.
    """
    if len(parts) == 1 and _fits_region(region, parts[0]):
        return 0
    if recut and len(parts) == 1 and _one_side(region, parts[0]):
        return 0
    groups = _groups(parts, axis, kerf)
    cut_regions = [_within(region, g, axis) for g in groups]
    if len(groups) == 1 and _same(cut_regions[0], region):
        if len(_groups(parts, 1 - axis, kerf)) == 1 and len(parts) > 1:
            other = _within(region, parts, 1 - axis)
            if _same(other, region):
                raise NotCuttableError(
                    f"{len(parts)} parts near {parts[0].x0:.1f}, {parts[0].y0:.1f}"
                )
        return stages(region, parts, 1 - axis, kerf, recut)
    if len(groups) == 1 and len(parts) > 1 and len(_groups(parts, 1 - axis, kerf)) == 1:
        raise NotCuttableError(f"{len(parts)} parts near {parts[0].x0:.1f}, {parts[0].y0:.1f}")
    return 1 + max(
        stages(r, g, 1 - axis, kerf, recut) for r, g in zip(cut_regions, groups, strict=True)
    )


def _within(region: Box, parts: Sequence[Box], axis: int) -> Box:
    low = min(_span(b, axis)[0] for b in parts)
    high = max(_span(b, axis)[1] for b in parts)
    if axis == 0:
        return Box(low, high, region.y0, region.y1)
    return Box(region.x0, region.x1, low, high)


def _same(one: Box, other: Box) -> bool:
    return all(abs(a - b) < _TINY for a, b in zip(one, other, strict=True))


_fits_region = _same


def _one_side(region: Box, part: Box) -> bool:
    """True when cuts in one direction alone trim the region down to the part."""
    return _span(region, 0) == _span(part, 0) or _span(region, 1) == _span(part, 1)


def least_stages(sheet: CutSheet, saw: PanelSaw) -> int:
    """Stages that the sheet needs, whichever direction comes first; edge trims not counted."""
    t = saw.trim
    region = Box(t, sheet.stock.length - t, t, sheet.stock.width - t)
    boxes = [_box(p) for p in sheet.parts]
    found = []
    for axis in (0, 1):
        try:
            found.append(stages(region, boxes, axis, saw.kerf, saw.recut))
        except NotCuttableError:
            continue
    if not found:
        raise NotCuttableError("no first cut")
    return min(found)


def faults(
    plan: SawPlan, pieces: Sequence[Piece], stock: Sequence[StockSheet], saw: PanelSaw
) -> list[str]:
    """Everything that is wrong with the plan, in words; empty when it can be cut as it says."""
    found: list[str] = []
    for number, sheet in enumerate(plan.sheets, 1):
        found += [f"sheet {number}: {f}" for f in _sheet_faults(sheet, pieces, saw)]
        found += [f"sheet {number}: {f}" for f in _list_faults(sheet, saw)]
    return [*found, *_count_faults(plan, pieces), *_stock_faults(plan, stock)]


def _sheet_faults(sheet: CutSheet, pieces: Sequence[Piece], saw: PanelSaw) -> Iterator[str]:
    known = {p.mark: p for p in pieces}
    t = saw.trim
    for part in sheet.parts:
        piece = known[part.mark]
        lies = (part.width, part.length) if part.turned else (part.length, part.width)
        if any(abs(a - b) > 0.011 for a, b in zip(lies, (piece.length, piece.width), strict=True)):
            yield f"{part.mark} is {lies} and should be {(piece.length, piece.width)}"
        if sheet.stock.grain and part.turned != (piece.grain == "across") and piece.grain != "free":
            yield f"{part.mark} lies against its grain"
        box = _box(part)
        if min(box.x0, box.y0) < t - _TINY or (
            box.x1 > sheet.stock.length - t + _TINY or box.y1 > sheet.stock.width - t + _TINY
        ):
            yield f"{part.mark} reaches over the edge"
    for rest in sheet.rests:
        area = Box(rest.x, rest.x + rest.length, rest.y, rest.y + rest.width)
        if any(_near(area, _box(p), saw.kerf) for p in sheet.parts):
            yield f"the rest at {rest.x:.1f}, {rest.y:.1f} is not free"
    try:
        if least_stages(sheet, saw) > saw.stages:
            yield f"needs {least_stages(sheet, saw)} stages"
    except NotCuttableError as error:
        yield f"can't be cut straight through: {error}"


def _near(one: Box, other: Box, space: float) -> bool:
    return (
        one.x0 < other.x1 + space - _TINY
        and other.x0 < one.x1 + space - _TINY
        and one.y0 < other.y1 + space - _TINY
        and other.y0 < one.y1 + space - _TINY
    )


def _list_faults(sheet: CutSheet, saw: PanelSaw) -> Iterator[str]:
    """Carry out the cuts on named pieces, each kept as (length, width)."""
    pieces = {"sheet": [sheet.stock.length, sheet.stock.width]}
    done: list[tuple[str, float, float]] = []
    for cut in sheet.cuts:
        axis = 0 if cut.way == "cross" else 1
        if cut.of not in pieces:
            yield f"cut {cut.number}: there is no {cut.of}"
            return
        piece = pieces[cut.of]
        if cut.setting > piece[axis] + _TINY:
            yield f"cut {cut.number}: {cut.of} is only {piece[axis]:.2f}"
        off = [cut.setting, piece[1]] if axis == 0 else [piece[0], cut.setting]
        piece[axis] -= cut.setting + (0.0 if cut.stage == 0 else saw.kerf)
        if cut.finished:
            done.append((cut.gives, off[0], off[1]))
        elif cut.stage:
            pieces[cut.gives] = off
    made = Counter((m, round(a, 2), round(b, 2)) for m, a, b in done)
    wanted = Counter((p.mark, round(p.length, 2), round(p.width, 2)) for p in sheet.parts)
    last = Counter((round(a, 2), round(b, 2)) for a, b in pieces.values())
    for (mark, length, width), count in (wanted - made).items():
        if last[length, width] < count:
            yield f"the cuts don't give {count} x {mark} {length} x {width}"
    for mark, length, width in made - wanted:
        yield f"the cuts give {mark} as {length} x {width}"


def _count_faults(plan: SawPlan, pieces: Sequence[Piece]) -> Iterator[str]:
    made = Counter(p.mark for s in plan.sheets for p in s.parts)
    made.update(dict(plan.missing))
    wanted: Counter[str] = Counter()
    for piece in pieces:
        wanted[piece.mark] += piece.count
    for mark in sorted(set(made) | set(wanted)):
        if made[mark] != wanted[mark]:
            yield f"{mark}: {made[mark]} in the plan, {wanted[mark]} wanted"


def _stock_faults(plan: SawPlan, stock: Sequence[StockSheet]) -> Iterator[str]:
    used = Counter(s.stock for s in plan.sheets)
    for kind, count in used.items():
        limit = kind.available if kind.available is not None else (1 if kind.offcut else None)
        if kind not in stock:
            yield f"{kind.name} is not in the stock"
        elif limit is not None and count > limit:
            yield f"{count} of {kind.name} used, {limit} in stock"
