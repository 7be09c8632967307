"""Every key of the cushion box moves what it should, and leaves alone what it has no say in.

The rows are reasoned from what each key means; see the lounger's.  A new key fails the first test
until it has a row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from flatpack.parameters import BoardChoice, fields_of
from flatpack.pieces import PIECES, Family

BOX = PIECES["cushion-box"]

Row = tuple[object, str, str, Mapping[str, object], Mapping[str, object]]
POSTS = "Corner post: length; Corner post: width"
SIDES = "Side board: length; Side board: width; End board: length; End board: width"
SLATS = "Bottom slat: length; Bottom slat: width; Bottom slat: count"
BEARERS = "Bearer: length; Bearer: width"
LID = "Lid board: length; Lid board: width; Lid board: count"
BATTENS = "Lid batten: length; Lid batten: width"
RAIL = "Hinge rail: length; Hinge rail: width"
PROP = "motion: pivot; motion: arm; motion: notches; motion: folded; motion: contour"
ALL = f"{POSTS}; {SIDES}; {SLATS}; {BEARERS}; {LID}; {BATTENS}; {RAIL}"
WHOLE = f"{ALL}; {PROP}; Rack: outline; Arm: *; Prop rod: length"
WIDE_LID: Mapping[str, object] = {
    "lid.board_width": 200.0,
    "boards.lid": BoardChoice("ply-24"),
    "lid.rear_overhang": 0.0,
}
M8: Mapping[str, object] = {"fixings.nut": "lock-m8", "fixings.washer": "washer-m8"}


def row(
    value: object,
    moves: str,
    stays: str,
    base: Mapping[str, object] | None = None,
    along: Mapping[str, object] | None = None,
) -> Row:
    return value, moves, stays, base or {}, along or {}


ROWS: Mapping[str, Row] = {
    "name": row("Other name", "name", f"date; workshop; {WHOLE}; hardware"),
    "date": row("2031-04-12", "date", f"name; workshop; {WHOLE}; hardware"),
    "workshop": row("laser", "workshop", f"name; {WHOLE}; hardware"),
    "finishing.glue": row("pva-d3", "glue", f"finish; sealer; units; {WHOLE}; hardware"),
    "finishing.finish": row("oil", "finish", f"glue; sealer; units; {WHOLE}; hardware"),
    "finishing.sealer": row("oil", "sealer", f"glue; finish; units; {WHOLE}; hardware"),
    "finishing.units": row("inches", "units", f"glue; finish; sealer; {WHOLE}; hardware"),
    "size.length": row(
        1200.0,
        "Side board: length; Bottom slat: length; Lid board: length; Hinge rail: length;"
        " Prop rod: length; Lid batten: place",
        f"{POSTS}; End board: length; {BEARERS}; {BATTENS}; {PROP}; Rack: outline; Arm: outline",
    ),
    "size.depth": row(
        580.0,
        f"End board: length; Bearer: length; Lid board: width; Lid batten: length; {PROP};"
        " Rack: length",
        f"{POSTS}; Side board: length; {RAIL}; Lid board: length; Prop rod: length; steps",
    ),
    "size.height": row(
        540.0,
        "Corner post: length; Side board: width; Lid board: place; motion: axis",
        f"{SLATS}; Bottom slat: place; {BEARERS}; {LID}; {BATTENS}; {RAIL}; {PROP}; Rack: outline",
    ),
    "boards.timber": row(
        BoardChoice("larch-20"),
        f"*: board; End board: length; Lid batten: width; {PROP}; hardware",
        "Side board: length; Bearer: width; Corner post: width; Lid board: length; steps; name",
    ),
    "boards.sides": row(
        BoardChoice("larch-20"),
        "Side board: board; End board: board; End board: length; Prop rod: length; Bearer: length",
        f"Corner post: board; Lid board: board; {POSTS}; Hinge rail: width; {LID}; Arm: board",
    ),
    "boards.posts": row(
        BoardChoice("larch-45"),
        "Corner post: board; Bearer: board; Hinge rail: board;"
        " Side board: width; Bottom slat: outline",
        f"Side board: board; Lid board: board; {LID}; Lid batten: width",
    ),
    "boards.bottom": row(
        BoardChoice("larch-20"),
        "Bottom slat: board; hardware",
        f"{WHOLE}; Bottom slat: outline; Side board: *; Lid board: *; steps",
    ),
    "boards.lid": row(
        BoardChoice("larch-20"),
        "Lid board: board; motion: axis; motion: slat; Side board: width",
        f"{LID}; {BATTENS}; {RAIL}; {SLATS}; {PROP}; Rack: outline; Arm: outline; steps",
    ),
    "boards.moving": row(
        BoardChoice("larch-20"),
        f"Lid batten: board; Arm: board; Lid batten: width; Lid batten: place; {PROP}; hardware",
        f"{POSTS}; {SIDES}; {SLATS}; {LID}; {RAIL}; Lid board: board; Rack: board; steps",
    ),
    "boards.rack": row(
        BoardChoice("larch-20"),
        "Rack: board; Arm: place; Lid batten: place",
        f"{ALL}; {PROP}; Rack: outline; Arm: outline; Prop rod: length; Lid board: board; steps",
    ),
    "corners.kind": row(
        "battens",
        "Corner post: count; Corner batten: count; Bottom slat: outline; Side board: work;"
        " Lid batten: length; motion: pivot",
        f"{SIDES}; {BEARERS}; Bottom slat: length; Hinge rail: width; Lid board: length; steps",
        {**WIDE_LID, "bottom.slat_width": 120.0},
    ),
    "corners.width": row(
        95.0,
        "Corner post: width; Middle batten: width; Bottom slat: outline",
        f"Corner post: length; {SIDES}; {BEARERS}; {LID}; {BATTENS}; {PROP}; Rack: outline; steps",
    ),
    "corners.longest_span": row(
        400.0,
        "Middle batten: count; Bearer: count; Bottom slat: outline; Side board: work; hardware",
        f"{ALL}; Corner post: place; End board: outline; {PROP}; Lid board: *; gap spacers",
    ),
    "sides.board_width": row(
        95.0,
        "Side board: width; Side board: count; End board: count",
        f"{POSTS}; Side board: length; {BEARERS}; {LID}; {BATTENS}; {PROP}; Bottom slat: *",
    ),
    "sides.gap": row(
        8.0,
        "gap spacers; Side board: place; Side board: width",
        f"{POSTS}; {BEARERS}; {LID}; {BATTENS}; {PROP}; Bottom slat: *; Side board: length; steps",
    ),
    "sides.screws": row(
        1,
        "Side board: work; End board: work; wood screw: count; hardware",
        f"{WHOLE}; Side board: place; Bottom slat: *; Lid board: *; gap spacers; steps",
    ),
    "sides.edge_round": row(
        5.0,
        "Side board: arris; Lid board: arris; Lid batten: arris; Hinge rail: arris; Rack: arris",
        f"{ALL}; {PROP}; Arm: *; Side board: outline; Side board: work; hardware; gap spacers",
    ),
    "ground.kind": row(
        "skids",
        "Corner post: length; Corner post: place; Skid: count; Bearer: count; Bottom slat: place",
        f"{SIDES}; Side board: place; {SLATS}; {LID}; {PROP}; Rack: *; gap spacers; steps",
        {"bottom.bearer_width": 95.0},
    ),
    "ground.clear": row(
        60.0,
        "Side board: place; Bearer: place; Side board: width; Bottom slat: place",
        f"{POSTS}; {BEARERS}; {SLATS}; {LID}; {BATTENS}; {PROP}; Lid board: *; gap spacers",
    ),
    "bottom.slat_width": row(
        120.0,
        "Bottom slat: width; Bottom slat: count; gap spacers",
        f"{POSTS}; {SIDES}; {BEARERS}; {LID}; {BATTENS}; {PROP}; Bottom slat: length; steps",
    ),
    "bottom.gap": row(
        25.0,
        "Bottom slat: count; gap spacers; hardware",
        f"{POSTS}; {SIDES}; {BEARERS}; {LID}; {PROP}; Bottom slat: length; Bottom slat: width",
        {"bottom.slat_width": 70.0, "bottom.gap": 4.0},
    ),
    "bottom.bearer_width": row(
        95.0,
        "Bearer: width; Bottom slat: place",
        f"{POSTS}; {SIDES}; Bearer: length; {SLATS}; {LID}; {PROP}; Side board: *; gap spacers",
    ),
    "bottom.screws": row(
        1,
        "Bottom slat: work; Bearer: work; wood screw: count; hardware",
        f"{WHOLE}; Bottom slat: outline; Side board: *; Lid board: *; gap spacers; steps",
    ),
    "lid.angles": row(
        (35.0, 60.0),
        "motion: wanted; motion: notches; motion: pivot; motion: arm; Rack: outline; Arm: length",
        f"{ALL}; Lid board: board; motion: axis; Prop rod: length; gap spacers; steps",
    ),
    "lid.board_width": row(
        120.0,
        "Lid board: width; Lid board: count; hardware",
        f"{POSTS}; {SIDES}; {SLATS}; {BATTENS}; {RAIL}; Lid board: length; Rack: board; steps",
        {"lid.rear_overhang": 0.0, "lid.overhang": 15.0},
    ),
    "lid.gap": row(
        5.0,
        "Lid board: width; Lid board: place; gap spacers",
        f"{POSTS}; {SIDES}; {SLATS}; {BATTENS}; {RAIL}; Lid board: length; Lid board: count; steps",
    ),
    "lid.overhang": row(
        40.0,
        "Lid board: length; Lid board: width; motion: grip; motion: push_along",
        f"{POSTS}; {SIDES}; {SLATS}; {BATTENS}; {RAIL}; Prop rod: length; Arm: place; steps",
    ),
    "lid.rear_overhang": row(
        24.0,
        "Lid board: place; Lid board: width",
        f"{POSTS}; {SIDES}; {SLATS}; {BATTENS}; {RAIL}; Lid board: length; motion: axis; steps",
    ),
    "lid.batten_width": row(
        120.0,
        f"Lid batten: width; Lid batten: length; {PROP}",
        f"{POSTS}; {SIDES}; {SLATS}; {LID}; {RAIL}; Prop rod: length; gap spacers; steps",
    ),
    "lid.longest_span": row(
        400.0,
        "Middle lid batten: count; pocket screw: count; hardware",
        f"{WHOLE}; Lid batten: *; Side board: *; gap spacers; steps",
        {"lid.longest_span": 600.0},
    ),
    "lid.screws": row(
        1,
        "Lid batten: pockets; pocket screw: count; hardware",
        f"{ALL}; Side board: *; Bottom slat: *; Rack: board; gap spacers; steps",
    ),
    "lid.push": row(200.0, "motion: push", f"{WHOLE}; hardware; gap spacers; steps"),
    "lid.push_share": row(0.5, "motion: push_along", f"{WHOLE}; motion: push; hardware; steps"),
    "hinge.hinge": row(
        "flap-50",
        "hinge: items; hinge: sizes; motion: opens; Hinge rail: work; hardware",
        f"{ALL}; {PROP}; motion: axis; Rack: outline; Side board: place; steps",
    ),
    "hinge.count": row(
        3,
        "hinge: count; hinge screw: count; Hinge rail: work; Lid board: work; hardware",
        f"{WHOLE}; Bottom slat: *; gap spacers; steps",
    ),
    "hinge.inset": row(
        0.25,
        "hinge: places; hinge screw: places; Hinge rail: work; Lid board: work",
        f"{WHOLE}; hinge: count; Bottom slat: *; gap spacers; steps",
    ),
    "hinge.rail_width": row(
        95.0,
        "Hinge rail: width; Lid batten: length; Lid batten: place",
        f"{POSTS}; {SIDES}; {SLATS}; {LID}; Side board: place; Prop rod: length; steps",
        WIDE_LID,
    ),
    "rack.notch": row(
        "half-round",
        "motion: contour; Rack: outline",
        f"{ALL}; Side board: *; Lid board: outline; Prop rod: length; gap spacers; steps",
    ),
    "rack.rod": row(
        "hardwood-25",
        f"Prop rod: diameter; motion: rod; {PROP}; Arm: hole diameters; Rack: outline",
        f"{ALL}; Side board: place; Prop rod: length; gap spacers; steps",
    ),
    "rack.web": row(
        30.0,
        "Rack: width; Rack: place",
        f"{ALL}; {PROP}; Arm: *; Prop rod: *; Lid board: *; gap spacers; steps",
    ),
    "rack.rod_clearance": row(
        5.0,
        "Prop rod: length; Prop rod: place",
        f"{ALL}; {PROP}; Rack: outline; Arm: *; Lid board: *; hardware; gap spacers; steps",
    ),
    "rack.screws": row(
        4,
        "Rack: work; End board: work; wood screw: count; hardware",
        f"{WHOLE}; Lid board: *; Bottom slat: *; gap spacers; steps",
    ),
    "arms.width": row(
        56.0,
        "Arm: width; Arm: outline; motion: pivot; motion: folded",
        f"{ALL}; Side board: *; Prop rod: length; gap spacers; steps",
    ),
    "arms.length": row(
        300.0,
        "motion: arm; Arm: length; motion: notches; Rack: outline",
        f"{ALL}; Side board: *; motion: axis; Prop rod: length; gap spacers; steps",
        {"arms.length": 290.0, "arms.pivot": 190.0},
    ),
    "arms.pivot": row(
        200.0,
        "motion: pivot; motion: notches; Arm: place; Rack: outline",
        f"{ALL}; Side board: *; motion: axis; Prop rod: length; gap spacers; steps",
        {"arms.pivot": 190.0},
    ),
    "arms.least_lean": row(
        16.0,
        "motion: least_lean; motion: arm; motion: notches",
        f"{ALL}; Side board: *; motion: axis; Prop rod: length; gap spacers; steps",
    ),
    "arms.lane_clearance": row(
        6.0,
        "Arm: place; Lid batten: place; coach bolt: places",
        f"{ALL}; {PROP}; Rack: outline; Arm: outline; Prop rod: length; Lid board: outline; steps",
    ),
    "arms.clearance": row(
        6.0,
        f"Lid batten: length; Lid batten: place; Rack: place; {PROP}",
        f"{POSTS}; {SIDES}; {SLATS}; {LID}; {RAIL}; Lid batten: width; Prop rod: length; steps",
    ),
    "arms.tolerance": row(2.0, "motion: tolerance", f"{WHOLE}; hardware; gap spacers; steps"),
    "fixings.jig": row(
        "pocket-20",
        "Lid batten: work; Lid batten: width",
        f"{POSTS}; {SIDES}; {SLATS}; {LID}; {RAIL}; gap spacers; steps",
    ),
    "fixings.pocket_screw": row(
        "pocket-fine",
        "pocket screw: items; hardware",
        f"{ALL}; Side board: *; Rack: board; gap spacers; steps",
    ),
    "fixings.wood_screw": row(
        "wood-5",
        "wood screw: items; Side board: hole diameters; Corner post: hole diameters; hardware",
        f"{ALL}; {PROP}; Rack: outline; gap spacers; steps",
    ),
    "fixings.bolt": row(
        "coach-m8",
        "coach bolt: items; Arm: hole diameters; Lid batten: hole diameters; Lid batten: place",
        f"{ALL}; Rack: board; Prop rod: length; steps",
        None,
        M8,
    ),
    "fixings.nut": row(
        "lock-m8",
        "hardware",
        f"{ALL}; Rack: board; Prop rod: length; steps",
        None,
        {"fixings.bolt": "coach-m8", "fixings.washer": "washer-m8"},
    ),
    "fixings.washer": row(
        "washer-m8",
        "hardware; Lid batten: place",
        f"{ALL}; Rack: board; Prop rod: length; steps",
        None,
        {"fixings.bolt": "coach-m8", "fixings.nut": "lock-m8"},
    ),
    "fixings.tip_cover": row(
        12.0,
        "wood screw: sizes; pocket screw: sizes; hinge screw: sizes; hardware",
        f"{WHOLE}; wood screw: count; gap spacers; steps",
    ),
}

KEYS = tuple(f.path for f in fields_of(BOX.record) if f.spec.record is None)


def test_every_key_has_a_row() -> None:
    assert set(KEYS) == set(ROWS)


@pytest.mark.parametrize("key", KEYS)
def test_moves_and_stays(key: str, row_held: Callable[[Family, str, Row], None]) -> None:
    row_held(BOX, key, ROWS[key])


def test_a_wrong_row_is_seen(
    with_keys: Callable[..., Any], compared: Callable[..., tuple[list[str], list[str]]]
) -> None:
    before = BOX.record(name="Trial")
    after = with_keys(before, {"rack.web": 30.0})
    unmoved, moved = compared(BOX, before, after, "Arm: length", "Rack: width")
    assert (unmoved, moved) == (["Arm: length"], ["Rack: width"])
