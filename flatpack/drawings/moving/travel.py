"""The whole travel as a run of positions, the rod leant into each notch on the way up.

Raising drags the rod up each ramp and drops it past a tooth.  There a person leans the back on
it: the rod slides into its notch, the stop.  From the stop the back is raised again, the same
way back and on to the next tooth.

    raise .. drop .. settle into stop 1 .. raise .. drop .. stop 2 .. over .. lift .. lower
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from flatpack.mechanism import Stop
from flatpack.mechanism.follow import follow
from flatpack.mechanism.path import Path
from flatpack.mechanism.study import Study
from flatpack.mechanism.track import Phase, Stand, Stretch

_UP, _DOWN = 1.5, 3.0
"""Steps of the back's angle on the way up and on the way down, degrees."""
_WAY = 60.0
"""Longest step of the rod, mm."""
_SAME = 0.05
"""How near two positions of the rod are one, mm."""


class Step(NamedTuple):
    """A position, what the rod does there, and the stop at which it rests (0: none)."""

    stand: Stand
    state: str
    stop: int


def steps(made: Study, path: Path) -> tuple[Step, ...]:
    """Flat, up through every stop, over the top, and down to flat again."""
    first = path.stretches[0].at(0.0)
    found = [Step(first, "flat", 0)]
    waiting = list(enumerate(made.found.stops, 1))
    for stretch in path.raising:
        found += _along(stretch, _UP)
        while waiting and waiting[0][1].rod.x >= stretch.track.end.x - _SAME:
            found += _leant(path, *waiting.pop(0), found[-1].stand)
    found += (step for s in path.stretches[len(path.raising) :] for step in _along(s, _DOWN))
    found[-1] = found[-1]._replace(state="flat")
    return tuple(found)


def _along(stretch: Stretch, step: float) -> Iterator[Step]:
    """Positions after the stretch's start, its end among them."""
    turn = abs(stretch.end - stretch.start)
    dropping = stretch.phase in (Phase.DROPPING, Phase.LIFTING)
    way = stretch.track.length / (8.0 if dropping else _WAY)
    count = max(math.ceil(turn / step), math.ceil(way), 1)
    for number in range(count):
        for stand in _filled(stretch, number / count, (number + 1) / count, step):
            yield Step(stand, stretch.phase.value, 0)


def _filled(stretch: Stretch, low: float, high: float, step: float) -> Iterator[Stand]:
    """Positions up to a share, halved where the back turns fast."""
    turn = abs(stretch.at(high).degrees - stretch.at(low).degrees)
    if turn <= 1.3 * step or high - low < 1e-3:
        yield stretch.at(high)
        return
    middle = (low + high) / 2.0
    yield from _filled(stretch, low, middle, step)
    yield from _filled(stretch, middle, high, step)


def _leant(path: Path, number: int, stop: Stop, here: Stand) -> Iterator[Step]:
    """From the position after a drop into the stop, and back again; only the stop if no way."""
    rest = Step(Stand(stop.angle, stop.pivot, stop.rod), "resting", number)
    back = tuple(_raised(path, stop, here))
    joined = bool(back) and math.dist(back[-1].rod, here.rod) < _SAME
    way = back[:-1] if joined else ()
    yield from (Step(stand, "seating", 0) for stand in reversed(way))
    yield rest
    yield from (Step(stand, Phase.RAISING.value, 0) for stand in way)
    if joined:
        yield Step(here, Phase.RAISING.value, 0)


def _raised(path: Path, stop: Stop, here: Stand) -> Iterator[Stand]:
    """Positions from a stop up to the angle of another, without the stop's own."""
    if here.degrees <= stop.angle:
        return
    up = follow(path.prop, path.rack, stop.angle, here.degrees, Phase.RAISING, stop.rod)
    for stretch in up:
        yield from (step.stand for step in _along(stretch, _UP))
