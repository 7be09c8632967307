"""Numbers of common practice, no source, worked out through the whole product.

Profiles of the boards and wheels that they speak of are given as texts here: none is shipped.
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from flatpack import job
from flatpack.model import Assembly
from flatpack.profile_files import profile_texts

BOARD = """
name = "Trial board 21"
kind = "sheet"
nominal = 21
thickness = 21
sheets = [[2440, 1220]]
material = "birch plywood"
grain = true
solid = false
density = 680
layers = 15
source = "made up for this test"
"""
WHEEL = """
name = "Trial wheel 185"
diameter = 185
width = 40
bore = 16.5
hub_width = 52
axle = 16
load = 70
source = "made up for this test"
"""
TRIAL = {
    "trial/boards/trial-21.toml": BOARD,
    "trial/hardware/wheels/trial-185.toml": WHEEL,
}


def built(source: str) -> Assembly:
    return job.design(source, "trial.toml", {**profile_texts(), **TRIAL}).assembly


LOUNGER = """
family = "lounger"
size = {{ width = {width}, height = 370 }}
boards.timber = "trial-21"
rack.rod_clearance = {clearance}
wheels = {{ use = true, wheel = "trial-185" }}
"""


@pytest.fixture(scope="module")
def lounger() -> Assembly:
    return built(LOUNGER.format(width=700, clearance=5))


def test_rod_of_648_between_sides_of_21_in_700(lounger: Assembly) -> None:
    """700 overall - 2 x 21 board - 2 x 5 clearance = 648: common practice, no source."""
    assert lounger.bars["rod"].length == pytest.approx(648.0, abs=1e-9)
    assert built(LOUNGER.format(width=700, clearance=4)).bars["rod"].length == pytest.approx(650.0)


def test_axle_of_a_185_wheel_stands_92_5_above_ground(lounger: Assembly) -> None:
    """Half of the wheel, so that it reaches as low and as high as a leg of 185: common practice,
    no source."""
    axle = lounger.bars["axle"].frame.origin.z
    assert axle == pytest.approx(92.5, abs=1e-9)
    legs = [lounger.parts[f"leg-foot-{hand}"] for hand in ("left", "right")]
    for leg in legs:
        x0, _, x1, _ = leg.outline.bounds
        standing = min(leg.frame.place(x, 0.0).z for x in (x0, x1))
        assert axle - 185.0 / 2.0 == pytest.approx(standing, abs=1e-9)
        assert axle + 185.0 / 2.0 == pytest.approx(standing + 185.0, abs=1e-9)


def test_deck_is_level_over_wheel_and_leg(lounger: Assembly) -> None:
    rail = lounger.parts["rail-left"]
    x0, y0, x1, _ = rail.outline.bounds
    low = [rail.frame.place(x, y0).z for x in (x0, x1)]
    assert low[0] == pytest.approx(low[1], abs=1e-9)
    holes = {
        round(lounger.parts[f"leg-head-{hand}"].frame.place(*f.at).z, 6)
        for hand in ("left", "right")
        for f in lounger.parts[f"leg-head-{hand}"].features
        if getattr(f, "diameter", 0.0) > 16.0
    }
    assert holes == {92.5}


def test_pocket_screws_lie_at_15_degrees_to_the_face(lounger: Assembly) -> None:
    """Common practice, no source."""
    screws = [f for f in lounger.fasteners if f.kind == "pocket screw"]
    assert screws
    for screw in screws:
        face = lounger.parts[screw.passes[0]].frame.z
        slope = math.degrees(math.asin(abs(screw.direction.dot(face))))
        assert slope == pytest.approx(15.0, abs=1e-9)


def test_slat_gap_is_the_board_s_thickness_where_none_is_asked_for() -> None:
    """Common practice, no source.  Five slats of 60 in 5 x 60 + 4 x 21 = 384 leave it exactly."""
    bench = built(
        'family = "bench"\nboards.timber = "trial-21"\nsize.depth = 384\nseat.slat_width = 60\n'
        "back.use = false\n"
    )
    edges = sorted(
        (part.frame.origin.x - part.width, part.frame.origin.x)
        for key, part in bench.parts.items()
        if key.startswith("slat-")
    )
    gaps = [b[0] - a[1] for a, b in pairwise(edges)]
    assert gaps == pytest.approx([21.0] * 4, abs=1e-9)
