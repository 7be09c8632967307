"""Distances from the datum written at each mark: ticks, and figures pushed apart where needed.

    o       o o     o       marks
    |       | |     |
----+-------+-+-----+----   datum edge
    |       |  |    |       leaders, bent where figures would lie on one another
   120    180 184  230      figures, read from the right
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from flatpack.drawings.figures import mm
from flatpack.drawings.lettering import text_width
from flatpack.drawings.shapes import Line, Stroke, Text
from flatpack.geometry import Point

_APART = 1.5
"""Distance of one figure's base line from the next, in heights."""


def spread_out(wanted: Sequence[float], apart: float) -> list[float]:
    """Places as near the wanted ones (sorted) as can be, no two closer than `apart`.

    Places that touch form a block that stands about the mean of what its members want.
    """
    blocks: list[list[float]] = []  # sum of (wanted - own offset), count
    for place in wanted:
        blocks.append([place, 1.0])
        while len(blocks) > 1 and _start(blocks[-1]) < _start(blocks[-2]) + blocks[-2][1] * apart:
            total, count = blocks.pop()
            blocks[-1][0] += total - count * blocks[-1][1] * apart
            blocks[-1][1] += count
    return [_start(block) + i * apart for block in blocks for i in range(int(block[1]))]


def _start(block: Sequence[float]) -> float:
    return block[0] / block[1]


def figures_width(values: Iterable[float], height: float = 2.5) -> float:
    """Room that the longest figure takes, mm."""
    return max((text_width(mm(v), height) for v in values), default=0.0)


def below(
    marks: Sequence[tuple[float, float]], edge: float, drop: float = 5.0, height: float = 2.5
) -> Iterator[Stroke]:
    """Ordinates under a level edge; `marks` are (place across the paper, distance to write)."""
    ordered = sorted(marks)
    places = spread_out([place for place, _ in ordered], _APART * height)
    for (place, value), at in zip(ordered, places, strict=True):
        foot = Point(at, edge - drop)
        yield Stroke("thin-line", Line(Point(place, edge), Point(place, edge - 1.5)))
        yield Stroke("thin-line", Line(Point(place, edge - 1.5), foot))
        yield Stroke("text", Text(Point(at, edge - drop - 0.7), mm(value), height, 90.0, "right",
                                  "middle"))  # fmt: skip


def beside(
    marks: Sequence[tuple[float, float]], edge: float, run: float = 5.0, height: float = 2.5
) -> Iterator[Stroke]:
    """Ordinates to the left of an upright edge; `marks` are (place up the paper, distance)."""
    ordered = sorted(marks)
    places = spread_out([place for place, _ in ordered], _APART * height)
    for (place, value), at in zip(ordered, places, strict=True):
        yield Stroke("thin-line", Line(Point(edge, place), Point(edge - 1.5, place)))
        yield Stroke("thin-line", Line(Point(edge - 1.5, place), Point(edge - run, at)))
        yield Stroke("text", Text(Point(edge - run - 0.7, at), mm(value), height, 0.0, "right",
                                  "middle"))  # fmt: skip
