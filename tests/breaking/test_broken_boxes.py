"""Boxes broken on purpose: each break is caught by the finding that names it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from flatpack import checks
from flatpack.frozen import replace
from flatpack.geometry.shapes import rectangle
from flatpack.model import Assembly

from .breaks import changed, drilled_aside, faults, named, shifted

BOXES = ("cabin-box", "potting-box", "veranda-box")
PLANTERS = ("gate-planter", "herb-planter", "leek-planter")
Make = Callable[..., Assembly]


@pytest.mark.parametrize("name", [*BOXES, *PLANTERS])
def test_unbroken(piece: Make, name: str) -> None:
    assert faults(piece(name)) == []


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("leek-planter", "front-board-2"),
        ("leek-planter", "bottom-slat-1"),
        ("herb-planter", "sleeper-left"),
        ("gate-planter", "post-rear-left"),
        ("veranda-box", "rack-left"),
        ("potting-box", "arm-right"),
    ],
)
def test_one_hole_moved_2_mm(piece: Make, name: str, key: str) -> None:
    told = [f for f in faults(drilled_aside(piece(name), key, 2.0)) if f.code == "hole-off-axis"]
    assert [f.part for f in told] == [key]
    assert told[0].measured == pytest.approx(2.0)


def test_a_side_board_off_its_posts(piece: Make) -> None:
    found = faults(shifted(piece("leek-planter"), "front-board-1", -1.0, 0.0, 0.0))
    assert "front-board-1 / post-front-left" in named(found, "mates-apart")
    assert all(f.measured == pytest.approx(1.0) for f in found if f.code == "mates-apart")


def test_a_slat_pushed_into_a_post(piece: Make) -> None:
    found = faults(shifted(piece("leek-planter"), "bottom-slat-1", 0.0, 8.0, 0.0))
    assert any({"bottom-slat-1", "post-front-right"} <= set(p.split(" / "))
               for p in named(found, "shared-space"))  # fmt: skip


def test_notches_left_out(piece: Make) -> None:
    whole = piece("leek-planter")
    plain = whole.parts["bottom-slat-2"].outline
    found = faults(changed(whole, "bottom-slat-1", outline=plain))
    pairs = [set(f.part.split(" / ")) for f in found]
    for post in ("post-front-left", "post-front-right", "batten-front-1"):
        assert {"bottom-slat-1", post} in pairs


def moved(whole: Assembly, **values: object) -> Assembly:
    assert whole.motion is not None
    return replace(whole, motion=replace(whole.motion, **values))


@pytest.mark.parametrize("name", BOXES)
def test_a_hinge_that_stops_short(piece: Make, name: str) -> None:
    assert "hinge-range" in {f.code for f in faults(moved(piece(name), opens=60.0))}


def test_an_arm_5_mm_long_misses_the_angles(piece: Make) -> None:
    whole = piece("veranda-box")
    assert whole.motion is not None
    longer = moved(whole, arm=whole.motion.arm + 5.0)
    told = [f for f in checks.run(longer, only=("stops",)) if f.code == "stop-angle"]
    assert [f.part for f in told] == ["notch 1", "notch 2"]
    assert all("the lid comes to" in f.message for f in told)


def test_a_batten_20_mm_deeper_runs_into_the_rod(piece: Make) -> None:
    whole = piece("cabin-box")
    batten = whole.parts["lid-batten-left"]
    deeper = rectangle(batten.length, batten.width + 20.0, 0.0, -20.0)
    found = faults(changed(whole, "lid-batten-left", outline=deeper))
    assert "lid-batten-left / rod" in {f.part for f in found if f.code == "clash"}


def test_a_lid_without_its_front_posts_height(piece: Make) -> None:
    """Posts 10 mm too tall: the closed lid runs into them."""
    whole = piece("veranda-box")
    post = whole.parts["post-front-left"]
    tall = changed(whole, post.key, outline=rectangle(post.length + 10.0, post.width))
    assert any("post-front-left" in f.part for f in faults(tall))
