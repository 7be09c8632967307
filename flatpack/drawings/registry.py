"""Every sheet that a piece gets: hand-written rows, one per kind of drawing, table or page."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Literal

from flatpack.drawings import faulty, job_sheet, lists, saw_cuts, tools
from flatpack.drawings.board_layout import board_drawings
from flatpack.drawings.drilling_sheet import drilling_sheets
from flatpack.drawings.general_arrangement import general_arrangement
from flatpack.drawings.marks import PartGroup, groups, trial_groups
from flatpack.drawings.page import Sheet, Table
from flatpack.drawings.part_view import part_drawing, second_drawing
from flatpack.drawings.settings import Printed, Settings
from flatpack.drawings.shapes import Drawing
from flatpack.frozen import replace
from flatpack.model import Assembly, lying
from flatpack.wording import english as words
from flatpack.wording import english_folding

Found = tuple[PartGroup, ...]

#: Name of the table -> how it is made; on the terminal and as CSV.
TABLES: Mapping[str, Callable[[Assembly, Found, Settings], Table]] = {
    "cutting-list": lists.cutting_list,
    "timber": lists.timber_list,
    "bars": lists.bar_list,
    "hardware": lists.hardware_list,
    "drills": tools.drill_list,
    "jig-settings": lists.jig_settings,
    "saw-settings": saw_cuts.saw_settings,
    "tools": tools.tool_list,
    "spacers": lists.spacer_list,
    "workings": lists.workings,
    "holes": lists.hole_list,
    "job-sheet": job_sheet.job_table,
    "operations": job_sheet.operations_table,
}

WITH_TRIALS = frozenset({"cutting-list", "timber", "job-sheet", "operations"})
"""Tables that list what is cut first to try a fit, too."""


def _parts(assembly: Assembly, found: Found, settings: Settings) -> Iterator[Sheet]:
    for group in (*found, *trial_groups(assembly)):
        drawing = part_drawing(assembly, group, settings)
        yield _drawn("parts", "part", drawing, "dxf")
        yield _drawn("parts", "part-svg", drawing, "svg")
        second = second_drawing(assembly, group, settings)
        if second is not None:
            yield _drawn("parts", "second-face", second, "dxf")
            yield _drawn("parts", "second-face", second, "svg")


def _boards(assembly: Assembly, found: Found, settings: Settings) -> Iterator[Sheet]:
    every = (*found, *trial_groups(assembly))
    for drawing in board_drawings(assembly, every, settings):
        yield _drawn("boards", "board", drawing, "dxf")


def _drilling(assembly: Assembly, found: Found, settings: Settings) -> Iterator[Sheet]:
    for drawing in drilling_sheets(assembly, found, settings):
        yield _drawn("drilling", "drilling", drawing, "svg")


def _arrangement(assembly: Assembly, found: Found, settings: Settings) -> Iterator[Sheet]:
    for drawing in general_arrangement(assembly, settings.poses, settings.code, found):
        yield _drawn("arrangement", "arrangement", drawing, "svg")


def _moving(assembly: Assembly, found: Found, settings: Settings) -> Iterator[Sheet]:
    if settings.study is not None:
        from flatpack.drawings import moving

        yield from moving.sheets(assembly, settings.study, settings)


def _folding(assembly: Assembly, found: Found, settings: Settings) -> Iterator[Sheet]:
    if assembly.folding is not None:
        from flatpack.drawings.folding_sheet import folding_sheet

        drawing = folding_sheet(assembly, lying(assembly), settings.code)
        yield Sheet(folder="arrangement", name=drawing.name, purpose=english_folding.PURPOSE,
                    content=drawing, format="svg")  # fmt: skip


def _book(assembly: Assembly, found: Found, settings: Settings) -> Iterable[Sheet]:
    from flatpack.drawings.book import BookSettings, sheets

    asked = BookSettings(drawing=settings)
    if settings.finishing is not None:
        glue, finish, sealer, units = settings.finishing
        asked = BookSettings(drawing=settings, units=units, glue=glue, finish=finish, sealer=sealer)
    return sheets(assembly, settings.study, settings.findings, asked)


def _templates(assembly: Assembly, found: Found, settings: Settings) -> Iterable[Sheet]:
    return templates(assembly, settings).sheets


def templates(assembly: Assembly, settings: Settings) -> Printed:
    """Templates to print at full size, and what can't be printed as asked."""
    from flatpack.drawings.templates import PrintSettings, template_sheets

    printing = settings.printing or PrintSettings()
    asked = replace(printing, code=settings.code, faulty=settings.faulty)
    if settings.printed is not None and settings.printed.asked == asked:
        return settings.printed
    return Printed(asked, *template_sheets(assembly, asked))


def _lists(assembly: Assembly, found: Found, settings: Settings) -> Iterator[Sheet]:
    for name, make in TABLES.items():
        trials = trial_groups(assembly) if name in WITH_TRIALS else ()
        table = make(assembly, (*found, *trials), settings)
        if table.rows:
            coded = lists.with_code(table, assembly, settings)
            yield Sheet(folder="lists", name=name, purpose=words.PURPOSES[name], content=coded,
                        format="csv")  # fmt: skip


def _job_page(assembly: Assembly, found: Found, settings: Settings) -> Iterator[Sheet]:
    page = job_sheet.job_page(assembly, (*found, *trial_groups(assembly)), settings)
    yield Sheet(folder="", name=page.name, purpose=words.PURPOSES["job-page"], content=page,
                format="html")  # fmt: skip


def _strength(assembly: Assembly, found: Found, settings: Settings) -> Iterable[Sheet]:
    if settings.strength is None:
        return ()
    from flatpack.drawings import strength

    return strength.sheets(assembly, settings.strength, settings)


#: Kind of sheet -> what makes its sheets.
DRAWINGS: Mapping[str, Callable[[Assembly, Found, Settings], Iterable[Sheet]]] = {
    "parts": _parts,
    "boards": _boards,
    "drilling": _drilling,
    "arrangement": _arrangement,
    "moving": _moving,
    "folding": _folding,
    "lists": _lists,
    "job-page": _job_page,
    "templates": _templates,
    "book": _book,
    "strength": _strength,
}


OF_PARTS = frozenset(("parts", "boards", "drilling", "lists", "job-page", "templates"))
"""Kinds that show parts by themselves: the only ones for loose parts."""


def drawings(
    assembly: Assembly, settings: Settings, only: Iterable[str] = DRAWINGS
) -> tuple[Sheet, ...]:
    """The sheets of the kinds asked for, all unless told.

    The drawings of a faulty design say that they aren't for cutting.
    """
    found, kinds = groups(assembly), frozenset(only)
    kinds = kinds & OF_PARTS if assembly.loose else kinds
    makers = (make for kind, make in DRAWINGS.items() if kind in kinds)
    every = (s for make in makers for s in make(assembly, found, settings))
    return tuple(map(_not_for_cutting, every)) if settings.faulty else tuple(every)


def _not_for_cutting(sheet: Sheet) -> Sheet:
    if isinstance(sheet.content, Drawing):
        return replace(sheet, content=faulty.across(sheet.content))
    return sheet


def _drawn(folder: str, purpose: str, drawing: Drawing, form: Literal["dxf", "svg"]) -> Sheet:
    return Sheet(folder=folder, name=drawing.name, purpose=words.PURPOSES[purpose],
                 content=drawing, format=form)  # fmt: skip
