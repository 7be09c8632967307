"""The boards and hardware that a low chair is made of, looked up once."""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.pieces.low_chair.parameters import LowChair
from flatpack.profiles import Board, CoachBolt, Nut, PocketJig, Profiles, Screw, Washer


@frozen
class Stock:
    """Boards by use, and the fixings."""

    frames: Board
    slats: Board
    arms: Board
    jig: PocketJig
    pocket_screw: Screw
    wood_screw: Screw
    bolt: CoachBolt
    nut: Nut
    washer: Washer
    tip_cover: float


def stock_for(p: LowChair, profiles: Profiles) -> Stock:
    """What the keys name."""
    timber = p.boards.timber
    return Stock(
        frames=profiles.board(p.boards.frames or timber),
        slats=profiles.board(p.boards.slats or timber),
        arms=profiles.board(p.boards.arms or timber),
        jig=profiles.pocket_jig(p.fixings.jig),
        pocket_screw=profiles.screw(p.fixings.pocket_screw),
        wood_screw=profiles.screw(p.fixings.wood_screw),
        bolt=profiles.coach_bolt(p.fixings.bolt),
        nut=profiles.nut(p.fixings.nut),
        washer=profiles.washer(p.fixings.washer),
        tip_cover=p.fixings.tip_cover,
    )
