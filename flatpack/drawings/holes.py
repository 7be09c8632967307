"""Holes of a part as spots to mark: numbered from the datum end, measured along two edges."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from flatpack.drawings.faces import one_sided
from flatpack.drawings.figures import mm, shown
from flatpack.drawings.marks import PartGroup
from flatpack.drawings.notch_bores import to_drill
from flatpack.model import Face, Feature, Part
from flatpack.wording import english as words

#: Features that are no hole and get no number.
_NO_HOLE = frozenset({"arris", "bevel", "housing", "outline", "opening", "part-mark"})

Cell = str | float


class Spot(NamedTuple):
    """One place to mark: distances from datum end and datum edge, and all that is worked there."""

    number: int
    x: float
    y: float
    features: tuple[Feature, ...]


def spots(part: Part) -> tuple[Spot, ...]:
    """Places with holes, along the part from its datum end, nearer the datum edge first.

    A notch with a round seat is the hole that is drilled for it.
    """
    x0, y0, _, _ = part.outline.bounds
    found: dict[tuple[float, float], dict[tuple[object, ...], Feature]] = {}
    for worked in part.features:
        if worked.operation not in _NO_HOLE:
            feature = to_drill(part, worked)
            at = (round(feature.at.x - x0, 3) + 0.0, round(feature.at.y - y0, 3) + 0.0)
            found.setdefault(at, {}).setdefault(feature.key(), feature)
    return tuple(
        Spot(number, x, y, tuple(found[x, y].values()))
        for number, (x, y) in enumerate(sorted(found), 1)
    )


def on_face(found: Iterable[Spot], face: Face, first: bool) -> tuple[Spot, ...]:
    """Spots worked from a face; holes through count for the face that is worked first."""
    kept = []
    for spot in found:
        here = tuple(f for f in spot.features if (f.face == face if one_sided(f) else first))
        if here:
            kept.append(spot._replace(features=here))
    return tuple(kept)


def size_of(feature: Feature) -> float | None:
    """Diameter, or the width of a slot, mm; None where neither applies."""
    size = getattr(feature, "diameter", None) or getattr(feature, "width", None)
    return None if size is None else float(size)


def depth_of(feature: Feature) -> str:
    """Depth in mm as shown, or that it goes through, or how it is set otherwise."""
    if feature.depth is not None:
        return mm(feature.depth)
    if feature.operation in ("pocket-hole", "countersink", "thin-line"):
        return {"pocket-hole": words.BY_JIG, "countersink": words.TO_HEAD}.get(
            feature.operation, words.IN_OUTLINE
        )
    return words.THROUGH


def face_of(feature: Feature) -> str:
    """The face as shown; edge holes say how high above the back face they stand."""
    height = getattr(feature, "height", None)
    if feature.operation == "hidden-edge" and height is not None:
        return words.edge_hole(mm(height))
    return feature.face if one_sided(feature) else words.EITHER


def short(feature: Feature) -> str:
    """Diameter and depth beside a spot, e.g. 'Ø3 x 18'."""
    size = size_of(feature)
    text = "" if size is None else f"Ø{mm(size)}"
    label = words.SHORT.get(feature.operation, "")
    depth = f" x {mm(feature.depth)}" if feature.depth is not None else ""
    return f"{label}{text}{depth}"


def table(found: Iterable[Spot]) -> tuple[tuple[str, ...], ...]:
    """Rows of the hole table as they stand on the sheet."""
    return tuple(
        (
            str(spot.number), mm(spot.x), mm(spot.y), _diameter(feature), depth_of(feature),
            face_of(feature), _purpose(feature),
        )
        for spot in found
        for feature in spot.features
    )  # fmt: skip


def csv_rows(found: Iterable[PartGroup]) -> tuple[tuple[Cell, ...], ...]:
    """Rows of the hole table of every part."""
    return tuple(
        (
            group.mark, group.part.hand, str(spot.number), shown(spot.x), shown(spot.y),
            _diameter(feature), depth_of(feature), face_of(feature), feature.operation,
            str(getattr(feature, "fit", "")), _purpose(feature),
        )
        for group in found
        for spot in spots(group.part)
        for feature in spot.features
    )  # fmt: skip


def _diameter(feature: Feature) -> str:
    size = size_of(feature)
    return "" if size is None else mm(size)


def _purpose(feature: Feature) -> str:
    return feature.purpose or feature.callout()
