"""Every key of the lounger moves what it should, and leaves alone what it has no say in.

The rows are reasoned from what each key means, not taken from what the program does: `moves` and
`stays` name quantities measured on the finished piece (see `measured`).  A new key fails the first
test until it has a row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from flatpack.parameters import BoardChoice, fields_of
from flatpack.pieces import PIECES

LOUNGER = PIECES["lounger"]

# A row: the new value, what must move, what must stay; then keys set before, and along with it.
Row = tuple[object, str, str, Mapping[str, object], Mapping[str, object]]

FRAME_SIZES = "Side rail: length; Side rail: width; Leg: length; End rail: length"
PROP = "motion: arm; motion: pivot; motion: notches; Arm: length"
LABELS = "name; date; workshop; steps"
BOUGHT = "coach bolt: sizes; pocket screw: sizes; wood screw: sizes; hinge: items"
BLOCK_ANGLES: Mapping[str, object] = {"back.angles": (25.0, 40.0, 55.0)}
ON_WHEELS: Mapping[str, object] = {"wheels.use": True}
SMALL_WHEEL: Mapping[str, object] = {"wheels.axle": "steel-12"}
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
    "name": row("Other name", "name", "date; workshop; Arm: *; motion: *; hardware"),
    "date": row("2031-04-12", "date", "name; workshop; Arm: *; motion: *; hardware"),
    "finishing.glue": row("pva-d3", "glue", "finish; sealer; units; Side rail: *; hardware"),
    "finishing.finish": row("oil", "finish", "glue; sealer; units; Side rail: *; hardware"),
    "finishing.sealer": row("oil", "sealer", "glue; finish; units; Side rail: *; hardware"),
    "finishing.units": row("inches", "units", "glue; finish; sealer; Side rail: *; hardware"),
    "loads": row("bench", "loads", "name; Side rail: *; motion: *; hardware"),
    "workshop": row("laser", "workshop", "name; Side rail: *; motion: *; hardware"),
    "size.length": row(
        2010.0,
        "Side rail: length; motion: axis; Back slat: place; hinge: places; gap spacers",
        f"{PROP}; Back slat: length; Leg: *length; End rail: length; Prop rod: length; {BOUGHT}",
    ),
    "size.width": row(
        660.0,
        "Fixed slat: length; Back slat: length; End rail: length; Hinge rail: length;"
        " Prop rod: length; hinge: places",
        f"Side rail: length; Leg: length; Arm: length; motion: *; gap spacers; {BOUGHT}",
    ),
    "size.height": row(
        345.0,
        "Leg: length; Side rail: place; Fixed slat: place; Prop rod: place; motion: axis",
        f"Side rail: length; Side rail: width; Rack: outline; {PROP}; gap spacers; {BOUGHT}",
    ),
    "boards.timber": row(
        BoardChoice("ply-18", 17.5),
        "*: board; Leg: length; End rail: length; Prop rod: length; motion: slat; motion: gap;"
        " Arm: place; Back brace: length",
        f"Fixed slat: length; Side rail: length; Rack: width; {LABELS}",
    ),
    "boards.frame": row(
        BoardChoice("ply-24"),
        "Side rail: board; End rail: board; Leg: board; Hinge packer: board; End rail: length;"
        " Prop rod: length; coach bolt: sizes; Back brace: length",
        "Fixed slat: board; Fixed slat: length; Arm: board; Rack: board; Leg: length;"
        " motion: slat; motion: gap",
    ),
    "boards.slats": row(
        BoardChoice("ply-15"),
        "Fixed slat: board; Back slat: board; motion: slat; Leg: length; motion: gap;"
        " gap spacers; pocket screw: sizes; Side rail: place",
        "Side rail: board; Arm: *board; Side rail: width; Back brace: width; End rail: length;"
        " Prop rod: length; motion: arm; motion: pivot",
    ),
    "boards.moving": row(
        BoardChoice("ply-15"),
        "Arm: board; Back brace: board; Back brace: width; coach bolt: sizes; motion: pivot",
        "Side rail: board; Fixed slat: *; Back slat: length; Prop rod: length; Leg: length;"
        " motion: gap; motion: axis",
    ),
    "boards.rack": row(
        BoardChoice("ply-24"),
        "Rack: board; Arm: place; Back brace: place; wood screw: sizes; gap spacers",
        f"{PROP}; Rack: outline; Prop rod: length; Side rail: board; Fixed slat: *",
    ),
    "frame.rail_width": row(
        140.0,
        "Side rail: width; End rail: width; Hinge rail: width; Side rail: place",
        f"Side rail: length; Leg: length; Rack: *; Fixed slat: *; {PROP}; {BOUGHT}",
    ),
    "frame.leg_width": row(
        80.0,
        "Leg: width; motion: pivot; motion: folded; coach bolt: places",
        "Leg: length; Side rail: length; Side rail: width; Fixed slat: *; motion: axis;"
        f" motion: gap; {BOUGHT}",
    ),
    "frame.rail_screws": row(
        2,
        "End rail: pockets; Hinge rail: pockets; pocket screw: count; hardware",
        f"Side rail: pockets; Back brace: pockets; {PROP}; {FRAME_SIZES}; pocket screw: sizes",
    ),
    "slats.width": row(
        76.0,
        "Fixed slat: width; Back slat: width; gap spacers; motion: grip; Fixed slat: count",
        f"{FRAME_SIZES}; {PROP}; Back brace: length; motion: gap; Fixed slat: length; {BOUGHT}",
    ),
    "slats.gap": row(
        10.0,
        "gap spacers; Fixed slat: count; Back slat: count; Side rail: pockets; hardware",
        f"Fixed slat: width; {FRAME_SIZES}; {PROP}; motion: gap; motion: axis",
    ),
    "slats.deck_count": row(
        12,
        "Fixed slat: count; gap spacers; Side rail: pockets; hardware",
        f"Back slat: *; Back brace: *; {FRAME_SIZES}; motion: *",
    ),
    "slats.back_count": row(
        8,
        "Back slat: count; gap spacers; Back brace: pockets; hardware",
        f"Fixed slat: *; {FRAME_SIZES}; motion: axis; motion: gap",
    ),
    "slats.screws": row(
        1,
        "Side rail: pockets; pocket screw: count; hardware",
        f"Back brace: pockets; End rail: pockets; Fixed slat: *; motion: *; {FRAME_SIZES}",
    ),
    "slats.edge_round": row(
        4.0,
        "Fixed slat: arris; Back slat: arris",
        f"Side rail: *; Fixed slat: outline; Back slat: outline; motion: *; hardware; {LABELS}",
    ),
    "back.length": row(
        820.0,
        "motion: axis; Back brace: length; motion: pivot; hinge: places; gap spacers;"
        " motion: push_along; motion: grip",
        f"Side rail: length; {FRAME_SIZES}; Fixed slat: length; motion: gap; {BOUGHT}",
    ),
    "back.angles": row(
        (18.0, 33.0, 48.0, 60.0),
        "motion: wanted; motion: notches; Rack: outline",
        f"Back brace: length; {FRAME_SIZES}; motion: axis; motion: push; {BOUGHT}",
    ),
    "back.brace_width": row(
        66.0,
        "Back brace: width; motion: pivot; Rack: place; Side rail: width",
        f"Back brace: length; Fixed slat: *; Leg: length; Prop rod: length; motion: gap; {BOUGHT}",
    ),
    "back.push": row(500.0, "motion: push", "motion: push_along; Arm: *; Rack: *; hardware"),
    "back.push_share": row(0.5, "motion: push_along", "motion: push; Arm: *; Rack: *; hardware"),
    "back.brace_screws": row(
        1,
        "Back brace: pockets; pocket screw: count; hardware",
        f"Side rail: pockets; End rail: pockets; Back slat: outline; {FRAME_SIZES}; motion: axis",
    ),
    "hinge.hinge": row(
        "flap-38",
        "hinge: items; hinge: sizes; hinge screw: count; hinge screw: items; motion: axis_depth;"
        " Hinge packer: length; Hinge packer: width; hardware",
        f"{FRAME_SIZES}; Back slat: length; Fixed slat: length; Prop rod: length",
    ),
    "hinge.gap": row(
        28.0,
        "motion: gap; gap spacers; Fixed slat: place; motion: axis_from_fixed",
        f"motion: axis; {PROP}; Back slat: *; {FRAME_SIZES}; {BOUGHT}",
    ),
    "hinge.axis_from_back": row(
        6.0,
        "motion: axis_from_fixed; Back slat: place; gap spacers",
        f"motion: axis; {FRAME_SIZES}; Arm: width; {BOUGHT}",
    ),
    "hinge.spare": row(
        15.0,
        "motion: spare; motion: gap; gap spacers",
        f"motion: axis; {PROP}; {FRAME_SIZES}; {BOUGHT}",
    ),
    "hinge.inset": row(
        0.32,
        "hinge: places; Hinge packer: place; Back slat: work",
        f"Hinge packer: length; motion: *; Fixed slat: *; {FRAME_SIZES}; hardware",
    ),
    "rack.kind": row(
        "blocks",
        "Rack: count; Rack bearer: count; Tooth block: count; wood screw: count;"
        " motion: contour; hardware",
        f"{FRAME_SIZES}; Fixed slat: *; Prop rod: length; motion: wanted; motion: gap",
        BLOCK_ANGLES,
    ),
    "rack.notch": row(
        "half-round",
        "Rack: outline; Rack: work; motion: contour; motion: notches",
        f"Side rail: length; Leg: length; Fixed slat: *; motion: wanted; {BOUGHT}",
    ),
    "rack.rod": row(
        "hardwood-25",
        "Prop rod: diameter; motion: rod; Arm: hole diameters; Rack: outline; motion: notches",
        f"Prop rod: length; Fixed slat: *; Leg: length; motion: gap; {BOUGHT}",
    ),
    "rack.pitch": row(
        110.0,
        "motion: notches; motion: pivot; motion: arm; Rack: outline; Arm: length",
        f"Arm: width; {FRAME_SIZES}; Fixed slat: *; motion: gap; motion: axis; {BOUGHT}",
    ),
    "rack.web": row(
        30.0,
        "Rack: width; Side rail: width; wood screw: places",
        f"{PROP}; motion: contour; Prop rod: *; Leg: length; Fixed slat: *; {BOUGHT}",
    ),
    "rack.rod_clearance": row(
        4.0,
        "Prop rod: length; Prop rod: place",
        f"Prop rod: diameter; Arm: *; Rack: *; motion: *; {FRAME_SIZES}; hardware",
    ),
    "rack.screws": row(
        5,
        "Rack: hole diameters; Side rail: hole diameters; wood screw: count; hardware",
        f"Rack: outline; motion: *; pocket screw: count; {FRAME_SIZES}",
    ),
    "arms.width": row(
        48.0,
        "Arm: width; Arm: length",
        f"motion: arm; motion: pivot; Back brace: length; {FRAME_SIZES}; {BOUGHT}",
    ),
    "arms.length": row(
        372.0,
        "motion: arm; Arm: length; motion: notches; Rack: outline",
        f"Arm: width; {FRAME_SIZES}; Fixed slat: *; motion: gap; motion: axis; {BOUGHT}",
    ),
    "arms.pivot": row(
        320.0,
        "motion: pivot; motion: notches; Rack: outline; Back brace: work",
        f"Arm: width; {FRAME_SIZES}; Fixed slat: *; motion: gap; motion: axis; {BOUGHT}",
    ),
    "arms.least_lean": row(
        12.0,
        "motion: least_lean; motion: notches; Rack: outline; motion: arm",
        f"Arm: width; {FRAME_SIZES}; Fixed slat: *; motion: gap; motion: wanted; {BOUGHT}",
    ),
    "arms.lane_clearance": row(
        5.0,
        "Arm: place; Back brace: place; gap spacers",
        f"Rack: *; Prop rod: *; motion: *; {FRAME_SIZES}; {BOUGHT}",
    ),
    "arms.clearance": row(
        6.0,
        "Rack: place; Side rail: width; motion: folded; motion: contour",
        f"Back brace: width; Fixed slat: *; Leg: length; Prop rod: length; motion: gap; {BOUGHT}",
    ),
    "wheels.use": row(
        True,
        "Leg: count; Wheel leg: count; Axle: length; wheel: count; hardware",
        f"Side rail: *; Rack: *; Fixed slat: *; motion: *; {BOUGHT}",
    ),
    "wheels.wheel": row(
        "wheel-125",
        "wheel: items; wheel: sizes; Axle: place; Wheel leg: length; hardware",
        f"Side rail: *; Leg: *; Rack: *; motion: *; {BOUGHT}",
        ON_WHEELS,
        SMALL_WHEEL,
    ),
    "wheels.axle": row(
        "steel-12",
        "Axle: diameter; Wheel leg: hole diameters; hardware",
        f"Side rail: *; Leg: *; Rack: *; motion: *; {BOUGHT}",
        ON_WHEELS,
        {"wheels.wheel": "wheel-125"},
    ),
    # Height and wheel leave 25 over the tyre: this key only says how much of it is needed.
    "wheels.clearance": row(
        40.0, "conflicts", f"Side rail: *; Axle: *; wheel: *; motion: *; {BOUGHT}", ON_WHEELS
    ),
    "as_made.hinge": row(
        1156.0,
        "motion: axis; motion: notches; Rack: outline; Back brace: length",
        f"Arm: width; {FRAME_SIZES}; motion: gap; motion: wanted; {BOUGHT}",
    ),
    "as_made.hinge_below": row(
        4.5,
        "motion: axis; motion: notches; Rack: outline",
        f"Arm: width; {FRAME_SIZES}; motion: wanted; {BOUGHT}",
    ),
    "as_made.pivot": row(
        320.0,
        "motion: pivot; motion: notches; Rack: outline",
        f"Arm: width; {FRAME_SIZES}; Fixed slat: *; motion: gap; {BOUGHT}",
    ),
    "as_made.pivot_below": row(
        27.0,
        "motion: pivot; motion: notches; Rack: outline; Back brace: work",
        f"Arm: width; {FRAME_SIZES}; Fixed slat: *; motion: gap; {BOUGHT}",
    ),
    "as_made.arm": row(
        372.0,
        "motion: arm; Arm: length; motion: notches; Rack: outline",
        f"Arm: width; {FRAME_SIZES}; Fixed slat: *; motion: gap; {BOUGHT}",
    ),
    "as_made.notches": row(
        (620.0, 520.0, 420.0, 300.0),
        "motion: notches; Rack: outline; motion: arm",
        f"motion: wanted; Arm: width; {FRAME_SIZES}; Fixed slat: *; motion: gap; {BOUGHT}",
    ),
    "as_made.tolerance": row(2.0, "motion: tolerance", "Arm: *; Rack: *; Side rail: *; hardware"),
    "fixings.jig": row(
        "pocket-20",
        "Side rail: work; pocket screw: places; Back brace: work; Back brace: width",
        "Side rail: length; Fixed slat: length; Leg: length; Prop rod: length; hinge: items",
    ),
    "fixings.pocket_screw": row(
        "pocket-fine",
        "pocket screw: items; pocket screw: sizes; hardware",
        f"pocket screw: count; pocket screw: places; wood screw: *; motion: *; {FRAME_SIZES}",
    ),
    "fixings.wood_screw": row(
        "wood-5",
        "wood screw: items; wood screw: sizes; Rack: hole diameters; hardware",
        f"pocket screw: *; coach bolt: *; hinge screw: *; motion: *; {FRAME_SIZES}",
    ),
    "fixings.bolt": row(
        "coach-m6",
        "coach bolt: items; coach bolt: sizes; Leg: hole diameters; Arm: hole diameters; hardware",
        "Leg: length; Fixed slat: length; wood screw: items; pocket screw: sizes; motion: rod",
        None,
        M6,
    ),
    "fixings.nut": row(
        "hex-m8",
        "hardware",
        f"Leg: hole diameters; pocket screw: items; motion: wanted; {FRAME_SIZES}",
    ),
    "fixings.washer": row(
        "wide-m8",
        "hardware; Back brace: place",
        f"Leg: hole diameters; coach bolt: items; {FRAME_SIZES}; motion: gap",
    ),
    "fixings.tip_cover": row(
        8.0,
        "pocket screw: sizes; wood screw: sizes; hardware",
        f"pocket screw: count; coach bolt: *; motion: *; {FRAME_SIZES}; Fixed slat: outline",
    ),
}

KEYS = tuple(f.path for f in fields_of(LOUNGER.record) if f.spec.record is None)


def test_every_key_has_a_row() -> None:
    assert set(KEYS) == set(ROWS)


@pytest.mark.parametrize("key", KEYS)
def test_moves_and_stays(
    key: str,
    with_keys: Callable[..., Any],
    compared: Callable[..., tuple[list[str], list[str]]],
) -> None:
    value, moves, stays, base, along = ROWS[key]
    before = with_keys(LOUNGER.record(name="Trial"), base)
    after = with_keys(before, {key: value, **along})
    unmoved, moved = compared(LOUNGER, before, after, moves, stays)
    assert (unmoved, moved) == ([], [])
