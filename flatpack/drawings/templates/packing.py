"""Small windows share pages: panels in shelves, the tallest first, each on the first that has room.

+--------------------+
| [ 1 ] [ 2 ]        |   a shelf is as high as its first panel
| [   3    ] [4]     |
+--------------------+
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

GAP = 3.0
"""Room between panels, mm."""


class Put(NamedTuple):
    """A panel's number, its page, and its lower left from the content's lower left, mm."""

    panel: int
    page: int
    x: float
    y: float


@dataclass(slots=True)
class _Shelf:
    top: float
    height: float
    used: float = 0.0


@dataclass(slots=True)
class _Page:
    shelves: list[_Shelf] = field(default_factory=list)

    def place(self, size: tuple[float, float], room: tuple[float, float]) -> tuple[float, float]:
        """Lower left of a panel of that size; (-1, -1) when there is no room."""
        width, height = size
        for shelf in self.shelves:
            if height <= shelf.height + 1e-9 and shelf.used + width <= room[0] + 1e-9:
                return self._on(shelf, size)
        below = min((s.top - s.height - GAP for s in self.shelves), default=room[1])
        if height > below + 1e-9 or width > room[0] + 1e-9:
            return -1.0, -1.0
        self.shelves.append(_Shelf(below, height))
        return self._on(self.shelves[-1], size)

    def _on(self, shelf: _Shelf, size: tuple[float, float]) -> tuple[float, float]:
        x = shelf.used
        shelf.used += size[0] + GAP
        return x, shelf.top - size[1]


def packed(sizes: Sequence[tuple[float, float]], room: tuple[float, float]) -> tuple[Put, ...]:
    """Where each panel goes, page by page in the order of the panels.

    Raises:
        ValueError: a panel is larger than the room (a bug: `panels` cuts them to fit).
    """
    pages: list[_Page] = []
    puts: list[Put] = []
    for number in sorted(range(len(sizes)), key=lambda i: (-sizes[i][1], i)):
        puts.append(_first(pages, sizes[number], room, number))
    return _in_order(puts)


def _first(
    pages: list[_Page], size: tuple[float, float], room: tuple[float, float], number: int
) -> Put:
    for index, page in enumerate(pages):
        x, y = page.place(size, room)
        if x >= 0.0:
            return Put(number, index, x, y)
    pages.append(_Page())
    x, y = pages[-1].place(size, room)
    if x < 0.0:
        raise ValueError(f"a panel of {size} doesn't fit a page of {room}")
    return Put(number, len(pages) - 1, x, y)


def _in_order(puts: list[Put]) -> tuple[Put, ...]:
    """Pages numbered by the first panel that each holds."""
    firsts: dict[int, int] = {}
    for put in puts:
        firsts[put.page] = min(firsts.get(put.page, put.panel), put.panel)
    order = {page: i for i, page in enumerate(sorted(firsts, key=lambda p: firsts[p]))}
    return tuple(sorted((p._replace(page=order[p.page]) for p in puts), key=lambda p: p[:2]))
