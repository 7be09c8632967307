"""Every key of the folding stool moves what it should, and leaves alone what it has no say in.

The rows are reasoned from what each key means; see the lounger's.  A new key fails the first test
until it has a row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from flatpack.parameters import BoardChoice, fields_of
from flatpack.pieces import PIECES

STOOL = PIECES["folding-stool"]

Row = tuple[object, str, str, Mapping[str, object], Mapping[str, object]]

OUTER = "Outer leg: length; Outer leg: width; Outer leg: outline"
INNER = "Inner leg: length; Inner leg: width; Inner leg: outline"
BATTEN = "Seat batten: length; Seat batten: width; Seat batten: outline"
RAIL = "Low rail: length; Low rail: width"
SLAT = "Seat slat: length; Seat slat: width; Seat slat: count"
BARS = "Rear top bar: length; Front top bar: length; Low bar: length"
SIZES = f"{OUTER}; {INNER}; {BATTEN}; {RAIL}; {SLAT}; {BARS}"
M10: Mapping[str, object] = {"fixings.nut": "lock-m10", "fixings.washer": "washer-m10"}


def row(
    value: object,
    moves: str,
    stays: str,
    base: Mapping[str, object] | None = None,
    along: Mapping[str, object] | None = None,
) -> Row:
    return value, moves, stays, base or {}, along or {}


ROWS: Mapping[str, Row] = {
    "name": row("Other name", "name", f"date; workshop; {SIZES}; hardware"),
    "date": row("2031-04-12", "date", f"name; workshop; {SIZES}; hardware"),
    "workshop": row("laser", "workshop", f"name; {SIZES}; hardware"),
    "finishing.glue": row("pva-d3", "glue", f"finish; sealer; units; {SIZES}; hardware"),
    "finishing.finish": row("oil", "finish", f"glue; sealer; units; {SIZES}; hardware"),
    "finishing.sealer": row("oil", "sealer", f"glue; finish; units; {SIZES}; hardware"),
    "finishing.units": row("inches", "units", f"glue; finish; sealer; {SIZES}; hardware"),
    "size.width": row(
        450.0,
        f"Low rail: length; Seat slat: length; {BARS}",
        f"{OUTER}; {INNER}; {BATTEN}; Low rail: width; Seat slat: count; gap spacers; hardware",
    ),
    "size.depth": row(
        360.0,
        "Seat batten: length; Outer leg: work; Rear top bar: place; gap spacers; folding: apart",
        f"{BARS}; {RAIL}; Outer leg: width; Seat slat: length; Seat batten: width; hardware",
    ),
    "size.height": row(
        450.0,
        "Outer leg: length; Inner leg: length; Rear top bar: place; Seat slat: place",
        f"{BATTEN}; {RAIL}; {SLAT}; {BARS}; gap spacers; hardware; folding: apart",
    ),
    "boards.timber": row(
        BoardChoice("ply-24"),
        "*: board; Front top bar: length; Rear top bar: place; coach bolt: sizes",
        "Low rail: length; Seat slat: length; Seat batten: length; name; steps",
    ),
    "boards.frames": row(
        BoardChoice("larch-20"),
        "Outer leg: board; Inner leg: board; Seat batten: board; Low rail: board;"
        " Front top bar: length; coach bolt: sizes",
        f"Seat slat: board; {SLAT}; {OUTER}; {INNER}; {BATTEN}; gap spacers",
    ),
    "boards.slats": row(
        BoardChoice("larch-20"),
        "Seat slat: board; Outer leg: length; Rear top bar: place",
        f"Outer leg: board; {SLAT}; {BATTEN}; {RAIL}; {BARS}; gap spacers; coach bolt: sizes",
    ),
    "legs.angle": row(
        80.0,
        "Outer leg: outline; Inner leg: outline; folding: angle; folding: low; folding: long",
        f"{RAIL}; {SLAT}; {BARS}; Seat batten: length; gap spacers; folding: apart; hardware",
    ),
    "legs.width": row(
        95.0,
        "Outer leg: width; Inner leg: width; folding: half; folding: end; Seat batten: outline",
        f"{RAIL}; {SLAT}; {BARS}; Seat batten: length; gap spacers; folding: apart; hardware",
        {"seat.over_slot": 46.0},
    ),
    "legs.bar_inset": row(
        30.0,
        "folding: apart; Seat batten: length; Outer leg: work; Rear top bar: place",
        f"{RAIL}; {SLAT}; {BARS}; Seat batten: width; Outer leg: width; gap spacers; hardware",
    ),
    "legs.clearance": row(
        6.0,
        "folding: long; folding: short; Inner leg: length; Outer leg: work; Seat batten: outline",
        f"{RAIL}; {SLAT}; {BARS}; Outer leg: length; folding: apart; gap spacers; hardware",
    ),
    "legs.rail": row(
        70.0,
        "Low rail: width; folding: rail; wood screw: places",
        f"{OUTER}; {INNER}; {BATTEN}; {SLAT}; {BARS}; Low rail: length; folding: low; hardware",
    ),
    "legs.rail_height": row(
        40.0,
        "Low rail: place; Low bar: place; folding: rail; Inner leg: work; Outer leg: work",
        f"{SIZES}; folding: low; folding: long; gap spacers; hardware",
    ),
    "seat.kind": row(
        "boards",
        "Seat slat: count; Seat board: count; wood screw: count; hardware",
        f"{OUTER}; {INNER}; {BATTEN}; {RAIL}; {BARS}; folding: apart; coach bolt: *",
    ),
    "seat.slat_width": row(
        70.0,
        "Seat slat: width; Seat slat: count; gap spacers; wood screw: count",
        f"{OUTER}; {INNER}; {BATTEN}; {RAIL}; {BARS}; Seat slat: length; coach bolt: *",
    ),
    "seat.gap": row(
        20.0,
        "Seat slat: count; gap spacers; wood screw: count",
        f"{OUTER}; {INNER}; {BATTEN}; {RAIL}; {BARS}; Seat slat: width; coach bolt: *",
    ),
    "seat.batten": row(
        145.0,
        "Seat batten: width; Seat batten: outline; folding: slot",
        f"{OUTER}; {INNER}; {RAIL}; {SLAT}; {BARS}; Seat batten: length; gap spacers; hardware",
    ),
    "seat.over_slot": row(
        50.0,
        "Rear top bar: place; Outer leg: length; Seat batten: outline; folding: slot",
        f"{RAIL}; {SLAT}; {BARS}; Seat batten: width; folding: apart; gap spacers",
    ),
    "seat.play": row(
        1.5,
        "Seat batten: outline; Seat batten: length",
        f"{OUTER}; {INNER}; {RAIL}; {SLAT}; {BARS}; folding: apart; folding: long; hardware",
    ),
    "seat.edge_round": row(5.0, "Seat slat: arris", f"{SIZES}; hardware; gap spacers"),
    "fixings.bar": row(
        "steel-20",
        "*bar: diameter; Outer leg: hole diameters; Seat batten: outline; folding: bar",
        f"{RAIL}; {SLAT}; {BARS}; Outer leg: width; gap spacers; coach bolt: sizes",
        {"legs.bar_inset": 28.0},
    ),
    "fixings.wood_screw": row(
        "wood-5",
        "wood screw: items; wood screw: sizes; Seat slat: hole diameters; hardware",
        f"{SIZES}; coach bolt: *; gap spacers",
    ),
    "fixings.bolt": row(
        "coach-m10",
        "coach bolt: items; coach bolt: sizes; Outer leg: hole diameters; hardware",
        f"{OUTER}; {INNER}; {BATTEN}; {RAIL}; {SLAT}; wood screw: sizes; gap spacers",
        None,
        M10,
    ),
    "fixings.nut": row("hex-m8", "hardware", f"{SIZES}; Outer leg: hole diameters; wood screw: *"),
    "fixings.washer": row(
        "wide-m8",
        "hardware; Inner leg: place; Front top bar: length",
        f"{OUTER}; {INNER}; {BATTEN}; {RAIL}; {SLAT}; Outer leg: hole diameters",
    ),
}

KEYS = tuple(f.path for f in fields_of(STOOL.record) if f.spec.record is None)


def test_every_key_has_a_row() -> None:
    assert set(KEYS) == set(ROWS)


@pytest.mark.parametrize("key", KEYS)
def test_moves_and_stays(
    key: str,
    with_keys: Callable[..., Any],
    compared: Callable[..., tuple[list[str], list[str]]],
) -> None:
    value, moves, stays, base, along = ROWS[key]
    before = with_keys(STOOL.record(name="Trial"), base)
    after = with_keys(before, {key: value, **along})
    unmoved, moved = compared(STOOL, before, after, moves, stays)
    assert (unmoved, moved) == ([], [])
