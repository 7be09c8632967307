"""The cushion box's keys."""

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
    posts: BoardChoice | None = keys.board(
        None, does="corner posts or battens, the bearers, the hinge rail"
    )
    bottom: BoardChoice | None = keys.board(None, does="slats of the bottom")
    lid: BoardChoice | None = keys.board(None, does="boards of the lid")
    moving: BoardChoice | None = keys.board(None, does="battens under the lid, and the arms")
    rack: BoardChoice | None = keys.board(None, does="the two notched racks")


@record
class Size:
    """Overall size without the lid's overhang. Everything else is fitted into it."""

    length: float = keys.length(1180.0, least=600, most=2200, does="outside, side to side")
    depth: float = keys.length(560.0, least=350, most=1000, does="outside, front to rear")
    height: float = keys.length(
        520.0, least=300, most=900, does="ground to the top of the closed lid"
    )


@record
class Lid:
    """The lid: boards side to side on battens, hinged at the rear, held open by a prop."""

    angles: tuple[float, ...] = keys.angles(
        (40.0, 70.0),
        least=15,
        most=80,
        fewest=1,
        most_count=3,
        does="angles at which it stays open, lowest first; one notch each",
    )
    board_width: float = keys.length(
        145.0, least=60, most=400, does="planed: nearest sold, the front one ripped"
    )
    gap: float | None = keys.length(
        None, least=0, most=20, does="between boards; left out: to swell in"
    )
    overhang: float = keys.length(
        25.0, least=10, most=80, does="over the front and the ends, against rain and to lift it by"
    )
    rear_overhang: float = keys.length(
        12.0, least=0, most=60, does="behind the hinges, against rain; swings down as it opens"
    )
    batten_width: float | None = keys.length(
        None,
        least=30,
        most=150,
        does="depth of its battens; planed: nearest sold; left out: least for pockets and arm",
    )
    longest_span: float = keys.length(
        560.0, least=200, most=1500, does="longest stretch of a lid board between two battens"
    )
    screws: int = keys.count(2, least=1, most=4, does="pocket screws a board at each batten")
    push: float = keys.number(
        150.0,
        least=20,
        most=1500,
        unit="N",
        does="load judged, square onto the open lid: its weight, a hand (assumed, no source)",
    )
    push_share: float = keys.number(
        0.8, least=0.2, most=1.0, does="where it acts, share of the lid from the hinge axis"
    )


@record
class Hinging:
    """The hinges between the lid and a rail that lies flat along the rear."""

    hinge: str = keys.item("hinges", "butt-75", does="hinge; its leaves lie on one another")
    count: int = keys.count(2, least=2, most=4, does="number of hinges")
    inset: float = keys.number(
        0.18, least=0.06, most=0.4, does="middle of the outer hinges from the ends, share of length"
    )
    rail_width: float = keys.length(
        70.0, least=40, most=150, does="the rail under the hinges; planed: nearest sold"
    )


@record
class Rack:
    """The notched bars inside the ends, and the rod that drops into them."""

    notch: str = keys.item("notches", "ramp", does="shape of the notches")
    rod: str = keys.item("rods", "hardwood-22", does="rod that joins the arms")
    web: float = keys.length(24.0, least=12, most=120, does="wood left under the notches")
    rod_clearance: float = keys.length(3.0, least=1, most=20, does="rod's end to the end boards")
    screws: int = keys.count(3, least=2, most=8, does="screws holding each rack to its end")


@record
class Arms:
    """The two arms that prop the lid."""

    width: float = keys.length(50.0, least=24, most=120, does="arm width, and its round ends")
    length: float | None = keys.length(
        None, least=60, most=700, does="pivot to rod; left out: the longest that folds in"
    )
    pivot: float | None = keys.length(
        None, least=40, most=700, does="hinge axis to the pivot; left out: to suit the arm"
    )
    least_lean: float = keys.angle(
        10.0, least=3, most=40, does="arm's lean from upright at the highest stop"
    )
    lane_clearance: float = keys.length(
        3.0, least=1, most=20, does="between the rack and the bolt heads"
    )
    clearance: float = keys.length(
        4.0, least=1, most=30, does="between parts that pass one another"
    )
    tolerance: float = keys.length(
        1.0, least=0, most=5, does="how far each place and length may be off, for the spread"
    )


@record
class Fixings:
    """Screws and bolts."""

    jig: str = keys.item("pocket-jigs", "pocket-15", does="pocket-hole jig and stepped drill")
    pocket_screw: str = keys.item("screws", "pocket-coarse", does="pocket screw")
    wood_screw: str = keys.item("screws", "wood-4", does="countersunk screw of all other joints")
    bolt: str = keys.item("coach-bolts", "coach-m6", does="coach bolt that an arm turns on")
    nut: str = keys.item("nuts", "lock-m6", does="lock nut")
    washer: str = keys.item("washers", "washer-m6", does="washer")
    tip_cover: float = keys.length(
        3.0, least=1, most=15, does="wood left between a screw's tip and the far face"
    )


@record
class CushionBox:
    """A lidded box for cushions, its lid held open by two arms, a rod and two racks."""

    name: str = keys.text("Cushion box", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    size: Size = keys.table(Size)
    boards: Boards = keys.table(Boards)
    corners: Corners = keys.table(Corners)
    sides: Sides = keys.table(Sides)
    ground: Ground = keys.table(Ground)
    bottom: Bottom = keys.table(Bottom)
    lid: Lid = keys.table(Lid)
    hinge: Hinging = keys.table(Hinging)
    rack: Rack = keys.table(Rack)
    arms: Arms = keys.table(Arms)
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
