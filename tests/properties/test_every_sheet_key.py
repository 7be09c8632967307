"""Every key of stool and table from sheet moves what it should, and no more.

The rows are reasoned from what each key means; see the lounger's.  The two families share their
keys and so their rows; each row says of which construction it speaks.  A new key fails the first
test until it has a row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from flatpack.parameters import BoardChoice, fields_of
from flatpack.pieces import PIECES, Family

Row = tuple[object, str, str, Mapping[str, object], Mapping[str, object]]
FAMILIES = ("sheet-stool", "sheet-table")
CROSSED: Mapping[str, object] = {"construction": "crossed"}
SIDES: Mapping[str, object] = {"construction": "sides"}

CROSS = "Leg: *"
SIDE = "Side: *"
FRAME = "Side: *; Stretcher: *; Wedge: *"
KEPT = "fits; trials; steps; hardware"


def row(
    value: object,
    moves: str,
    stays: str,
    base: Mapping[str, object] = SIDES,
    along: Mapping[str, object] | None = None,
) -> Row:
    return value, moves, stays, base, along or {}


ROWS: Mapping[str, Row] = {
    "name": row("Other name", "name", f"date; workshop; {FRAME}; Top: *; {KEPT}"),
    "date": row("2031-04-12", "date", f"name; workshop; {FRAME}; Top: *; {KEPT}"),
    # A tolerance of 0.5 instead of 0.2 makes a wedge longer, and a chisel wants no relief.
    "workshop": row(
        "default",
        "workshop; Side: outline; Stretcher: outline; Stretcher: openings; Top: openings;"
        " Wedge: length; trials",
        "name; Side: board; Top: outline; Side: place; fits; steps; hardware",
    ),
    "construction": row(
        "sides",
        "Leg: count; Side: count; Stretcher: count; Wedge: count; Top: outline; fits; steps",
        "trials; hardware; Top: board; workshop",
        CROSSED,
    ),
    "size.length": row(
        520.0,
        "Top: length; Top: openings; Stretcher: length; Side: place; Wedge: place",
        f"Side: outline; Side: openings; Stretcher: width; Wedge: outline; Top: width; {KEPT}",
        {**SIDES, "size.length": 500.0, "top.ends": 60.0},
    ),
    "size.depth": row(
        340.0,
        "Top: width; Top: openings; Side: width; Side: place; Stretcher: place; Wedge: place",
        f"Stretcher: outline; Stretcher: openings; Wedge: outline; Top: length; {KEPT}",
        {**SIDES, "size.depth": 320.0},
    ),
    "size.height": row(
        470.0,
        "Side: length; Top: place; Stretcher: place; Wedge: place",
        f"Top: outline; Top: openings; Stretcher: outline; Wedge: outline; Side: width; {KEPT}",
        {**SIDES, "size.height": 460.0},
    ),
    # The stretchers reach past the sides' outer faces by wedge and relish, however thick those are.
    "boards.timber": row(
        BoardChoice("ply-24"),
        "*: board; Side: outline; Top: openings; Stretcher: outline; Wedge: length; trials",
        "Top: outline; Stretcher: width; Stretcher: length; fits; steps; hardware",
    ),
    "boards.top": row(
        BoardChoice("ply-24"),
        "Top: board; Side: outline; Top: place; Stretcher: place; trials",
        "Top: outline; Stretcher: outline; Wedge: outline; Side: board; fits; steps; hardware",
    ),
    "boards.legs": row(
        BoardChoice("ply-24"),
        "Side: board; Stretcher: board; Wedge: board; Top: openings; Stretcher: outline; trials",
        "Top: board; Top: outline; Top: place; Side: length; Side: width; fits; steps; hardware",
    ),
    "top.overhang": row(
        25.0,
        "Side: width; Side: place; Top: openings",
        f"Top: outline; Stretcher: *; Wedge: *; Side: length; {KEPT}",
    ),
    "top.ends": row(
        65.0,
        "Stretcher: length; Side: place; Top: openings; Wedge: place",
        f"Top: outline; Side: outline; Side: openings; Wedge: outline; {KEPT}",
    ),
    "top.corner": row(45.0, "Top: outline", f"{FRAME}; Top: openings; Top: length; {KEPT}"),
    "top.tenon": row(
        44.0,
        "Side: outline; Top: openings",
        f"Side: length; Side: width; Top: outline; Stretcher: *; Wedge: *; {KEPT}",
    ),
    "top.shy": row(
        1.0,
        "Side: length; Side: outline",
        f"Top: *; Side: width; Side: openings; Stretcher: *; Wedge: *; {KEPT}",
    ),
    "top.hold": row(
        "glue",
        "fits; Top: openings",
        f"{FRAME}; Top: outline; Top: place; trials; steps; hardware",
    ),
    "top.edge_round": row(
        4.0,
        "Top: arris; Side: arris; Stretcher: arris; Wedge: arris",
        f"Side: outline; Stretcher: outline; Wedge: outline; Top: outline; Top: openings; {KEPT}",
    ),
    "legs.spread": row(
        260.0,
        "Side: width; Side: outline; Side: place",
        f"Side: length; Top: *; Stretcher: *; Wedge: *; {KEPT}",
        {
            **SIDES,
            "legs.spread": 250.0,
            "legs.foot": 60.0,
            "top.overhang": 20.0,
            "size.depth": 270.0,
        },
    ),
    "legs.foot": row(
        62.0,
        "Side: outline",
        f"Side: length; Side: width; Side: place; Side: openings; Top: *; Stretcher: *; {KEPT}",
    ),
    "legs.arch": row(
        100.0,
        "Side: outline",
        f"Side: length; Side: width; Side: openings; Top: *; Stretcher: *; Wedge: *; {KEPT}",
        {**SIDES, "legs.arch": 90.0},
    ),
    "legs.rounding": row(
        20.0,
        "Leg: outline",
        f"Leg: length; Leg: width; Leg: place; Top: *; {KEPT}",
        CROSSED,
    ),
    "legs.lap": row(
        0.4, "Leg: outline", f"Leg: length; Leg: width; Leg: place; Top: *; {KEPT}", CROSSED
    ),
    "stretcher.count": row(
        2,
        "Stretcher: count; Wedge: count; Side: openings; fits",
        "Side: length; Stretcher: length; Stretcher: width; Wedge: length; Top: *; trials; steps",
        {**SIDES, "stretcher.count": 1, "stretcher.apart": 130.0},
    ),
    "stretcher.apart": row(
        150.0,
        "Stretcher: place; Side: openings; Wedge: place",
        f"Side: outline; Stretcher: outline; Wedge: outline; Top: *; {KEPT}",
        {**SIDES, "stretcher.count": 2, "stretcher.apart": 130.0},
    ),
    "stretcher.width": row(
        95.0,
        "Stretcher: width; Stretcher: outline; Side: openings; Wedge: place",
        f"Side: outline; Stretcher: length; Wedge: outline; Top: *; {KEPT}",
    ),
    "stretcher.drop": row(
        20.0,
        "Stretcher: place; Side: openings; Wedge: place",
        f"Side: outline; Stretcher: outline; Stretcher: openings; Wedge: outline; Top: *; {KEPT}",
    ),
    "stretcher.shoulder": row(
        10.0,
        "Stretcher: outline; Side: openings",
        f"Side: outline; Stretcher: length; Stretcher: width; Wedge: *; Top: *; {KEPT}",
    ),
    "wedge.taper": row(
        10.0,
        "Wedge: outline; Wedge: length; fits",
        "Side: *; Stretcher: *; Top: *; trials; steps; hardware",
    ),
    "wedge.width": row(
        30.0,
        "Wedge: width; Stretcher: length; Stretcher: openings",
        f"Side: *; Wedge: length; Stretcher: width; Top: *; {KEPT}",
    ),
    "wedge.relish": row(
        32.0,
        "Stretcher: length; Stretcher: outline",
        f"Side: *; Wedge: *; Stretcher: width; Top: *; {KEPT}",
    ),
    "fit.allowance": row(
        0.2,
        "fits; trials; Side: openings; Stretcher: openings; Top: openings",
        "Side: outline; Stretcher: outline; Wedge: *; Top: outline; steps; hardware",
    ),
    "fit.trial": row(False, "trials", f"{FRAME}; Top: *; fits; steps; hardware"),
    "finishing.glue": row("pva-d3", "glue", f"finish; sealer; units; {FRAME}; {KEPT}"),
    "finishing.finish": row("oil", "finish", f"glue; sealer; units; {FRAME}; {KEPT}"),
    "finishing.sealer": row("oil", "sealer", f"glue; finish; units; {FRAME}; {KEPT}"),
    "finishing.units": row("inches", "units", f"glue; finish; sealer; {FRAME}; {KEPT}"),
}


def keys_of(family: Family) -> tuple[str, ...]:
    return tuple(f.path for f in fields_of(family.record) if f.spec.record is None)


EVERY = [(name, key) for name in FAMILIES for key in keys_of(PIECES[name])]


@pytest.mark.parametrize("name", FAMILIES)
def test_every_key_has_a_row(name: str) -> None:
    assert set(keys_of(PIECES[name])) == set(ROWS)


@pytest.mark.parametrize(("name", "key"), EVERY)
def test_moves_and_stays(name: str, key: str, row_held: Callable[[Family, str, Row], None]) -> None:
    row_held(PIECES[name], key, ROWS[key])


@pytest.mark.parametrize("name", FAMILIES)
def test_a_halving_follows_its_allowance_too(
    name: str, with_keys: Callable[..., Any], compared: Callable[..., tuple[list[str], list[str]]]
) -> None:
    before = with_keys(PIECES[name].record(name="Trial"), CROSSED)
    after = with_keys(before, {"fit.allowance": 0.2})
    moves, stays = "Leg: outline; Top: openings; fits", "Leg: length; Leg: width; Top: outline"
    assert compared(PIECES[name], before, after, moves, stays) == ([], [])


def test_a_wrong_row_is_seen(
    with_keys: Callable[..., Any], compared: Callable[..., tuple[list[str], list[str]]]
) -> None:
    family = PIECES["sheet-stool"]
    before = with_keys(family.record(name="Trial"), SIDES)
    after = with_keys(before, {"stretcher.drop": 20.0})
    unmoved, moved = compared(family, before, after, "Side: outline", "Stretcher: place")
    assert (unmoved, moved) == (["Side: outline"], ["Stretcher: place"])
