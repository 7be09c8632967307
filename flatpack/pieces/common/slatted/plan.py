"""What a family hands over to have a slatted top on two leg frames made: sizes, keys, stock."""

from __future__ import annotations

from typing import Any, NamedTuple

from flatpack.frozen import frozen
from flatpack.model import Comfort, Working
from flatpack.model.assembly import Bearing
from flatpack.pieces.common.slatted.keys import Boards, Fixings, Legs, Rails, Top
from flatpack.profiles import (
    BarrelNut,
    Board,
    FurnitureBolt,
    Insert,
    PocketJig,
    Profiles,
    Screw,
)


class Sizes(NamedTuple):
    """Overall: along the slats, across them, ground to top, mm; and the keys that set each."""

    length: float
    depth: float
    height: float
    keys: tuple[str, str, str] = ("size.length", "size.width", "size.height")


class Splay(NamedTuple):
    """How far the legs lean outwards, degrees, as seen from the front and from the side."""

    front: float = 0.0
    side: float = 0.0


@frozen
class Stock:
    """Boards by use, and the fixings."""

    frames: Board
    slats: Board
    jig: PocketJig
    pocket_screw: Screw
    wood_screw: Screw
    undoing: FurnitureBolt
    barrel_nut: BarrelNut
    insert: Insert
    tip_cover: float


def stock_for(boards: Boards, fixings: Fixings, profiles: Profiles) -> Stock:
    """What the keys name."""
    return Stock(
        frames=profiles.board(boards.frames or boards.timber),
        slats=profiles.board(boards.slats or boards.timber),
        jig=profiles.pocket_jig(fixings.jig),
        pocket_screw=profiles.screw(fixings.pocket_screw),
        wood_screw=profiles.screw(fixings.wood_screw),
        undoing=profiles.furniture_bolt(fixings.knock_down_bolt),
        barrel_nut=profiles.barrel_nut(fixings.barrel_nut),
        insert=profiles.insert(fixings.insert),
        tip_cover=fixings.tip_cover,
    )


@frozen
class Plan:
    """A piece in numbers.

    `slat` names its slats, `loose` says that the leg frames are bolted on, `sat_at` that somebody
    puts his knees under it.  `notes` tell how the sizes came about, `comfort` what a body feels.
    """

    family: str
    name: str
    date: str
    sizes: Sizes
    boards: Boards
    legs: Legs
    rails: Rails
    top: Top
    fixings: Fixings
    loose: bool
    slat: str
    bearing: Bearing = "standing"
    sat_at: bool = False
    splay: Splay = Splay()
    notes: tuple[Working, ...] = ()
    comfort: tuple[Comfort, ...] = ()


def planned(p: Any, family: str, sizes: Sizes, **more: Any) -> Plan:
    """The plan of a family whose record has the tables of `keys`; `more` is the plan's own."""
    return Plan(
        family=family,
        name=p.name,
        date=p.date or "",
        sizes=sizes,
        boards=p.boards,
        legs=p.legs,
        rails=p.rails,
        top=p.top,
        fixings=p.fixings,
        loose=p.construction == "knock-down",
        **more,
    )
