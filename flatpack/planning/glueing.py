"""Surface of the pieces, and the area of their glued joints where the parts touch."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Any

from flatpack.drawings.book.finishing import areas, quantity
from flatpack.model import Assembly
from flatpack.planning.buying import Amounts, Wet
from flatpack.planning.pool import Counted

_TOUCHING = 0.05


def amounts(pieces: tuple[Counted, ...]) -> Amounts:
    """Areas of all copies of all pieces, and what their joints and surfaces take."""
    wets: dict[tuple[str, str], Wet] = {}
    surface = glued = coated = 0.0
    for piece in pieces:
        found = areas(piece.assembly)
        joined = glued_area(piece.assembly) * 1e-6
        surface += found.surface * piece.count
        glued += joined * piece.count
        for wet, coats in _wets(piece, found.surface, found.ends, joined):
            coated += coats * piece.count
            known = wets.get((wet.kind, wet.key), wet._replace(needed=0.0))
            needed = known.needed + wet.needed * piece.count
            wets[wet.kind, wet.key] = known._replace(needed=needed)
    return Amounts(surface=surface, glued=glued, coated=coated, wets=tuple(wets.values()))


def _wets(
    piece: Counted, surface: float, ends: float, joined: float
) -> Iterator[tuple[Wet, float]]:
    """Glue on both faces of each joint; finish as a thirsty surface takes it; m2 of all coats."""
    if piece.glue is not None:
        grams = 2.0 * joined * piece.glue.spread
        yield Wet("glue", piece.glue.key, piece.glue.name, grams, "g"), 0.0
    for finish, area in ((piece.sealer, ends), (piece.finish, surface)):
        if finish is not None:
            litres = quantity(area, finish).most
            yield Wet("finish", finish.key, finish.name, litres, "l"), area * finish.coats


def glued_area(assembly: Assembly) -> float:
    """Area in mm2 over which the parts of glued joints touch, each joint's faces once."""
    return sum(_touching(assembly, pair) for pair in sorted(set(_glued_pairs(assembly))))


def _glued_pairs(assembly: Assembly) -> Iterator[tuple[str, str]]:
    for joint in assembly.joints:
        # A joint without the choice, such as faces glued together, is glued.
        glued = getattr(joint, "glue", type(joint).__name__ == "GluedFaces")
        if glued:
            parts = sorted(k for k in set(joint.parts) if k in assembly.parts)
            yield from combinations(parts, 2)


def _touching(assembly: Assembly, pair: tuple[str, str]) -> float:
    from flatpack.checks.mates import flats
    from flatpack.geometry.polygon import polygon

    one, other = (assembly.parts[key] for key in pair)
    sides = [tuple(flats(p, polygon(p.outline, holes=p.openings))) for p in (one, other)]
    return sum(_common(a, b) for a in sides[0] for b in sides[1])


def _common(a: Any, b: Any) -> float:
    """Area that two flat sides share; 0 unless they face each other in one plane."""
    import numpy as np

    from flatpack.geometry.polygon import mapped

    if a.frame.z.dot(b.frame.z) > 1e-6 - 1.0:
        return 0.0
    if abs(a.frame.z.dot(b.frame.origin.minus(a.frame.origin))) > _TOUCHING:
        return 0.0
    turn = np.array([[u.dot(v) for v in (b.frame.x, b.frame.y)] for u in (a.frame.x, a.frame.y)])
    shift = np.array(a.frame.local(b.frame.origin)[:2])
    return float(a.shape.intersection(mapped(b.shape, turn, shift)).area)
