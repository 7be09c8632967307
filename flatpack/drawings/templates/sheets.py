"""Everything that is printed at full size: templates, story sticks, labels, as numbered pages.

`sheets` is the way in: it chooses upright or lying pages, whichever are fewer, and says what
can't be printed as asked.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from flatpack.drawings import faulty
from flatpack.drawings.marks import groups
from flatpack.drawings.page import Booklet
from flatpack.drawings.shapes import Drawing
from flatpack.drawings.templates.bad_input import printed_findings, setting_findings
from flatpack.drawings.templates.in_piece import in_piece
from flatpack.drawings.templates.laying_out import (
    Job,
    Layout,
    Maker,
    Page,
    part_labels,
    story_sticks,
    templates,
)
from flatpack.drawings.templates.no_room import room_findings
from flatpack.drawings.templates.page_frame import Heading, page_frame
from flatpack.drawings.templates.panels import plain_pages
from flatpack.drawings.templates.paper import paper_named
from flatpack.drawings.templates.setup import AS_IT_IS, PrintSettings, correction
from flatpack.finding import Finding
from flatpack.model import Assembly
from flatpack.wording import english_templates as words

BOOKLETS: Mapping[str, tuple[str, Maker]] = {
    "templates": (words.TEMPLATES, templates),
    "story-sticks": (words.STICKS, story_sticks),
    "part-labels": (words.LABELS, part_labels),
}
"""Name of a booklet -> its title, and what lays out its pages."""


class Printed(NamedTuple):
    """Booklets to write (none that would be empty), findings, and pages used and saved.

    `pages` and `plain` count pages of templates with windows, and with whole parts tiled.
    """

    booklets: tuple[Booklet, ...]
    findings: tuple[Finding, ...]
    pages: int
    plain: int


def sheets(assembly: Assembly, settings: PrintSettings) -> Printed:
    """Templates, story sticks and labels of a piece, on the paper of the settings."""
    faults = tuple(setting_findings(settings))
    if faults:
        return Printed((), faults, 0, 0)
    found = groups(assembly)
    told = in_piece(assembly, found)
    first = Job(assembly, found, settings, paper_named(settings.paper), AS_IT_IS, {}, told)
    # Pages lying have other rulers than upright ones: which were measured, the lengths tell.
    stretch = min(
        (correction(first.area(turn), settings.printed) for turn in first.turns),
        key=lambda s: max(abs(s.short - 1.0), abs(s.long - 1.0)),
    )
    faults = tuple(printed_findings(settings, stretch))
    if faults:
        return Printed((), faults, 0, 0)
    return _printed(first._replace(stretch=stretch))


def _printed(job: Job) -> Printed:
    laid = {name: make(job) for name, (_, make) in BOOKLETS.items()}
    booklets = tuple(
        _booklet(job, name, BOOKLETS[name][0], pages) for name, pages in laid.items() if pages
    )
    used = len(laid["templates"] or ())
    plain = plain_pages(job.found, job.area(job.turns[0]).room)
    findings = [*room_findings(job)]
    if used:
        said = words.pages_used(words.TEMPLATES, used, plain, job.paper.name)
        findings.append(Finding("template-pages", "note", "", said, used, plain, "pages"))
    return Printed(booklets, tuple(findings), used, plain)


def _booklet(job: Job, name: str, title: str, pages: Layout) -> Booklet:
    made = tuple(
        _drawing(
            job,
            f"{name}-{number:02}",
            title,
            words.sheet_of(number, len(pages), job.paper.name),
            page,
        )
        for number, page in enumerate(pages, 1)
    )
    return Booklet(
        name=name,
        title=f"{job.assembly.name}: {title}",
        pages=made,
        sizes=tuple(page.area.file for page in pages),
    )


def _drawing(job: Job, name: str, title: str, sheet: str, page: Page) -> Drawing:
    piece, code = job.assembly.name, job.settings.code
    heading = Heading(piece, title, code, job.assembly.date, sheet)
    drawn = (stroke for draw in page.content for stroke in draw())
    strokes = (*page_frame(page.area, heading, job.stretch), *drawn)
    notes = (("piece", piece), ("code", code), ("sheet", sheet))
    bounds = (0.0, 0.0, page.area.width, page.area.height)
    drawing = Drawing(name, f"{title}, {sheet}", bounds, strokes, notes)
    return faulty.across(drawing) if job.settings.faulty else drawing
