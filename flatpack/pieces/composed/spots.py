"""Where the fasteners of a joint stand: on the plane in which two parts meet."""

from __future__ import annotations

from typing import Any, NamedTuple

from flatpack.geometry import Vec
from flatpack.parameters import Sum
from flatpack.pieces.composed.chords import cut, row_line, shared
from flatpack.pieces.composed.corners import at_height, is_side
from flatpack.pieces.composed.directions import AXES, Plane, crossing
from flatpack.pieces.composed.layout import Layout
from flatpack.pieces.composed.meeting import Meeting
from flatpack.pieces.composed.nearness import holds
from flatpack.pieces.composed.rows import Stated

WAYS = ("depth", "width", "height")
OFF = 0.01
"""A place this far beyond an edge still counts as on it, mm."""


class _Spot(NamedTuple):
    """A plane that fasteners stand on, and how far beyond it along the piece's way, mm."""

    plane: Plane
    beyond: float = 0.0


def spots(layout: Layout, p: Any, key: str, pair: Any, *, across: bool = False) -> tuple[Vec, ...]:
    """Places of the fasteners: `count` shared along a row on what two parts share.

    The row runs the longer way, or `across` the grain where neither is clearly longer.

    Places that the file states in one of the piece's ways take over in that way: one for all, or
    one each.  Where both ways are stated they pair: first with first, second with second.

    Raises:
        StuckError: they can't be worked out.
    """
    met, hand = pair.met, pair.one.hand or pair.other.hand
    stated = {w: said for w in met.ways() if (said := getattr(p, WAYS[w])) is not None}
    count = _count(layout, p, key, list(stated.values()))
    rows = {
        way: [_stated(layout, said, way, f"{key}.{WAYS[way]}", hand) for said in many]
        for way, many in stated.items()
    }
    if not rows:
        return shared(row_line(met, pair.one, pair.other, across=across), count)
    if len(rows) == 1:
        [(way, found)] = rows.items()
        each = count if len(found) == 1 else 1
        return tuple(
            place for spot in found for place in _across(layout, key, met, way, spot, each)
        )
    (long, ones), (short, others) = ((w, f * count if len(f) == 1 else f) for w, f in rows.items())
    pairs = zip(ones, others, strict=True)
    return tuple(_place(layout, key, met, (long, a), (short, b)) for a, b in pairs)


def _across(
    layout: Layout, key: str, met: Meeting, way: int, spot: _Spot, count: int
) -> tuple[Vec, ...]:
    """Fasteners shared along the line in which a stated plane cuts what two parts share."""
    normal = spot.plane.normal
    shifted = Plane(normal, spot.plane.reach + spot.beyond * normal.dot(AXES[way]))
    line = cut(met, shifted)
    if line is not None:
        return shared(line, count)
    [other] = (w for w in met.ways() if w != way)
    middle = _Spot(Plane(AXES[other], sum(met.reach(other)) / 2.0))
    return (_place(layout, key, met, (way, spot), (other, middle)),) * count


def _count(layout: Layout, p: Any, key: str, stated: list[tuple[Sum, ...]]) -> int:
    """Fasteners: as counted, or as many as places are named."""
    many = [len(s) for s in stated if len(s) > 1]
    if any(n != many[0] or p.count not in (1, n) for n in many):
        raise layout.faults.stop(
            f"{key}.count", p.count, "the same number of places each way, and as count",
            "places and count differ in number",
        )  # fmt: skip
    return int(many[0] if many else p.count)


def _stated(layout: Layout, said: Sum, way: int, key: str, hand: str) -> _Spot:
    stated = Stated(0.0, said, key)
    if said.at is not None:
        return _at_height(layout, said, way, stated, hand)
    if not is_side(said.first):
        return _Spot(Plane(AXES[way], layout.length(said, key)))
    beyond = said.sign * layout.term(said.second, key, said) if said.sign else 0.0
    return _Spot(layout.plane(said.first, way, stated, hand or "none"), beyond)


def _at_height(layout: Layout, said: Sum, way: int, stated: Stated, hand: str) -> _Spot:
    """Where a side stands at a height, as a place along one of the piece's level ways."""
    if way == 2:
        raise layout.faults.stop(
            stated.key, said, "a height", "a height is asked for, so none can be named"
        )
    plane = layout.plane(said.first, way, stated, hand or "none")
    at = at_height(layout, AXES[way], plane, stated, hand or "none")
    beyond = said.sign * layout.term(said.second, stated.key, said) if said.sign else 0.0
    return _Spot(Plane(AXES[way], at), beyond)


def _place(
    layout: Layout, key: str, met: Meeting, one: tuple[int, _Spot], two: tuple[int, _Spot]
) -> Vec:
    found = crossing(met.plane, one[1].plane, two[1].plane)
    if found is None:
        raise layout.faults.stop(key, "", "other places", "these places don't meet in a point")
    for way, spot in (one, two):
        found = found.plus(AXES[way], spot.beyond)
    for way, _ in (one, two):
        low, high = met.reach(way)
        at = found.dot(AXES[way])
        if not low - OFF <= at <= high + OFF:
            raise layout.faults.stop(
                f"{key}.{WAYS[way]}", f"{at:.1f} mm", f"{low:.1f} to {high:.1f}, where they meet",
                "this place lies beside the parts",
            )  # fmt: skip
    if not holds(met.corners, met.normal, found, OFF):
        told, allowed = _told(found, one[0], two[0]), _between(met, one[0], two[0], found)
        raise layout.faults.stop(
            f"{key}.{WAYS[one[0]]}", told, allowed,
            "this place lies beside the slanting room that the parts share",
        )  # fmt: skip
    return found


def _told(place: Vec, one: int, two: int) -> str:
    return " and ".join(f"{WAYS[w]} {place.dot(AXES[w]):.1f}" for w in sorted((one, two)))


def _between(met: Meeting, one: int, two: int, place: Vec) -> str:
    """What would do instead: from so far to so far at this height (or this width)."""
    way, other = sorted((one, two), reverse=True)
    line = cut(met, Plane(AXES[way], place.dot(AXES[way])))
    if line is None:
        return "a place where they meet"
    low, high = sorted(end.dot(AXES[other]) for end in line)
    at = place.dot(AXES[way])
    return f"{WAYS[other]} {low:.1f} to {high:.1f} at {WAYS[way]} {at:.1f}, where they meet"
