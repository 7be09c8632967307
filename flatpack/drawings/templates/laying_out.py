"""Content of the pages, to be drawn once it is known which way the paper lies best."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import NamedTuple

from flatpack.drawings.marks import PartGroup, bar_groups
from flatpack.drawings.shapes import Stroke
from flatpack.drawings.templates.guide import Guide
from flatpack.drawings.templates.in_piece import InPiece
from flatpack.drawings.templates.packing import GAP, packed
from flatpack.drawings.templates.panel import Panel
from flatpack.drawings.templates.panels import panels
from flatpack.drawings.templates.paper import ROLL_LONGEST, Paper
from flatpack.drawings.templates.part_labels import grid, label_strokes, labels
from flatpack.drawings.templates.setup import Area, PrintSettings, Stretch, page_area
from flatpack.drawings.templates.stick_marks import sticks
from flatpack.drawings.templates.stick_rows import row_height, row_strokes, rows
from flatpack.drawings.templates.wrapping import block
from flatpack.geometry import Point
from flatpack.model import Assembly
from flatpack.wording import english_templates as words

Drawn = Callable[[], Iterable[Stroke]]
"""Something on a page that is drawn when it is called."""


class Page(NamedTuple):
    """A page and what stands on it."""

    area: Area
    content: list[Drawn]


Layout = list[Page]
_LEGEND = 17.0


Faces = tuple[tuple[Panel, ...] | None, ...]
"""Panels of each worked face; None for a face that can't be put on the page."""


class Job(NamedTuple):
    """A piece to print on a paper, `stretch` for a printer that isn't true.

    `known` keeps the panels of each way that a page may lie, once they have been worked out.
    """

    assembly: Assembly
    found: tuple[PartGroup, ...]
    settings: PrintSettings
    paper: Paper
    stretch: Stretch
    known: dict[bool, Faces]
    told: InPiece

    def on(self, paper: Paper) -> Job:
        """The same on another paper."""
        return self._replace(paper=paper, known={})

    def alone(self, group: PartGroup) -> Job:
        """Only these parts."""
        return self._replace(found=(group,), known={})

    @property
    def tail(self) -> str:
        """Piece and code."""
        return " ".join(t for t in (self.assembly.name, self.settings.code) if t)

    def area(self, landscape: bool) -> Area:
        """A page; on a roll it lies along the roll, as long as the longest part needs."""
        longest = max((p.length for p in self.assembly.parts.values()), default=0.0)
        length = min(max(longest + 80.0, self.paper.short), ROLL_LONGEST)
        return page_area(self.paper, self.settings, landscape, length, self.stretch)

    @property
    def turns(self) -> tuple[bool, ...]:
        """Ways a page may lie: False upright, True lying."""
        return (True,) if self.paper.roll else (False, True)


Maker = Callable[[Job], Layout | None]


def _fewest(job: Job, make: Callable[[Job, Area], Layout]) -> Layout:
    """The way to lay the pages that takes fewest; upright when both take the same."""
    return min((make(job, job.area(turn)) for turn in job.turns), key=len)


def faces_of(job: Job, turn: bool) -> Faces:
    """Panels of each worked face on pages that lie so."""
    if turn not in job.known:
        room = job.area(turn).room
        job.known[turn] = panels(job.found, job.told, room)
    return job.known[turn]


def templates(job: Job) -> Layout | None:
    """Windows, several to a page where they fit, on upright and lying pages as takes fewest."""
    ways = [faces_of(job, turn) for turn in job.turns]
    tries = [_same_way(job, turn, ways[i]) for i, turn in enumerate(job.turns)]
    if len(ways) == 2:
        tries.append(_both_ways(job, ways[0], ways[1]))
    return min((t for t in tries if t is not None), key=len, default=None)


def _same_way(job: Job, turn: bool, faces: Faces) -> Layout | None:
    made = [face for face in faces if face is not None]
    return _paged(job, turn, made) if len(made) == len(faces) else None


def _both_ways(
    job: Job,
    upright: Faces,
    lying: Faces,
) -> Layout | None:
    """Each face the way in which it takes less of its pages."""
    rooms = [job.area(turn).room for turn in (False, True)]
    chosen: tuple[list[tuple[Panel, ...]], list[tuple[Panel, ...]]] = ([], [])
    for ways in zip(upright, lying, strict=True):
        costs = [
            (_share(face, room), i)
            for i, (face, room) in enumerate(zip(ways, rooms, strict=True))
            if face is not None
        ]
        if not costs:
            return None
        best = min(costs)[1]
        chosen[best].append(ways[best] or ())
    upright_pages = _paged(job, False, chosen[0])
    return upright_pages + _paged(job, True, chosen[1], headed=not upright_pages)


def _share(face: tuple[Panel, ...], room: tuple[float, float]) -> float:
    """Pages that the panels of a face take: one higher than half a page leaves no room below."""
    share = 0.0
    for width, high in (panel.size for panel in face):
        down = max(int((room[1] + GAP) / (high + GAP)), 1)
        across = max(int((room[0] + GAP) / (width + GAP)), 1)
        share += 1.0 / (down * across)
    return round(share, 6)


def _paged(job: Job, turn: bool, faces: Iterable[tuple[Panel, ...]], headed: bool = True) -> Layout:
    """The panels on pages; a part's own in a run, or hands in turn where that takes fewer."""
    made = [panel for face in faces for panel in face]
    if not made:
        return []
    return min((_put(job, turn, *way, headed) for way in (by_mark(made), in_turn(made))), key=len)


Family = tuple[list[Panel], list[str]]
"""Panels in the order in which they go on pages, and what each is kin by."""


def by_mark(made: list[Panel]) -> Family:
    """Each part's panels together."""
    return made, [panel.marks for panel in made]


def in_turn(made: list[Panel]) -> Family:
    """Both hands' first panels, then their second ones, and so on."""
    stems = [panel.groups[0].mark.rsplit("-", 1)[0] for panel in made]
    nth = [sum(p.marks == panel.marks for p in made[:i]) for i, panel in enumerate(made)]
    order = sorted(range(len(made)), key=lambda i: (stems.index(stems[i]), nth[i], i))
    return [made[i] for i in order], [stems[i] for i in order]


def _put(job: Job, turn: bool, made: list[Panel], kin: list[str], headed: bool) -> Layout:
    area = job.area(turn)
    guide = Guide(width=area.room[0], bearing=job.assembly.bearing)
    headed = headed and guide.size[1] <= area.room[1]
    every: list[Panel | Guide] = [guide, *made] if headed else [*made]
    names = [""] * headed + kin
    order = {name: i for i, name in enumerate(dict.fromkeys(names))}
    puts = packed([p.size for p in every], area.room, [order[name] for name in names], headed)
    pages: Layout = [Page(area, []) for _ in range(max(p.page + 1 for p in puts))]
    x0, y0, _, _ = area.content
    for put in puts:
        pages[put.page].content.append(partial(every[put.panel].strokes, x0 + put.x, y0 + put.y))
    return pages


def story_sticks(job: Job) -> Layout:
    """Rows of all sticks, from the top of each page, the legend at its foot."""
    return _fewest(job, _rows)


def part_labels(job: Job) -> Layout:
    """Labels in columns and rows."""
    return _fewest(job, _labels)


def _rows(job: Job, area: Area) -> Layout:
    x0, _, _, top = area.content
    low = area.content[1] + _LEGEND
    pages: Layout = []
    y = low
    for stick in sticks(job.assembly, job.found):
        high = row_height(stick)
        for row in rows(stick, area.room[0]):
            if not pages or y - high < low:
                pages.append(Page(area, [partial(_legend, area)]))
                y = top
            pages[-1].content.append(partial(row_strokes, row, x0, y - high, job.tail))
            y -= high + GAP
    return pages


def _legend(area: Area) -> Iterator[Stroke]:
    x0, y0, x1, _ = area.content
    texts = [(" ".join(words.STICK_LEGEND), 1.8, False)]
    return block(texts, Point(x0, y0 + _LEGEND - 2.0), x1 - x0)


def _labels(job: Job, area: Area) -> Layout:
    columns, lines = grid(area.room)
    count = len(job.assembly.parts) + len(job.assembly.bars)
    on_page = columns * lines
    return [
        Page(area, [partial(_label_page, job, area, first)]) for first in range(0, count, on_page)
    ]


def _label_page(job: Job, area: Area, first: int) -> Iterator[Stroke]:
    columns, lines = grid(area.room)
    x0, _, _, y1 = area.content
    wide, high = area.room[0] / columns, area.room[1] / lines
    every = labels(job.assembly, job.found, bar_groups(job.assembly), job.tail)
    for place, label in enumerate(every[first : first + columns * lines]):
        line, column = divmod(place, columns)
        at = x0 + column * wide, y1 - (line + 1) * high
        yield from label_strokes(label, *at, wide - 1.0, high - 1.0)
