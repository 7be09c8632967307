"""The boards and hardware that a planter box is made of, looked up once."""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.pieces.planter.parameters import Planter
from flatpack.profiles import Board, Profiles, Screw


@frozen
class Stock:
    """Boards by use, and the screw."""

    sides: Board
    posts: Board
    bottom: Board
    cap: Board
    screw: Screw


def stock_for(p: Planter, profiles: Profiles) -> Stock:
    """What the keys name."""
    timber = p.boards.timber
    return Stock(
        sides=profiles.board(p.boards.sides or timber),
        posts=profiles.board(p.boards.posts or timber),
        bottom=profiles.board(p.boards.bottom or timber),
        cap=profiles.board(p.boards.cap or timber),
        screw=profiles.screw(p.fixings.wood_screw),
    )
