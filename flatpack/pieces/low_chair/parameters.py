"""The low chair's keys."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import BoardChoice, record
from flatpack.pieces.finishing import Finishing


@record
class Boards:
    """Timber. One line, `timber`, switches the whole piece; the others only differ where wanted."""

    timber: BoardChoice = keys.board("larch-27", does="board for every part not named below")
    frames: BoardChoice | None = keys.board(None, does="rails, legs, apron, posts, cross rails")
    slats: BoardChoice | None = keys.board(None, does="slats of seat and back")
    arms: BoardChoice | None = keys.board(None, does="arms")


@record
class Size:
    """Overall size."""

    width: float = keys.length(620.0, least=420, most=1600, does="over the front legs")
    depth: float = keys.length(
        860.0, least=500, most=1400, does="front legs to the rear end of the rails, on the ground"
    )
    height: float = keys.length(
        370.0, least=220, most=480, does="ground to the top of the seat's front edge"
    )


@record
class Seat:
    """The raked seat."""

    depth: float = keys.length(
        470.0, least=300, most=650, does="front edge to the back slats, along the seat"
    )
    slope: float = keys.angle(14.0, least=4, most=25, does="the seat's fall to the rear")
    slat_width: float = keys.length(70.0, least=25, most=200, does="planed: nearest sold")
    gap: float | None = keys.length(
        None, least=0, most=60, does="gap to come near to; left out: half the slats' thickness"
    )
    count: int | None = keys.count(None, least=2, most=24, does="left out: from the gap")
    overhang: float = keys.length(
        20.0, least=0, most=60, does="how far the front slat stands over the rails' ends"
    )
    edge_round: float = keys.length(
        3.0, least=0, most=12, does="rounding of every part's arrises by hand"
    )


@record
class Rails:
    """The two side rails, each cut from one board: seat's edge, plumb front end, level foot."""

    width: float = keys.length(
        170.0, least=90, most=360, does="board of a rail; wider: shorter chair; planed: nearest"
    )
    apron: float = keys.length(
        95.0, least=45, most=200, does="board between the rails in front; planed: nearest sold"
    )
    leg_width: float = keys.length(95.0, least=55, most=200, does="front legs; planed: nearest")


@record
class Back:
    """The back: slats like a fan, on two cross rails that two posts carry."""

    angle: float = keys.angle(104.0, least=92, most=125, does="between seat and back")
    height: float = keys.length(
        720.0, least=300, most=1100, does="seat to the top of the fan's middle, along the back"
    )
    fan: float = keys.angle(14.0, least=1, most=50, does="between the outermost slats")
    bottom_width: float = keys.length(
        390.0, least=150, most=1400, does="over the slats' lower ends"
    )
    slat_width: float = keys.length(
        70.0, least=30, most=180, does="slats at their lower end; planed: nearest sold"
    )
    top_width: float | None = keys.length(
        None,
        least=15,
        most=250,
        does="slats at the fan's top; left out: as the board is wide, not tapered",
    )
    count: int | None = keys.count(
        None, least=2, most=15, does="left out: as many as the least gap lets in"
    )
    least_gap: float = keys.length(8.0, least=3, most=60, does="between slats at their lower ends")
    profile: str = keys.choice(
        "arc",
        ("arc", "gable", "level", "fan"),
        does="line of the tops: arc, two slopes, level, or slats all of one length",
    )
    crown: float = keys.length(
        90.0, least=0, most=500, does="middle top above the outermost; only arc and gable"
    )
    rounding: float | None = keys.length(
        None, least=0, most=120, does="radius of a top's corners; left out: fully rounded"
    )
    below: float = keys.length(
        45.0, least=0, most=120, does="slats and lower cross rail below seat"
    )
    rail_width: float = keys.length(70.0, least=45, most=160, does="cross rails; planed: nearest")
    rail_height: float = keys.length(
        500.0, least=200, most=1000, does="seat to the upper cross rail's middle, along the back"
    )
    post_width: float = keys.length(70.0, least=45, most=160, does="posts; planed: nearest sold")


@record
class Arms:
    """Broad arms, level, on the front legs and against the posts."""

    height: float = keys.length(
        210.0, least=120, most=350, does="front edge of the seat to the arm's top"
    )
    width: float = keys.length(140.0, least=60, most=260, does="at the front; ripped to taper")
    rear_width: float = keys.length(90.0, least=40, most=260, does="at the rear end")
    overhang: float = keys.length(25.0, least=0, most=120, does="past the front of the leg")
    round: float = keys.length(55.0, least=0, most=130, does="radius of the front corners")
    bracket: bool = keys.flag(True, does="a bracket under the arm on the outside of each leg")


@record
class Fixings:
    """Screws and bolts."""

    jig: str = keys.item("pocket-jigs", "pocket-15", does="pocket-hole jig and stepped drill")
    pocket_screw: str = keys.item("screws", "pocket-coarse", does="pocket screw")
    wood_screw: str = keys.item("screws", "wood-5", does="countersunk screw of back and arms")
    bolt: str = keys.item("coach-bolts", "coach-m10", does="coach bolt for legs and posts")
    nut: str = keys.item("nuts", "lock-m10", does="lock nut")
    washer: str = keys.item("washers", "wide-m10", does="washer")
    tip_cover: float = keys.length(
        3.0, least=1, most=15, does="wood left between a screw's tip and the show face"
    )


@record
class LowChair:
    """A low garden chair: raked seat, fanned back slats, broad rounded arms."""

    name: str = keys.text("Low chair", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    size: Size = keys.table(Size)
    boards: Boards = keys.table(Boards)
    seat: Seat = keys.table(Seat)
    rails: Rails = keys.table(Rails)
    back: Back = keys.table(Back)
    arms: Arms = keys.table(Arms)
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
