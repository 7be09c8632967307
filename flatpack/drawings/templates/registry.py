"""Files that the templates make: a PDF of each booklet, and each page as SVG."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.page import Booklet, Sheet
from flatpack.drawings.templates.setup import PrintSettings
from flatpack.drawings.templates.sheets import sheets
from flatpack.finding import Finding
from flatpack.model import Assembly
from flatpack.wording import english_templates as words

FOLDER = "templates"


def template_sheets(
    assembly: Assembly, settings: PrintSettings
) -> tuple[tuple[Sheet, ...], tuple[Finding, ...]]:
    """Every file to write, and what can't be printed as asked."""
    printed = sheets(assembly, settings)
    files = tuple(sheet for booklet in printed.booklets for sheet in _files(booklet))
    return files, printed.findings


def _files(booklet: Booklet) -> Iterator[Sheet]:
    purpose = words.PURPOSES[booklet.name]
    yield Sheet(folder=FOLDER, name=booklet.name, purpose=purpose, content=booklet, format="pdf")
    for page, size in zip(booklet.pages, booklet.sizes, strict=True):
        one = Booklet(name=page.name, title=page.title, pages=(page,), sizes=(size,))
        yield Sheet(folder=f"{FOLDER}/svg", name=page.name, purpose=purpose, content=one,
                    format="svg")  # fmt: skip
