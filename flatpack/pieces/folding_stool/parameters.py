"""The folding stool's keys."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import BoardChoice, record
from flatpack.pieces.finishing import Finishing


@record
class Boards:
    """Timber. One line, `timber`, switches the whole piece; the others only differ where wanted."""

    timber: BoardChoice = keys.board("larch-27", does="board for every part not named below")
    frames: BoardChoice | None = keys.board(None, does="legs, low rail, seat battens")
    slats: BoardChoice | None = keys.board(None, does="slats or boards of the seat")


@record
class Size:
    """Overall size when open."""

    width: float = keys.length(420.0, least=280, most=900, does="over the outer legs")
    depth: float = keys.length(350.0, least=220, most=600, does="the seat, front to rear")
    height: float = keys.length(440.0, least=250, most=650, does="ground to the seat's top")


@record
class Legs:
    """Crossed legs: the outer pair leans to the rear, the inner pair to the front."""

    angle: float = keys.angle(78.0, least=40, most=120, does="between the legs when open")
    width: float = keys.length(70.0, least=35, most=120, does="planed: nearest sold")
    bar_inset: float = keys.length(
        26.0, least=20, most=150, does="seat's edges to the top bars' middles"
    )
    clearance: float = keys.length(
        3.0, least=1, most=20, does="rear top bar past the inner legs' tops when it folds"
    )
    rail: float = keys.length(
        45.0, least=30, most=120, does="low rail across the outer legs; planed: nearest sold"
    )
    rail_height: float = keys.length(
        30.0, least=15, most=250, does="ground to the low rail and to the low bar"
    )


@record
class Seat:
    """The seat, lifted off to fold: slats or two boards on battens that hook over the bars."""

    kind: str = keys.choice("slats", ("slats", "boards"), does="slats, or two broad boards")
    slat_width: float = keys.length(45.0, least=25, most=200, does="planed: nearest sold")
    gap: float | None = keys.length(
        None, least=3, most=40, does="gap to come near to; left out: 8 mm"
    )
    batten: float = keys.length(
        120.0, least=60, most=200, does="depth of the battens; planed: nearest sold"
    )
    over_slot: float = keys.length(
        46.0, least=15, most=120, does="wood of a batten over the rear bar"
    )
    play: float = keys.length(1.0, least=0.2, most=5, does="slots wider than the bars")
    edge_round: float = keys.length(
        3.0, least=0, most=12, does="rounding of every part's arrises by hand"
    )


@record
class Fixings:
    """Bars, screws and bolts."""

    bar: str = keys.item("rods", "steel-16", does="round bars between the legs")
    wood_screw: str = keys.item("screws", "wood-4", does="countersunk screw of seat and low rail")
    bolt: str = keys.item("coach-bolts", "coach-m8", does="coach bolt on which the legs turn")
    nut: str = keys.item("nuts", "lock-m8", does="lock nut")
    washer: str = keys.item("washers", "washer-m8", does="washer")


@record
class FoldingStool:
    """A folding stool on crossed legs, with a seat of slats or two boards."""

    name: str = keys.text("Folding stool", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    size: Size = keys.table(Size)
    boards: Boards = keys.table(Boards)
    legs: Legs = keys.table(Legs)
    seat: Seat = keys.table(Seat)
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
