"""Everything that is printed at full size: templates, story sticks, labels, as numbered pages.

`sheets` is the way in: it chooses upright or lying pages, whichever are fewer, and says what
can't be printed as asked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import NamedTuple

from flatpack.drawings import faulty
from flatpack.drawings.lettering import text_width
from flatpack.drawings.marks import PartGroup, bar_groups, groups
from flatpack.drawings.page import Booklet
from flatpack.drawings.shapes import Drawing, Stroke
from flatpack.drawings.templates.bad_input import (
    next_paper,
    printed_findings,
    setting_findings,
)
from flatpack.drawings.templates.packing import GAP, packed
from flatpack.drawings.templates.page_frame import Heading, name_room, page_frame
from flatpack.drawings.templates.panel import Panel, Shown
from flatpack.drawings.templates.panels import panels, plain_pages, reach, tiled
from flatpack.drawings.templates.paper import ROLL_LONGEST, Paper, paper_named
from flatpack.drawings.templates.part_labels import grid, label_strokes, labels
from flatpack.drawings.templates.setup import (
    AS_IT_IS,
    Area,
    PrintSettings,
    Stretch,
    correction,
    page_area,
)
from flatpack.drawings.templates.stick_marks import sticks
from flatpack.drawings.templates.stick_rows import row_height, row_strokes, rows
from flatpack.drawings.templates.tiles import Tile
from flatpack.finding import Finding
from flatpack.model import Assembly
from flatpack.wording import english_templates as words

Content = tuple[Stroke, ...]
Layout = list[Content]
"""Strokes of each page's content, in the page's own mm."""


class Printed(NamedTuple):
    """Booklets to write (none that would be empty), findings, and pages used and saved.

    `pages` and `plain` count pages of templates with windows, and with whole parts tiled.
    """

    booklets: tuple[Booklet, ...]
    findings: tuple[Finding, ...]
    pages: int
    plain: int


class _Job(NamedTuple):
    assembly: Assembly
    found: tuple[PartGroup, ...]
    settings: PrintSettings
    paper: Paper
    stretch: Stretch

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


def sheets(assembly: Assembly, settings: PrintSettings) -> Printed:
    """Templates, story sticks and labels of a piece, on the paper of the settings."""
    faults = tuple(setting_findings(settings))
    if faults:
        return Printed((), faults, 0, 0)
    first = _Job(assembly, groups(assembly), settings, paper_named(settings.paper), AS_IT_IS)
    stretch = correction(first.area(first.turns[0]), settings.printed)
    faults = tuple(printed_findings(settings, stretch))
    if faults:
        return Printed((), faults, 0, 0)
    return _printed(first._replace(stretch=stretch))


def _printed(job: _Job) -> Printed:
    booklets, counts = [], {}
    for name, title, make in (
        ("templates", words.TEMPLATES, _templates),
        ("story-sticks", words.STICKS, _sticks),
        ("part-labels", words.LABELS, _labels),
    ):
        area, pages = _fewest(job, make)
        counts[name] = len(pages)
        if pages:
            booklets.append(_booklet(job, name, title, area, pages))
    room = job.area(job.turns[0]).room
    plain = plain_pages(job.found, room)
    findings = (*_name_findings(job), *_tile_findings(job), *_saved(job, counts, plain))
    return Printed(tuple(booklets), findings, counts["templates"], plain)


def _fewest(job: _Job, make: Callable[[_Job, Area], Layout | None]) -> tuple[Area, Layout]:
    """The way to lay the pages that takes fewest; upright when both take the same."""
    tried = [(area, make(job, area)) for area in map(job.area, job.turns)]
    done = [(area, pages) for area, pages in tried if pages is not None]
    if not done:
        return job.area(job.turns[0]), []
    return min(done, key=lambda one: len(one[1]))


def _panels(job: _Job, area: Area) -> tuple[Panel, ...] | None:
    return panels(job.found, job.assembly.name, job.settings.code, area.room)


def _templates(job: _Job, area: Area) -> Layout | None:
    made = _panels(job, area)
    puts = None if made is None else packed([p.size for p in made], area.room)
    if made is None or puts is None:
        return None
    pages: Layout = [() for _ in range(max((p.page + 1 for p in puts), default=0))]
    x0, y0, _, _ = area.content
    for put in puts:
        pages[put.page] += tuple(made[put.panel].strokes(x0 + put.x, y0 + put.y))
    return pages


def _sticks(job: _Job, area: Area) -> Layout:
    x0, _, _, top = area.content
    low = area.content[1] + _LEGEND
    pages: Layout = []
    y = low
    for stick in sticks(job.assembly, job.found):
        high = row_height(stick)
        for row in rows(stick, area.room[0]):
            if not pages or y - high < low:
                pages.append(tuple(_legend(area)))
                y = top
            pages[-1] += tuple(row_strokes(row, x0, y - high, job.tail))
            y -= high + GAP
    return pages


_LEGEND = 14.0


def _legend(area: Area) -> Iterator[Stroke]:
    from flatpack.drawings.templates.wrapping import block
    from flatpack.geometry import Point

    x0, y0, x1, _ = area.content
    yield from block(
        [(" ".join(words.STICK_LEGEND), 1.8, False)], Point(x0, y0 + _LEGEND - 2.0), x1 - x0
    )


def _labels(job: _Job, area: Area) -> Layout:
    columns, lines = grid(area.room)
    x0, _, _, y1 = area.content
    wide, high = area.room[0] / columns, area.room[1] / lines
    pages: Layout = []
    every = labels(job.assembly, job.found, bar_groups(job.assembly), job.tail)
    for number, label in enumerate(every):
        page, place = divmod(number, columns * lines)
        line, column = divmod(place, columns)
        if page == len(pages):
            pages.append(())
        at = x0 + column * wide, y1 - (line + 1) * high
        pages[page] += tuple(label_strokes(label, *at, wide - 1.0, high - 1.0))
    return pages


def _booklet(job: _Job, name: str, title: str, area: Area, pages: Layout) -> Booklet:
    made = []
    for number, content in enumerate(pages, 1):
        sheet = words.sheet_of(number, len(pages), job.paper.name)
        heading = Heading(job.assembly.name, title, job.settings.code, job.assembly.date, sheet)
        strokes = (*page_frame(area, heading, job.stretch), *content)
        notes = (("piece", job.assembly.name), ("code", job.settings.code), ("sheet", sheet))
        drawing = Drawing(f"{name}-{number:02}", f"{title}, {sheet}",
                          (0.0, 0.0, area.width, area.height), strokes, notes)  # fmt: skip
        made.append(faulty.across(drawing) if job.settings.faulty else drawing)
    return Booklet(name=name, title=f"{job.assembly.name}: {title}", pages=tuple(made),
                   size=area.file)  # fmt: skip


def _name_findings(job: _Job) -> Iterator[Finding]:
    def fits(paper: Paper) -> bool:
        other = job._replace(paper=paper)
        return width <= name_room(other.area(other.turns[0]))

    width = text_width(job.assembly.name, 1.8)
    if not fits(job.paper):
        room = name_room(job.area(job.turns[0]))
        yield Finding("template-text", "warning", "", words.name_too_long(job.paper.name), width,
                      room, remedy=next_paper(job.paper, fits) or words.SHORTER_NAME)  # fmt: skip


def _tile_findings(job: _Job) -> Iterator[Finding]:
    """Windows that take several sheets, and the paper that would take each in one."""
    area, _ = _fewest(job, _templates)
    for panel in tiled(_panels(job, area) or ()):
        yield _tiled(job, panel)


def _tiled(job: _Job, panel: Panel) -> Finding:
    window, count = panel.window, panel.shown[0].tile.count
    whole = replace(panel, shown=(Shown(window, Tile(window.box)),))

    def fits(paper: Paper) -> bool:
        other = job._replace(paper=paper)
        rooms = (other.area(turn).room for turn in other.turns)
        return any(whole.size[0] <= w and whole.size[1] <= h for w, h in rooms)

    message = words.in_tiles(count, job.paper.name)
    return Finding("template-tiles", "note", window.part.key, f"{message} ({reach(window.box)})",
                   remedy=next_paper(job.paper, fits))  # fmt: skip


def _saved(job: _Job, counts: dict[str, int], plain: int) -> Iterator[Finding]:
    if counts["templates"]:
        said = words.pages_used(words.TEMPLATES, counts["templates"], plain, job.paper.name)
        yield Finding("template-pages", "note", "", said, counts["templates"], plain, "pages")
