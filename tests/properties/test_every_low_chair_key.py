"""Every key of the low chair moves what it should, and leaves alone what it has no say in.

The rows are reasoned from what each key means; see the lounger's.  A new key fails the first test
until it has a row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from flatpack.parameters import BoardChoice, fields_of
from flatpack.pieces import PIECES

CHAIR = PIECES["low-chair"]

Row = tuple[object, str, str, Mapping[str, object], Mapping[str, object]]

RAIL = "Side rail: length; Side rail: width"
LEG = "Front leg: length; Front leg: width"
POST = "Back post: length; Back post: width"
SEAT = "Seat slat: *"
FAN = "Back slat: count; Back slat: outline; Back slat: length; Back slat: width"
CROSS = "Lower cross rail: length; Lower cross rail: width; Upper cross rail: width"
ARM = "Arm: length; Arm: width; Arm: outline"
BOUGHT = "coach bolt: sizes; pocket screw: sizes; wood screw: sizes"
SIZES = f"{RAIL}; {LEG}; {POST}; {FAN}; {CROSS}; {ARM}; Seat slat: length; Seat slat: width"
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
    "name": row("Other name", "name", f"date; workshop; {SIZES}; hardware"),
    "date": row("2031-04-12", "date", f"name; workshop; {SIZES}; hardware"),
    "workshop": row("laser", "workshop", f"name; {SIZES}; hardware"),
    "finishing.glue": row("pva-d3", "glue", f"finish; sealer; units; {SIZES}; hardware"),
    "finishing.finish": row("oil", "finish", f"glue; sealer; units; {SIZES}; hardware"),
    "finishing.sealer": row("oil", "sealer", f"glue; finish; units; {SIZES}; hardware"),
    "finishing.units": row("inches", "units", f"glue; finish; sealer; {SIZES}; hardware"),
    "size.width": row(
        640.0,
        "Seat slat: length; Apron: length; Lower cross rail: length; Back slat: place",
        f"{RAIL}; {LEG}; {POST}; {FAN}; {ARM}; Side rail: outline; gap spacers; hardware",
    ),
    "size.depth": row(
        880.0,
        "Side rail: length; Side rail: outline",
        f"{LEG}; {POST}; {FAN}; {CROSS}; {ARM}; {SEAT}; Back post: place; gap spacers; hardware",
    ),
    "size.height": row(
        380.0,
        "Front leg: length; Side rail: outline; Seat slat: place; Back slat: place; Arm: place",
        f"{POST}; {FAN}; {CROSS}; Seat slat: outline; Arm: width; gap spacers; hardware",
    ),
    "boards.timber": row(
        BoardChoice("ply-24"),
        "*: board; Front leg: length; Apron: length; Seat slat: length; pocket screw: sizes",
        "Side rail: width; Back slat: outline; name; steps",
    ),
    "boards.frames": row(
        BoardChoice("ply-24"),
        "Side rail: board; Front leg: board; Apron: board; Lower cross rail: board; Apron: length",
        f"Seat slat: board; Back slat: board; {FAN}; Side rail: outline; Front leg: length",
    ),
    "boards.slats": row(
        BoardChoice("ply-18"),
        "Seat slat: board; Back slat: board; Side rail: outline; wood screw: sizes",
        f"Side rail: board; Arm: board; {FAN}; Front leg: length; Seat slat: length; {CROSS}",
    ),
    "boards.arms": row(
        BoardChoice("ply-24"),
        "Arm: board; Front leg: length; Arm bracket: place",
        f"{RAIL}; {POST}; {FAN}; {CROSS}; {SEAT}; Arm: width; Arm: outline",
    ),
    "seat.depth": row(
        480.0,
        "Back slat: place; Back post: place; Arm: length; gap spacers",
        f"{RAIL}; {LEG}; {POST}; {FAN}; {CROSS}; Side rail: outline; Seat slat: count; {BOUGHT}",
    ),
    "seat.slope": row(
        12.5,
        "Side rail: outline; Seat slat: place; Back slat: place; Arm: length",
        f"Side rail: width; {LEG}; {POST}; {FAN}; {CROSS}; Seat slat: outline; gap spacers",
    ),
    "seat.slat_width": row(
        95.0,
        "Seat slat: width; Seat slat: count; gap spacers; Side rail: pockets",
        f"{RAIL}; {LEG}; {POST}; {FAN}; {CROSS}; {ARM}; Side rail: outline; coach bolt: *",
    ),
    "seat.gap": row(
        30.0,
        "Seat slat: count; gap spacers; Side rail: pockets; hardware",
        f"Seat slat: width; {RAIL}; {LEG}; {POST}; {FAN}; {CROSS}; {ARM}; {BOUGHT}",
    ),
    "seat.count": row(
        5,
        "Seat slat: count; gap spacers; Side rail: pockets; hardware",
        f"Seat slat: width; {RAIL}; {LEG}; {POST}; {FAN}; {CROSS}; {ARM}; {BOUGHT}",
    ),
    "seat.overhang": row(
        10.0,
        "Seat slat: place; Side rail: outline; Back slat: place",
        f"Seat slat: outline; {LEG}; {POST}; {FAN}; {CROSS}; Arm: width; gap spacers; hardware",
    ),
    "seat.edge_round": row(
        5.0,
        "Seat slat: arris; Back slat: arris; Arm: arris",
        f"{SIZES}; hardware; gap spacers",
    ),
    "rails.width": row(
        195.0,
        "Side rail: width; Side rail: outline; Back post: length; coach bolt: places",
        f"{LEG}; {FAN}; {CROSS}; {ARM}; {SEAT}; Back post: width; gap spacers; hardware",
    ),
    "rails.apron": row(
        120.0,
        "Apron: width; Side rail: outline",
        f"{LEG}; {FAN}; {CROSS}; Seat slat: outline; Arm: width; gap spacers; hardware",
    ),
    "rails.leg_width": row(
        120.0,
        "Front leg: width; coach bolt: places",
        f"{RAIL}; {POST}; {FAN}; {CROSS}; {ARM}; {SEAT}; Front leg: length; gap spacers; hardware",
    ),
    "back.angle": row(
        106.0,
        "Back slat: place; Back post: place; Arm: length; gap spacers",
        f"{RAIL}; {LEG}; {FAN}; {CROSS}; Side rail: outline; Seat slat: outline; hardware",
    ),
    "back.height": row(
        740.0,
        "Back slat: length; Back slat: outline",
        f"{RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; Back slat: count; hardware; gap spacers",
    ),
    "back.fan": row(
        12.0,
        "Back slat: place; Back slat: length; Lower cross rail: work; gap spacers",
        f"{RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; Back slat: count; hardware",
    ),
    "back.bottom_width": row(
        385.0,
        "Back slat: place; Lower cross rail: work; gap spacers",
        f"{RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; Back slat: count; hardware",
    ),
    "back.slat_width": row(
        45.0,
        "Back slat: width; Back slat: count; gap spacers; hardware",
        f"{RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; {BOUGHT}",
    ),
    "back.top_width": row(
        80.0,
        "Back slat: width; Back slat: outline",
        f"{RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; Back slat: length; gap spacers; hardware",
    ),
    "back.count": row(
        4,
        "Back slat: count; gap spacers; hardware; Lower cross rail: work",
        f"Back slat: width; {RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; {BOUGHT}",
    ),
    "back.least_gap": row(
        20.0,
        "Back slat: count; gap spacers; hardware",
        f"Back slat: width; {RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; {BOUGHT}",
    ),
    "back.profile": row(
        "gable",
        "Back slat: length; Back slat: outline",
        f"{RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; Back slat: work; hardware; gap spacers",
    ),
    "back.crown": row(
        60.0,
        "Back slat: length; Back slat: outline",
        f"{RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; Back slat: work; hardware; gap spacers",
    ),
    "back.rounding": row(
        20.0,
        "Back slat: outline",
        f"{RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; Back slat: length; Back slat: work",
    ),
    "back.below": row(
        55.0,
        "Back slat: length; Lower cross rail: place",
        f"{RAIL}; {LEG}; {POST}; {CROSS}; {ARM}; {SEAT}; Back slat: count; hardware",
    ),
    "back.rail_width": row(
        95.0,
        "Lower cross rail: width; Upper cross rail: width; Back post: length; wood screw: places",
        f"{RAIL}; {LEG}; {FAN}; {ARM}; {SEAT}; Lower cross rail: length; hardware; gap spacers",
    ),
    "back.rail_height": row(
        480.0,
        "Upper cross rail: place; Back post: length; Back slat: work",
        f"{RAIL}; {LEG}; {FAN}; {CROSS}; {ARM}; {SEAT}; Lower cross rail: place; hardware",
    ),
    "back.post_width": row(
        95.0,
        "Back post: width; Arm: length; coach bolt: places",
        f"{RAIL}; {LEG}; {FAN}; {CROSS}; {SEAT}; Arm: width; hardware; gap spacers",
    ),
    "arms.height": row(
        230.0,
        "Front leg: length; Arm: place; Arm: length; Arm bracket: place; Back post: work",
        f"{RAIL}; {POST}; {FAN}; {CROSS}; {SEAT}; Arm: width; hardware; gap spacers",
        {"back.bottom_width": 380.0},
    ),
    "arms.width": row(
        150.0,
        "Arm: width; Arm: outline; Arm bracket: width",
        f"{RAIL}; {LEG}; {POST}; {FAN}; {CROSS}; {SEAT}; Arm: length; gap spacers",
    ),
    "arms.rear_width": row(
        100.0,
        "Arm: outline",
        f"{RAIL}; {LEG}; {POST}; {FAN}; {CROSS}; {SEAT}; Arm: length; Arm: width; hardware",
    ),
    "arms.overhang": row(
        40.0,
        "Arm: length; Arm: outline",
        f"{RAIL}; {LEG}; {POST}; {FAN}; {CROSS}; {SEAT}; Arm: width; Arm: place; hardware",
    ),
    "arms.round": row(
        30.0,
        "Arm: outline",
        f"{RAIL}; {LEG}; {POST}; {FAN}; {CROSS}; {SEAT}; Arm: width; Arm: length; hardware",
    ),
    "arms.bracket": row(
        False,
        "Arm bracket: count; hardware; pocket screw: count; wood screw: count",
        f"{SIZES}; {SEAT}; gap spacers; coach bolt: *",
    ),
    "fixings.jig": row(
        "pocket-20",
        "Side rail: work; Apron: work; pocket screw: places",
        f"{RAIL}; {LEG}; {FAN}; {CROSS}; {ARM}; {SEAT}; wood screw: *; gap spacers",
    ),
    "fixings.pocket_screw": row(
        "pocket-fine",
        "pocket screw: items; pocket screw: sizes; hardware",
        f"{SIZES}; pocket screw: count; pocket screw: places; wood screw: *; coach bolt: *",
    ),
    "fixings.wood_screw": row(
        "wood-4",
        "wood screw: items; wood screw: sizes; Back slat: hole diameters; hardware",
        f"{SIZES}; pocket screw: *; coach bolt: *; gap spacers",
    ),
    "fixings.bolt": row(
        "coach-m6",
        "coach bolt: items; coach bolt: sizes; Front leg: hole diameters; hardware",
        f"{RAIL}; {LEG}; {FAN}; {CROSS}; {ARM}; {SEAT}; pocket screw: *; wood screw: *",
        None,
        M6,
    ),
    "fixings.nut": row(
        "hex-m10",
        "hardware",
        f"{SIZES}; Front leg: hole diameters; pocket screw: *; wood screw: *",
    ),
    "fixings.washer": row(
        "washer-m10",
        "hardware; coach bolt: places",
        f"{RAIL}; {LEG}; {FAN}; {CROSS}; {ARM}; {SEAT}; Front leg: hole diameters; pocket screw: *",
    ),
    "fixings.tip_cover": row(
        8.0,
        "pocket screw: sizes; wood screw: sizes; hardware",
        f"{SIZES}; pocket screw: count; coach bolt: *; gap spacers",
    ),
}

KEYS = tuple(f.path for f in fields_of(CHAIR.record) if f.spec.record is None)


def test_every_key_has_a_row() -> None:
    assert set(KEYS) == set(ROWS)


@pytest.mark.parametrize("key", KEYS)
def test_moves_and_stays(
    key: str,
    with_keys: Callable[..., Any],
    compared: Callable[..., tuple[list[str], list[str]]],
) -> None:
    value, moves, stays, base, along = ROWS[key]
    before = with_keys(CHAIR.record(name="Trial"), base)
    after = with_keys(before, {key: value, **along})
    unmoved, moved = compared(CHAIR, before, after, moves, stays)
    assert (unmoved, moved) == ([], [])
