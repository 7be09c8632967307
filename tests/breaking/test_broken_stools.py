"""Folding stools broken on purpose: each break is caught by the finding that names it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from flatpack import checks
from flatpack.features import Hole
from flatpack.finding import Finding
from flatpack.frozen import replace
from flatpack.geometry import Frame, Outline, Point, Segment, Vec
from flatpack.model import Assembly

STOOLS = ("compost-stool", "judging-stool", "weeding-stool")
Make = Callable[..., Assembly]


def changed(whole: Assembly, key: str, **values: object) -> Assembly:
    return replace(whole, parts={**whole.parts, key: replace(whole.parts[key], **values)})


def pushed(frame: Frame, by: Vec) -> Frame:
    return replace(frame, origin=frame.origin.plus(by))


def faults(whole: Assembly) -> list[Finding]:
    return [f for f in checks.run(whole) if f.severity == "fault"]


@pytest.mark.parametrize("name", STOOLS)
def test_unbroken(piece: Make, name: str) -> None:
    found = {(f.severity, f.code) for f in checks.run(piece(name)) if f.severity != "note"}
    assert found == {("warning", "finger-trap")}


@pytest.mark.parametrize("name", STOOLS)
@pytest.mark.parametrize("key", ["leg-outer-left", "leg-inner-right"])
def test_a_hole_moved_1_mm(piece: Make, name: str, key: str) -> None:
    whole = piece(name)
    features = whole.parts[key].features
    first = next(f for f in features if isinstance(f, Hole))
    moved = replace(first, at=Point(first.at.x + 1.0, first.at.y))
    broken = changed(whole, key, features=tuple(moved if f is first else f for f in features))
    told = [f for f in faults(broken) if f.code == "hole-off-axis"]
    assert [f.part for f in told] == [key]
    assert told[0].measured == pytest.approx(1.0)


def longer(outline: Outline, by: float) -> Outline:
    """The leg's round top further up."""
    middle = (outline.bounds[0] + outline.bounds[2]) / 2.0

    def moved(p: Point) -> Point:
        return Point(p.x + by, p.y) if p.x > middle else p

    return Outline(tuple(Segment(moved(a), moved(b), k) for a, b, k in outline))


@pytest.mark.parametrize("name", STOOLS)
def test_an_inner_leg_cut_too_long_meets_the_rear_bar_when_folded(piece: Make, name: str) -> None:
    """3 mm are left to pass; nothing is wrong while it stands open."""
    whole = piece(name)
    part = whole.parts["leg-inner-left"]
    broken = changed(whole, "leg-inner-left", outline=longer(part.outline, 5.0))
    told = [f for f in faults(broken) if f.code == "shared-space"]
    assert {f.part for f in told} == {"leg-inner-left / bar-rear"}
    assert all(f.message.startswith("folded flat") for f in told)


@pytest.mark.parametrize("name", STOOLS)
def test_a_batten_s_slot_cut_2_mm_short_of_the_bar(piece: Make, name: str) -> None:
    """The whole batten 2 mm lower, its slots with it."""
    whole = piece(name)
    frame = whole.parts["batten-left"].frame
    broken = changed(whole, "batten-left", frame=pushed(frame, Vec(0.0, 0.0, -2.0)))
    told = {f.part for f in faults(broken) if f.code == "shared-space"}
    assert {"batten-left / bar-rear", "batten-left / bar-front"} <= told
    assert any(f.code == "mates-apart" for f in faults(broken))


@pytest.mark.parametrize("name", STOOLS)
def test_a_slat_pushed_into_the_next(piece: Make, name: str) -> None:
    whole = piece(name)
    gap = whole.spacers[0].width
    frame = whole.parts["slat-2"].frame
    broken = changed(whole, "slat-2", frame=pushed(frame, Vec(-gap - 0.5, 0.0, 0.0)))
    told = {f.part for f in faults(broken) if f.code == "shared-space"}
    assert "slat-1 / slat-2" in told
