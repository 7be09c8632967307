"""Where a part goes on the one it is joined to, measured from that one's ends and edges."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from flatpack.drawings.book.lie import lie, parallel, rounded
from flatpack.drawings.book.steps import BuildStep
from flatpack.drawings.book.told_apart import Row, told_apart
from flatpack.model import Assembly


class Place(NamedTuple):
    """Parts alike on parts alike.

    `along` are the distances of the parts' sides that look the same way as the base's datum end
    from that end, mm; `across` that of the side that looks as one of its edges does from that edge,
    the datum edge or, where that is beyond the part and further, the other; None where they cross
    its whole width or are flush.  `start`, `low` and `high` say which way the base's datum end,
    the edge that is measured from and the other edge look in the piece: "x-" is foot or front, "y-"
    left, "z-" down.  `face` says how it lies to the base's faces: "on show", "on back", "level
    show", "level back", or "past show", "past back" by `past` mm.  `near`, `side` and `out` say
    what of the part it is that `along`, `across` and `face` speak of: "end", "edge", "show" or
    "back".  `which` says where the base lies among those of its mark, "" when that is all one.
    """

    part: tuple[str, ...]
    base: tuple[str, ...]
    along: tuple[float, ...]
    across: float | None
    flush: str
    face: str
    past: float
    start: str
    low: str
    high: str
    near: str
    side: str
    out: str
    which: str


def places(assembly: Assembly, step: BuildStep, mark_of: Mapping[str, str]) -> tuple[Place, ...]:
    """Places of the parts that a step brings, those of one mark together; hands count as alike.

    A part that is placed on parts of one mark at different distances is placed on one of them, and
    what follows from places already said isn't said again.
    """
    chosen = tuple(told_apart(tuple(_rows(assembly, step)), assembly, step, mark_of))
    found: dict[tuple[object, ...], list[tuple[str, str, float]]] = {}
    for row, which in chosen:
        alike = (_unhanded(mark_of[row.part]), _unhanded(mark_of[row.base]), *row.rest, which)
        found.setdefault(alike, []).append((row.part, row.base, row.along))
    every = (place for alike, rows in found.items() for place in _grouped(alike, rows))
    joined = {(row.part, row.base) for row, _ in chosen}
    return tuple(_news(every, step, joined))


def _rows(assembly: Assembly, step: BuildStep) -> Iterator[Row]:
    rank = {key: n for n, key in enumerate((*step.old, *step.new))}
    by_shape = {fit.joint for fit in assembly.fits}
    for joint in step.joints:
        if len(joint.parts) != 2 or not all(p in assembly.parts for p in joint.parts):
            continue
        if joint.key in by_shape:
            continue
        key, on = _which(joint.parts, assembly, step, rank)
        part, base = assembly.parts[key], assembly.parts[on]
        if key in step.new and parallel(part, base):
            along, *rest = lie(part, base)
            yield Row(key, on, along, tuple(rest))


def _news(every: Iterable[Place], step: BuildStep, joined: set[tuple[str, str]]) -> Iterator[Place]:
    """Places that don't follow from what is together already and from those before them."""
    held = {key: body for body in step.together for key in body}
    for place in every:
        pairs = [(a, b) for a in place.part for b in place.base if (a, b) in joined]
        bodies = [(held.get(a, frozenset((a,))), held.get(b, frozenset((b,)))) for a, b in pairs]
        if all(one is other or one == other for one, other in bodies):
            continue
        yield place
        if not place.face:
            continue  # it isn't placed all ways yet
        for pair in pairs:
            body = frozenset().union(*(held.get(key, frozenset((key,))) for key in pair))
            held |= dict.fromkeys(body, body)


def _unhanded(mark: str) -> str:
    return mark.removesuffix("-L").removesuffix("-R")


def _which(
    pair: tuple[str, ...], assembly: Assembly, step: BuildStep, rank: dict[str, int]
) -> tuple[str, str]:
    """The part and what it is put on: what is there already, else the longer one."""
    a, b = pair
    if (a in step.old) != (b in step.old):
        return (b, a) if a in step.old else (a, b)
    longer = assembly.parts[a].length - assembly.parts[b].length
    return (b, a) if longer > 0.0 or (longer == 0.0 and rank[a] < rank[b]) else (a, b)


def _grouped(alike: tuple[object, ...], rows: list[tuple[str, str, float]]) -> Iterator[Place]:
    """One place for all bases with the same distances, as a left and a right hand have."""
    on_base: dict[str, list[tuple[str, float]]] = {}
    for key, on, along in rows:
        on_base.setdefault(on, []).append((key, rounded(along)))
    same: dict[tuple[float, ...], list[str]] = {}
    for on, held in on_base.items():
        same.setdefault(tuple(sorted({along for _, along in held})), []).append(on)
    for places_along, bases in same.items():
        parts = tuple(dict.fromkeys(key for on in bases for key, _ in on_base[on]))
        yield Place(parts, tuple(bases), places_along, *alike[2:])  # type: ignore[arg-type]  # as `_place` gives
