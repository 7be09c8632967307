"""Keys that every family of boarded boxes has."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import record


@record
class Corners:
    """What the boards are screwed to, inside the corners and along the long sides."""

    kind: str = keys.choice(
        "posts",
        ("posts", "battens"),
        does="face to the long sides (posts) or face to the ends (battens)",
    )
    width: float = keys.length(70.0, least=35, most=200, does="planed: nearest sold")
    longest_span: float = keys.length(
        650.0,
        least=200,
        most=1500,
        does="longest stretch of a long side, and of the bottom, between two fixings",
    )


@record
class Sides:
    """The boards of the sides, lying one above the other."""

    board_width: float = keys.length(
        120.0,
        least=40,
        most=400,
        does="planed: nearest sold, the top one ripped; sheet: to come near to",
    )
    gap: float | None = keys.length(
        None, least=0, most=20, does="between boards; left out: to swell in"
    )
    screws: int = keys.count(
        2, least=1, most=4, does="screws a board at each post or batten; narrow boards get fewer"
    )
    edge_round: float = keys.length(
        3.0, least=0, most=12, does="rounding of every part's arrises by hand"
    )


@record
class Ground:
    """How the box stands off the ground."""

    kind: str = keys.choice(
        "feet", ("feet", "skids"), does="posts run down as feet, or skids across under the box"
    )
    clear: float = keys.length(45.0, least=15, most=200, does="ground to the side boards")


@record
class Bottom:
    """The drained bottom: slats along the box on bearers across it."""

    slat_width: float = keys.length(95.0, least=45, most=250, does="planed: nearest sold")
    gap: float | None = keys.length(
        None, least=3, most=30, does="gap to come near to; left out: 10 mm"
    )
    bearer_width: float = keys.length(
        70.0, least=45, most=250, does="bearers or skids, on edge; planed: nearest sold"
    )
    screws: int = keys.count(2, least=1, most=4, does="screws a slat at each bearer")
