"""Does it move?  The least gap of every pair of bodies over the whole travel, or how they clash.

Each kind of pair has its own exact view of the motion: back against frame is one turn about the
hinge, arm against back one turn about the pivot, the rod against the frame a chain of lines and
arcs, and only the arm against the frame needs the travel stretch by stretch.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from flatpack.frozen import frozen, replace
from flatpack.geometry import Point
from flatpack.mechanism.bodies import Body, Carrier
from flatpack.mechanism.clearance import TOLERANCE, Carried, Span, Turn, search, swept_box
from flatpack.mechanism.clearing import stand_at
from flatpack.mechanism.fold import fold_range, stand_at_fold
from flatpack.mechanism.pairs import Pair, first_below, looks, pairs, place_at
from flatpack.mechanism.path import Path
from flatpack.mechanism.rodway import rod_least
from flatpack.mechanism.track import Phase, Stand

REACH = 50.0  # mm: gaps beyond this are only proved to be so
FAR = 1e6  # more than any way along one stretch
FINE = 1e-4  # mm: how closely a gap is found that lies at a limit
PERMITTED = 0.05  # mm: depth at which an intended contact counts as a clash

Names = frozenset[frozenset[str]]


@frozen
class Clearance:
    """A pair that never overlaps: its least gap in mm, and where.

    `beyond` marks a gap only proved to be at least `least`; then there is no place.  `wanted` is
    the gap asked for; a pair in `touching` is asked for none.
    """

    first: str
    second: str
    least: float
    wanted: float
    beyond: bool = False
    degrees: float = 0.0
    phase: Phase = Phase.RAISING
    place: Point | None = None
    touching: bool = False

    @property
    def enough(self) -> bool:
        """Whether the wanted gap is kept."""
        return self.least >= self.wanted - FINE


@frozen
class Clash:
    """A pair that overlaps: greatest depth in mm, at `degrees`, and the first contact.

    Depth is the shortest shift that would part the two.  `starts` is the back angle of the first
    contact on the travel and `phase` what was being done.
    """

    first: str
    second: str
    depth: float
    degrees: float
    place: Point
    starts: float
    phase: Phase


def sweep(
    bodies: Sequence[Body],
    path: Path,
    *,
    wanted: float = 0.0,
    touching: Names = frozenset(),
    joined: Names = frozenset(),
    reach: float = REACH,
) -> tuple[Clash | Clearance, ...]:
    """Every pair that shares a lane, in order of the bodies.

    `wanted` is the clearance asked for, mm.  `touching` names pairs whose contact is intended
    (rod on rack, back on frame): these may touch, but not overlap by more than `PERMITTED`.
    `joined` names pairs that aren't looked at.
    """
    folds, look = fold_range(path), looks(bodies)
    known: dict[object, Clash | Clearance] = {}
    found: list[Clash | Clearance] = []
    for pair in pairs(bodies, path.prop.arm, joined):
        permitted = pair.names in touching
        # a left part and its right-hand twin look the same from the side
        key = (look[id(pair.still)], look[id(pair.moving)], *pair.carriers, permitted)
        if key not in known:
            known[key] = examine(pair, path, folds, wanted, permitted, reach)
        result = known[key]
        found.append(replace(result, first=pair.still.name, second=pair.moving.name))
    return tuple(found)


def examine(
    pair: Pair,
    path: Path,
    folds: tuple[float, float],
    wanted: float,
    touching: bool = False,
    reach: float = REACH,
) -> Clash | Clearance:
    """One pair over the whole travel; `folds` is the range of `fold_range`."""
    reach = max(reach, wanted + 1.0)
    found = least_gap(pair, path, folds, reach)
    if found is not None and any(
        abs(found[0] - limit) < 2.0 * TOLERANCE for limit in (0.0, wanted)
    ):
        # too near a limit to say on which side it lies
        found = least_gap(pair, path, folds, reach, FINE)
    bare = Clearance(
        first=pair.still.name,
        second=pair.moving.name,
        least=reach,
        wanted=0.0 if touching else wanted,
        beyond=True,
        touching=touching,
    )
    if found is None:
        return bare
    least, stand, phase = found
    allowed = PERMITTED if touching else FINE
    if least >= -allowed:
        place = place_at(pair, stand)
        return replace(
            bare,
            least=max(least, 0.0),
            beyond=False,
            degrees=stand.degrees,
            phase=phase,
            place=place,
        )
    return _clash(pair, path, folds, (least, stand, phase), allowed)


def _clash(
    pair: Pair,
    path: Path,
    folds: tuple[float, float],
    deepest: tuple[float, Stand, Phase],
    allowed: float,
) -> Clash:
    least, stand, phase = deepest
    level = -allowed if allowed > FINE else 0.0
    starts = min(_contacts(pair, path, folds, level), default=(0, stand.degrees, phase))
    return Clash(
        first=pair.still.name,
        second=pair.moving.name,
        depth=-least,
        degrees=stand.degrees,
        place=place_at(pair, stand),
        starts=starts[1],
        phase=starts[2],
    )


def _contacts(
    pair: Pair, path: Path, folds: tuple[float, float], level: float
) -> Iterator[tuple[float, float, Phase]]:
    """First contact of each two pieces that come to overlap: order on the travel, angle, phase."""
    order = {id(s): i for i, s in enumerate(path.stretches)}
    for part in parts(pair):
        if least_gap(part, path, folds, level) is None:
            continue
        first = first_below(part, path.stretches, level)
        if first is not None:
            stretch, stand = first
            along = math.dist(stretch.track.start, stand.rod) + abs(stand.degrees - stretch.start)
            yield order[id(stretch)] * FAR + along, stand.degrees, stretch.phase


def parts(pair: Pair) -> Iterator[Pair]:
    """The pair piece by piece; a rod past a fixed body stays whole."""
    if pair.rod_radius is not None:
        yield pair
        return
    for still in pair.still_shapes:
        for moving in pair.moving_shapes:
            yield pair.narrowed(still, moving)


def least_gap(
    pair: Pair,
    path: Path,
    folds: tuple[float, float],
    reach: float,
    tolerance: float = TOLERANCE,
) -> tuple[float, Stand, Phase] | None:
    """A pair's least signed gap over the travel, position and phase; None when beyond reach."""
    if pair.rod_radius is not None:
        return rod_least(path, pair.still.outlines, pair.rod_radius, reach)
    if pair.moving.carrier is Carrier.BACK:
        return _least_of_back(pair, path, reach, tolerance)
    if pair.still.carrier is Carrier.BACK:
        return _least_of_fold(pair, path, folds, reach, tolerance)
    found = search(_carried(pair, path), reach, tolerance)
    if found is None or not isinstance(found.span, Carried):
        return None
    stretch = found.span.stretch
    return found.gap.value, stretch.at(found.share), stretch.phase


def _least_of_back(
    pair: Pair, path: Path, reach: float, tolerance: float
) -> tuple[float, Stand, Phase] | None:
    spans = _turns(pair, (0.0, 0.0), 0.0, math.radians(path.over))
    found = search(spans, reach, tolerance)
    if found is None:
        return None
    return found.gap.value, stand_at(path.raising, path.over * found.share), Phase.RAISING


def _least_of_fold(
    pair: Pair, path: Path, folds: tuple[float, float], reach: float, tolerance: float
) -> tuple[float, Stand, Phase] | None:
    """An arm or rod against the back: only the angle between them matters."""
    found = search(_turns(pair, path.prop.pivot, *folds), reach, tolerance)
    if found is None:
        return None
    fold = folds[0] + (folds[1] - folds[0]) * found.share
    stretch, stand = stand_at_fold(path, fold)
    return found.gap.value, stand, stretch.phase


def _turns(pair: Pair, centre: tuple[float, float], start: float, end: float) -> Iterator[Span]:
    for still in pair.still_shapes:
        for moving in pair.moving_shapes:
            yield Turn(still, moving, centre, start, end)


def _carried(pair: Pair, path: Path) -> Iterator[Span]:
    for moving in pair.moving_shapes:
        for stretch in path.stretches:
            box = swept_box(moving, stretch)
            for still in pair.still_shapes:
                yield Carried(still, moving, stretch, box)
