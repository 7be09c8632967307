"""Keys of a part of a piece of one's own: what it is, how it is turned, where it stands."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Final

from flatpack import parameters as keys
from flatpack.parameters import UNSET, Spec, Sum, record, specs_of
from flatpack.pieces.common.generators import GENERATORS
from flatpack.pieces.common.given import GivenHole, GivenSlot
from flatpack.pieces.common.part_keys import with_names

WAYS = ("front", "rear", "left", "right", "up", "down")
SIDES = ("front", "rear", "left", "right", "bottom", "top")
MIDDLES = ("mid_depth", "mid_width", "mid_height")
TOGETHER = (
    ("front", "rear", "mid_depth"),
    ("left", "right", "mid_width"),
    ("bottom", "top", "mid_height"),
)
"""Keys that place a part in one direction: who says one of them says them all."""
BAR: Final = "round bar"


def _side(name: str) -> Any:
    return keys.place(None, does=f"where its {name} side stands", example=Sum("other-part.top"))


def _middle(way: str) -> Any:
    return keys.place(None, does=f"where its middle stands, {way}", example=Sum("piece.middle"))


@record
class Named:
    """What it is called."""

    title: str = keys.text("", longest=40, does="as it stands on sheets; left out: its name")


@record
class OfBoard:
    """What a board's part needs."""

    board: str = keys.text("", longest=60, does="one of [boards]; left out: the only one")
    shows: str = keys.choice(UNSET, WAYS, does="the way its show face looks")


@record
class Turned:
    """How a part is turned."""

    runs: str = keys.choice(UNSET, WAYS, does="the way its length (its grain) runs")
    leans: float = keys.angle(
        0.0, least=0, most=89, does="how far it is then tipped from upright or level"
    )
    leans_to: str = keys.choice("rear", WAYS[:4], does="the way it is tipped")
    leans_with: str = keys.text("", longest=60, does="part that it leans like, instead")
    turned: float = keys.angle(
        0.0, least=-180, most=180, does="turned before that, anticlockwise seen from above"
    )


@record
class Placing:
    """Where a part stands."""

    front: Sum | None = _side("front")
    rear: Sum | None = _side("rear")
    left: Sum | None = _side("left")
    right: Sum | None = _side("right")
    bottom: Sum | None = _side("bottom")
    top: Sum | None = _side("top")
    mid_depth: Sum | None = _middle("front to rear")
    mid_width: Sum | None = _middle("left to right")
    mid_height: Sum | None = _middle("upright")
    pair: str = keys.choice(
        "none",
        ("none", "left", "right"),
        does="of a mirrored pair: which of the two the places given are for",
    )
    copies: int | None = keys.count(
        None,
        least=2,
        most=60,
        does="so many, shared evenly between two places given, or every `step`",
    )
    step: Sum | None = keys.total(None, least=1, does="from one copy to the next")
    step_to: str = keys.choice("right", WAYS, does="the way the copies follow")


@record
class Worked:
    """What else a board's part needs."""

    arris: Sum = keys.total(Sum(0.0), most=30, does="rounding of its arrises by hand")
    loose: bool = keys.flag(False, does="lies loose: no joint need hold it")
    holes: tuple[GivenHole, ...] = keys.tables(
        GivenHole, does="holes that stay open, such as to drain; joints make their own"
    )
    slots: tuple[GivenSlot, ...] = keys.tables(GivenSlot, does="slots and grooves")


@record
class RoundBar:
    """A round bar cut to length: a dowel, an axle, a rail to hang things on."""

    rod: str = keys.item("rods", UNSET, does="what it is cut from", example="hardwood-22")
    length: Sum | None = keys.total(None, least=5, does="left out: from its places")


def _shared(*classes: Any) -> dict[str, Spec]:
    return {name: spec for cls in classes for name, spec in specs_of(cls).items()}


_OF_BOARDS = (Named, OfBoard, Turned, Placing, Worked)
PART_KINDS: Mapping[str, Any] = MappingProxyType(
    {
        **{
            word: with_names(
                one.record, _shared(Named, OfBoard, Turned, Placing, Worked), derived=True
            )
            for word, one in GENERATORS.items()
        },
        BAR: with_names(RoundBar, _shared(Named, Turned, Placing), derived=True),
    }
)
"""Every shape that a part may have, with its keys."""
