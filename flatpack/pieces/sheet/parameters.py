"""Keys of the stool and the table from sheet: the same but for their size.

What is left out follows from the size, so that one set of keys serves a stool and a table.
"""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import BoardChoice, record
from flatpack.pieces.finishing import Finishing

_BUILDS = ("crossed", "sides")
_BUILT = "two legs let into each other, or two sides with wedged stretchers"


@record
class Boards:
    """Sheets. One line, `timber`, switches the whole piece; the others only where wanted."""

    timber: BoardChoice = keys.board("ply-18", does="sheet for every part not named below")
    top: BoardChoice | None = keys.board(None, does="the top")
    legs: BoardChoice | None = keys.board(None, does="legs or sides, stretchers and wedges")


@record
class StoolSize:
    """Overall size."""

    length: float = keys.length(
        350.0, least=240, most=1500, does="crossed: the round top's diameter; else side to side"
    )
    depth: float = keys.length(300.0, least=200, most=600, does="front to rear; crossed: not used")
    height: float = keys.length(440.0, least=250, most=700, does="ground to the top")


@record
class TableSize:
    """Overall size."""

    length: float = keys.length(
        1100.0, least=300, most=2400, does="crossed: the round top's diameter; else side to side"
    )
    depth: float = keys.length(650.0, least=250, most=1200, does="front to rear; crossed: not used")
    height: float = keys.length(730.0, least=300, most=1100, does="ground to the top")


@record
class Top:
    """The top on its tenons."""

    overhang: float | None = keys.length(
        None, least=0, most=300, does="past the legs all round, or at front and rear; left out:"
        " 1/25 of length or depth"
    )  # fmt: skip
    ends: float | None = keys.length(
        None,
        least=0,
        most=500,
        does="past the sides at left and right; left out: 1/6 of the length",
    )
    corner: float = keys.length(30.0, least=0, most=150, does="rounding of the corners with sides")
    tenon: float | None = keys.length(
        None, least=20, most=400, does="width of each tenon; left out: 1/6 of the leg's top"
    )
    shy: float = keys.length(0.5, least=0, most=3, does="tenons' ends below the top's face")
    hold: str = keys.choice(
        "press", ("press", "glue"), does="driven home and held by its fit, or glued for good"
    )
    edge_round: float = keys.length(
        2.0,
        least=0,
        most=8,
        does="arrises of every part, rounded by hand, not in slots and mortises",
    )


@record
class Legs:
    """Crossed legs or sides: panels on two feet."""

    spread: float | None = keys.length(
        None, least=120, most=1500, does="width on the ground; left out: as under the top"
    )
    foot: float | None = keys.length(
        None, least=25, most=400, does="width of each foot; left out: 1/5 of the spread"
    )
    arch: float | None = keys.length(
        None, least=15, most=600, does="height between the feet; left out: 1/5 of the height"
    )
    rounding: float = keys.length(30.0, least=0, most=200, does="rounding of the arch's corners")
    lap: float = keys.number(
        0.5, least=0.3, most=0.7, does="crossed: share of the lap cut from the upper leg"
    )


@record
class Stretcher:
    """Stretchers on edge between the sides, through them and wedged."""

    count: int | None = keys.count(
        None, least=1, most=3, does="left out: one for every 350 of the depth begun"
    )
    apart: float | None = keys.length(
        None, least=60, most=800, does="from one to the next; left out: 1/3 of the depth"
    )
    width: float = keys.length(85.0, least=50, most=300, does="height on edge")
    drop: float = keys.length(0.0, least=0, most=500, does="upper edge below the top's underside")
    shoulder: float = keys.length(
        13.0, least=6, most=80, does="width less than the tenon, above and below"
    )


@record
class Wedge:
    """The loose wedges that lock the stretchers."""

    taper: float = keys.number(8.0, least=6, most=14, does="length for 1 of width: 8 is 1 in 8")
    width: float = keys.length(26.0, least=14, most=80, does="where it enters the tenon")
    relish: float = keys.length(28.0, least=10, most=120, does="wood of the tenon beyond the wedge")


@record
class Fit:
    """How tightly the joints are cut."""

    allowance: float | None = keys.length(
        None, least=-0.4, most=1, does="slot less measured thickness, from the fit trial; left out:"
        " as the workshop's push fit"
    )  # fmt: skip
    trial: bool = keys.flag(True, does="draw a fit trial to cut first")


@record
class SheetStool:
    """A stool from sheet, without any hardware: crossed legs, or sides with wedged stretchers."""

    name: str = keys.text("Sheet stool", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "small-router", does="workshop that cuts it")
    construction: str = keys.choice("crossed", _BUILDS, does=_BUILT)
    size: StoolSize = keys.table(StoolSize)
    boards: Boards = keys.table(Boards)
    top: Top = keys.table(Top)
    legs: Legs = keys.table(Legs)
    stretcher: Stretcher = keys.table(Stretcher)
    wedge: Wedge = keys.table(Wedge)
    fit: Fit = keys.table(Fit)
    finishing: Finishing = keys.table(Finishing)


@record
class SheetTable:
    """A table from sheet, without any hardware: sides with wedged stretchers, or crossed legs."""

    name: str = keys.text("Sheet table", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "small-router", does="workshop that cuts it")
    construction: str = keys.choice("sides", _BUILDS, does=_BUILT)
    size: TableSize = keys.table(TableSize)
    boards: Boards = keys.table(Boards)
    top: Top = keys.table(Top)
    legs: Legs = keys.table(Legs)
    stretcher: Stretcher = keys.table(Stretcher)
    wedge: Wedge = keys.table(Wedge)
    fit: Fit = keys.table(Fit)
    finishing: Finishing = keys.table(Finishing)


Sheet = SheetStool | SheetTable
