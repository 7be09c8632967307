"""Every key of side table, dining table and dining bench moves what it should, and no more.

The rows are reasoned from what each key means; see the lounger's.  The three families share most
of their keys and so their rows; a new key fails the first test until it has one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from flatpack.parameters import BoardChoice, fields_of
from flatpack.pieces import PIECES, Family

Row = tuple[object, str, str, Mapping[str, object], Mapping[str, object]]
FAMILIES = ("side-table", "dining-table", "dining-bench")

LEGS = "Leg: length; Leg: width; Leg: count"
RAILS = "Top rail: outline; Low rail: outline"
APRONS = "Apron: outline; End bearer: outline"
STRETCHER = "Stretcher: outline"
SLATS = "SLAT: length; SLAT: width; SLAT: count"
FRAME = f"{LEGS}; {RAILS}; {APRONS}; {STRETCHER}"
ALL = f"{FRAME}; {SLATS}"
BOUGHT = "pocket screw: sizes; wood screw: sizes"
LOOSE: Mapping[str, object] = {"construction": "knock-down"}
M8: Mapping[str, object] = {"fixings.barrel_nut": "barrel-m8-20", "fixings.insert": "insert-m8"}


def row(
    value: object,
    moves: str,
    stays: str,
    base: Mapping[str, object] | None = None,
    along: Mapping[str, object] | None = None,
) -> Row:
    return value, moves, stays, base or {}, along or {}


SHARED: Mapping[str, Row] = {
    "name": row("Other name", "name", f"date; workshop; {ALL}; hardware"),
    "date": row("2031-04-12", "date", f"name; workshop; {ALL}; hardware"),
    "workshop": row("laser", "workshop", f"name; {ALL}; hardware"),
    "finishing.glue": row("pva-d3", "glue", f"finish; sealer; units; {ALL}; hardware"),
    "finishing.finish": row("oil", "finish", f"glue; sealer; units; {ALL}; hardware"),
    "finishing.sealer": row("oil", "sealer", f"glue; finish; units; {ALL}; hardware"),
    "finishing.units": row("inches", "units", f"glue; finish; sealer; {ALL}; hardware"),
    "construction": row(
        "knock-down",
        "barrel nut bolt: count; insert bolt: count; Top rail: work; End bearer: work;"
        " Stretcher: pockets; hardware; steps",
        f"{ALL}; SLAT: place; Leg: *; gap spacers",
    ),
    "boards.timber": row(
        BoardChoice("ply-24"),
        "*: board; Leg: length; Apron: length; End bearer: length; Stretcher: length; hardware",
        "Top rail: length; SLAT: length; Leg: width; SLAT: width; name; steps",
    ),
    "boards.frames": row(
        BoardChoice("ply-24"),
        "Leg: board; Apron: board; End bearer: board; Apron: length; End bearer: length",
        f"SLAT: board; {SLATS}; {LEGS}; {RAILS}; gap spacers; steps",
    ),
    "boards.slats": row(
        BoardChoice("ply-18"),
        "SLAT: board; Leg: length; SLAT: place; Apron: place; hardware",
        f"Leg: board; {SLATS}; {RAILS}; {APRONS}; {STRETCHER}; Low rail: place; gap spacers",
    ),
    "legs.width": row(
        95.0,
        "Leg: width; Top rail: length; Low rail: length",
        f"Leg: length; {APRONS}; {STRETCHER}; {SLATS}; SLAT: place; Apron: place; gap spacers",
        {"ACROSS": 480.0},
    ),
    "legs.inset_ends": row(
        20.0,
        "Leg: place; Apron: length; Stretcher: length; Top rail: place; End bearer: place",
        f"{LEGS}; {RAILS}; End bearer: outline; {SLATS}; SLAT: place; gap spacers; {BOUGHT}",
    ),
    "legs.inset_sides": row(
        2.0,
        "Leg: place; Top rail: length; Low rail: length; End bearer: length; Apron: place",
        f"{LEGS}; Apron: outline; {STRETCHER}; Stretcher: place; {SLATS}; gap spacers; {BOUGHT}",
    ),
    "rails.apron": row(
        120.0,
        "Apron: width; End bearer: width; Top rail: width; workings",
        f"{LEGS}; Low rail: outline; {STRETCHER}; {SLATS}; Apron: length; SLAT: place; gap spacers",
    ),
    "rails.setback": row(
        10.0,
        "Apron: place; End bearer: length",
        f"{LEGS}; Leg: place; {RAILS}; Apron: outline; {STRETCHER}; {SLATS}; gap spacers; {BOUGHT}",
    ),
    "rails.low": row(
        False,
        "Low rail: count; Stretcher: count; steps; hardware",
        f"{LEGS}; Top rail: outline; {APRONS}; {SLATS}; Apron: place; gap spacers; {BOUGHT}",
    ),
    "rails.low_rail": row(
        95.0,
        "Low rail: width; Stretcher: place",
        f"{LEGS}; Top rail: *; {APRONS}; {STRETCHER}; {SLATS}; Low rail: length; gap spacers",
    ),
    "rails.low_rail_height": row(
        90.0,
        "Low rail: place; Stretcher: place",
        f"{ALL}; Top rail: *; Apron: place; gap spacers; hardware",
    ),
    "rails.stretcher": row(
        95.0,
        "Stretcher: width; Stretcher: place",
        f"{LEGS}; {RAILS}; {APRONS}; {SLATS}; Low rail: *; gap spacers; hardware",
    ),
    "top.slat_width": row(
        70.0,
        "SLAT: width; SLAT: count; gap spacers; End bearer: work",
        f"{FRAME}; Leg: place; Apron: place; SLAT: length",
    ),
    "top.gap": row(
        35.0,
        "SLAT: count; gap spacers; hardware",
        f"{FRAME}; SLAT: length; SLAT: width; Leg: place",
    ),
    "top.count": row(
        3,
        "SLAT: count; gap spacers; hardware",
        f"{FRAME}; SLAT: length; SLAT: width; Leg: place",
    ),
    "top.screws": row(
        1,
        "End bearer: pockets; pocket screw: count; hardware",
        f"{ALL}; Top rail: pockets; gap spacers; steps",
    ),
    "top.edge_round": row(5.0, "*: arris", f"{ALL}; Leg: work; hardware; gap spacers; steps"),
    "fixings.jig": row(
        "pocket-20",
        "Top rail: work; End bearer: work; pocket screw: places",
        f"{ALL}; gap spacers; Leg: work; steps",
    ),
    "fixings.pocket_screw": row(
        "pocket-fine",
        "pocket screw: items; pocket screw: sizes; hardware",
        f"{ALL}; pocket screw: count; wood screw: *; gap spacers",
    ),
    "fixings.wood_screw": row(
        "wood-4",
        "wood screw: items; wood screw: sizes; End bearer: hole diameters; hardware",
        f"{ALL}; pocket screw: *; gap spacers",
    ),
    "fixings.knock_down_bolt": row(
        "furniture-m8",
        "barrel nut bolt: items; insert bolt: items; Leg: hole diameters;"
        " Top rail: hole diameters; hardware",
        f"{ALL}; pocket screw: count; gap spacers",
        {**LOOSE, "rails.setback": 12.0, "legs.inset_sides": 2.0},
        M8,
    ),
    "fixings.barrel_nut": row(
        "barrel-m6-20",
        "Apron: work; Stretcher: work; hardware",
        f"{ALL}; Leg: *; Top rail: *; insert bolt: *; gap spacers",
        LOOSE,
    ),
    "fixings.insert": row(
        "insert-m8",
        "End bearer: hole diameters; insert bolt: items; hardware",
        f"{ALL}; pocket screw: count; gap spacers",
        {**LOOSE, "rails.setback": 12.0, "legs.inset_sides": 2.0},
        {"fixings.knock_down_bolt": "furniture-m8", "fixings.barrel_nut": "barrel-m8-20"},
    ),
    "fixings.tip_cover": row(
        7.0,
        "pocket screw: sizes; hardware",
        f"{ALL}; pocket screw: count; gap spacers",
    ),
}

TABLE: Mapping[str, Row] = {
    "size.length": row(
        900.0,
        "SLAT: length; Apron: length; Stretcher: length; Leg: place; hardware",
        f"{LEGS}; {RAILS}; End bearer: outline; SLAT: count; SLAT: width; gap spacers",
    ),
    "size.width": row(
        604.0,
        "Top rail: length; Low rail: length; End bearer: length; SLAT: count; Leg: place",
        f"{LEGS}; Apron: outline; {STRETCHER}; SLAT: length; SLAT: width; steps",
    ),
    "size.height": row(
        500.0,
        "Leg: length; SLAT: place; Apron: place; Top rail: place; workings",
        f"{RAILS}; {APRONS}; {STRETCHER}; {SLATS}; Low rail: place; gap spacers; hardware",
    ),
}

BENCH: Mapping[str, Row] = {
    "table.height": row(
        770.0,
        "Leg: length; SLAT: place; Apron: place; workings",
        f"{RAILS}; {APRONS}; {STRETCHER}; {SLATS}; gap spacers; hardware",
    ),
    "table.length": row(1300.0, "conflicts", f"{ALL}; Leg: place; SLAT: place; hardware; workings"),
    "table.clear": row(
        1346.0,
        "SLAT: length; Apron: length; Stretcher: length; Leg: place; workings",
        f"{LEGS}; {RAILS}; End bearer: outline; SLAT: count; gap spacers; hardware",
    ),
    "table.under": row(400.0, "conflicts", f"{ALL}; Leg: place; SLAT: place; hardware; workings"),
    "seat.below_table": row(
        270.0,
        "Leg: length; SLAT: place; Apron: place; workings",
        f"{RAILS}; {APRONS}; {STRETCHER}; {SLATS}; gap spacers; hardware",
    ),
    "seat.depth": row(
        410.0,
        "Top rail: length; End bearer: length; gap spacers; Leg: place",
        f"{LEGS}; Apron: outline; {STRETCHER}; SLAT: length; SLAT: width; SLAT: count; steps",
    ),
    "seat.room": row(
        24.0,
        "SLAT: length; Apron: length; Stretcher: length; Leg: place; workings",
        f"{LEGS}; {RAILS}; End bearer: outline; SLAT: count; gap spacers; hardware",
    ),
    "seat.length": row(
        1300.0,
        "SLAT: length; Apron: length; Stretcher: length; Leg: place; workings",
        f"{LEGS}; {RAILS}; End bearer: outline; SLAT: count; gap spacers; hardware",
    ),
}

ROWS: Mapping[str, Mapping[str, Row]] = {
    "side-table": {
        **SHARED,
        **TABLE,
        "rails.longest_span": row(
            400.0, "Middle bearer: count; hardware", f"{ALL}; gap spacers", {"size.length": 1200.0}
        ),
        "splay.front": row(
            6.0,
            "Leg: outline; Leg: work; Apron: length; Stretcher: length; Top rail: place; workings",
            f"Leg: width; Leg: count; {RAILS}; End bearer: outline; {SLATS}; SLAT: place; steps",
        ),
        "splay.side": row(
            5.0,
            "Leg: outline; Top rail: outline; Low rail: length; Top rail: work; workings",
            f"Leg: width; {APRONS}; Apron: place; {STRETCHER}; {SLATS}; SLAT: place; steps",
        ),
    },
    "dining-table": {
        **SHARED,
        **TABLE,
        "rails.longest_span": row(400.0, "Middle bearer: count; hardware", f"{ALL}; gap spacers"),
        "size.length": row(
            1580.0,
            "SLAT: length; Apron: length; Stretcher: length; Leg: place",
            f"{LEGS}; {RAILS}; End bearer: outline; SLAT: count; gap spacers; hardware",
        ),
    },
    "dining-bench": {
        **SHARED,
        **BENCH,
        "rails.longest_span": row(400.0, "Middle bearer: count; hardware", f"{ALL}; gap spacers"),
    },
}


def keys_of(family: Family) -> tuple[str, ...]:
    return tuple(f.path for f in fields_of(family.record) if f.spec.record is None)


EVERY = [(name, key) for name in FAMILIES for key in keys_of(PIECES[name])]


def about(family: str, told: Row) -> Row:
    """The row with the family's own names of its slats and of its size across them."""
    bench = family == "dining-bench"
    slat, across = ("Seat slat", "seat.depth") if bench else ("Top slat", "size.width")
    value, moves, stays, base, along = told
    base = {across if key == "ACROSS" else key: v for key, v in base.items()}
    return value, moves.replace("SLAT", slat), stays.replace("SLAT", slat), base, along


@pytest.mark.parametrize("name", FAMILIES)
def test_every_key_has_a_row(name: str) -> None:
    assert set(keys_of(PIECES[name])) == set(ROWS[name])


@pytest.mark.parametrize(("name", "key"), EVERY)
def test_moves_and_stays(name: str, key: str, row_held: Callable[[Family, str, Row], None]) -> None:
    row_held(PIECES[name], key, about(name, ROWS[name][key]))


def test_a_wrong_row_is_seen(
    with_keys: Callable[..., Any], compared: Callable[..., tuple[list[str], list[str]]]
) -> None:
    family = PIECES["side-table"]
    before = family.record(name="Trial")
    after = with_keys(before, {"rails.low_rail_height": 90.0})
    unmoved, moved = compared(family, before, after, "Leg: length", "Low rail: place")
    assert (unmoved, moved) == (["Leg: length"], ["Low rail: place"])
