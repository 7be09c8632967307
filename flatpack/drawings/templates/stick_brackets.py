"""Brackets along a stick's edge: where each part that meets the member runs from and to.

  |------F------|         a tier a run, so that none lies on another
|---E---|  |---E---|
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.figures import mm
from flatpack.drawings.lettering import text_width
from flatpack.drawings.shapes import Circle, Line, Stroke, Text
from flatpack.drawings.templates.stick_marks import Along, Crossing
from flatpack.geometry import Point
from flatpack.wording import english_templates as words

_FIRST, _PITCH, _ROOM = 1.6, 2.6, 2.8
"""Height of the lowest tier, from one to the next, and room for all above the lowest, mm."""
_HEIGHT = 1.8
_FOOT = 0.6


class Way(NamedTuple):
    """An edge of a row: where nought mm of the row stands, and up (1) or down (-1) into it."""

    x: float
    y: float
    up: float

    def at(self, along: float, inwards: float) -> Point:
        """Place on the page of a distance along the row and one in from the edge."""
        return Point(self.x + along, self.y + self.up * inwards)


def brackets(along: Along, low: float, high: float, way: Way) -> Iterator[Stroke]:
    """A bracket for each crossing part in the row from `low` to `high`, its mark in the middle."""
    tiers = tiered(along.crossings)
    last = max(tiers.values(), default=0)
    pitch = min(_PITCH, _ROOM / last) if last else 0.0
    for crossing, tier in tiers.items():
        a, b = max(crossing.low, low), min(crossing.high, high)
        if b > a:
            whole = crossing.low >= low, crossing.high <= high
            yield from _bracket(along, crossing, (a - low, b - low), whole, low,
                                _FIRST + tier * pitch, way)  # fmt: skip


def tiered(crossings: tuple[Crossing, ...]) -> dict[Crossing, int]:
    """The lowest tier of each crossing in which it lies on no other."""
    reached: list[float] = []
    found: dict[Crossing, int] = {}
    for crossing in sorted(crossings):
        tier = next((i for i, r in enumerate(reached) if r <= crossing.low + 0.01), len(reached))
        reached[tier : tier + 1] = [crossing.high]
        found[crossing] = tier
    return found


def _bracket(
    along: Along, crossing: Crossing, ends: tuple[float, float], whole: tuple[bool, bool],
    low: float, up: float, way: Way,
) -> Iterator[Stroke]:  # fmt: skip
    a, b = ends
    for place, there in zip(ends, whole, strict=True):
        if there:
            yield Stroke("visible-edge", Line(way.at(place, up - _FOOT), way.at(place, up + _FOOT)))
    at = (a, b)[crossing.datum > 0]
    if crossing.datum and whole[crossing.datum > 0]:
        yield Stroke("visible-edge", Circle(way.at(at, up), _FOOT))
    said = crossing.mark
    if crossing.over > 0.05:
        said = words.overhang(said, mm(crossing.over))
    half = text_width(said, _HEIGHT) * 0.6 + 0.5
    middle = _middle(along, (a, b), low, half)
    if b - a < 2.0 * half:
        yield Stroke("visible-edge", Line(way.at(a, up), way.at(b, up)))
        return
    yield Stroke("visible-edge", Line(way.at(a, up), way.at(middle - half, up)))
    yield Stroke("visible-edge", Line(way.at(middle + half, up), way.at(b, up)))
    turn = 0.0 if way.up > 0.0 else 180.0
    yield Stroke("text", Text(way.at(middle, up), said, _HEIGHT, turn, "middle", "middle", True))


def _middle(along: Along, ends: tuple[float, float], low: float, half: float) -> float:
    """Where the mark stands: as near the middle as no other line runs through it."""
    a, b = ends
    lines = [v - low for c in along.crossings for v in (c.low, c.high)]
    lines += [p - low for p in along.pockets]
    tries = [(a + b) / 2.0 + step for i in range(12) for step in (1.5 * i, -1.5 * i)]
    room = [m for m in tries if a + half <= m <= b - half]
    clear = (m for m in room if all(abs(m - v) > half + 0.5 for v in lines))
    return next(clear, (a + b) / 2.0)
