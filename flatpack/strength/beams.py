"""A straight beam on points: reactions, moments, deflection, from the plane-frame solver."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.strength.frames import FrameBar, NodeLoad, PlaneFrame, Spread, solve
from flatpack.strength.two_supports import march

PARTS = 6
"""Pieces into which a loaded stretch is cut, so that its deflection is met closely."""
SAME = 1e-6


class Patch(NamedTuple):
    """A load spread evenly from `low` to `high` along the beam: its whole, N, positive down."""

    low: float
    high: float
    force: float


@frozen
class BentBeam:
    """Along the beam: places mm, deflection mm (down), moment N mm (sagging positive), shear N.

    Shear and moment are those just right of each place.  `reactions` push up, by support.
    """

    places: tuple[float, ...]
    deflection: tuple[float, ...]
    moment: tuple[float, ...]
    shear: tuple[float, ...]
    reactions: tuple[float, ...]

    @property
    def most_moment(self) -> float:
        """Greatest moment whatever its sign."""
        return max(map(abs, self.moment))

    @property
    def most_shear(self) -> float:
        """Greatest shear force."""
        return max(map(abs, self.shear))

    @property
    def most_deflection(self) -> float:
        """Greatest deflection either way."""
        return max(map(abs, self.deflection))


def bend(
    length: float, ei: float, ga: float, supports: Sequence[float], loads: Sequence[Patch]
) -> BentBeam:
    """A beam of one section from 0 to `length` on points that hold it up and down.

    A load of no length is a point load.  One support alone holds it against turning too.

    Raises:
        UnstableError: there is no support.
    """
    marks = sorted({0.0, length, *(min(max(s, 0.0), length) for s in supports), *_marks(loads)})
    places = [marks[0], *(b for a, b in pairwise(marks) if b - a > SAME)]

    def at(place: float) -> int:
        return min(range(len(places)), key=lambda i: abs(places[i] - place))

    stands = [at(min(max(s, 0.0), length)) for s in supports]
    two = sorted(set(stands))
    if len(two) == 2:
        return _on_two(places, (ei, ga), (two[0], two[1]), stands, loads)
    held = [(node, 1) for node in dict.fromkeys(stands)] + [(stands[0], 0)] if stands else []
    if len(two) == 1:
        held.append((stands[0], 2))
    frame = PlaneFrame(
        nodes=tuple((p, 0.0) for p in places),
        bars=tuple(FrameBar(i, i + 1, 1e9, ei, ga) for i in range(len(places) - 1)),
        held=tuple(held),
    )
    points = [NodeLoad(at(p.low), fz=-p.force) for p in loads if p.high - p.low <= SAME]
    found = solve(frame, points, tuple(_spread(places, loads)))
    ends = found.bars
    return BentBeam(
        places=tuple(places),
        deflection=tuple(-z for _, z, _ in found.moved),
        moment=(*(end.moment[0] for end in ends), ends[-1].moment[1]),
        shear=(*(end.shear[0] for end in ends), ends[-1].shear[1]),
        reactions=_shared(found.reactions, stands),
    )


def _on_two(
    places: Sequence[float], stiff: tuple[float, float], two: tuple[int, int],
    stands: Sequence[int], loads: Sequence[Patch],
) -> BentBeam:  # fmt: skip
    points = [0.0] * len(places)
    for patch in loads:
        if patch.high - patch.low <= SAME:
            points[min(range(len(places)), key=lambda i: abs(places[i] - patch.low))] += patch.force
    spread = [0.0] * (len(places) - 1)
    for row in _spread(places, loads):
        spread[row.bar] -= row.load
    made = march(places, stiff, two, points, spread)
    reactions = dict(zip(((node, 1) for node in two), made.reactions, strict=True))
    return BentBeam(
        places=tuple(places), deflection=made.deflection, moment=made.moment, shear=made.shear,
        reactions=_shared(reactions, stands),
    )  # fmt: skip


def _shared(reactions: dict[tuple[int, int], float], stands: Sequence[int]) -> tuple[float, ...]:
    """A reaction a support; two at one place share it."""
    return tuple(reactions[node, 1] / stands.count(node) for node in stands)


def _marks(loads: Sequence[Patch]) -> list[float]:
    found = []
    for low, high, _ in loads:
        share = (high - low) / PARTS
        found += [low + share * i for i in range(PARTS + 1)] if high - low > SAME else [low]
    return found


def _spread(places: Sequence[float], loads: Sequence[Patch]) -> list[Spread]:
    found = []
    for low, high, force in loads:
        if high - low <= SAME:
            continue
        for i, (a, b) in enumerate(pairwise(places)):
            if a >= low - SAME and b <= high + SAME:
                found.append(Spread(i, -force / (high - low)))
    return found
