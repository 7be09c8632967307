"""The dining table's keys."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import record
from flatpack.pieces.common.slatted.keys import Boards, Fixings, Legs, Rails, Top, construction
from flatpack.pieces.finishing import Finishing


@record
class Size:
    """Overall size."""

    length: float = keys.length(1560.0, least=600, most=2600, does="overall, along the slats")
    width: float = keys.length(800.0, least=450, most=1200, does="overall, across the slats")
    height: float = keys.length(750.0, least=450, most=1150, does="ground to the top")


@record
class DiningTable:
    """A slatted table to sit at; a dining bench made to match slides in between its legs."""

    name: str = keys.text("Dining table", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    construction: str = construction()
    size: Size = keys.table(Size)
    boards: Boards = keys.table(Boards)
    legs: Legs = keys.table(Legs)
    rails: Rails = keys.table(Rails)
    top: Top = keys.table(Top)
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
