r"""Relief of square inside corners, so that a square part seats although the cutter is round.

corner circle: the cutter's circle passes     one-sided: it stands on one side, so that the
through the corner, its centre on the         other side stays whole up to the corner
bisector; its diameter joins both sides

     |                                             |
     |  void                                       |  void
    ( \                                            |__
     ( .\___                                       (   )_____      half circle into the wood
      `- -'                                         `-'
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from flatpack.geometry.outline import Outline, Point, Segment

_SQUARE = math.cos(math.radians(88.0))
"""Corners within 2 degrees of a right angle count as square."""


class Relief(NamedTuple):
    """How a shop eases square corners: its cutter's radius, mm, and on one side or both."""

    radius: float
    one_sided: bool


class Relieved(NamedTuple):
    """The outline with its relief, and the corners that have one."""

    outline: Outline
    eased: tuple[Point, ...]


def square_corners(outline: Outline, opening: bool = False) -> tuple[Point, ...]:
    """Square inside corners between straight sides; an opening's void lies inside it."""
    way = outline.reversed() if opening else outline
    return tuple(way.segments[i].start for i in _hollow(way))


def relieved(
    outline: Outline,
    radius: float,
    *,
    one_sided: bool,
    opening: bool = False,
    only: Iterable[Point] | None = None,
) -> Relieved:
    """Relief by a cutter of `radius` mm in each square inside corner that has room for it.

    `only` names the corners to ease where it isn't all of them.
    """
    way = outline.reversed() if opening else outline
    setback = 2.0 * radius if one_sided else math.sqrt(2.0) * radius
    corners = [i for i in _hollow(way) if _room(way, i, setback, one_sided)]
    if only is not None:
        wanted = frozenset(only)
        corners = [i for i in corners if way.segments[i].start in wanted]
    if not corners:
        return Relieved(outline, ())
    made = _with_relief(way, set(corners), setback, one_sided)
    eased = tuple(way.segments[i].start for i in corners)
    return Relieved(made.reversed() if opening else made, eased)


def _hollow(outline: Outline) -> Iterator[int]:
    """Numbers of segments that start at a square corner where the outline turns right."""
    for i, segment in enumerate(outline.segments):
        before = outline.segments[i - 1]
        if before.bulge or segment.bulge:
            continue
        a, b = before.direction(1.0), segment.direction(0.0)
        if a.x * b.y - a.y * b.x < -0.5 and abs(a.x * b.x + a.y * b.y) < _SQUARE:
            yield i


def _room(outline: Outline, i: int, setback: float, one_sided: bool) -> bool:
    """Both sides must hold the relief; twice over, since their other end may want one too."""
    into, out = outline.segments[i - 1].length, outline.segments[i].length
    if one_sided:
        return max(into, out) >= 2.0 * setback
    return min(into, out) >= 2.0 * setback


def _with_relief(outline: Outline, corners: set[int], setback: float, one_sided: bool) -> Outline:
    count = len(outline.segments)
    starts: dict[int, Point] = {}
    ends: dict[int, Point] = {}
    for i in corners:
        into, out = outline.segments[i - 1], outline.segments[i]
        on_out = one_sided and out.length > into.length
        if not one_sided or on_out:
            starts[i] = out.at(setback / out.length)
        if not one_sided or not on_out:
            ends[(i - 1) % count] = into.at(1.0 - setback / into.length)
    made: list[Segment] = []
    for i, segment in enumerate(outline.segments):
        start, end = starts.get(i, segment.start), ends.get(i, segment.end)
        if i in corners:
            before = ends.get((i - 1) % count, outline.segments[i - 1].end)
            # The wood lies left of travel and the cutter's centre in the void, so the arc turns
            # right; its ends stand a diameter apart: half a circle.
            made.append(Segment(before, start, -1.0))
        made.append(Segment(start, end, segment.bulge))
    return Outline(tuple(made))
