"""Every key of the planter box moves what it should, and leaves alone what it has no say in.

The rows are reasoned from what each key means; see the lounger's.  A new key fails the first test
until it has a row.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from flatpack.parameters import BoardChoice, fields_of
from flatpack.pieces import PIECES, Family

PLANTER = PIECES["planter"]

Row = tuple[object, str, str, Mapping[str, object], Mapping[str, object]]
POSTS = "Corner post: length; Corner post: width"
SIDES = "Side board: length; Side board: width; End board: length; End board: width"
SLATS = "Bottom slat: length; Bottom slat: width; Bottom slat: count"
BEARERS = "Bearer: length; Bearer: width"
CAPS = "Cap, long side: *; Cap, end: *"
ALL = f"{POSTS}; {SIDES}; {SLATS}; {BEARERS}; {CAPS}"
SKIDS: Mapping[str, object] = {"ground.kind": "skids", "bottom.bearer_width": 95.0}


def row(
    value: object,
    moves: str,
    stays: str,
    base: Mapping[str, object] | None = None,
    along: Mapping[str, object] | None = None,
) -> Row:
    return value, moves, stays, base or {}, along or {}


ROWS: Mapping[str, Row] = {
    "name": row("Other name", "name", f"date; workshop; {ALL}; hardware"),
    "date": row("2031-04-12", "date", f"name; workshop; {ALL}; hardware"),
    "workshop": row("laser", "workshop", f"name; {ALL}; hardware"),
    "finishing.glue": row("pva-d3", "glue", f"finish; sealer; units; {ALL}; hardware"),
    "finishing.finish": row("oil", "finish", f"glue; sealer; units; {ALL}; hardware"),
    "finishing.sealer": row("oil", "sealer", f"glue; finish; units; {ALL}; hardware"),
    "finishing.units": row("inches", "units", f"glue; finish; sealer; {ALL}; hardware"),
    "size.length": row(
        1200.0,
        "Side board: length; Bottom slat: length; Cap, long side: length; hardware",
        f"{POSTS}; End board: outline; {BEARERS}; Cap, end: outline; gap spacers; steps",
    ),
    "size.depth": row(
        490.0,
        "End board: length; Bearer: length; Cap, end: length; gap spacers; hardware",
        f"{POSTS}; Side board: length; Side board: width; Bottom slat: length; "
        "Cap, long side: length; steps",
    ),
    "size.height": row(
        500.0,
        "Corner post: length; Side board: width; End board: width; Cap, long side: place; hardware",
        f"{BEARERS}; Bearer: place; {SLATS}; Side board: length; Cap, long side: length",
    ),
    "boards.timber": row(
        BoardChoice("larch-20"),
        "*: board; End board: length; Side board: width; Bottom slat: length",
        "Side board: length; Bearer: width; Corner post: width; steps; name",
    ),
    "boards.sides": row(
        BoardChoice("larch-20"),
        "Side board: board; End board: board; End board: length; Bearer: length",
        f"Corner post: board; Bottom slat: board; Side board: length; {POSTS}; Cap, end: board",
    ),
    "boards.posts": row(
        BoardChoice("larch-45"),
        "Corner post: board; Middle batten: board; Bearer: board; Bottom slat: outline; hardware",
        f"{POSTS}; {SIDES}; {BEARERS}; Cap, long side: length; Side board: board; Cap, end: board",
    ),
    "boards.bottom": row(
        BoardChoice("larch-20"),
        "Bottom slat: board; hardware",
        f"{POSTS}; {SIDES}; {BEARERS}; {CAPS}; Bottom slat: outline; Side board: *",
    ),
    "boards.cap": row(
        BoardChoice("larch-20"),
        "Cap, long side: board; Cap, end: board; Corner post: length; Side board: width",
        f"Side board: length; End board: length; {BEARERS}; Bottom slat: *; Cap, end: width",
    ),
    "corners.kind": row(
        "battens",
        "Corner post: count; Corner batten: count; Bottom slat: outline; Side board: work",
        f"{SIDES}; {BEARERS}; Bottom slat: length; Cap, long side: length; gap spacers; steps",
    ),
    "corners.width": row(
        95.0,
        "Corner post: width; Middle batten: width; Bottom slat: outline; Bearer: place",
        f"Corner post: length; {SIDES}; {BEARERS}; Cap, end: *; gap spacers; steps",
    ),
    "corners.longest_span": row(
        400.0,
        "Middle batten: count; Bearer: count; Bottom slat: outline; Side board: work; hardware",
        f"{POSTS}; Corner post: place; {SIDES}; {BEARERS}; End board: *; Cap, end: *; gap spacers",
    ),
    "sides.board_width": row(
        145.0,
        "Side board: width; Side board: count; End board: count",
        f"{POSTS}; Side board: length; {BEARERS}; Bottom slat: *; Cap, end: length",
    ),
    "sides.gap": row(
        8.0,
        "gap spacers; Side board: place; Side board: width",
        f"{POSTS}; {BEARERS}; Bottom slat: *; Side board: length; {CAPS}; steps",
    ),
    "sides.screws": row(
        1,
        "Side board: work; End board: work; wood screw: count; hardware",
        f"{ALL}; Side board: place; Bottom slat: *; {CAPS}; gap spacers; steps",
    ),
    "sides.edge_round": row(
        5.0,
        "*: arris",
        f"{POSTS}; {SIDES}; {SLATS}; Cap, end: outline; Side board: work; hardware; gap spacers",
    ),
    "ground.kind": row(
        "skids",
        "Corner post: length; Corner post: place; Skid: count; Bearer: count; Bottom slat: place",
        f"{SIDES}; Side board: place; {SLATS}; {CAPS}; gap spacers; steps",
        {"bottom.bearer_width": 95.0},
    ),
    "ground.clear": row(
        60.0,
        "Side board: place; Bearer: place; Side board: width; Bottom slat: place; hardware",
        f"{POSTS}; {BEARERS}; {SLATS}; Side board: length; Cap, long side: place; gap spacers",
    ),
    "bottom.slat_width": row(
        120.0,
        "Bottom slat: width; Bottom slat: count; gap spacers",
        f"{POSTS}; {SIDES}; {BEARERS}; {CAPS}; Bottom slat: length; Side board: *; steps",
    ),
    "bottom.gap": row(
        25.0,
        "Bottom slat: count; gap spacers; hardware",
        f"{POSTS}; {SIDES}; {BEARERS}; {CAPS}; Bottom slat: length; Bottom slat: width; steps",
        {"bottom.slat_width": 70.0, "bottom.gap": 4.0, "size.depth": 430.0},
    ),
    "bottom.bearer_width": row(
        95.0,
        "Bearer: width; Bottom slat: place; hardware",
        f"{POSTS}; {SIDES}; Bearer: length; {SLATS}; {CAPS}; Side board: *; gap spacers; steps",
    ),
    "bottom.screws": row(
        1,
        "Bottom slat: work; Bearer: work; wood screw: count; hardware",
        f"{ALL}; Bottom slat: outline; Side board: *; {CAPS}; gap spacers; steps",
    ),
    "cap.use": row(
        False,
        "Cap, long side: count; Cap, end: count; Corner post: length; Side board: width; steps",
        f"Side board: length; {BEARERS}; Bottom slat: *; gap spacers",
    ),
    "cap.width": row(
        70.0,
        "Cap, long side: width; Cap, end: width; Cap, end: outline",
        f"{POSTS}; {SIDES}; {BEARERS}; {SLATS}; Cap, long side: length; Side board: *; steps",
    ),
    "cap.overhang": row(
        25.0,
        "Cap, long side: length; Cap, end: length; Cap, long side: place",
        f"{POSTS}; {SIDES}; {BEARERS}; Bottom slat: *; Side board: *; gap spacers; steps; hardware",
    ),
    "cap.corner": row(
        "butt",
        "Cap, long side: outline; Cap, end: length",
        f"{POSTS}; {SIDES}; {BEARERS}; Bottom slat: *; Cap, long side: length; Cap, end: width",
    ),
    "cap.screws_apart": row(
        150.0,
        "Cap, long side: work; wood screw: count; hardware",
        f"{ALL.replace(CAPS, 'Cap, end: length')}; Bottom slat: *; End board: outline; steps",
    ),
    "liner.use": row(
        False, "hardware", f"{ALL}; Side board: *; Bottom slat: *; gap spacers; steps"
    ),
    "liner.thickness": row(
        2.0, "hardware", f"{ALL}; Side board: *; Bottom slat: *; gap spacers; steps"
    ),
    "liner.fold": row(
        60.0, "hardware", f"{ALL}; Side board: *; Bottom slat: *; gap spacers; steps"
    ),
    "soil.below_top": row(60.0, "workings", f"{ALL}; Side board: *; hardware; gap spacers; steps"),
    "soil.density": row(1800.0, "workings", f"{ALL}; Side board: *; hardware; gap spacers; steps"),
    "fixings.wood_screw": row(
        "wood-4",
        "wood screw: items; Side board: hole diameters; Corner post: hole diameters; hardware",
        f"{ALL.replace(CAPS, 'Cap, end: outline')}; gap spacers; steps",
    ),
    "fixings.tip_cover": row(
        12.0,
        "wood screw: sizes; hardware",
        f"{ALL.replace(CAPS, 'Cap, end: outline')}; wood screw: count; gap spacers; steps",
    ),
}

KEYS = tuple(f.path for f in fields_of(PLANTER.record) if f.spec.record is None)


def test_every_key_has_a_row() -> None:
    assert set(KEYS) == set(ROWS)


@pytest.mark.parametrize("key", KEYS)
def test_moves_and_stays(key: str, row_held: Callable[[Family, str, Row], None]) -> None:
    row_held(PLANTER, key, ROWS[key])


def test_a_wrong_row_is_seen(
    with_keys: Callable[..., Any], compared: Callable[..., tuple[list[str], list[str]]]
) -> None:
    before = PLANTER.record(name="Trial")
    after = with_keys(before, {"cap.overhang": 25.0})
    unmoved, moved = compared(PLANTER, before, after, "Bearer: length", "Cap, end: length")
    assert (unmoved, moved) == (["Bearer: length"], ["Cap, end: length"])
