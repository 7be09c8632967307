"""The planter box's keys."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import BoardChoice, record
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
class Corners:
    """What the boards are screwed to, inside the corners and along the long sides."""

    kind: str = keys.choice(
        "posts",
        ("posts", "battens"),
        does="face to the long sides (posts) or face to the ends (battens)",
    )
    width: float = keys.length(70.0, least=35, most=200, does="planed: nearest sold")
    longest_span: float = keys.length(
        650.0,
        least=200,
        most=1500,
        does="longest stretch of a long side, and of the bottom, between two fixings",
    )


@record
class Sides:
    """The boards of the sides, lying one above the other."""

    board_width: float = keys.length(
        120.0,
        least=40,
        most=400,
        does="planed: nearest sold, the top one ripped; sheet: to come near to",
    )
    gap: float | None = keys.length(
        None, least=0, most=20, does="between boards; left out: to swell in"
    )
    screws: int = keys.count(
        2, least=1, most=4, does="screws a board at each post or batten; narrow boards get fewer"
    )
    edge_round: float = keys.length(
        3.0, least=0, most=12, does="rounding of every part's arrises by hand"
    )


@record
class Ground:
    """How the box stands off the ground."""

    kind: str = keys.choice(
        "feet", ("feet", "skids"), does="posts run down as feet, or skids across under the box"
    )
    clear: float = keys.length(45.0, least=15, most=200, does="ground to the side boards")


@record
class Bottom:
    """The drained bottom: slats along the box on bearers across it."""

    slat_width: float = keys.length(95.0, least=45, most=250, does="planed: nearest sold")
    gap: float | None = keys.length(
        None, least=3, most=30, does="gap to come near to; left out: 10 mm"
    )
    bearer_width: float = keys.length(
        70.0, least=45, most=250, does="bearers or skids, on edge; planed: nearest sold"
    )
    screws: int = keys.count(2, least=1, most=4, does="screws a slat at each bearer")


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
