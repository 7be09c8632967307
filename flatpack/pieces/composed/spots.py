"""Where the fasteners of a joint stand: on the plane in which two parts meet."""

from __future__ import annotations

from typing import Any, NamedTuple

from flatpack.geometry import Vec
from flatpack.joinery.axis import spread
from flatpack.parameters import Sum
from flatpack.pieces.composed.corners import is_side
from flatpack.pieces.composed.directions import AXES, Plane, crossing
from flatpack.pieces.composed.layout import Layout
from flatpack.pieces.composed.meeting import Meeting
from flatpack.pieces.composed.rows import Stated

WAYS = ("depth", "width", "height")
OFF = 0.01
"""A place this far beyond an edge still counts as on it, mm."""


class _Spot(NamedTuple):
    """A plane that fasteners stand on, and how far beyond it along the piece's way, mm."""

    plane: Plane
    beyond: float = 0.0


def spots(layout: Layout, p: Any, key: str, met: Meeting, hand: str) -> tuple[Vec, ...]:
    """Places of the fasteners: `count` shared along the longer way of what two parts share.

    Places that the file states in one of the piece's ways take over in that way: one for all, or
    one each.

    Raises:
        StuckError: they can't be worked out.
    """
    long, short = met.ways()
    stated = {way: getattr(p, WAYS[way]) for way in (long, short)}
    count = _count(layout, p, key, [s for s in stated.values() if s])
    shared = {
        long: spread(*met.reach(long), count),
        short: (sum(met.reach(short)) / 2.0,) * count,
    }
    if stated[long] is not None and len(stated[long]) == 1 and stated[short] is None:
        shared[short] = spread(*met.reach(short), count)
    rows = {}
    for way in (long, short):
        if stated[way] is None:
            rows[way] = [_Spot(Plane(AXES[way], at)) for at in shared[way]]
        else:
            where = f"{key}.{WAYS[way]}"
            found = [_stated(layout, said, way, where, hand) for said in stated[way]]
            rows[way] = found * count if len(found) == 1 else found
    pairs = zip(rows[long], rows[short], strict=True)
    return tuple(_place(layout, key, met, (long, a), (short, b)) for a, b in pairs)


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
        raise layout.faults.stop(key, said, "a place without a height", "say the height as height")
    if not is_side(said.first):
        return _Spot(Plane(AXES[way], layout.length(said, key)))
    beyond = said.sign * layout.term(said.second, key, said) if said.sign else 0.0
    return _Spot(layout.plane(said.first, way, stated, hand or "none"), beyond)


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
    return found
