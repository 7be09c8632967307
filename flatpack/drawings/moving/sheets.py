"""Every sheet of a moving back, as the registry of drawings wants them."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.moving.close_up import close_up_sheets
from flatpack.drawings.moving.facts import stop_facts
from flatpack.drawings.moving.moving_page import moving_page
from flatpack.drawings.moving.stops_sheet import stops_sheet
from flatpack.drawings.moving.stops_table import stops_table
from flatpack.drawings.page import Sheet
from flatpack.drawings.settings import Settings
from flatpack.mechanism.study import Study
from flatpack.model import Assembly
from flatpack.wording import english_moving as words

FOLDER = "moving"


def sheets(assembly: Assembly, made: Study | None, settings: Settings) -> Iterator[Sheet]:
    """Sheets, table and page; none for a piece that stands still.

    A back without any stop has the table alone, with the reason for each notch.
    """
    if made is None:
        return
    facts, code = stop_facts(assembly, made), settings.code
    table = stops_table(made, facts)
    purposes = {key: words.told(text, made.motion) for key, text in words.PURPOSES.items()}
    if table.rows:
        yield Sheet(folder="lists", name="stops", purpose=purposes["stops-table"], content=table,
                    format="csv")  # fmt: skip
    if made.path is None:
        return
    side = stops_sheet(assembly, made, facts, code)
    yield Sheet(folder=FOLDER, name=side.name, purpose=purposes["stops"], content=side,
                format="svg")  # fmt: skip
    for close in close_up_sheets(assembly, made, facts, code):
        yield Sheet(folder=FOLDER, name=close.name, purpose=purposes["close-ups"], content=close,
                    format="svg")  # fmt: skip
    page = moving_page(assembly, made, made.path, facts, code, settings.faulty)
    yield Sheet(folder="", name=page.name, purpose=purposes["page"], content=page, format="html")
