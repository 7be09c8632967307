"""Every sheet about strength, as the registry of drawings wants them."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.lists import with_code
from flatpack.drawings.page import Sheet
from flatpack.drawings.settings import Settings
from flatpack.drawings.strength.diagrams import bending_drawing
from flatpack.drawings.strength.page import strength_page
from flatpack.drawings.strength.picture import use_picture
from flatpack.drawings.strength.table import strength_table
from flatpack.model import Assembly
from flatpack.strength import Report
from flatpack.wording import english_strength as words

FOLDER = "strength"


def sheets(assembly: Assembly, report: Report, settings: Settings) -> Iterator[Sheet]:
    """List, page, picture in greys and diagrams."""
    code, purposes = settings.code, words.PURPOSES
    table = with_code(strength_table(report), assembly, settings)
    used, bent = use_picture(assembly, report, code), bending_drawing(report, code)
    yield Sheet(folder="lists", name="strength", purpose=purposes["strength-list"], content=table,
                format="csv")  # fmt: skip
    page = strength_page(assembly, report, settings, (used, bent))
    yield Sheet(folder="", name=page.name, purpose=purposes["strength-page"], content=page,
                format="html")  # fmt: skip
    yield Sheet(folder=FOLDER, name=used.name, purpose=purposes["use-of-capacity"], content=used,
                format="svg")  # fmt: skip
    if report.diagrams:
        yield Sheet(folder=FOLDER, name=bent.name, purpose=purposes["diagrams"], content=bent,
                    format="svg")  # fmt: skip
