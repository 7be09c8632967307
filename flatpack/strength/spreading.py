"""Loads on a rectangle of a surface, shared by the parts under it."""

from __future__ import annotations

from typing import NamedTuple

from flatpack.geometry import Vec, X, Y, Z
from flatpack.model import Part
from flatpack.strength.layout import middle, reach
from flatpack.strength.surfaces import Surface
from flatpack.strength.whole import Push, axis_of, sizes

LEAST = 1.0
"""Area, mm2, below which a part counts as not under a load."""


class Rectangle(NamedTuple):
    """Limits in plan, mm."""

    x: tuple[float, float]
    y: tuple[float, float]

    @classmethod
    def about(cls, x: float, y: float, wide: float, deep: float, kept: Surface) -> Rectangle:
        """A rectangle about a place, shifted to stay on a surface."""
        return cls(_within(x, wide, *kept.x), _within(y, deep, *kept.y))


def _within(centre: float, size: float, low: float, high: float) -> tuple[float, float]:
    size = min(size, high - low)
    start = min(max(centre - size / 2.0, low), high - size)
    return start, start + size


def spread(surface: Surface, area: Rectangle, force: Vec) -> tuple[Push, ...]:
    """A force shared by the parts under a rectangle, by the area that it covers of each.

    Each part takes its share at two places, a quarter of the covered length from its middle: that
    bends a simple beam as much as a load spread evenly does.
    """
    laps = [(p, _lap(p, area)) for p in surface.parts]
    under = [(p, lap) for p, lap in laps if lap.wide * lap.deep > LEAST]
    if not under:
        at = Vec(sum(area.x) / 2.0, sum(area.y) / 2.0, surface.top)
        near = min(surface.parts, key=lambda p: (middle(p).minus(at).length, p.key))
        return on_part(near, 0.5, 0.0, force)
    whole = sum(lap.wide * lap.deep for _, lap in under)
    found: list[Push] = []
    for part, lap in under:
        share = lap.wide * lap.deep / whole / 2.0
        along = axis_of(part)[0]
        step = (abs(along.x) * lap.wide + abs(along.y) * lap.deep) / 4.0
        top = Vec(lap.x, lap.y, reach(part, Z)[1])
        for sign in (-1.0, 1.0):
            place = top.plus(along, sign * step)
            found.append(Push(part.key, place, Vec(*(share * f for f in force))))
    return tuple(found)


class _Lap(NamedTuple):
    x: float
    y: float
    wide: float
    deep: float


def _lap(part: Part, area: Rectangle) -> _Lap:
    (a0, a1), (b0, b1) = reach(part, X), reach(part, Y)
    x0, x1 = max(a0, area.x[0]), min(a1, area.x[1])
    y0, y1 = max(b0, area.y[0]), min(b1, area.y[1])
    return _Lap((x0 + x1) / 2.0, (y0 + y1) / 2.0, max(x1 - x0, 0.0), max(y1 - y0, 0.0))


def on_part(part: Part, share: float, size: float, force: Vec) -> tuple[Push, ...]:
    """A force spread over `size` mm of a part's length about a share of it, kept on the part."""
    along, (length, _) = axis_of(part)[0], sizes(part)
    low, high = _within(share * length, size, 0.0, length)
    centre = middle(part)
    half = Vec(*(f / 2.0 for f in force))
    quarter = (high - low) / 4.0
    at = (low + high - length) / 2.0
    return tuple(
        Push(part.key, centre.plus(along, at + sign * quarter), half) for sign in (-1.0, 1.0)
    )
