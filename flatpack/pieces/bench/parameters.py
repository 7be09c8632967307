"""The slatted bench's keys."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import BoardChoice, record
from flatpack.pieces.finishing import Finishing


@record
class Boards:
    """Timber. One line, `timber`, switches the whole piece; the others only differ where wanted."""

    timber: BoardChoice = keys.board("larch-27", does="board for every part not named below")
    frames: BoardChoice | None = keys.board(None, does="legs, rails, stretcher, posts")
    slats: BoardChoice | None = keys.board(None, does="slats of seat and back")
    arms: BoardChoice | None = keys.board(None, does="arm rests")


@record
class Size:
    """Overall size."""

    length: float = keys.length(1380.0, least=350, most=3000, does="overall, side to side")
    depth: float = keys.length(430.0, least=220, most=700, does="front to rear of the leg frames")
    height: float = keys.length(430.0, least=200, most=600, does="ground to the top of the seat")


@record
class Frames:
    """The leg frames: two legs, a seat rail and a low rail each."""

    count: int | None = keys.count(
        None, least=2, most=8, does="leg frames; left out: from the longest span"
    )
    longest_span: float = keys.length(
        900.0, least=250, most=1600, does="longest slat between two frames"
    )
    leg_width: float = keys.length(70.0, least=35, most=200, does="legs; planed: nearest sold")
    seat_rail: float = keys.length(
        95.0, least=45, most=250, does="rail under the slats; planed: nearest sold"
    )
    low_rail: float = keys.length(70.0, least=35, most=200, does="low rail; planed: nearest sold")
    low_rail_height: float = keys.length(
        110.0, least=30, most=400, does="ground to the low rail's underside"
    )
    stretcher: float = keys.length(
        70.0, least=35, most=200, does="stretcher along the bench; planed: nearest sold"
    )


@record
class Seat:
    """The seat's slats."""

    slat_width: float = keys.length(70.0, least=25, most=200, does="planed: nearest sold")
    gap: float | None = keys.length(
        None, least=0, most=60, does="gap to come near to; left out: the slats' thickness"
    )
    count: int | None = keys.count(None, least=2, most=30, does="left out: from the gap")
    overhang: float = keys.length(
        0.0, least=0, most=60, does="how far the front slat stands over the legs"
    )
    screws: int = keys.count(2, least=1, most=4, does="pocket screws a slat at each leg frame")
    edge_round: float = keys.length(3.0, least=0, most=12, does="rounding of the arrises by hand")


@record
class Back:
    """The raked back."""

    use: bool = keys.flag(True, does="a back, or a bench without one")
    height: float = keys.length(390.0, least=120, most=800, does="seat to the top, upright")
    rake: float = keys.angle(14.0, least=0, most=30, does="lean from upright")
    post_width: float = keys.length(95.0, least=40, most=200, does="planed: nearest sold")
    lap: float = keys.length(
        200.0, least=90, most=380, does="post against the rear leg, below the seat, upright"
    )
    slat_width: float = keys.length(70.0, least=25, most=200, does="planed: nearest sold")
    gap: float | None = keys.length(
        None, least=0, most=150, does="gap to come near to; left out: the slats' thickness"
    )
    count: int | None = keys.count(None, least=1, most=20, does="left out: from the gap")
    clear: float = keys.length(
        70.0, least=10, most=300, does="seat to the lowest back slat, along the posts"
    )


@record
class Arms:
    """Arm rests with a rounded front end, at both ends of the bench."""

    use: bool = keys.flag(False, does="arm rests; they need a back")
    height: float = keys.length(210.0, least=120, most=320, does="seat to the arm's top")
    width: float = keys.length(82.0, least=50, most=200, does="arm and its round front end")
    overhang: float = keys.length(22.0, least=0, most=80, does="past the front of the arm's post")
    post_width: float = keys.length(95.0, least=40, most=200, does="planed: nearest sold")
    lap: float = keys.length(190.0, least=80, most=380, does="arm's post against the front leg")


@record
class Fixings:
    """Screws and bolts."""

    jig: str = keys.item("pocket-jigs", "pocket-15", does="pocket-hole jig and stepped drill")
    pocket_screw: str = keys.item("screws", "pocket-coarse", does="pocket screw")
    wood_screw: str = keys.item("screws", "wood-5", does="countersunk screw, arm to post")
    bolt: str = keys.item("coach-bolts", "coach-m8", does="coach bolt for back and arm posts")
    nut: str = keys.item("nuts", "lock-m8", does="lock nut")
    washer: str = keys.item("washers", "washer-m8", does="washer")
    knock_down_bolt: str = keys.item("furniture-bolts", "furniture-m6", does="bolt that undoes")
    barrel_nut: str = keys.item("barrel-nuts", "barrel-m6-16", does="barrel nut in the stretcher")
    insert: str = keys.item("inserts", "insert-m6", does="threaded insert in the seat's cleats")
    tip_cover: float = keys.length(
        3.0, least=1, most=15, does="wood left between a screw's tip and the show face"
    )


@record
class Bench:
    """A slatted bench on leg frames, with a raked back and arm rests or without."""

    name: str = keys.text("Garden bench", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    loads: str | None = keys.item(
        "loads", None, does="loads that its strength is judged by", example="bench"
    )
    construction: str = keys.choice(
        "workshop",
        ("workshop", "knock-down"),
        does="glued and pocket-screwed, or seat and stretcher bolted so that it comes apart",
    )
    size: Size = keys.table(Size)
    boards: Boards = keys.table(Boards)
    frames: Frames = keys.table(Frames)
    seat: Seat = keys.table(Seat)
    back: Back = keys.table(Back)
    arms: Arms = keys.table(Arms)
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
