"""Weight of the parts, and bundles that can be carried.

Figures of the lifting filter (HSE L23 / INDG143, as a published safety course tabulates them),
load close to the body, kg, men and women:

    head height 10 / 7     shoulder 20 / 13     elbow 25 / 16     knuckle 20 / 13     shin 10 / 7
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from flatpack.drawings.book.finishing import mass
from flatpack.model import Part
from flatpack.planning.making import Plans

#: Who lifts -> kg at head, shoulder, elbow, knuckle and lower leg.
LIFTING: Mapping[str, tuple[float, ...]] = {
    "men": (10.0, 20.0, 25.0, 20.0, 10.0),
    "women": (7.0, 13.0, 16.0, 13.0, 7.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Bundle:
    """Parts tied together: marks with counts, size in mm, weight in kg."""

    piece: int
    parts: tuple[tuple[str, int], ...]
    length: float
    width: float
    height: float
    weight: float


def weight_of(part: Part) -> float:
    """Mass of a part from its outline and its board's density, kg."""
    return mass((part,), ())


def heights(weight: float, lifter: str) -> tuple[bool, ...]:
    """At which of the five heights the filter's figure is kept, head first."""
    return tuple(weight <= limit for limit in LIFTING[lifter])


def bundles(plans: Plans) -> Iterator[Bundle]:
    """Flat bundles of one copy of each piece, none over the limit.

    Parts go longest first into the first bundle that may still take them, so that long ones lie
    together and short ones fill up.  A part that is heavier by itself makes a bundle alone.
    """
    for number, piece in enumerate(plans.pieces, 1):
        units = [
            (mark, group.group.part)
            for lot in plans.lots
            for group in lot.parts
            if group.piece == number and not group.trial
            for mark in [group.mark] * (group.count // piece.count)
        ]
        units.sort(key=lambda u: (-u[1].length, -u[1].width, u[0]))
        made: list[list[tuple[str, Part]]] = []
        for unit in units:
            weight = weight_of(unit[1])
            takes = (m for m in made if _weight(m) + weight <= plans.stock.bundle)
            bundle = next(takes, None)
            if bundle is None:
                made.append(bundle := [])
            bundle.append(unit)
        yield from (_bundle(number, held) for held in made)


def _weight(held: Sequence[tuple[str, Part]]) -> float:
    return sum(weight_of(p) for _, p in held)


def _bundle(number: int, held: Sequence[tuple[str, Part]]) -> Bundle:
    width, height = stacked([(p.width, p.thickness) for _, p in held])
    counts: dict[str, int] = {}
    for mark, _ in held:
        counts[mark] = counts.get(mark, 0) + 1
    return Bundle(
        piece=number,
        parts=tuple(counts.items()),
        length=max(p.length for _, p in held),
        width=width,
        height=height,
        weight=_weight(held),
    )


def stacked(parts: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Width and height of parts (width, thickness) laid flat in layers of about a square bundle.

    Each layer is filled by width; its height is that of its thickest part.
    """
    area = sum(w * t for w, t in parts)
    wide = max(*(w for w, _ in parts), math.sqrt(area))
    layers: list[tuple[float, float]] = []
    for width, thick in sorted(parts, reverse=True):
        for number, (used, high) in enumerate(layers):
            if used + width <= wide + 1e-9:
                layers[number] = used + width, max(high, thick)
                break
        else:
            layers.append((width, thick))
    return max(used for used, _ in layers), sum(high for _, high in layers)
