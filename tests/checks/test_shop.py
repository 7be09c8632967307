"""What a shop's machine can't do, told by the check of a piece: by hand on a part of 100 x 60."""

from __future__ import annotations

import pytest

from flatpack import checks
from flatpack.features import Hole
from flatpack.geometry import Frame, Outline, Point, Vec
from flatpack.geometry.recess import recessed
from flatpack.geometry.relief import relieved
from flatpack.geometry.shapes import filleted, rectangle
from flatpack.model import Assembly, Fit, Part
from flatpack.parameters import replace
from flatpack.profile_files import profile_texts
from flatpack.profiles import Workshop, load

PROFILES = load(profile_texts())
ROUTER = PROFILES.workshop("small-router")  # cutters from 3, corner circles, 40 thick


def slotted() -> Outline:
    made = recessed(rectangle(100.0, 60.0), Point(50.0, 60.0), Point(0.0, -1.0), 18.0, 25.0)
    assert made is not None
    return made.outline


def piece(outline: Outline, **more: object) -> Assembly:
    part = Part(
        key="one", name="One", board=PROFILES.board("ply-18"), outline=outline, frame=Frame(),
        **more,  # type: ignore[arg-type]  # a part's own fields
    )  # fmt: skip
    return Assembly(family="test", name="Test", parts={"one": part})


def codes(whole: Assembly, shop: Workshop) -> list[str]:
    return [f.code for f in checks.for_shop(whole, shop)]


def test_square_corners_that_the_shop_eases_are_no_finding() -> None:
    assert codes(piece(slotted()), ROUTER) == []


def test_a_shop_without_relief_leaves_them_round() -> None:
    """Both floor corners of the slot, at (41, 35) and (59, 35)."""
    found = checks.for_shop(piece(slotted()), replace(ROUTER, relief="none"))
    assert [f.code for f in found] == ["shop-tight-corner"] * 2
    assert "(41, 35)" in found[0].message + found[1].message
    assert {f.limit for f in found} == {1.5}


def test_relief_by_a_thicker_cutter_than_the_shop_has_is_told() -> None:
    """Eased by circles of 1.5, at a shop whose smallest cutter is 8: radius 4."""
    outline = relieved(slotted(), 1.5, one_sided=False).outline
    found = checks.for_shop(piece(outline), replace(ROUTER, cutters=(8.0,)))
    assert {f.code for f in found} == {"shop-tight-corner"}
    assert [f.measured for f in found] == pytest.approx([1.5] * len(found))


def test_a_slot_too_narrow_for_its_relief() -> None:
    """Floor 18 wide: two corner circles take sqrt 2 x radius each, 17.0 at 6 and 19.8 at 7."""
    assert codes(piece(slotted()), replace(ROUTER, cutters=(12.0,))) == []
    found = codes(piece(slotted()), replace(ROUTER, cutters=(14.0,)))
    assert found.count("shop-no-relief") == 2


def test_a_rounded_hollow_the_cutter_can_follow() -> None:
    hollow = filleted(
        ((0, 0, 0), (100, 0, 0), (100, 60, 0), (60, 60, 0), (60, 30, 5), (0, 30, 0))
    )  # fmt: skip
    assert codes(piece(hollow), ROUTER) == []
    assert codes(piece(hollow), replace(ROUTER, cutters=(12.0,))) == ["shop-tight-corner"]


def test_thickness_and_holes() -> None:
    hole = Hole(at=Point(20.0, 20.0), diameter=2.5)
    whole = piece(rectangle(100.0, 60.0), features=(hole,))
    assert codes(whole, ROUTER) == ["shop-small-hole"]
    found = checks.for_shop(whole, replace(ROUTER, thickest=12.0, cutters=()))
    assert [(f.code, f.severity) for f in found] == [("shop-too-thick", "fault")]


def test_a_machine_that_wanders_more_than_fits_differ() -> None:
    """Fits 0.1 and 0.3 lie 0.2 apart: a machine that holds to 0.25 may mix them up."""
    fits = tuple(
        Fit(joint, "one", "one", Vec(0.0, 0.0, -1.0), (), clearance)
        for joint, clearance in (("a", 0.1), ("b", 0.3))
    )
    whole = replace_fits(piece(rectangle(100.0, 60.0)), fits)
    assert codes(whole, replace(ROUTER, tolerance=0.2)) == []
    found = checks.for_shop(whole, replace(ROUTER, tolerance=0.25))
    assert [(f.code, f.severity) for f in found] == [("shop-fit-tolerance", "note")]
    assert found[0].limit == pytest.approx(0.2)


def replace_fits(whole: Assembly, fits: tuple[Fit, ...]) -> Assembly:
    from flatpack.frozen import replace as changed

    return changed(whole, fits=fits)


def test_a_bench_has_no_machine() -> None:
    bench = replace(PROFILES.workshop("default"), thickest=5.0)
    assert codes(piece(slotted()), bench) == []


def test_like_parts_are_told_once() -> None:
    whole = piece(slotted())
    other = {**whole.parts, "two": whole.parts["one"]}
    twice = Assembly(family="test", name="Test", parts=other)
    found = checks.for_shop(twice, replace(ROUTER, relief="none"))
    assert len(found) == 2
    assert all("also two" in f.message for f in found)
