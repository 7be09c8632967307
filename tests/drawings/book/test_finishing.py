"""Areas and quantities worked by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest

from flatpack.drawings.book import finishing
from flatpack.geometry import Frame
from flatpack.geometry.shapes import rectangle, round_ended
from flatpack.model import Part
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
PLY, SOLID = PROFILES.board("ply-18"), PROFILES.board("larch-27")
BOARD = Part(key="b", name="b", board=SOLID, outline=rectangle(600.0, 70.0), frame=Frame())


def test_surface_is_both_faces_and_all_edges() -> None:
    # 2 x 600 x 70 + 2 x (600 + 70) x 27 = 84000 + 36180
    assert finishing.surface_of(BOARD) == pytest.approx(120180.0)


def test_an_opening_takes_two_faces_and_gives_its_edges() -> None:
    opened = replace(BOARD, openings=(rectangle(50.0, 20.0, 100.0, 25.0),))
    # less 2 x 50 x 20, more 2 x (50 + 20) x 27
    assert finishing.surface_of(opened) == pytest.approx(120180.0 - 2000.0 + 3780.0)


def test_solid_wood_drinks_at_its_ends_and_plywood_all_round() -> None:
    assert finishing.ends_of(BOARD) == pytest.approx(2.0 * 70.0 * 27.0)
    ply = replace(BOARD, board=PLY)
    assert finishing.ends_of(ply) == pytest.approx(2.0 * 670.0 * PLY.thickness)


def test_round_end_counts_where_it_runs_across_the_grain() -> None:
    # Steeper than 45 degrees for half of each half circle: pi r / 2 at each end, r = 20.
    arm = replace(BOARD, outline=round_ended(300.0, 20.0))
    assert finishing.ends_of(arm) == pytest.approx(2.0 * math.pi * 20.0 / 2.0 * 27.0, rel=0.03)


def test_quantity_is_area_times_coats_by_the_rate() -> None:
    finish = SimpleNamespace(coats=2, coverage_least=5.0, coverage_most=10.0)
    assert finishing.quantity(3.0, finish) == (0.6, pytest.approx(1.2))


def test_shipped_rates_are_those_of_the_handbook() -> None:
    # Wood Handbook (FPL-GTR-282), chapter 16: penetrating stain, 4.9 to 9.8 m2/l on smooth wood.
    stain = PROFILES.get("finishes", "stain")
    assert (stain.coverage_least, stain.coverage_most) == (4.9, 9.8)


def test_mass_of_one_board() -> None:
    expected = 0.6 * 0.07 * 0.027 * SOLID.density
    assert finishing.mass([BOARD], []) == pytest.approx(expected)
