"""Moving gaps that a finger fits into: those that pass through a dangerous width on the way.

The range of 7 to 18 mm at any position during movement is that of EN 581-1 for outdoor
furniture, as described at satra.com (spotlight article 276).  Its 2017 edition accepts
adjustment under the user's own control, so this is a warning and no fault.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from flatpack.frozen import frozen, replace
from flatpack.mechanism.bodies import Body
from flatpack.mechanism.fold import fold_range
from flatpack.mechanism.pairs import Pair, gap_at, looks, pairs, relative_way
from flatpack.mechanism.path import Path
from flatpack.mechanism.sweep import Names, least_gap, parts
from flatpack.mechanism.track import Phase, Stand, Stretch

NARROW, WIDE = 7.0, 18.0  # mm, EN 581-1 as described above
EVEN = 0.1  # mm: a gap that changes by less doesn't close on a finger
CLOSE = 1e-9  # degrees and mm: two positions that are one
ROUNDING = 1e-3  # mm: more than two positions that are one can differ in a gap
FINE = 0.1  # degrees and mm of way: borders of a range are found this closely


@frozen
class Trap:
    """Two bodies whose gap lies in the dangerous range while it changes.

    `rising`: while the back is raised, else while it's let go and lowered.  Its angles run from
    `start` to `end` degrees in the order of the movement; `narrowest` and `widest` are the gaps
    seen within that range, mm.
    """

    first: str
    second: str
    rising: bool
    start: float
    end: float
    narrowest: float
    widest: float


def finger_traps(
    bodies: Sequence[Body],
    path: Path,
    *,
    skipped: Names = frozenset(),
    narrow: float = NARROW,
    wide: float = WIDE,
    fine: float = FINE,
) -> tuple[Trap, ...]:
    """Every dangerous gap over the whole travel, in order of the bodies and of the movement.

    `skipped` names pairs that no finger gets between, or that always touch; `fine` is how closely
    the borders of a range are sought, mm of way.
    """
    folds, look = fold_range(path), looks(bodies)
    known: dict[object, tuple[Trap, ...]] = {}
    found: list[Trap] = []
    for pair in pairs(bodies, path.prop.arm, skipped):
        key = (look[id(pair.still)], look[id(pair.moving)], *pair.carriers)
        if key not in known:
            near = [p for p in parts(pair) if least_gap(p, path, folds, wide) is not None]
            known[key] = _of_pair(_gathered(pair, near), path, (narrow, wide, fine)) if near else ()
        still, moving = pair.still.name, pair.moving.name
        found += [replace(trap, first=still, second=moving) for trap in known[key]]
    return tuple(found)


def _gathered(pair: Pair, near: Sequence[Pair]) -> Pair:
    """The pair with only the pieces that come near."""
    return replace(
        pair,
        still_shapes=tuple(dict.fromkeys(s for p in near for s in p.still_shapes)),
        moving_shapes=tuple(dict.fromkeys(s for p in near for s in p.moving_shapes)),
    )


def _of_pair(pair: Pair, path: Path, band: _Band) -> tuple[Trap, ...]:
    return tuple(
        _trap(pair, run, path)
        for run in _runs(tuple(_spells(pair, path, band)), path)
        if max(s.high for s in run) - min(s.low for s in run) > EVEN
    )


_Band = tuple[float, float, float]
"""Narrowest and widest dangerous gap, and how closely its borders are sought, mm."""


@frozen(kw_only=False)
class _Spell:
    """Shares of one stretch between which the gap is in range, and the gaps at both, mm."""

    stretch: int
    since: float
    until: float
    low: float
    high: float


def _spells(pair: Pair, path: Path, band: _Band) -> Iterator[_Spell]:
    """Spells of every stretch; one that starts too far off to get into the range is passed over."""
    least, most, stood = -math.inf, math.inf, None  # limits of the gap where the last one ended
    for number, stretch in enumerate(path.stretches):
        start, end = stretch.at(0.0), stretch.at(1.0)
        way = relative_way(pair, stretch, start, end) + ROUNDING
        if stood is not None and _same(stood, start):
            least, most, stood = least - way, most + way, end
            if least > band[1] or most < band[0]:
                continue
        ends = gap_at(pair, start), gap_at(pair, end)
        least, most, stood = ends[1], ends[1], end
        yield from _within(pair, (number, stretch), (0.0, 1.0), ends, band)


def _same(one: Stand, other: Stand) -> bool:
    return abs(one.degrees - other.degrees) < CLOSE and math.dist(one.rod, other.rod) < CLOSE


def _within(
    pair: Pair,
    on: tuple[int, Stretch],
    shares: tuple[float, float],
    gaps: tuple[float, float],
    band: _Band,
) -> Iterator[_Spell]:
    """Halve until each piece is wholly in or out of the range, or too small to matter."""
    number, stretch = on
    a, b = stretch.at(shares[0]), stretch.at(shares[1])
    way = relative_way(pair, stretch, a, b)
    least, most = (sum(gaps) - way) / 2.0, (sum(gaps) + way) / 2.0
    if least > band[1] or most < band[0]:
        return
    small = way < band[2]
    if small or (least >= band[0] and most <= band[1]):
        if not small or all(band[0] <= g <= band[1] for g in gaps):
            yield _Spell(number, *shares, min(gaps), max(gaps))
        return
    middle = (shares[0] + shares[1]) / 2.0
    gap = gap_at(pair, stretch.at(middle))
    yield from _within(pair, on, (shares[0], middle), (gaps[0], gap), band)
    yield from _within(pair, on, (middle, shares[1]), (gap, gaps[1]), band)


def _runs(spells: Sequence[_Spell], path: Path) -> list[list[_Spell]]:
    """Spells that follow one another in the same direction of movement."""
    runs: list[list[_Spell]] = []
    for spell in spells:
        last = runs[-1][-1] if runs else None
        if last is not None and _follows(last, spell) and _up(last, path) is _up(spell, path):
            runs[-1].append(spell)
        else:
            runs.append([spell])
    return runs


def _follows(last: _Spell, spell: _Spell) -> bool:
    if last.stretch == spell.stretch:
        return last.until == spell.since
    return last.stretch + 1 == spell.stretch and last.until == 1.0 and spell.since == 0.0


def _up(spell: _Spell, path: Path) -> bool:
    return path.stretches[spell.stretch].phase in (Phase.RAISING, Phase.DROPPING)


def _trap(pair: Pair, run: Sequence[_Spell], path: Path) -> Trap:
    return Trap(
        first=pair.still.name,
        second=pair.moving.name,
        rising=_up(run[0], path),
        start=path.stretches[run[0].stretch].at(run[0].since).degrees,
        end=path.stretches[run[-1].stretch].at(run[-1].until).degrees,
        narrowest=min(s.low for s in run),
        widest=max(s.high for s in run),
    )
