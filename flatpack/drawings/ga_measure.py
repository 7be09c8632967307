"""A dimension of the general arrangement: two places in the piece, and where it is shown."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from flatpack.drawings.figures import mm
from flatpack.drawings.projection import Body, View
from flatpack.geometry import Vec, X, Y, Z

Where = Literal["below", "left", "right", "along"]


class Measure(NamedTuple):
    """From `a` to `b` in the piece, shown in a view, beside it or `along` the line itself.

    `row` counts dimension lines outwards from 1.
    """

    view: View
    a: Vec
    b: Vec
    where: Where
    text: str
    row: int = 1

    @property
    def length(self) -> float:
        """True distance, mm."""
        return self.b.minus(self.a).length


class Room(NamedTuple):
    """The box round some bodies: least and greatest corner."""

    low: Vec
    high: Vec


def room_of(found: Iterable[Body]) -> Room:
    """The box round bodies, mm."""
    lows, highs = zip(*(_ends(body) for body in found), strict=True)
    return Room(
        Vec(*(min(row) for row in zip(*lows, strict=True))),
        Vec(*(max(row) for row in zip(*highs, strict=True))),
    )


def _ends(body: Body) -> tuple[tuple[float, ...], tuple[float, ...]]:
    reach = [body.reach(way) for way in (X, Y, Z)]
    return tuple(low for low, _ in reach), tuple(high for _, high in reach)


def between(view: View, a: Vec, b: Vec, where: Where, text: str = "", row: int = 1) -> Measure:
    """A dimension that says its true length, unless it is given a text."""
    return Measure(view, a, b, where, text or mm(b.minus(a).length), row)


def along(view: View, axis: int, ends: tuple[float, float], where: Where, words: str = "",
          row: int = 1) -> Measure:  # fmt: skip
    """A dimension along an axis of the piece (0 x, 1 y, 2 z), its figure first, then words."""
    a, b = (Vec(*(v if i == axis else 0.0 for i in range(3))) for v in ends)
    return between(view, a, b, where, f"{mm(ends[1] - ends[0])} {words}".strip(), row)


def reach_of(body: Body, axis: int) -> tuple[float, float]:
    """Least and greatest place of a body along an axis of the piece, mm."""
    return body.reach((X, Y, Z)[axis])


def crosswise(body: Body) -> bool:
    """True for what lies across the piece."""
    return abs(body.frame.x.y) > 0.999
