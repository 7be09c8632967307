"""The dining bench's keys."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import record
from flatpack.pieces.common.slatted.keys import Boards, Fixings, Legs, Rails, Top, construction
from flatpack.pieces.finishing import Finishing


@record
class Table:
    """The table that it matches, as it stands there: measure it, or see its sheet of workings."""

    height: float = keys.length(750.0, least=450, most=1150, does="ground to the table's top")
    length: float = keys.length(1560.0, least=600, most=2600, does="the table's overall length")
    clear: float = keys.length(
        1386.0, least=300, most=2500, does="between the table's legs, where the bench slides in"
    )
    under: float | None = keys.length(
        None, least=200, most=1100, does="ground to the table's aprons; left out: not looked at"
    )


@record
class Seat:
    """Its own size, as far as the table leaves it open."""

    below_table: float = keys.length(
        290.0, least=150, most=500, does="table's top to the seat's top; gives the seat's height"
    )
    depth: float = keys.length(400.0, least=300, most=600, does="across the slats")
    room: float = keys.length(
        14.0, least=3, most=100, does="free at each end, between bench and the table's legs"
    )
    length: float | None = keys.length(
        None, least=350, most=2500, does="left out: as long as slides in between the legs"
    )


@record
class DiningBench:
    """A slatted bench whose length and height follow from the table that it matches."""

    name: str = keys.text("Dining bench", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    construction: str = construction()
    table: Table = keys.table(Table)
    seat: Seat = keys.table(Seat)
    boards: Boards = keys.table(Boards)
    legs: Legs = keys.table(Legs)
    rails: Rails = keys.table(Rails)
    top: Top = keys.table(Top)
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
