"""A beam on two points, integrated from end to end: what the frame solver gives, much sooner."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple


class Marched(NamedTuple):
    """At each place deflection down, sagging moment, and shear right of it; the reactions up.

    At the last place the shear is that left of it.
    """

    deflection: tuple[float, ...]
    moment: tuple[float, ...]
    shear: tuple[float, ...]
    reactions: tuple[float, float]


def march(
    places: Sequence[float], stiff: tuple[float, float], stands: tuple[int, int],
    points: Sequence[float], spread: Sequence[float],
) -> Marched:  # fmt: skip
    """Statics and deflection between and beyond the two places that stand.

    `stiff` is EI and GA (0: no shear deflection), `points` the loads at the places, N down,
    `spread` those between them, N a mm.
    """
    ei, ga = stiff
    i, j = stands
    steps = [b - a for a, b in pairwise(places)]
    whole = sum(points) + sum(q * s for q, s in zip(spread, steps, strict=True))
    about = sum(p * (at - places[i]) for p, at in zip(points, places, strict=True))
    for q, s, at in zip(spread, steps, places, strict=False):
        about += q * s * (at + s / 2.0 - places[i])
    far = about / (places[j] - places[i])
    up = [-p for p in points]
    up[i] += whole - far
    up[j] += far
    moment, shear, turn, down = 0.0, 0.0, 0.0, 0.0
    moments, shears, downs = [], [], []
    for k, (q, s) in enumerate(zip(spread, steps, strict=True)):
        shear += up[k]
        moments.append(moment)
        shears.append(shear)
        downs.append(down)
        down += turn * s - (moment / 2.0 + (shear / 6.0 - q * s / 24.0) * s) * s * s / ei
        if ga > 0.0:
            down += (shear - q * s / 2.0) * s / ga
        turn -= (moment + (shear / 2.0 - q * s / 6.0) * s) * s / ei
        moment += (shear - q * s / 2.0) * s
        shear -= q * s
    moments.append(moment)
    shears.append(shear)
    downs.append(down)
    lean = (downs[j] - downs[i]) / (places[j] - places[i])
    level = tuple(
        w - downs[i] - lean * (at - places[i]) for w, at in zip(downs, places, strict=True)
    )
    return Marched(level, tuple(moments), tuple(shears), (whole - far, far))
