"""Low chairs broken on purpose: each break is caught by the finding that names it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from flatpack.frozen import replace
from flatpack.model import Assembly

from .breaks import changed, drilled_aside, faults, shifted

CHAIRS = ("heron-chair", "rhubarb-chair", "tall-tale-chair")
Make = Callable[..., Assembly]


@pytest.mark.parametrize("name", CHAIRS)
def test_unbroken(piece: Make, name: str) -> None:
    assert faults(piece(name)) == []


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("heron-chair", "rail-left"),
        ("heron-chair", "cross-upper"),
        ("rhubarb-chair", "back-slat-1"),
        ("rhubarb-chair", "post-right"),
        ("tall-tale-chair", "leg-front-right"),
    ],
)
def test_a_hole_moved_1_mm(piece: Make, name: str, key: str) -> None:
    told = [f for f in faults(drilled_aside(piece(name), key, 1.0)) if f.code == "hole-off-axis"]
    assert [f.part for f in told] == [key]
    assert told[0].measured == pytest.approx(1.0)


@pytest.mark.parametrize("name", CHAIRS)
@pytest.mark.parametrize("key", ["back-slat-2", "slat-3", "arm-left", "apron", "cross-lower"])
def test_a_part_lifted_off_what_it_lies_on(piece: Make, name: str, key: str) -> None:
    whole = piece(name)
    frame = whole.parts[key].frame
    way = frame.x if key == "apron" else frame.z
    broken = shifted(whole, key, *(0.4 * v for v in way))
    told = {f.part for f in faults(broken) if f.code == "mates-apart"}
    assert any(key in pair.split(" / ") for pair in told)


@pytest.mark.parametrize(
    ("name", "key", "other"),
    [
        ("heron-chair", "arm-left", "post-left"),
        ("rhubarb-chair", "leg-front-left", "rail-left"),
        ("tall-tale-chair", "post-right", "rail-right"),
    ],
)
def test_parts_run_into_each_other(piece: Make, name: str, key: str, other: str) -> None:
    broken = shifted(piece(name), key, 0.0, 0.3 if key.endswith("left") else -0.3, 0.0)
    if key.startswith("post"):
        broken = shifted(piece(name), key, 0.0, 0.3, 0.0)
    told = {f.part for f in faults(broken) if f.code == "shared-space"}
    assert any(set(pair.split(" / ")) == {key, other} for pair in told)


@pytest.mark.parametrize("name", CHAIRS)
def test_two_rails_of_one_hand(piece: Make, name: str) -> None:
    """The right rail sawn and bored like the left one, laid in its place turned over."""
    whole = piece(name)
    frame = whole.parts["rail-right"].frame
    thick = whole.parts["rail-right"].thickness
    turned = replace(frame, origin=frame.origin.plus(frame.z, thick), z=frame.z.negated())
    told = {f.code for f in faults(changed(whole, "rail-right", frame=turned))}
    assert "two-of-one-hand" in told
