"""The angle between arm and back over the travel: what decides whether those two meet.

With hinge O, pivot P and rod D the triangle's sides OP and PD are fixed, so the angle at P goes
with the distance OD alone: its extremes lie at ends of stretches and where a track comes nearest
to or furthest from the hinge.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from flatpack.geometry import Point, Segment
from flatpack.mechanism.nearest import covers, nearest_on
from flatpack.mechanism.path import Path
from flatpack.mechanism.track import Stand, Stretch

HINGE = Point(0.0, 0.0)


def fold_range(path: Path) -> tuple[float, float]:
    """Least and greatest angle of the arm in the back's axes, radians, unwrapped."""
    first = path.stretches[0].at(0.0).fold
    folds = [fold for s in path.stretches for fold in _extremes(s, first)]
    return min(folds), max(folds)


def stand_at_fold(path: Path, fold: float) -> tuple[Stretch, Stand]:
    """The first stretch and position at which arm and back stand at an angle, radians."""
    first = path.stretches[0].at(0.0).fold
    nearest: tuple[float, Stretch, Stand] | None = None
    for stretch in path.stretches:
        stands = [stretch.at(i / 8.0) for i in range(9)]
        for i, (a, b) in enumerate(pairwise(stands)):
            off_a, off_b = _near(a.fold, first) - fold, _near(b.fold, first) - fold
            if off_a * off_b <= 0.0:
                return stretch, _bisect(stretch, i / 8.0, (i + 1) / 8.0, fold, first)
            if nearest is None or abs(off_b) < nearest[0]:
                nearest = (abs(off_b), stretch, b)
    assert nearest is not None
    return nearest[1], nearest[2]


def _near(fold: float, first: float) -> float:
    """A fold unwrapped to within half a turn of the flat one."""
    return first + math.remainder(fold - first, math.tau)


def _extremes(stretch: Stretch, first: float) -> Iterator[float]:
    prop = stretch.prop
    low, high = stretch.at(0.0), stretch.at(1.0)
    yield _near(low.fold, first)
    yield _near(high.fold, first)
    rho = math.hypot(*prop.pivot)
    # Arm and pivot may line up with the hinge at an end of a stretch, but not within it.
    within = _near(stretch.at(0.5).fold, first)
    sign = math.copysign(1.0, math.sin(within - _towards_hinge(stretch)))
    for place in _turning_points(stretch.track):
        away = math.hypot(*place)
        cosine = (rho * rho + prop.arm * prop.arm - away * away) / (2.0 * rho * prop.arm)
        angle = math.acos(min(max(cosine, -1.0), 1.0))
        yield _near(_towards_hinge(stretch) + sign * angle, first)


def _towards_hinge(stretch: Stretch) -> float:
    x, y = stretch.prop.pivot
    return math.atan2(-y, -x)


def _turning_points(track: Segment) -> Iterator[Point]:
    """Places inside a track that are nearest to or furthest from the hinge for a while."""
    if track.bulge == 0.0:
        yield nearest_on(track, HINGE)
        return
    cx, cy = track.centre
    away = math.hypot(cx, cy)
    if away == 0.0:
        return
    for k in (track.radius / away, -track.radius / away):
        if covers(track, cx * k, cy * k):
            yield Point(cx + cx * k, cy + cy * k)


def _bisect(stretch: Stretch, low: float, high: float, fold: float, first: float) -> Stand:
    rising = _near(stretch.at(high).fold, first) >= _near(stretch.at(low).fold, first)
    for _ in range(40):
        middle = (low + high) / 2.0
        below = _near(stretch.at(middle).fold, first) < fold
        low, high = (middle, high) if below == rising else (low, middle)
    return stretch.at((low + high) / 2.0)
