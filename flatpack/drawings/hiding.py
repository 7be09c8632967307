"""The order in which bodies are painted, so that nearer ones hide those behind.

Two bodies whose boxes share no room are parted by one of their twelve faces.  With n that face's
outward direction, what lies beyond it is nearer to the reader when n points towards him:

        | B        n -> reader        B is painted after A
      A |
        n
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.boxes import Box, meet
from flatpack.drawings.projection import Body, View, view_box
from flatpack.geometry import Vec

_TOUCH = 0.05
"""Bodies that lie closer than this count as touching, mm."""


class _Item(NamedTuple):
    body: Body
    corners: tuple[Vec, ...]
    box: Box
    far: float
    near: float


def painted(bodies: tuple[Body, ...], view: View) -> tuple[Body, ...]:
    """The bodies, furthest first."""
    items = [_item(body, view) for body in bodies]
    behind: list[set[int]] = [set() for _ in items]  # what must be painted before each
    for i, j in _meeting(items):
        order = _nearer(items[i], items[j], view)
        if order > 0.0:
            behind[i].add(j)
        elif order < 0.0:
            behind[j].add(i)
    return tuple(items[i].body for i in _sorted(items, behind))


def _meeting(items: list[_Item]) -> Iterator[tuple[int, int]]:
    """Pairs whose boxes share room on the paper, swept from left to right."""
    open_items: list[int] = []
    for i in sorted(range(len(items)), key=lambda i: items[i].box[0]):
        box = items[i].box
        open_items = [j for j in open_items if items[j].box[2] > box[0]]
        yield from ((i, j) for j in open_items if meet(box, items[j].box))
        open_items.append(i)


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
    return best


def _sorted(items: list[_Item], behind: list[set[int]]) -> list[int]:
    """Furthest first; where bodies hide one another in a ring, the one that ends furthest off."""
    waiting = sorted(range(len(items)), key=lambda i: (items[i].near, items[i].far, i))
    left = [set(b) for b in behind]
    order: list[int] = []
    while waiting:
        free = next((i for i in waiting if not left[i]), waiting[0])
        waiting.remove(free)
        order.append(free)
        for others in left:
            others.discard(free)
    return order
