"""The boards and hardware that a cushion box is made of, looked up once."""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.pieces.common.boarded.carcass import Timber
from flatpack.pieces.common.lanes import Pivot
from flatpack.pieces.cushion_box.parameters import CushionBox
from flatpack.profiles import Board, Hinge, Notch, PocketJig, Profiles, Rod, Screw


@frozen
class Stock:
    """The carcass's timber, boards of what lifts, and the fittings."""

    timber: Timber
    lid: Board
    moving: Board
    rack: Board
    hinge: Hinge
    hinge_screw: Screw
    notch: Notch
    rod: Rod
    jig: PocketJig
    pocket_screw: Screw
    pivot: Pivot


def stock_for(p: CushionBox, profiles: Profiles) -> Stock:
    """What the keys name."""
    every, hinge = p.boards.timber, profiles.hinge(p.hinge.hinge)
    return Stock(
        timber=Timber(
            sides=profiles.board(p.boards.sides or every),
            posts=profiles.board(p.boards.posts or every),
            bottom=profiles.board(p.boards.bottom or every),
            screw=profiles.screw(p.fixings.wood_screw),
            tip_cover=p.fixings.tip_cover,
        ),
        lid=profiles.board(p.boards.lid or every),
        moving=profiles.board(p.boards.moving or every),
        rack=profiles.board(p.boards.rack or every),
        hinge=hinge,
        hinge_screw=profiles.screw(hinge.screw),
        notch=profiles.notch(p.rack.notch),
        rod=profiles.rod(p.rack.rod),
        jig=profiles.pocket_jig(p.fixings.jig),
        pocket_screw=profiles.screw(p.fixings.pocket_screw),
        pivot=Pivot(
            profiles.coach_bolt(p.fixings.bolt),
            profiles.nut(p.fixings.nut),
            profiles.washer(p.fixings.washer),
        ),
    )
