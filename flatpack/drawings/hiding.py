"""The order in which bodies are painted, so that nearer ones hide those behind.

Two bodies whose boxes share no room are parted by one of their twelve faces, bodies sawn at a slant
perhaps by a cut.  With n that face's outward direction, what lies beyond it is nearer to the reader
when n points towards him:

        | B        n -> reader        B is painted after A
      A |
        n
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from flatpack.drawings.boxes import Box, meet
from flatpack.drawings.projection import Body, View, view_box
from flatpack.geometry import Point, Vec

_TOUCH = 0.05
"""Bodies that lie closer than this count as touching, mm."""


class _Item(NamedTuple):
    body: Body
    corners: tuple[Vec, ...]
    box: Box
    far: float
    near: float


def painted(bodies: tuple[Body, ...], view: View, closely: bool = False) -> tuple[Body, ...]:
    """The bodies, furthest first.

    `closely` compares only bodies whose silhouettes share room, not merely the boxes round them.
    Seen at a slope that leaves out most comparisons, and with them false rings.
    """
    items = [_item(body, view) for body in bodies]
    behind: list[set[int]] = [set() for _ in items]  # what must be painted before each
    pairs: Iterable[tuple[int, int]] = _meeting(items)
    if closely:
        shadows = [_shadow(item.body, item.corners, view) for item in items]
        pairs = ((i, j) for i, j in pairs if _overlap(shadows[i], shadows[j]))
    for i, j in pairs:
        order = _nearer(items[i], items[j], view)
        if order > 0.0:
            behind[i].add(j)
        elif order < 0.0:
            behind[j].add(i)
    return tuple(items[i].body for i in _sorted(items, behind, closely))


def _meeting(items: list[_Item]) -> Iterator[tuple[int, int]]:
    """Pairs whose boxes share room on the paper, swept from left to right."""
    open_items: list[int] = []
    for i in sorted(range(len(items)), key=lambda i: items[i].box[0]):
        box = items[i].box
        open_items = [j for j in open_items if items[j].box[2] > box[0]]
        yield from ((i, j) for j in open_items if meet(box, items[j].box))
        open_items.append(i)


class _Shadow(NamedTuple):
    """A body's corners on the paper, the ways square to its edges there, and its reach on each."""

    points: tuple[Point, ...]
    ways: tuple[tuple[Point, float, float], ...]


def _shadow(body: Body, corners: tuple[Vec, ...], view: View) -> _Shadow:
    points = tuple(view.at(corner) for corner in corners)
    ways = []
    for axis in (body.frame.x, body.frame.y, body.frame.z):
        along = view.at(axis)
        long = math.hypot(along.x, along.y)
        if long > 1e-6:
            way = Point(-along.y / long, along.x / long)
            reach = [p.x * way.x + p.y * way.y for p in points]
            ways.append((way, min(reach), max(reach)))
    return _Shadow(points, tuple(ways))


def _overlap(a: _Shadow, b: _Shadow) -> bool:
    """False when a line between them parts the two; such a line runs along an edge of either."""
    return not (_line_parts(a, b) or _line_parts(b, a))


def _line_parts(a: _Shadow, b: _Shadow) -> bool:
    for (wx, wy), low, high in a.ways:
        reach = [x * wx + y * wy for x, y in b.points]
        if min(reach) >= high - _TOUCH or max(reach) <= low + _TOUCH:
            return True
    return False


def _item(body: Body, view: View) -> _Item:
    corners = body.corners
    depths = [c.dot(view.toward) for c in corners]
    x0, y0, x1, y1 = view_box(body, view)
    shrunk = (x0 + _TOUCH, y0 + _TOUCH, x1 - _TOUCH, y1 - _TOUCH)
    return _Item(body, corners, shrunk, min(depths), max(depths))


def _nearer(a: _Item, b: _Item, view: View) -> float:
    """Above 0 when `a` is the nearer, below 0 when `b` is, 0 when neither hides the other."""
    if a.far >= b.near - _TOUCH:
        return 1.0
    if b.far >= a.near - _TOUCH:
        return -1.0
    found = _parted(a, b, view)
    if found is None:
        found = _parted(b, a, view)
        found = None if found is None else -found
    if found is None:  # one lies in the other's hollow, or runs through it
        return a.near - b.near
    return found


def _parted(a: _Item, b: _Item, view: View) -> float | None:
    """Slope towards the reader of the face of `b` beyond which `a` lies; None without one."""
    frame = b.body.frame
    x0, y0, x1, y1 = b.body.outline.bounds
    best: float | None = None
    for axis, low, high in (
        (frame.x, x0, x1), (frame.y, y0, y1), (frame.z, b.body.low, b.body.high),
    ):  # fmt: skip
        start = frame.origin.dot(axis)
        reach = [c.dot(axis) - start for c in a.corners]
        slope = axis.dot(view.toward)
        if min(reach) >= high - _TOUCH:
            best = slope if best is None or abs(slope) > abs(best) else best
        elif max(reach) <= low + _TOUCH:
            best = -slope if best is None or abs(slope) > abs(best) else best
    for plane in (cut.placed(frame) for cut in b.body.planes):
        if min(plane.beyond(c) for c in a.corners) >= -_TOUCH:
            slope = plane.out.dot(view.toward)
            best = slope if best is None or abs(slope) > abs(best) else best
    return best


def _sorted(items: list[_Item], behind: list[set[int]], closely: bool) -> list[int]:
    """Furthest first; where bodies hide one another in a ring, the one that ends furthest off.

    `closely`: in a ring the one that shares least room with those that it should come after.
    """
    waiting = sorted(range(len(items)), key=lambda i: (items[i].near, items[i].far, i))
    left = [set(b) for b in behind]
    order: list[int] = []
    while waiting:
        free = next((i for i in waiting if not left[i]), None)
        if free is None:
            free = _least_wrong(items, waiting, left) if closely else waiting[0]
        waiting.remove(free)
        order.append(free)
        for others in left:
            others.discard(free)
    return order


def _least_wrong(items: list[_Item], waiting: list[int], left: list[set[int]]) -> int:
    """The member of a ring whose room shared with what should lie behind it is least."""
    ring = list(waiting)
    while rest := [i for i in ring if any(i in left[j] for j in ring)]:
        if len(rest) == len(ring):
            break
        ring = rest
    return min(ring, key=lambda i: sum(_shared(items[i].box, items[j].box) for j in left[i]))


def _shared(a: Box, b: Box) -> float:
    """Area that two boxes share, mm2."""
    wide, high = min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1])
    return max(wide, 0.0) * max(high, 0.0)
