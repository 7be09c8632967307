"""The rod against what stands still: its centre's way is a chain of lines and arcs.

So the least gap is a closed-form distance less the radius, also from notches with round floors.
Only where the rod's centre itself runs inside a body is its depth sought, by halving: along the
way the depth changes no faster than the way itself.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence

from flatpack.geometry import Outline, Point, Segment
from flatpack.mechanism.clearance import TOLERANCE, box_gap
from flatpack.mechanism.nearest import between, contains
from flatpack.mechanism.pairs import signed_distance
from flatpack.mechanism.path import Path
from flatpack.mechanism.track import Phase, Stand, Stretch


def rod_least(
    path: Path, outlines: Sequence[Outline], radius: float, reach: float
) -> tuple[float, Stand, Phase] | None:
    """Least signed gap of the rod over the travel, position and phase; None when beyond reach."""
    best, where, on = reach + radius, None, None
    for stretch in path.stretches:
        box = stretch.track.bounds()
        for outline in outlines:
            if box_gap(outline.bounds, box) >= best:
                continue
            distance, place = nearest_way(stretch.track, outline, best)
            if distance < best:
                best, where, on = distance, place, stretch
    if where is None or on is None:
        return None
    return best - radius, _stand(on, where), on.phase


def nearest_way(track: Segment, outline: Outline, enough: float) -> tuple[float, Point]:
    """Least signed distance from a track to an outline, and the track's place there.

    Only distances below `enough` need be right.
    """
    best, place = enough, track.start
    box = track.bounds()
    for side in outline.segments:
        if box_gap(side.bounds(), box) < best:
            found = between(track, side)
            if found.distance < best:
                best, place = found.distance, found.first
    if best > 1e-9 and not contains(outline, track.start):
        return best, place
    return _deepest(track, outline)


def _deepest(track: Segment, outline: Outline) -> tuple[float, Point]:
    """Least signed distance along a track that enters an outline, within the tolerance."""
    length = track.length

    def seen(share: float) -> float:
        return signed_distance(outline, track.at(share))

    ends = seen(0.0), seen(1.0)
    best, where = min((ends[0], 0.0), (ends[1], 1.0))
    heap = [((sum(ends) - length) / 2.0, 0.0, 1.0, *ends)]
    while heap and heap[0][0] < best - TOLERANCE:
        _, low, high, at_low, at_high = heapq.heappop(heap)
        middle = (low + high) / 2.0
        value = seen(middle)
        if value < best:
            best, where = value, middle
        step = (high - low) / 2.0 * length
        heapq.heappush(heap, ((at_low + value - step) / 2.0, low, middle, at_low, value))
        heapq.heappush(heap, ((value + at_high - step) / 2.0, middle, high, value, at_high))
    return best, track.at(where)


def _stand(stretch: Stretch, rod: Point) -> Stand:
    """The position of a stretch with the rod's centre at a place of its track."""
    if math.dist(rod, stretch.track.start) < 1e-9:
        return stretch.at(0.0)
    if math.dist(rod, stretch.track.end) < 1e-9:
        return stretch.at(1.0)
    return stretch.with_rod_at(rod)
