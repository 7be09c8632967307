"""Keys that can't go together are refused before anything is built, with what would do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from flatpack.parameters import Conflict, replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())


def changed(family: str, values: Mapping[str, object]) -> Any:
    record = PIECES[family].record(name="Trial")
    for path, value in values.items():
        table, _, key = path.rpartition(".")
        if table:
            record = replace(record, **{table: replace(getattr(record, table), **{key: value})})
        else:
            record = replace(record, **{key: value})
    return record


def refused(family: str, **values: object) -> list[Conflict]:
    record = changed(family, {k.replace("__", "."): v for k, v in values.items()})
    return list(PIECES[family].conflicts(record, PROFILES))


LOUNGER: list[tuple[str, Mapping[str, object]]] = [
    ("back.length", {"size.length": 1090.0}),
    ("back.angles", {"back.angles": (20.0, 20.0)}),
    ("back.angles", {"back.angles": (40.0, 41.0, 42.0)}),
    ("as_made.notches", {"as_made.notches": (600.0, 500.0)}),
    ("as_made.notches", {"as_made.notches": (300.0, 400.0, 500.0, 600.0)}),
    ("as_made.notches", {"as_made.notches": (500.0, 495.0, 490.0, 400.0)}),
    ("as_made.pivot", {"as_made.pivot": 1000.0}),
    ("arms.pivot", {"arms.pivot": 900.0}),
    ("arms.width", {"arms.width": 120.0, "back.brace_width": 60.0}),
    ("slats.deck_count", {"slats.deck_count": 40}),
    ("slats.back_count", {"slats.back_count": 20}),
    ("frame.rail_width", {"frame.rail_width": 100.0}),
    ("size.height", {"size.height": 180.0, "frame.rail_width": 160.0}),
    ("size.width", {"size.width": 380.0}),
    ("wheels.wheel", {"wheels.use": True, "wheels.wheel": "wheel-200"}),
    ("wheels.axle", {"wheels.use": True, "wheels.axle": "steel-12"}),
    ("rack.notch", {"rack.kind": "blocks", "rack.notch": "vee"}),
    ("fixings.nut", {"fixings.nut": "lock-m10"}),
    ("fixings.washer", {"fixings.washer": "washer-m6"}),
    ("fixings.pocket_screw", {"fixings.pocket_screw": "wood-5"}),
    ("fixings.wood_screw", {"fixings.wood_screw": "pocket-coarse"}),
]
BENCH: list[tuple[str, Mapping[str, object]]] = [
    ("seat.count", {"seat.count": 12}),
    ("back.count", {"back.count": 12}),
    ("frames.leg_width", {"frames.leg_width": 180.0}),
    ("frames.low_rail_height", {"frames.low_rail_height": 390.0}),
    ("arms.use", {"back.use": False, "arms.use": True}),
    ("back.lap", {"back.lap": 380.0, "size.height": 400.0}),
    ("fixings.nut", {"fixings.nut": "lock-m10"}),
    ("fixings.barrel_nut", {"construction": "knock-down", "fixings.barrel_nut": "barrel-m8-20"}),
    ("fixings.insert", {"construction": "knock-down", "fixings.insert": "insert-m8"}),
]


@pytest.mark.parametrize(("key", "values"), LOUNGER)
def test_lounger_refuses(key: str, values: Mapping[str, object]) -> None:
    found = list(PIECES["lounger"].conflicts(changed("lounger", values), PROFILES))
    assert key in {conflict.key for conflict in found}
    assert all(conflict.allowed and conflict.message for conflict in found)


@pytest.mark.parametrize(("key", "values"), BENCH)
def test_bench_refuses(key: str, values: Mapping[str, object]) -> None:
    found = list(PIECES["bench"].conflicts(changed("bench", values), PROFILES))
    assert key in {conflict.key for conflict in found}
    assert all(conflict.allowed and conflict.message for conflict in found)


def test_unused_fixings_need_not_fit() -> None:
    assert refused("bench", fixings__insert="insert-m8") == []
    loose = {"back.use": False, "fixings.nut": "lock-m10"}
    assert list(PIECES["bench"].conflicts(changed("bench", loose), PROFILES)) == []


def test_what_is_allowed_is_accepted_afterwards() -> None:
    """The numbers that a refusal gives are taken at its word."""
    for values, key, allowed in (
        ({"back.angles": (40.0, 41.0, 42.0)}, "back.angles", "further apart, such as "),
        ({"frame.rail_width": 100.0}, "frame.rail_width", "at least "),
        ({"size.width": 380.0}, "size.width", "at least "),
    ):
        record = changed("lounger", values)
        (conflict,) = PIECES["lounger"].conflicts(record, PROFILES)
        assert conflict.allowed.startswith(allowed)
        said = conflict.allowed.removeprefix(allowed)
        if said.startswith("["):
            mended: object = tuple(float(n) for n in said.strip("[]").split(","))
        else:
            mended = float(said.split(":")[0].split(" ")[0].rstrip(",")) + 0.1
        again = changed("lounger", {**values, key: mended})
        assert list(PIECES["lounger"].conflicts(again, PROFILES)) == []
