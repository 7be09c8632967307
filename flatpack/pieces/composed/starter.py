"""The piece that a new file begins with: a plant step of two sides, a rail and three slats."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flatpack.parameters import BoardChoice, Chosen, Named, Sum


def boards() -> tuple[Named, ...]:
    """One board for all."""
    return (Named("timber", BoardChoice("larch-27")),)


def measures() -> tuple[Named, ...]:
    """The height that the sides follow."""
    return (
        Named("height", Sum(240.0)),
        Named("under-top", Sum("height", -1, "timber.thickness")),
    )


def parts(kinds: Mapping[str, Any]) -> tuple[Named, ...]:
    """Sides as a mirrored pair, a rail between them, slats across their tops."""
    side = kinds["board"](
        title="Side", width=Sum(195.0), runs="up", shows="left", pair="left",
        left=Sum(40.0), bottom=Sum(0.0), top=Sum("under-top"), mid_depth=Sum("piece.middle"),
    )  # fmt: skip
    rail = kinds["board"](
        title="Rail", width=Sum(95.0), runs="right", shows="front",
        left=Sum("side-left.right"), right=Sum("side-right.left"), top=Sum("side.top"),
        mid_depth=Sum("piece.middle"),
    )  # fmt: skip
    slat = kinds["slats"](
        title="Slat", width=Sum(95.0), runs="right", shows="up", arris=Sum(3.0),
        gap=Sum(7.5), left=Sum(0.0), right=Sum("piece.right"),
        front=Sum(0.0), rear=Sum("piece.rear"), bottom=Sum("side.top"),
    )  # fmt: skip
    rows = {"side": ("board", side), "rail": ("board", rail), "slat": ("slats", slat)}
    return tuple(Named(name, Chosen(*one)) for name, one in rows.items())


def joints(kinds: Mapping[str, Any]) -> tuple[Chosen, ...]:
    """Pocket screws in the rail, screws through the slats."""
    rail = kinds["pocket screws"](through=("rail",), into=("side",))
    slats = kinds["pocket screws"](through=("side",), into=("slat",), glue=False)
    return Chosen("pocket screws", rail), Chosen("pocket screws", slats)
