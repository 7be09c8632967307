"""What can't be printed as asked: findings that say why and which paper would do."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from flatpack.drawings.figures import mm
from flatpack.drawings.templates.paper import Paper, larger, paper_named
from flatpack.drawings.templates.setup import PrintSettings, Stretch, page_area
from flatpack.finding import Finding
from flatpack.wording import english_templates as words

LEAST_ROOM = 90.0
"""Least width and height of the content that holds a window with its words, mm."""
_MOST_OFF = 0.1
"""A print further off than this share is no printer's error but a wrong measurement."""
_SOURCE = "common practice, no source"


def setting_findings(settings: PrintSettings) -> Iterator[Finding]:
    """Faults of paper, margins and measured rulers, before anything is laid out."""
    try:
        paper = paper_named(settings.paper)
    except ValueError as error:
        yield _fault("template-paper", str(error))
        return
    off = settings.margin + settings.border
    if not min(settings.margin, settings.border) >= 0.0:
        yield _fault("template-margin", words.MARGIN_BELOW_NOUGHT)
    elif 2.0 * off >= paper.short:
        message = words.margins_meet(mm(settings.margin), mm(settings.border), paper.name)
        yield _fault("template-margin", message, 2.0 * off, paper.short, _remedy(paper, settings))
    elif not has_room(paper, settings):
        room = min(_rooms(paper, settings))
        yield _fault("template-paper", words.paper_too_small(paper.name), room, LEAST_ROOM,
                     _remedy(paper, settings))  # fmt: skip


def printed_findings(settings: PrintSettings, stretch: Stretch) -> Iterator[Finding]:
    """A measured ruler that can't be right."""
    sides = zip(("short", "long"), stretch, settings.printed or (), strict=False)
    for side, factor, measured in sides:
        if not abs(factor - 1.0) <= _MOST_OFF:
            wanted = measured * factor
            sure = math.isfinite(wanted)
            yield _fault("template-printed", words.printed_wrong(side), measured if sure else None,
                         wanted if sure else None, words.MEASURE_AGAIN)  # fmt: skip


def has_room(paper: Paper, settings: PrintSettings) -> bool:
    """True when a window with its words fits the paper, upright and lying."""
    return min(_rooms(paper, settings)) >= LEAST_ROOM


def _rooms(paper: Paper, settings: PrintSettings) -> tuple[float, ...]:
    if paper.roll:
        return page_area(paper, settings, True, 1000.0).room
    return page_area(paper, settings, False).room


def next_paper(paper: Paper, fits: Callable[[Paper], bool]) -> str:
    """The next paper that would do, in words; empty when none does."""
    found = next(filter(fits, larger(paper)), None)
    return words.would_do(found.name) if found else ""


def _remedy(paper: Paper, settings: PrintSettings) -> str:
    return next_paper(paper, lambda p: has_room(p, settings)) or words.SMALLER_MARGIN


def _fault(
    code: str,
    message: str,
    measured: float | None = None,
    limit: float | None = None,
    remedy: str = "",
) -> Finding:
    return Finding(code, "fault", "", message, measured, limit, "mm", _SOURCE, remedy)
