"""Low chairs broken on purpose: each break is caught by the finding that names it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from flatpack import checks
from flatpack.features import Hole
from flatpack.finding import Finding
from flatpack.frozen import replace
from flatpack.geometry import Point, Vec
from flatpack.model import Assembly

CHAIRS = ("heron-chair", "rhubarb-chair", "tall-tale-chair")
Make = Callable[..., Assembly]


def changed(whole: Assembly, key: str, **values: object) -> Assembly:
    return replace(whole, parts={**whole.parts, key: replace(whole.parts[key], **values)})


def shifted(whole: Assembly, key: str, by: Vec) -> Assembly:
    frame = whole.parts[key].frame
    return changed(whole, key, frame=replace(frame, origin=frame.origin.plus(by)))


def faults(whole: Assembly) -> list[Finding]:
    return [f for f in checks.run(whole) if f.severity == "fault"]


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
    whole = piece(name)
    features = whole.parts[key].features
    first = next(f for f in features if isinstance(f, Hole))
    moved = replace(first, at=Point(first.at.x + 1.0, first.at.y))
    broken = changed(whole, key, features=tuple(moved if f is first else f for f in features))
    told = [f for f in faults(broken) if f.code == "hole-off-axis"]
    assert [f.part for f in told] == [key]
    assert told[0].measured == pytest.approx(1.0)


@pytest.mark.parametrize("name", CHAIRS)
@pytest.mark.parametrize("key", ["back-slat-2", "slat-3", "arm-left", "apron", "cross-lower"])
def test_a_part_lifted_off_what_it_lies_on(piece: Make, name: str, key: str) -> None:
    whole = piece(name)
    frame = whole.parts[key].frame
    way = frame.x if key == "apron" else frame.z
    broken = shifted(whole, key, Vec(*(0.4 * v for v in way)))
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
    broken = shifted(piece(name), key, Vec(0.0, 0.3 if key.endswith("left") else -0.3, 0.0))
    if key.startswith("post"):
        broken = shifted(piece(name), key, Vec(0.0, 0.3, 0.0))
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
