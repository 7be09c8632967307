"""Keys that every slatted top on two leg frames has."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import BoardChoice, record


@record
class Boards:
    """Timber. One line, `timber`, switches the whole piece; the others only differ where wanted."""

    timber: BoardChoice = keys.board("larch-27", does="board for every part not named below")
    frames: BoardChoice | None = keys.board(None, does="legs, rails, aprons, bearers, stretcher")
    slats: BoardChoice | None = keys.board(None, does="slats of the top")


@record
class Legs:
    """The two leg frames, one near each end of the slats."""

    width: float = keys.length(70.0, least=40, most=200, does="legs; planed: nearest sold")
    inset_ends: float = keys.length(
        60.0, least=0, most=400, does="how far the slats' ends stand over the leg frames"
    )
    inset_sides: float = keys.length(
        12.0, least=0, most=150, does="how far the outer slats stand over the legs"
    )


@record
class Rails:
    """What joins the legs: a rail and aprons under the top, low rails and a stretcher."""

    apron: float = keys.length(
        95.0, least=60, most=220, does="aprons, top rails and bearers; planed: nearest sold"
    )
    setback: float = keys.length(
        8.0, least=0, most=60, does="legs' outer edges to the faces of the aprons"
    )
    longest_span: float = keys.length(
        600.0, least=250, most=1200, does="longest slat between two bearers"
    )
    low: bool = keys.flag(True, does="low rails and a stretcher between them")
    low_rail: float = keys.length(70.0, least=35, most=200, does="low rail; planed: nearest sold")
    low_rail_height: float = keys.length(
        110.0, least=30, most=500, does="ground to the low rail's underside"
    )
    stretcher: float = keys.length(70.0, least=35, most=200, does="stretcher; planed: nearest sold")


@record
class Top:
    """The top's slats. Each is screwed by itself, from below, so that it can swell and shrink."""

    slat_width: float = keys.length(95.0, least=30, most=200, does="planed: nearest sold")
    gap: float = keys.length(6.0, least=0, most=40, does="gap to come near to")
    count: int | None = keys.count(None, least=2, most=40, does="left out: from the gap")
    screws: int = keys.count(2, least=1, most=3, does="most screws a slat gets at each bearer")
    edge_round: float = keys.length(3.0, least=0, most=12, does="rounding of all arrises by hand")


@record
class Fixings:
    """Screws and bolts."""

    jig: str = keys.item("pocket-jigs", "pocket-15", does="pocket-hole jig and stepped drill")
    pocket_screw: str = keys.item("screws", "pocket-coarse", does="pocket screw")
    wood_screw: str = keys.item("screws", "wood-5", does="countersunk screw, bearer to rail")
    knock_down_bolt: str = keys.item(
        "furniture-bolts", "furniture-m6", does="bolt of aprons, and of what undoes"
    )
    barrel_nut: str = keys.item("barrel-nuts", "barrel-m6-16", does="barrel nut in aprons")
    insert: str = keys.item("inserts", "insert-m6", does="threaded insert in the end bearers")
    tip_cover: float = keys.length(
        3.0, least=1, most=15, does="wood left between a screw's tip and the far face"
    )


def construction() -> str:
    """The key that says whether it comes apart."""
    return keys.choice(
        "workshop",
        ("workshop", "knock-down"),
        does="bearers and stretcher glued and screwed, or bolted so that the leg frames come off",
    )
