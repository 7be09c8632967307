"""Measures that a body feels: advice by published ranges."""

from __future__ import annotations

from typing import get_args

import pytest

from flatpack.checks import run
from flatpack.checks.comfort import RANGES
from flatpack.model import Assembly, Comfort, ComfortKind
from flatpack.pieces import PIECES
from flatpack.profiles import Profiles

INCH = 25.4


def found(*measures: Comfort) -> list[tuple[str, str, float | None]]:
    piece = Assembly(family="test", name="Trial", parts={}, comfort=measures)
    return [(f.severity, f.part, f.limit) for f in run(piece, only=("comfort",))]


def test_every_measure_has_its_range() -> None:
    assert set(RANGES) == set(get_args(ComfortKind))
    assert all(r.low < r.high and r.below and r.source for r in RANGES.values())


@pytest.mark.parametrize(
    ("what", "inches"),
    [
        ("seat height", (17.0, 19.0)),  # 2010 ADA Standards 903.5, benches
        (
            "seat depth",
            (15.0, 20.0),
        ),  # trade advice 400 +-25 mm; 903.3: from 20 in
        ("table height", (28.0, 34.0)),  # 2010 ADA Standards 902.3
        ("knee room", (27.0, 29.0)),  # 2010 ADA Standards 306.3
        ("seat to table", (10.0, 12.0)),  # trade advice
    ],
)
def test_published_sizes_are_comfortable(what: ComfortKind, inches: tuple[float, float]) -> None:
    assert [found(Comfort(what, n * INCH, "a.key")) for n in inches] == [[], []]


@pytest.mark.parametrize(
    ("what", "value", "limit"),
    [
        ("seat height", 354.0, 355.0),  # women's popliteal height, 5th percentile
        ("seat height", 491.0, 485.0),  # men's 95th percentile is 490
        ("back angle", 94.0, 95.0),
        ("table height", 640.0, 710.0),
        ("seat to table", 320.0, 305.0),
    ],
)
def test_outside_is_a_note_that_names_the_key(
    what: ComfortKind, value: float, limit: float
) -> None:
    assert found(Comfort(what, value, "size.height")) == [("note", "size.height", limit)]


def test_benches_tell_what_they_feel_like(profiles: Profiles) -> None:
    family = PIECES["bench"]
    bench = family.build(family.record(), profiles)
    told = {c.what: c for c in bench.comfort}
    assert {"seat height", "seat depth", "back angle"} <= set(told)
    # By hand: back leans 14 degrees from upright, the seat is level.
    assert told["back angle"].value == pytest.approx(104.0)
