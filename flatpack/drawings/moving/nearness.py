"""The clearances that the page tells: the few pairs that come nearest on the whole travel."""

from __future__ import annotations

import re
from collections.abc import Iterable

from flatpack.drawings.moving.record import NamedPair
from flatpack.drawings.moving.stops_table import degrees
from flatpack.drawings.moving.views import Seen
from flatpack.geometry import Point
from flatpack.mechanism.pairs import Pair, gap_at, pairs, place_at
from flatpack.mechanism.study import Study
from flatpack.mechanism.sweep import Clash, Clearance
from flatpack.mechanism.track import Stand
from flatpack.wording import english_moving as words

Pairs = tuple[NamedPair, ...]
MOST = 8
"""How many pairs the page tells at most."""


def named_pairs(made: Study) -> tuple[NamedPair, ...]:
    """Clashes first, then the nearest pairs; meant contact and the right half left out.

    Of pairs that look the same from the side, or have the same title, the nearest is told.
    """
    known = {b.name: (b.carrier, b.outlines) for b in made.bodies}
    told: dict[str, NamedPair] = {}
    seen: set[object] = set()
    for one in sorted(made.swept, key=_least):
        if _worth_telling(one) and {one.first, one.second} <= known.keys():
            pair, looks = _named(one), (known[one.first], known[one.second])
            if looks not in seen:
                told.setdefault(pair.title, pair)
            seen.add(looks)
    return tuple(told.values())[:MOST]


def as_drawn(named: Iterable[NamedPair], made: Study, bodies: Iterable[Seen]) -> Pairs:
    """The pairs by the names of the bodies that are drawn for them: alike ones only once."""
    drawn = {(seen.carrier, seen.outline): seen.name for seen in bodies}
    names = {
        b.name: drawn.get((b.carrier, outline), b.name)
        for b in made.bodies
        for outline in b.outlines
    }
    return tuple(n._replace(first=names[n.first], second=names[n.second]) for n in named)


def _least(one: Clash | Clearance) -> float:
    return -one.depth if isinstance(one, Clash) else one.least


def _worth_telling(one: Clash | Clearance) -> bool:
    left = "-right" not in one.first and "-right" not in one.second
    return left and (isinstance(one, Clash) or not (one.touching or one.beyond))


def _named(one: Clash | Clearance) -> NamedPair:
    title = f"{body_title(one.first)} / {body_title(one.second)}"
    at = words.at_angle(degrees(one.degrees), words.DOING[one.phase.value])
    return NamedPair(one.first, one.second, title, _least(one), at)


def body_title(name: str) -> str:
    """What a body is called: its key without hand and dashes."""
    return re.sub(r"-(left|right)\b", "", name).replace("-", " ")


def kept_pairs(made: Study, named: Iterable[NamedPair]) -> tuple[Pair, ...]:
    """The named pairs with their shapes, in the same order."""
    wanted = [frozenset((n.first, n.second)) for n in named]
    names = frozenset().union(*wanted)
    found = {p.names: p for p in pairs([b for b in made.bodies if b.name in names], made.prop.arm)}
    return tuple(found[w] for w in wanted)


def gaps(kept: tuple[Pair, ...], stand: Stand) -> tuple[float, ...]:
    """Each pair's gap at a position, mm to 0.01."""
    return tuple(round(gap_at(pair, stand), 2) + 0.0 for pair in kept)


def nearest(
    kept: tuple[Pair, ...], found: tuple[float, ...], stand: Stand
) -> tuple[int, Point | None]:
    """Number of the nearest pair, and the place of its gap; -1 and None without pairs."""
    if not kept:
        return -1, None
    number = min(range(len(kept)), key=lambda i: found[i])
    return number, place_at(kept[number], stand)
