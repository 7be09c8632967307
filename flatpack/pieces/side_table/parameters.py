"""The side table's keys."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import record
from flatpack.pieces.common.slatted.keys import (
    Boards,
    Fixings,
    Legs,
    Rails,
    Top,
    construction,
)
from flatpack.pieces.finishing import Finishing


@record
class Size:
    """Overall size."""

    length: float = keys.length(520.0, least=300, most=1400, does="overall, along the slats")
    width: float = keys.length(400.0, least=300, most=900, does="overall, across the slats")
    height: float = keys.length(450.0, least=200, most=900, does="ground to the top")


@record
class Splay:
    """Legs that lean outwards; 0: straight. Their ends and the rails' are then sawn at a slant."""

    front: float = keys.angle(
        0.0, least=0, most=15, does="lean to left and right, as seen from the front"
    )
    side: float = keys.angle(
        0.0, least=0, most=15, does="lean to front and rear, as seen from the side"
    )


@record
class SideTable:
    """A small slatted table on two leg frames, straight or splayed."""

    name: str = keys.text("Side table", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    construction: str = construction()
    size: Size = keys.table(Size)
    boards: Boards = keys.table(Boards)
    legs: Legs = keys.table(Legs)
    splay: Splay = keys.table(Splay)
    rails: Rails = keys.table(Rails)
    top: Top = keys.table(Top)
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
