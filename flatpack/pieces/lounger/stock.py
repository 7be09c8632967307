"""The boards and hardware that a lounger is made of, looked up once."""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.parameters import replace
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.profiles import (
    Board,
    CoachBolt,
    Hinge,
    Notch,
    Nut,
    PocketJig,
    Profiles,
    Rod,
    Screw,
    Washer,
    Wheel,
)


@frozen
class Stock:
    """Boards by use, and the fixings."""

    frame: Board
    slats: Board
    moving: Board
    rack: Board
    hinge: Hinge
    hinge_screw: Screw
    notch: Notch
    rod: Rod
    jig: PocketJig
    pocket_screw: Screw
    wood_screw: Screw
    bolt: CoachBolt
    nut: Nut
    washer: Washer
    wheel: Wheel | None
    axle: Rod | None


def stock_for(p: Lounger, profiles: Profiles) -> Stock:
    """What the keys name."""
    timber = p.boards.timber
    hinge = profiles.hinge(p.hinge.hinge)
    if p.as_made.hinge_below is not None:
        hinge = replace(hinge, axis_offset=p.as_made.hinge_below)
    return Stock(
        frame=profiles.board(p.boards.frame or timber),
        slats=profiles.board(p.boards.slats or timber),
        moving=profiles.board(p.boards.moving or timber),
        rack=profiles.board(p.boards.rack or timber),
        hinge=hinge,
        hinge_screw=profiles.screw(hinge.screw),
        notch=profiles.notch(p.rack.notch),
        rod=profiles.rod(p.rack.rod),
        jig=profiles.pocket_jig(p.fixings.jig),
        pocket_screw=profiles.screw(p.fixings.pocket_screw),
        wood_screw=profiles.screw(p.fixings.wood_screw),
        bolt=profiles.coach_bolt(p.fixings.bolt),
        nut=profiles.nut(p.fixings.nut),
        washer=profiles.washer(p.fixings.washer),
        wheel=profiles.wheel(p.wheels.wheel) if p.wheels.use else None,
        axle=profiles.rod(p.wheels.axle) if p.wheels.use else None,
    )
