"""Every key of the bench moves what it should, and leaves alone what it has no say in.

The rows are reasoned from what each key means; see the lounger's.  A new key fails the first test
until it has a row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from flatpack.parameters import BoardChoice, fields_of
from flatpack.pieces import PIECES

BENCH = PIECES["bench"]

# A row: the new value, what must move, what must stay; then keys set before, and along with it.
Row = tuple[object, str, str, Mapping[str, object], Mapping[str, object]]

LEGS = "Front leg: length; Front leg: width; Rear leg: length; Rear leg: width"
RAILS = "Seat rail: length; Seat rail: width; Low rail: length; Low rail: width"
SLATS = "Seat slat: *; Back slat: count; Back slat: length; Back slat: width"
POSTS = "Back post: length; Back post: width"
BOUGHT = "coach bolt: sizes; pocket screw: sizes; wood screw: sizes"
WITH_ARMS: Mapping[str, object] = {"arms.use": True}
LOOSE: Mapping[str, object] = {"construction": "knock-down"}
M8: Mapping[str, object] = {"fixings.barrel_nut": "barrel-m8-20", "fixings.insert": "insert-m8"}
M6: Mapping[str, object] = {"fixings.nut": "lock-m6", "fixings.washer": "washer-m6"}


def row(
    value: object,
    moves: str,
    stays: str,
    base: Mapping[str, object] | None = None,
    along: Mapping[str, object] | None = None,
) -> Row:
    return value, moves, stays, base or {}, along or {}


ROWS: Mapping[str, Row] = {
    "name": row("Other name", "name", "date; workshop; Front leg: *; hardware"),
    "date": row("2031-04-12", "date", "name; workshop; Front leg: *; hardware"),
    "finishing.glue": row("pva-d3", "glue", "finish; sealer; units; Front leg: *; hardware"),
    "finishing.finish": row("oil", "finish", "glue; sealer; units; Front leg: *; hardware"),
    "finishing.sealer": row("oil", "sealer", "glue; finish; units; Front leg: *; hardware"),
    "finishing.units": row("inches", "units", "glue; finish; sealer; Front leg: *; hardware"),
    "loads": row("lounger", "loads", "name; Front leg: *; Seat slat: *; hardware"),
    "workshop": row("laser", "workshop", "name; Front leg: *; Seat slat: *; hardware"),
    "construction": row(
        "knock-down",
        "barrel nut bolt: count; insert bolt: count; wood screw: count; Stretcher: pockets;"
        " Seat cleat: hole diameters; hardware; steps",
        f"{LEGS}; {RAILS}; {SLATS}; {POSTS}; coach bolt: *; gap spacers",
    ),
    "size.length": row(
        1400.0,
        "Seat slat: length; Back slat: length; Stretcher: length; Back post: place",
        f"{LEGS}; {RAILS}; {POSTS}; Front leg: count; gap spacers; hardware",
    ),
    "size.depth": row(
        440.0,
        "Seat rail: length; Low rail: length; Seat cleat: length; Rear leg: place; gap spacers",
        f"{LEGS}; {POSTS}; Seat slat: length; Front leg: place; Stretcher: length; {BOUGHT}",
    ),
    "size.height": row(
        440.0,
        "Front leg: length; Rear leg: length; Seat slat: place; Seat rail: place; Back post: place",
        f"{RAILS}; {POSTS}; Low rail: place; Stretcher: *; gap spacers; hardware",
    ),
    "boards.timber": row(
        BoardChoice("ply-24"),
        "*: board; Front leg: length; Stretcher: length; pocket screw: sizes; hardware",
        "Seat rail: length; Seat slat: length; Back post: width; name; steps",
    ),
    "boards.frames": row(
        BoardChoice("ply-24"),
        "Front leg: board; Rear leg: board; Seat rail: board; Low rail: board; Back post: board;"
        " Stretcher: board; Stretcher: length; coach bolt: sizes",
        f"Seat slat: *; Back slat: board; Back slat: length; {LEGS}; {RAILS}; {POSTS}",
    ),
    "boards.slats": row(
        BoardChoice("ply-18"),
        "Seat slat: board; Back slat: board; Front leg: length; Back post: length;"
        " pocket screw: sizes",
        f"Front leg: board; Seat slat: length; {RAILS}; Stretcher: *; coach bolt: sizes",
    ),
    "boards.arms": row(
        BoardChoice("ply-24"),
        "Arm rest: board; Arm post: length; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; Seat slat: *; Back slat: *; Arm post: width",
        WITH_ARMS,
    ),
    "frames.count": row(
        4,
        "Front leg: count; Stretcher: count; Stretcher: length; Back post: count; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; Seat slat: length; Seat slat: count; gap spacers; {BOUGHT}",
    ),
    "frames.longest_span": row(
        500.0,
        "Front leg: count; Stretcher: count; Stretcher: length; Back post: count; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; Seat slat: length; Seat slat: count; gap spacers; {BOUGHT}",
    ),
    "frames.leg_width": row(
        95.0,
        "Front leg: width; Rear leg: width; Seat rail: length; Low rail: length",
        f"Front leg: length; {POSTS}; Stretcher: *; Seat slat: length; {BOUGHT}",
    ),
    "frames.seat_rail": row(
        120.0,
        "Seat rail: width; Seat cleat: width; wood screw: places",
        f"{LEGS}; {POSTS}; Seat rail: length; Low rail: *; {SLATS}; gap spacers; {BOUGHT}",
    ),
    "frames.low_rail": row(
        45.0,
        "Low rail: width; Stretcher: place",
        f"{LEGS}; {POSTS}; Low rail: length; Seat rail: *; {SLATS}; gap spacers; hardware",
    ),
    "frames.low_rail_height": row(
        120.0,
        "Low rail: place; Stretcher: place",
        f"{LEGS}; {POSTS}; {RAILS}; {SLATS}; Seat rail: *; gap spacers; hardware",
    ),
    "frames.stretcher": row(
        95.0,
        "Stretcher: width; Stretcher: place",
        f"{LEGS}; {POSTS}; {RAILS}; {SLATS}; Low rail: *; gap spacers; hardware",
    ),
    "seat.slat_width": row(
        95.0,
        "Seat slat: width; Seat slat: count; gap spacers; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; Back slat: *; Seat cleat: length; {BOUGHT}",
    ),
    "seat.gap": row(
        10.0,
        "Seat slat: count; gap spacers; Seat cleat: pockets; hardware",
        f"Seat slat: width; {LEGS}; {RAILS}; {POSTS}; Back slat: *; Seat cleat: length; {BOUGHT}",
    ),
    "seat.count": row(
        5,
        "Seat slat: count; gap spacers; Seat cleat: pockets; hardware",
        f"Seat slat: width; {LEGS}; {RAILS}; {POSTS}; Back slat: *; Seat cleat: length; {BOUGHT}",
    ),
    "seat.overhang": row(
        10.0,
        "Seat slat: place; gap spacers",
        f"Seat slat: length; Seat slat: count; {LEGS}; {RAILS}; {POSTS}; Back slat: *; hardware",
    ),
    "seat.screws": row(
        1,
        "Seat cleat: pockets; pocket screw: count; hardware",
        f"Seat slat: *; {LEGS}; {RAILS}; {POSTS}; Back post: *; Back slat: *; gap spacers",
    ),
    "seat.edge_round": row(
        5.0,
        "Seat slat: arris; Back slat: arris",
        f"Seat slat: outline; Front leg: *; {RAILS}; {POSTS}; hardware; gap spacers",
    ),
    "back.use": row(
        False,
        "Back post: count; Back slat: count; coach bolt: count; steps; hardware; gap spacers",
        f"{LEGS}; {RAILS}; Front leg: *; Stretcher: *; Seat slat: length; Seat slat: width",
    ),
    "back.height": row(
        420.0,
        "Back post: length; Back slat: place; gap spacers",
        f"{LEGS}; {RAILS}; Seat slat: *; Stretcher: *; Seat cleat: *; coach bolt: *; hardware",
    ),
    "back.rake": row(
        10.0,
        "Back post: place; Back post: length; Back slat: place; Seat cleat: length; gap spacers",
        f"{LEGS}; {RAILS}; Back post: width; Back slat: length; Front leg: *; Stretcher: *",
    ),
    "back.post_width": row(
        70.0,
        "Back post: width; Back slat: place; Seat cleat: length",
        f"Back post: length; {LEGS}; {RAILS}; Front leg: *; Stretcher: *; {BOUGHT}",
    ),
    "back.lap": row(
        220.0,
        "Back post: length; coach bolt: places; Rear leg: work",
        f"Back post: width; {LEGS}; {RAILS}; Front leg: *; Stretcher: *; hardware",
    ),
    "back.slat_width": row(
        95.0,
        "Back slat: width; Back slat: count; gap spacers; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; Seat slat: *; Seat cleat: *; {BOUGHT}",
    ),
    "back.gap": row(
        50.0,
        "Back slat: count; gap spacers; Back post: pockets; hardware",
        f"Back slat: width; {LEGS}; {RAILS}; {POSTS}; Seat slat: *; Seat cleat: *; {BOUGHT}",
    ),
    "back.count": row(
        3,
        "Back slat: count; gap spacers; Back post: pockets; hardware",
        f"Back slat: width; {LEGS}; {RAILS}; {POSTS}; Seat slat: *; Seat cleat: *; {BOUGHT}",
    ),
    "back.clear": row(
        80.0,
        "Back slat: place; gap spacers",
        f"{POSTS}; {LEGS}; {RAILS}; Seat slat: *; Seat cleat: *; coach bolt: *; hardware",
    ),
    "arms.use": row(
        True,
        "Arm rest: count; Arm post: count; Back slat: length; coach bolt: count; steps; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; Seat slat: *; Stretcher: *; gap spacers",
    ),
    "arms.height": row(
        240.0,
        "Arm post: length; Arm rest: place; Arm rest: length; Back post: work",
        f"{LEGS}; {RAILS}; {POSTS}; Seat slat: *; Back slat: *; Arm rest: width; gap spacers",
        WITH_ARMS,
    ),
    "arms.width": row(
        95.0,
        "Arm rest: width; Arm rest: outline",
        f"{LEGS}; {RAILS}; {POSTS}; Arm post: *; Back slat: *; Arm rest: length; gap spacers",
        WITH_ARMS,
    ),
    "arms.overhang": row(
        30.0,
        "Arm rest: length",
        f"{LEGS}; {RAILS}; {POSTS}; Arm post: *; Back slat: *; Arm rest: width; hardware",
        WITH_ARMS,
    ),
    "arms.post_width": row(
        70.0,
        "Arm post: width",
        f"{LEGS}; {RAILS}; {POSTS}; Arm rest: length; Back slat: *; hardware",
        WITH_ARMS,
    ),
    "arms.lap": row(
        200.0,
        "Arm post: length; Front leg: work; coach bolt: places",
        f"{LEGS}; {RAILS}; {POSTS}; Arm rest: *; Back slat: *; Seat slat: *; hardware",
        WITH_ARMS,
    ),
    "fixings.jig": row(
        "pocket-20",
        "Seat rail: work; Stretcher: work; pocket screw: places; Back post: work",
        f"{LEGS}; {RAILS}; {POSTS}; {SLATS}; coach bolt: *; gap spacers",
    ),
    "fixings.pocket_screw": row(
        "pocket-fine",
        "pocket screw: items; pocket screw: sizes; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; {SLATS}; pocket screw: count; pocket screw: places;"
        " wood screw: *; coach bolt: *",
    ),
    "fixings.wood_screw": row(
        "wood-4",
        "wood screw: items; wood screw: sizes; Seat cleat: hole diameters; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; {SLATS}; pocket screw: *; coach bolt: *",
    ),
    "fixings.bolt": row(
        "coach-m6",
        "coach bolt: items; coach bolt: sizes; Rear leg: hole diameters; Back post: hole diameters",
        f"{LEGS}; {RAILS}; {POSTS}; {SLATS}; pocket screw: *; wood screw: *",
        None,
        M6,
    ),
    "fixings.nut": row(
        "hex-m8",
        "hardware",
        f"{LEGS}; {RAILS}; {POSTS}; {SLATS}; Rear leg: hole diameters; pocket screw: *",
    ),
    "fixings.washer": row(
        "wide-m8",
        "hardware",
        f"{LEGS}; {RAILS}; {POSTS}; {SLATS}; Rear leg: hole diameters; pocket screw: *",
    ),
    "fixings.knock_down_bolt": row(
        "furniture-m8",
        "barrel nut bolt: items; insert bolt: items; Low rail: hole diameters;"
        " Seat rail: hole diameters; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; {SLATS}; pocket screw: *; coach bolt: *",
        LOOSE,
        M8,
    ),
    "fixings.barrel_nut": row(
        "barrel-m6-20",
        "Stretcher: work; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; {SLATS}; Low rail: *; Seat rail: *; insert bolt: *",
        LOOSE,
    ),
    "fixings.insert": row(
        "insert-m8",
        "Seat cleat: hole diameters; hardware; insert bolt: items",
        f"{LEGS}; {RAILS}; {POSTS}; {SLATS}; pocket screw: *; coach bolt: *",
        LOOSE,
        {"fixings.knock_down_bolt": "furniture-m8", "fixings.barrel_nut": "barrel-m8-20"},
    ),
    "fixings.tip_cover": row(
        12.0,
        "pocket screw: sizes; wood screw: sizes; hardware",
        f"{LEGS}; {RAILS}; {POSTS}; {SLATS}; pocket screw: count; coach bolt: *; gap spacers",
    ),
}

KEYS = tuple(f.path for f in fields_of(BENCH.record) if f.spec.record is None)


def test_every_key_has_a_row() -> None:
    assert set(KEYS) == set(ROWS)


@pytest.mark.parametrize("key", KEYS)
def test_moves_and_stays(
    key: str,
    with_keys: Callable[..., Any],
    compared: Callable[..., tuple[list[str], list[str]]],
) -> None:
    value, moves, stays, base, along = ROWS[key]
    before = with_keys(BENCH.record(name="Trial"), base)
    after = with_keys(before, {key: value, **along})
    unmoved, moved = compared(BENCH, before, after, moves, stays)
    assert (unmoved, moved) == ([], [])


def test_a_wrong_row_is_seen(
    with_keys: Callable[..., Any], compared: Callable[..., tuple[list[str], list[str]]]
) -> None:
    before = BENCH.record(name="Trial")
    after = with_keys(before, {"seat.overhang": 10.0})
    unmoved, moved = compared(BENCH, before, after, "Front leg: length", "Seat slat: place")
    assert (unmoved, moved) == (["Front leg: length"], ["Seat slat: place"])
