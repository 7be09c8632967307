"""How much finish and sealer a piece takes: areas from the parts' true outlines."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from flatpack.geometry import Segment
from flatpack.model import Assembly, Bar, Part, volume
from flatpack.profiles import Finish

_HOLES = frozenset({"drill-through", "drill-blind", "counterbore", "pocket-hole", "hidden-edge"})
_MM2 = 1e-6
"""Square metres in a square millimetre."""


class Areas(NamedTuple):
    """Surface of all parts and bars, and of it what drinks most (end grain, plies), m2."""

    surface: float
    ends: float
    holes: int


class Quantity(NamedTuple):
    """Litres for all coats: at the most that a litre covers, and at the least."""

    least: float
    most: float


def areas(assembly: Assembly) -> Areas:
    """Areas of the whole piece; holes that are drilled or bored are counted, their walls not."""
    parts, bars = assembly.parts.values(), assembly.bars.values()
    wooden = [b for b in bars if "steel" not in b.stock.material]
    surface = sum(map(surface_of, parts)) + sum(map(round_surface, wooden))
    ends = sum(map(ends_of, parts)) + sum(map(round_ends, wooden))
    holes = sum(f.operation in _HOLES for part in parts for f in part.features)
    return Areas(surface * _MM2, ends * _MM2, holes)


def surface_of(part: Part) -> float:
    """Both faces and every edge, mm2; openings taken out, their edges put in."""
    edge = part.outline.length + sum(o.length for o in part.openings)
    face = part.outline.area - sum(o.area for o in part.openings)
    return 2.0 * face + edge * part.thickness


def ends_of(part: Part) -> float:
    """Edges that drink: the ends of solid boards, every edge of a board in plies, mm2."""
    edges = (s for o in (part.outline, *part.openings) for s in o)
    return sum(map(_across if part.board.solid else _whole, edges)) * part.thickness


def _whole(segment: Segment) -> float:
    return segment.length


def _across(segment: Segment) -> float:
    """Length of a straight or curved edge as far as it runs across the grain."""
    points = (*segment.sampled(0.1), segment.end)
    steps = pairwise(points)
    return sum(math.dist(a, b) for a, b in steps if abs(b.y - a.y) > abs(b.x - a.x))


def round_surface(bar: Bar) -> float:
    """Round bar with its ends, mm2."""
    return math.pi * bar.stock.diameter * bar.length + round_ends(bar)


def round_ends(bar: Bar) -> float:
    """Both ends of a round bar, mm2."""
    return math.pi * bar.stock.diameter**2 / 2.0


def quantity(area: float, finish: Finish) -> Quantity:
    """Litres for an area in m2 with every coat."""
    covered = area * finish.coats
    return Quantity(covered / finish.coverage_most, covered / finish.coverage_least)


def mass(parts: Iterable[Part], bars: Iterable[Bar]) -> float:
    """Mass of boards and bars from their densities, kg."""
    wood = sum(volume(p) * p.board.density for p in parts)
    round_ = sum(math.pi / 4.0 * b.stock.diameter**2 * b.length * b.stock.density for b in bars)
    return (wood + round_) * 1e-9
