"""Placing labels beside spots so that none covers another, a hole or an edge."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple

from flatpack.drawings.boxes import Box, box_of, grown, meet
from flatpack.drawings.lettering import text_box, text_width
from flatpack.drawings.mark_place import crosses
from flatpack.drawings.shapes import Line, Shape, Stroke, Text
from flatpack.geometry import Point, cosine_sine

_HEIGHT = 2.5
_RINGS = (0.8, 5.0, 10.0, 16.0, 24.0, 34.0, 46.0)
"""Distances of a label from its spot's edge, mm; from the second on with a leader."""
_DEGREES = (45, 135, -45, -135, 0, 180, 90, -90, 22, 158, -22, -158, 67, 113, -67, -113)
_WAYS = tuple(cosine_sine(degrees) for degrees in _DEGREES)
"""Directions tried in turn, as cosine and sine."""


class Wanted(NamedTuple):
    """A label for the spot at `at`, whose mark reaches `radius` from there.

    `brief` stands in where the whole text finds no room nearby.
    """

    at: Point
    radius: float
    text: str
    brief: str


class _Taken(NamedTuple):
    boxes: list[Box]
    lines: list[tuple[Point, Point]]


def labelled(
    wanted: Iterable[Wanted], taken: Iterable[Shape], edges: Sequence[Sequence[Point]]
) -> tuple[Stroke, ...]:
    """Texts, with leaders where they stand away; `edges` are closed lines not to be crossed."""
    lines = [pair for edge in edges for pair in zip(edge, (*edge[1:], edge[0]), strict=True)]
    state = _Taken([box_of(shape) for shape in taken], lines)
    placed: list[Stroke] = []
    for label in wanted:
        placed += _place(label, state)
    return tuple(placed)


def _place(label: Wanted, state: _Taken) -> tuple[Stroke, ...]:
    near = _near(label, state)
    chosen = next((c for c in _choices(label) if _clear(*c, label, near)), None)
    text, leader = chosen or next(_choices(label))
    state.boxes.append(grown(text_box(text), 0.4))
    if leader is None:
        return (Stroke("text", text),)
    state.lines.append((leader.start, leader.end))
    return (Stroke("text", text), Stroke("thin-line", leader))


def _near(label: Wanted, state: _Taken) -> _Taken:
    """What a label here could meet at all."""
    reach = label.radius + _RINGS[-1] + text_width(label.text, _HEIGHT) + 5.0
    room = grown((*label.at, *label.at), reach)
    lines = [(a, b) for a, b in state.lines if crosses(a, b, room)]
    return _Taken([box for box in state.boxes if meet(room, box)], lines)


def _choices(label: Wanted) -> Iterator[tuple[Text, Line | None]]:
    near, far = _RINGS[:3], _RINGS[3:]
    for text, rings in ((label.text, near), (label.brief, near), (label.text, far)):
        for distance in rings:
            for c, s in _WAYS:
                yield _choice(label, text, distance, c, s)


def _choice(
    label: Wanted, text: str, distance: float, c: float, s: float
) -> tuple[Text, Line | None]:
    inner, reach = label.radius * 0.6, label.radius + distance
    foot = Point(label.at.x + c * reach, label.at.y + s * reach)
    start = Point(label.at.x + c * inner, label.at.y + s * inner)
    leader = None if distance == _RINGS[0] else Line(start, foot)
    return _text(foot, c, s, text), leader


def _text(foot: Point, c: float, s: float, text: str) -> Text:
    across: Literal["left", "middle", "right"]
    across = "middle" if abs(c) < 0.1 else "left" if c > 0.0 else "right"
    up: Literal["base", "middle", "top"]
    up = "middle" if abs(s) < 0.1 else "base" if s > 0.0 else "top"
    side = math.copysign(0.5, c) if across != "middle" else 0.0
    rise = math.copysign(0.9, s) if up != "middle" else 0.0
    return Text(Point(foot.x + side, foot.y + rise), text, _HEIGHT, 0.0, across, up)


def _clear(text: Text, leader: Line | None, label: Wanted, state: _Taken) -> bool:
    room = text_box(text)
    if any(meet(room, box) for box in state.boxes):
        return False
    if any(crosses(a, b, room) for a, b in state.lines):
        return False
    if leader is None:
        return True
    own = grown((*label.at, *label.at), label.radius)
    return not any(
        crosses(leader.start, leader.end, box) for box in state.boxes if not meet(own, box)
    )
