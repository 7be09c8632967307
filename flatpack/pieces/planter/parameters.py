"""The planter box's keys."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import BoardChoice, record
from flatpack.pieces.common.boarded.parameters import Bottom, Corners, Ground, Sides
from flatpack.pieces.finishing import Finishing


@record
class Boards:
    """Timber. One line, `timber`, switches the whole piece; the others only differ where wanted."""

    timber: BoardChoice = keys.board("larch-27", does="board for every part not named below")
    sides: BoardChoice | None = keys.board(None, does="boards of the four sides")
    posts: BoardChoice | None = keys.board(None, does="corner posts or battens, and the bearers")
    bottom: BoardChoice | None = keys.board(None, does="slats of the bottom")
    cap: BoardChoice | None = keys.board(None, does="capping rail")


@record
class Size:
    """Overall size without the cap's overhang. Everything else is fitted into it."""

    length: float = keys.length(1150.0, least=300, most=3000, does="outside, side to side")
    depth: float = keys.length(470.0, least=220, most=1500, does="outside, front to rear")
    height: float = keys.length(460.0, least=180, most=1200, does="ground to the top")


@record
class Cap:
    """The capping rail round the top."""

    use: bool = keys.flag(True, does="a capping rail, or plain tops of the boards")
    width: float = keys.length(95.0, least=40, most=250, does="planed: nearest sold")
    overhang: float = keys.length(15.0, least=0, most=60, does="how far it stands over the boards")
    corner: str = keys.choice(
        "mitre", ("mitre", "butt"), does="ends cut at 45 degrees, or ends between the long ones"
    )
    screws_apart: float = keys.length(260.0, least=80, most=600, does="from screw to screw at most")


@record
class Liner:
    """The liner between soil and wood."""

    use: bool = keys.flag(True, does="a liner, or soil against the wood")
    thickness: float = keys.length(1.0, least=0.2, most=6, does="thickness of the liner's sheet")
    fold: float = keys.length(
        40.0, least=0, most=200, does="what is folded over at the top, on every side"
    )


@record
class Soil:
    """What it is filled with, for its volume and weight."""

    below_top: float = keys.length(
        40.0, least=0, most=300, does="side boards' top down to the soil"
    )
    density: float = keys.number(
        1500.0,
        least=300,
        most=2400,
        unit="kg/m3",
        does="soil soaked with water (assumed, no source; weigh a bucket of yours)",
    )


@record
class Fixings:
    """Screws."""

    wood_screw: str = keys.item("screws", "wood-5", does="countersunk screw for every joint")
    tip_cover: float = keys.length(
        3.0, least=1, most=15, does="wood left between a screw's tip and the far face"
    )


@record
class Planter:
    """A planter box with boarded sides on posts or battens, a drained bottom and a cap."""

    name: str = keys.text("Planter box", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    size: Size = keys.table(Size)
    boards: Boards = keys.table(Boards)
    corners: Corners = keys.table(Corners)
    sides: Sides = keys.table(Sides)
    ground: Ground = keys.table(Ground)
    bottom: Bottom = keys.table(Bottom)
    cap: Cap = keys.table(Cap)
    liner: Liner = keys.table(Liner)
    soil: Soil = keys.table(Soil)
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
