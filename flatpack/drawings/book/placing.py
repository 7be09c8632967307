"""Where a part goes on the one it is joined to, measured from that one's ends and edges."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from flatpack.drawings.book.steps import BuildStep
from flatpack.geometry import Vec
from flatpack.model import Assembly, Bar, Part, placed_corners

_SAME = 0.05
"""Places closer than this are flush, mm."""
_SQUARE = 1e-6


class Place(NamedTuple):
    """Parts alike on parts alike.

    `along` are the distances of their near edges from the base's datum end, mm; `across` that of
    the lower one from its datum edge, None where they cross its whole width.  `start`, `low` and
    `high` say which way the base's datum end, datum edge and other edge look in the piece: "x-"
    is foot or front, "y-" left, "z-" down.  `face` says how it lies to the base's faces:
    "on show", "on back", "level", or "past" the show face by `past` mm.
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


def places(assembly: Assembly, step: BuildStep, mark_of: Mapping[str, str]) -> tuple[Place, ...]:
    """Places of the parts that a step brings, those of one mark together; hands count as alike."""
    rank = {key: n for n, key in enumerate((*step.old, *step.new))}
    found: dict[tuple[object, ...], list[tuple[str, str, float]]] = {}
    by_shape = {fit.joint for fit in assembly.fits}
    for joint in step.joints:
        if len(joint.parts) != 2 or not all(p in assembly.parts for p in joint.parts):
            continue
        if joint.key in by_shape:
            continue
        key, on = _which(joint.parts, assembly, step, rank)
        part, base = assembly.parts[key], assembly.parts[on]
        if key not in step.new or not _parallel(part, base):
            continue
        along, *rest = _place(part, base)
        alike = (_unhanded(mark_of[key]), _unhanded(mark_of[on]), *rest)
        found.setdefault(alike, []).append((key, on, along))
    return tuple(place for alike, rows in found.items() for place in _grouped(alike, rows))


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
        on_base.setdefault(on, []).append((key, round(along, 1) + 0.0))
    same: dict[tuple[float, ...], list[str]] = {}
    for on, held in on_base.items():
        same.setdefault(tuple(sorted({along for _, along in held})), []).append(on)
    for places_along, bases in same.items():
        parts = tuple(dict.fromkeys(key for on in bases for key, _ in on_base[on]))
        yield Place(parts, tuple(bases), places_along, *alike[2:])  # type: ignore[arg-type]  # as `_place` gives


def _place(part: Part, base: Part) -> tuple[float, float | None, str, str, float, str, str, str]:
    bx0, by0, _, by1 = base.outline.bounds
    xs, ys, zs = _reach(part, base)
    across, flush = _across(ys[0] - by0, ys[1] - by0, by1 - by0)
    ways = (way(base.frame.x.negated()), way(base.frame.y.negated()), way(base.frame.y))
    return xs[0] - bx0, across, flush, *_to_face(*zs, base.thickness), *ways


def _across(low: float, high: float, width: float) -> tuple[float | None, str]:
    """Distance from the datum edge, and what it is flush with: "low", "high", "both", "on"."""
    if low >= width - _SAME:
        return None, "on high"
    if high <= _SAME:
        return None, "on low"
    flush_low, flush_high = abs(low) <= _SAME, abs(high - width) <= _SAME
    if flush_low or flush_high:
        return None, "both" if flush_low and flush_high else "low" if flush_low else "high"
    return round(low, 1) + 0.0, ""


def _to_face(low: float, high: float, thickness: float) -> tuple[str, float]:
    """How a part lies to the base's faces."""
    if low >= thickness - _SAME:
        return "on show", 0.0
    if high <= _SAME:
        return "on back", 0.0
    past = round(high - thickness, 1) + 0.0
    return ("level", 0.0) if abs(past) <= _SAME else ("past", past) if past > 0.0 else ("", 0.0)


def _reach(part: Part, base: Part) -> tuple[tuple[float, float], ...]:
    """Stretch of a part along, across and through the base's own axes."""
    corners = [base.frame.local(corner) for corner in placed_corners(part)]
    return tuple((min(axis), max(axis)) for axis in zip(*corners, strict=True))


def _parallel(part: Part, base: Part) -> bool:
    ways = (base.frame.local_direction(v) for v in (part.frame.x, part.frame.y))
    return all(abs(abs(c) - 1.0) < _SQUARE or abs(c) < _SQUARE for v in ways for c in v)


def way(direction: Vec) -> str:
    """The nearest of the piece's own six directions: "x-", "x+", "y-" ..."""
    sizes = [abs(c) for c in direction]
    axis = sizes.index(max(sizes))
    return f"{'xyz'[axis]}{'+' if direction[axis] > 0.0 else '-'}"


def looks(part: Part | Bar) -> str:
    """The way that a part's show face looks in the finished piece."""
    return way(part.frame.z)
