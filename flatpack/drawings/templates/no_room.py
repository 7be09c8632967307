"""Windows and names that the paper is too small for, and the next paper that would do."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.lettering import text_width
from flatpack.drawings.templates.bad_input import next_paper
from flatpack.drawings.templates.laying_out import Job, faces_of
from flatpack.drawings.templates.page_frame import name_room
from flatpack.drawings.templates.panel import Panel, Shown
from flatpack.drawings.templates.panels import reach, tiled
from flatpack.drawings.templates.paper import Paper
from flatpack.drawings.templates.setup import Area
from flatpack.drawings.templates.tiles import Tile
from flatpack.finding import Finding
from flatpack.frozen import replace
from flatpack.wording import english_templates as words

_SOURCE = "geometry"


def room_findings(job: Job) -> Iterator[Finding]:
    """What doesn't fit the paper, on upright pages (on a roll: along it)."""
    yield from _names(job)
    faces = faces_of(job, job.turns[0])
    if not _possible(job):
        yield from _no_room(job)
    for panel in tiled(p for face in faces for p in face or ()):
        yield _in_tiles(job, panel)


def _possible(job: Job) -> bool:
    """True when each face can be put on the paper one way or the other."""
    ways = [faces_of(job, turn) for turn in job.turns]
    return all(any(face is not None for face in faces) for faces in zip(*ways, strict=True))


def _no_room(job: Job) -> Iterator[Finding]:
    """A fault for each part with a window that can't be put on the paper even in tiles."""

    def all_fit(paper: Paper) -> bool:
        return _possible(job.on(paper))

    for group in job.found:
        if not _possible(job.alone(group)):
            message = words.no_room(f"{group.mark}, {group.part.name}", job.paper.name)
            yield Finding("template-window", "fault", group.part.key, message, source=_SOURCE,
                          remedy=next_paper(job.paper, all_fit))  # fmt: skip


def _names(job: Job) -> Iterator[Finding]:
    width = text_width(job.assembly.name, 1.8)

    def fits(paper: Paper) -> bool:
        other = job.on(paper)
        return width <= name_room(other.area(other.turns[0]))

    if not fits(job.paper):
        room = name_room(job.area(job.turns[0]))
        yield Finding("template-text", "warning", "", words.name_too_long(job.paper.name), width,
                      room, remedy=next_paper(job.paper, fits) or words.SHORTER_NAME)  # fmt: skip


def _in_tiles(job: Job, panel: Panel) -> Finding:
    window, count = panel.window, panel.shown[0].tile.sheets

    def in_one(paper: Paper) -> bool:
        other = job.on(paper)
        return any(_holds(other.area(turn)) for turn in other.turns)

    def _holds(area: Area) -> bool:
        shown = (Shown(window, Tile(window.box)),)
        width, height = replace(panel, shown=shown, most=area.room[0]).size
        return width <= area.room[0] and height <= area.room[1]

    message = words.in_tiles(count, job.paper.name)
    return Finding("template-tiles", "note", window.part.key, f"{message} ({reach(window.box)})",
                   source=_SOURCE, remedy=next_paper(job.paper, in_one))  # fmt: skip
