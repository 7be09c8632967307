"""The reclining lounger's keys."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import BoardChoice, record
from flatpack.pieces.finishing import Finishing


@record
class Boards:
    """Timber. One line, `timber`, switches the whole piece; the others only differ where wanted."""

    timber: BoardChoice = keys.board("ply-18", does="board for every part not named below")
    frame: BoardChoice | None = keys.board(None, does="side rails, end rails, legs")
    slats: BoardChoice | None = keys.board(None, does="slats of deck and back")
    moving: BoardChoice | None = keys.board(None, does="braces under the back, and the arms")
    rack: BoardChoice | None = keys.board(None, does="notched bars, or bearers and tooth blocks")


@record
class Size:
    """Overall size. Everything else is fitted into it."""

    length: float = keys.length(1960.0, least=1000, most=2600, does="overall, foot to head")
    width: float = keys.length(640.0, least=350, most=1200, does="overall, across the slats")
    height: float = keys.length(
        330.0, least=180, most=600, does="ground to the top of the slats with the back flat"
    )


@record
class Frame:
    """Side rails and end rails."""

    rail_width: float | None = keys.length(
        None,
        least=60,
        most=300,
        does="depth of the rails; planed: nearest sold; left out: least that holds the rack",
    )
    leg_width: float = keys.length(
        76.0, least=45, most=200, does="width of the legs; planed boards: nearest sold"
    )
    rail_screws: int = keys.count(3, least=2, most=6, does="pocket screws at each end of a rail")


@record
class Slats:
    """Slats of the fixed deck and of the back."""

    width: float = keys.length(72.0, least=25, most=200, does="slat width; planed: nearest sold")
    gap: float | None = keys.length(
        None, least=0, most=60, does="gap to come near to; left out: the slats' thickness"
    )
    deck_count: int | None = keys.count(
        None, least=2, most=60, does="number of fixed slats; left out: from the gap"
    )
    back_count: int | None = keys.count(
        None, least=2, most=60, does="number of slats on the back; left out: from the gap"
    )
    screws: int = keys.count(2, least=1, most=4, does="pocket screws at each end of a slat")
    edge_round: float = keys.length(2.0, least=0, most=12, does="rounding of the arrises by hand")


@record
class Back:
    """The back that lifts."""

    length: float = keys.length(
        800.0, least=350, most=1300, does="hinge axis to the free end; sets where the hinge is"
    )
    angles: tuple[float, ...] = keys.angles(
        (18.0, 33.0, 48.0, 62.0),
        least=5,
        most=80,
        fewest=1,
        most_count=8,
        does="angles wanted, lowest first; one notch each",
    )
    brace_width: float | None = keys.length(
        None,
        least=30,
        most=200,
        does="depth of the two braces; planed: nearest sold; left out: least for pockets and arm",
    )
    push: float = keys.number(
        450.0,
        least=50,
        most=3000,
        unit="N",
        does="load judged, square into the back (assumed, no source)",
    )
    push_share: float = keys.number(
        0.6, least=0.2, most=1.0, does="where it acts, share of the back from the hinge axis"
    )
    brace_screws: int = keys.count(2, least=1, most=4, does="pocket screws a slat at each brace")


@record
class HingeJoint:
    """The joint at the hinge."""

    hinge: str = keys.item("hinges", "flap-50", does="hinge, two of them")
    gap: float | None = keys.length(
        None,
        least=2,
        most=120,
        does="between the last fixed slat and the first of the back; left out: least that opens",
    )
    axis_from_back: float | None = keys.length(
        None,
        least=0,
        most=60,
        does="axis to the first back slat's edge; left out: least that lets the slat swing clear",
    )
    spare: float = keys.angle(
        6.0, least=1, most=20, does="how far the back must open past its highest stop"
    )
    inset: float = keys.number(
        0.3, least=0.15, most=0.45, does="middle of each hinge from its side, share of the width"
    )


@record
class Rack:
    """The notched racks inside the side rails, and the rod that drops into them."""

    kind: str = keys.choice(
        "bar", ("bar", "blocks"), does="one notched bar, or tooth blocks on a bearer"
    )
    notch: str = keys.item("notches", "ramp", does="shape of the notches")
    rod: str = keys.item("rods", "hardwood-22", does="rod that joins the arms")
    pitch: float | None = keys.length(
        None,
        least=20,
        most=300,
        does="even distance of the notches, arm and pivot to suit; left out: exact angles",
    )
    web: float = keys.length(24.0, least=12, most=120, does="wood left under the notches")
    rod_clearance: float = keys.length(
        3.0, least=1, most=20, does="rod's end to the side rail, each side"
    )
    screws: int = keys.count(6, least=2, most=12, does="screws holding each rack to its rail")


@record
class Arms:
    """The two arms that prop the back."""

    width: float = keys.length(44.0, least=24, most=120, does="arm width, and its round ends")
    length: float | None = keys.length(
        None, least=80, most=900, does="pivot to rod; left out: the longest that folds in"
    )
    pivot: float | None = keys.length(
        None, least=60, most=900, does="hinge axis to the pivot; left out: to suit the arm"
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


@record
class Wheels:
    """Wheels under the head end instead of legs."""

    use: bool = keys.flag(False, does="wheels at the head end")
    wheel: str = keys.item("wheels", "wheel-160", does="wheel, two of them")
    axle: str = keys.item("rods", "steel-16", does="axle")
    clearance: float = keys.length(5.0, least=1, most=40, does="tyre to the rail above it")


@record
class AsMade:
    """What is cut or drilled already, as measured; all that isn't yet is solved again from it."""

    hinge: float | None = keys.length(
        None, least=200, most=2400, does="foot end to the hinge axis as fitted"
    )
    hinge_below: float | None = keys.length(
        None, least=0, most=40, does="slats' underside to the hinge axis as fitted"
    )
    pivot: float | None = keys.length(
        None, least=40, most=1000, does="hinge axis to the pivot holes, along the brace"
    )
    pivot_below: float | None = keys.length(
        None, least=8, most=200, does="slats' underside to the middle of the pivot holes"
    )
    arm: float | None = keys.length(
        None, least=60, most=1000, does="pivot hole to rod hole in the arms, middle to middle"
    )
    notches: tuple[float, ...] = keys.lengths(
        (),
        least=10,
        most=1500,
        most_count=8,
        does="hinge axis to the rod's middle in each notch, lowest angle first; racks cut already",
    )
    tolerance: float = keys.length(
        1.0, least=0, most=5, does="how far each place and length may be off, for the spread"
    )


@record
class Fixings:
    """Screws and bolts."""

    jig: str = keys.item("pocket-jigs", "pocket-15", does="pocket-hole jig and stepped drill")
    pocket_screw: str = keys.item("screws", "pocket-coarse", does="pocket screw")
    wood_screw: str = keys.item("screws", "wood-4", does="countersunk screw for racks, packers")
    bolt: str = keys.item("coach-bolts", "coach-m8", does="coach bolt for legs and pivots")
    nut: str = keys.item("nuts", "lock-m8", does="lock nut")
    washer: str = keys.item("washers", "washer-m8", does="washer")
    tip_cover: float = keys.length(
        3.0, least=1, most=15, does="wood left between a screw's tip and the show face"
    )


@record
class Lounger:
    """A reclining lounger: slatted deck, a back on hinges, two arms, a rod and two racks."""

    name: str = keys.text("Garden lounger", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    loads: str | None = keys.item(
        "loads", None, does="loads that its strength is judged by", example="lounger"
    )
    size: Size = keys.table(Size)
    boards: Boards = keys.table(Boards)
    frame: Frame = keys.table(Frame)
    slats: Slats = keys.table(Slats)
    back: Back = keys.table(Back)
    hinge: HingeJoint = keys.table(HingeJoint)
    rack: Rack = keys.table(Rack)
    arms: Arms = keys.table(Arms)
    wheels: Wheels = keys.table(Wheels)
    as_made: AsMade = keys.table(AsMade)
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
