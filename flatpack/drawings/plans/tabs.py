"""Where an outline keeps its tabs: on straight sides, away from corners, evenly round.

No gap between the middles of two tabs is longer than the shop's spacing where the straight sides
allow it, and a part has two tabs at least.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from flatpack.geometry import Outline, Point, Segment
from flatpack.profiles import Tabs

_OFF_CORNER = 4.0
_MOST = 60


class _Run(NamedTuple):
    """A straight side that may hold a tab's middle between two distances round the outline."""

    low: float
    high: float
    start: float
    side: Segment


def tabs(outline: Outline, wanted: Tabs) -> tuple[Segment, ...]:
    """The stretches of the outline that stay, each as long as a tab; none without straight room."""
    runs = _runs(outline, wanted.width)
    if not runs:
        return ()
    count = max(2, math.ceil(outline.length / wanted.spacing))
    while True:
        places = _places(outline.length, runs, count)
        if count >= _MOST or _widest(places, outline.length) <= wanted.spacing + 1e-6:
            break
        count += 1
    return tuple(_stretch(runs, at, wanted.width) for at in places)


def _runs(outline: Outline, width: float) -> tuple[_Run, ...]:
    found = []
    at = 0.0
    for side in outline.segments:
        margin = width / 2.0 + _OFF_CORNER
        if side.bulge == 0.0 and side.length > 2.0 * margin:
            found.append(_Run(at + margin, at + side.length - margin, at, side))
        at += side.length
    return tuple(found)


def _places(length: float, runs: Sequence[_Run], count: int) -> tuple[float, ...]:
    """Evenly spaced places, each moved to the nearest that a tab may stand at."""
    even = ((i + 0.5) * length / count for i in range(count))
    return tuple(sorted({min((_into(run, at) for run in runs), key=lambda p: (abs(p - at), p))
                         for at in even}))  # fmt: skip


def _into(run: _Run, at: float) -> float:
    return min(max(at, run.low), run.high)


def _widest(places: Sequence[float], length: float) -> float:
    following = (*places[1:], places[0] + length)
    return max(b - a for a, b in zip(places, following, strict=True))


def _stretch(runs: Sequence[_Run], at: float, width: float) -> Segment:
    run = next(r for r in runs if r.low - 1e-9 <= at <= r.high + 1e-9)
    size = run.side.length
    low, high = (at - width / 2.0 - run.start) / size, (at + width / 2.0 - run.start) / size
    return Segment(Point(*run.side.at(low)), Point(*run.side.at(high)))
