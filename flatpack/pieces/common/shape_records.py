"""Keys of the shapes that parts are made by; `generators.py` makes them."""

from __future__ import annotations

from typing import Any

from flatpack import parameters as keys
from flatpack.parameters import UNSET, record

LONGEST, WIDEST = 6000.0, 3000.0
"""Longest and widest part, mm: beyond any board or sheet sold."""
NARROWEST = 5.0


def _long(does: str = "along the grain") -> Any:
    return keys.length(UNSET, least=NARROWEST, most=LONGEST, does=does, example=400.0)


def _wide(does: str = "across the grain; planed: nearest sold") -> Any:
    return keys.length(UNSET, least=NARROWEST, most=WIDEST, does=does, example=70.0)


@record
class Board:
    """A straight board, its ends square or slanting, its corners sharp or rounded."""

    length: float = _long()
    width: float = _wide()
    corners: tuple[float, ...] = keys.lengths(
        (),
        most=500,
        most_count=4,
        does="radius of all corners, or of each: lower left, lower right, upper right, upper left",
    )
    slants: tuple[float, ...] = keys.angles(
        (),
        least=-70,
        most=70,
        most_count=2,
        does="of its left and right end, off square: more than 0 where the upper edge is the "
        "longer, less where the lower is; the long edge counts as its length",
    )


@record
class Slats:
    """Boards side by side between two places, evenly spaced."""

    length: float = _long()
    width: float = _wide()
    gap: float = keys.length(8.0, least=0, most=300, does="gap to come near to")
    count: int | None = keys.count(None, least=2, most=60, does="left out: from the gap")


@record
class RoundedBar:
    """A bar whose ends are half circles, such as an arm."""

    length: float = _long("over all, along the grain")
    width: float = _wide()
    ends: str = keys.choice("both", ("both", "right"), does="which ends are round")


@record
class NotchedBar:
    """A bar with notches in its upper edge for rods or pegs."""

    length: float = _long()
    width: float = _wide()
    notch: str = keys.item("notches", "half-round", does="form of the notches")
    rod: float = keys.length(22.0, least=4, most=80, does="diameter of what lies in them")
    at: tuple[float, ...] = keys.lengths(
        UNSET, least=1, most=LONGEST, fewest=1, most_count=60,
        does="the rods' middles from the left end", example=(60.0, 140.0),
    )  # fmt: skip


@record
class Disc:
    """A round board."""

    diameter: float = keys.length(UNSET, least=20, most=WIDEST, does="across", example=300.0)


@record
class Opening:
    """An opening: round with `diameter`, else a rectangle with rounded corners."""

    at: tuple[tuple[float, float], ...] = keys.pairs(
        UNSET, fewest=1, most_count=60, does="its middle, or the middles of several alike",
    )  # fmt: skip
    diameter: float | None = keys.length(None, least=2, most=WIDEST, does="for a round one")
    length: float | None = keys.length(None, least=2, most=LONGEST, does="along the grain")
    width: float | None = keys.length(None, least=2, most=WIDEST, does="across the grain")
    round: float = keys.length(6.0, least=0, most=500, does="radius of its corners")


@record
class Panel:
    """A rectangle with openings in it."""

    length: float = _long()
    width: float = _wide()
    round: float = keys.length(0.0, least=0, most=1500, does="radius of its corners")
    openings: tuple[Opening, ...] = keys.tables(Opening, most_count=60, does="cut right through")


@record
class Polygon:
    """Straight sides between corners, each corner rounded or not."""

    points: tuple[tuple[float, float], ...] = keys.pairs(
        UNSET, most=LONGEST, fewest=3, most_count=200, does="corners in turn, x and y"
    )
    round: tuple[float, ...] = keys.lengths(
        (), most=1500, most_count=200, does="radius of all corners, or of each"
    )


@record
class Profile:
    """A closed line of straight pieces and arcs through points."""

    points: tuple[tuple[float, float], ...] = keys.pairs(
        UNSET, most=LONGEST, fewest=2, most_count=200, does="points in turn, x and y"
    )
    rises: tuple[float, ...] = keys.lengths(
        (), least=-1500, most=1500, most_count=200,
        does="of each piece, from its straight line to the arc's crown: outwards more than 0, "
        "inwards less, straight 0",
    )  # fmt: skip
