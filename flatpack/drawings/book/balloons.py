r"""Marks beside a picture, each with a leader to a place of its part that nothing hides.

B-L ----.                          .---- H
\  +------------------+  /
E -------- /                  /---        columns left and right, in the order of height
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from typing import Literal, NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.drawings.shapes import Circle, Line, Stroke, Text
from flatpack.frozen import frozen
from flatpack.geometry import Outline, Point

HEIGHT = 3.5
"""Capital height of the marks, mm (ISO 3098)."""
_ROW = 6.5
_AWAY = 6.0
_SAGITTA = 0.2


@frozen(kw_only=False)
class Patch:
    """A filled face on the paper, of the body `key`; `small` ones carry no leader."""

    key: str
    layer: str
    tone: float
    outline: Outline
    small: bool = False

    @cached_property
    def points(self) -> tuple[Point, ...]:
        """Corners, arcs as chords."""
        return self.outline.sampled(_SAGITTA)

    @cached_property
    def box(self) -> Box:
        """Smallest x, y and largest x, y."""
        xs, ys = [p.x for p in self.points], [p.y for p in self.points]
        return min(xs), min(ys), max(xs), max(ys)

    def covers(self, place: Point) -> bool:
        """True when a place lies on the face (even-odd rule)."""
        x0, y0, x1, y1 = self.box
        if not (x0 <= place.x <= x1 and y0 <= place.y <= y1):
            return False
        inside, before = False, self.points[-1]
        for corner in self.points:
            if (corner.y > place.y) != (before.y > place.y):
                share = (place.y - corner.y) / (before.y - corner.y)
                inside ^= place.x < corner.x + share * (before.x - corner.x)
            before = corner
        return inside


class Target(NamedTuple):
    """A mark and the bodies that it stands for."""

    mark: str
    keys: tuple[str, ...]


def balloons(
    wanted: Iterable[Target], patches: Sequence[Patch], room: Box
) -> tuple[tuple[Stroke, ...], float, float]:
    """Marks with leaders, and the lowest and highest y that picture and marks take."""
    spots = [(t.mark, p) for t in wanted if (p := _seen(t, patches)) is not None]
    middle = (room[0] + room[2]) / 2.0
    ordered = sorted(spots, key=lambda spot: (spot[1].x, spot[0]))
    half = sum(p.x < middle for _, p in ordered)
    half = min(max(half, len(ordered) // 3), len(ordered) - len(ordered) // 3)
    strokes: list[Stroke] = []
    heights = [room[1], room[3]]
    for side, column in ((-1.0, ordered[:half]), (1.0, ordered[half:])):
        x = room[0] - _AWAY if side < 0.0 else room[2] + _AWAY
        rows = sorted(column, key=lambda spot: (spot[1].y, spot[0]))
        for (mark, spot), y in zip(rows, _spaced([p.y for _, p in rows]), strict=True):
            strokes += _balloon(mark, spot, Point(x, y), side)
            heights += (y - HEIGHT, y + HEIGHT)
    return tuple(strokes), min(heights), max(heights)


def _balloon(mark: str, spot: Point, at: Point, side: float) -> Iterator[Stroke]:
    across: Literal["left", "right"] = "right" if side < 0.0 else "left"
    text = Text(Point(at.x + side, at.y), mark, HEIGHT, 0.0, across, "middle", True)
    yield Stroke("dimension", Line(Point(at.x, at.y), spot))
    yield Stroke("dimension", Circle(spot, 0.5))
    yield Stroke("text", text)


def _spaced(heights: Sequence[float]) -> list[float]:
    """Rising heights at least a row apart, moved as little as a run of rows must."""
    runs: list[list[float]] = []  # middle, count
    for y in heights:
        runs.append([y, 1.0])
        while len(runs) > 1 and runs[-1][0] - runs[-2][0] < _ROW * (runs[-1][1] + runs[-2][1]) / 2:
            (y1, n1), (y0, n0) = runs.pop(), runs.pop()
            runs.append([(y0 * n0 + y1 * n1) / (n0 + n1), n0 + n1])
    return [
        middle + _ROW * (i - (count - 1.0) / 2.0)
        for middle, count in runs
        for i in range(int(count))
    ]


def _seen(target: Target, patches: Sequence[Patch]) -> Point | None:
    """A place on the largest of its faces that no later one covers; None when there is none."""
    own = [
        (i, patch)
        for i, patch in enumerate(patches)
        if patch.key in target.keys and not patch.small
    ]
    own.sort(key=lambda pair: (-round(_size(pair[1])), -pair[0]))
    for share in (0.0, 0.45, 0.8):
        for number, patch in own[:12]:
            for place in _places(patch, share):
                later = (p for p in patches[number + 1 :] if p.covers(place))
                if patch.covers(place) and next(later, None) is None:
                    return place
    return None


def _size(patch: Patch) -> float:
    return abs(patch.outline.area)


def _places(patch: Patch, share: float) -> Iterator[Point]:
    """The middle, or a share of the way from it to each corner."""
    points = patch.points
    x, y = sum(p.x for p in points) / len(points), sum(p.y for p in points) / len(points)
    for p in points if share else points[:1]:
        yield Point(round(x + (p.x - x) * share, 2), round(y + (p.y - y) * share, 2))
