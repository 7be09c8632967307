"""Keys of a file of single parts."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from flatpack import parameters as keys
from flatpack.parameters import BoardChoice, Chosen, Named, Spec, Sum, record, specs_of
from flatpack.pieces.common.generators import GENERATORS
from flatpack.pieces.common.given import GivenHole, GivenPockets, GivenSlot
from flatpack.pieces.common.part_keys import with_names
from flatpack.pieces.finishing import Finishing


@record
class Single:
    """What a single part needs beside its shape."""

    pieces: int = keys.count(1, least=1, most=500, does="how many to cut")
    hands: bool = keys.flag(False, does="so many of each hand, left and right")
    title: str = keys.text("", longest=40, does="as it stands on sheets; left out: its name")
    board: str = keys.text("", longest=60, does="one of [boards]; left out: the only one")
    arris: Sum = keys.total(Sum(0.0), most=30, does="rounding of its arrises by hand")
    holes: tuple[GivenHole, ...] = keys.tables(GivenHole, does="holes")
    slots: tuple[GivenSlot, ...] = keys.tables(GivenSlot, does="slots and grooves")
    pockets: tuple[GivenPockets, ...] = keys.tables(GivenPockets, does="pocket holes for the jig")


_SHARED: Mapping[str, Spec] = specs_of(Single)
PART_KINDS: Mapping[str, Any] = MappingProxyType(
    {
        word: with_names(one.record, _SHARED, derived=False)
        for word, one in GENERATORS.items()
        if word != "slats"
    }
)
"""Every shape that a single part may have, with its keys."""


def _arm() -> tuple[Named, ...]:
    """What a new file begins with: a pair of arms."""
    made = PART_KINDS["rounded bar"](
        length=Sum(360.0), width=Sum(60.0), title="Arm", pieces=2,
        holes=(GivenHole(at=((30.0, 30.0), (330.0, 30.0)), diameter=8.5, purpose="pivot"),),
    )  # fmt: skip
    return (Named("arm", Chosen("rounded bar", made)),)


@record
class Fixings:
    """What pocket holes are made with."""

    jig: str = keys.item("pocket-jigs", "pocket-15", does="pocket-hole jig and stepped drill")


@record
class LooseParts:
    """Single parts to cut: an arm, a notched bar, a shaped end; nothing is put together."""

    name: str = keys.text("Loose parts", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    boards: Any = keys.named(
        keys.board(None, does="The boards, each under a name of your own."),
        default=(Named("sheet", BoardChoice("ply-18")),),
        left_out="must",
    )
    measures: Any = keys.named(
        keys.total(None, least=-10000, does="Lengths that other keys may name.")
    )
    parts: Any = keys.named(
        keys.kinds(
            PART_KINDS,
            "shape",
            does="The parts, each under a name of your own. Places in a part are x along the "
            "grain from its left end, and y from its lower edge.",
        ),
        default=_arm(),
        left_out="must",
    )
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
