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

    def place(
        self, size: tuple[float, float], room: tuple[float, float], top: float
    ) -> tuple[float, float]:
        """Lower left of a panel of that size; (-1, -1) when there is no room.

        Only on shelves whose foot isn't above `top`.
        """
        width, height = size
        for shelf in self.shelves:
            if shelf.top - shelf.height > top + 1e-9:
                continue
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


def packed(
    sizes: Sequence[tuple[float, float]],
    room: tuple[float, float],
    kin: Sequence[int] | None = None,
    headed: bool = False,
) -> tuple[Put, ...]:
    """Where each panel goes, page by page in the order of the panels.

    `kin` are panels' families, each in one run (as they come, when not given): one of a family
    never stands on an earlier page, nor higher up on it, than those of its family before it.
    When `headed`, the first panel heads the first page.

    Raises:
        ValueError: a panel is larger than the room (a bug: `panels` cuts them to fit).
    """
    pages: list[_Page] = []
    puts: dict[int, Put] = {}
    runs = _runs(kin or range(len(sizes)))
    runs.sort(key=lambda run: (not headed or run[0] > 0, -max(sizes[i][1] for i in run), run[0]))
    for run in runs:
        last = Put(run[0], 0, 0.0, room[1])
        for number in run:
            last = puts[number] = _first(pages, sizes[number], room, last._replace(panel=number))
    return _in_order(list(puts.values()))


def _runs(kin: Sequence[int]) -> list[list[int]]:
    found: dict[int, list[int]] = {}
    for number, family in enumerate(kin):
        found.setdefault(family, []).append(number)
    return list(found.values())


def _first(
    pages: list[_Page], size: tuple[float, float], room: tuple[float, float], after: Put
) -> Put:
    """Place on the first page with room from that of `after` on, on that page below its top."""
    for index, page in enumerate(pages[after.page :], after.page):
        top = after.y if index == after.page else room[1]
        x, y = page.place(size, room, top)
        if x >= 0.0:
            return Put(after.panel, index, x, y)
    pages.append(_Page())
    x, y = pages[-1].place(size, room, room[1])
    if x < 0.0:
        raise ValueError(f"a panel of {size} doesn't fit a page of {room}")
    return Put(after.panel, len(pages) - 1, x, y)


def _in_order(puts: list[Put]) -> tuple[Put, ...]:
    """Pages numbered by the first panel that each holds."""
    firsts: dict[int, int] = {}
    for put in puts:
        firsts[put.page] = min(firsts.get(put.page, put.panel), put.panel)
    order = {page: i for i, page in enumerate(sorted(firsts, key=lambda p: firsts[p]))}
    return tuple(sorted((p._replace(page=order[p.page]) for p in puts), key=lambda p: p[:2]))
