"""The boards and hardware that a folding stool is made of, looked up once."""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.pieces.folding_stool.parameters import FoldingStool
from flatpack.profiles import Board, CoachBolt, Nut, Profiles, Rod, Screw, Washer


@frozen
class Stock:
    """Boards by use, and the fixings."""

    frames: Board
    slats: Board
    bar: Rod
    wood_screw: Screw
    bolt: CoachBolt
    nut: Nut
    washer: Washer


def stock_for(p: FoldingStool, profiles: Profiles) -> Stock:
    """What the keys name."""
    fixings = p.fixings
    return Stock(
        bar=profiles.rod(fixings.bar),
        bolt=profiles.coach_bolt(fixings.bolt),
        frames=profiles.board(p.boards.frames or p.boards.timber),
        nut=profiles.nut(fixings.nut),
        slats=profiles.board(p.boards.slats or p.boards.timber),
        washer=profiles.washer(fixings.washer),
        wood_screw=profiles.screw(fixings.wood_screw),
    )
