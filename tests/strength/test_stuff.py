"""Which values a board gets: as graded, as named, else the lowest; nothing beyond a table."""

from __future__ import annotations

import pytest

from flatpack.errors import ProfileError
from flatpack.parameters import replace
from flatpack.strength.stuff import bar_metal, metal_of, stuff_of


@pytest.mark.parametrize(
    ("board", "material", "lowest"),
    [
        ("larch-27", "c14", True),
        ("pine-20", "c14", True),
        ("ply-18", "birch-plywood", False),
        ("softwood-ply-18", "softwood-plywood", False),
    ],
)
def test_a_board_without_a_grade_gets_the_lowest_class(profiles, board, material, lowest):
    found = stuff_of(profiles.board(board), profiles, {})
    assert found.material.key == material
    assert ("lowest class" in found.note) == lowest


def test_hardwood_and_unnamed_plywood_get_their_lowest_too(profiles):
    oak = replace(profiles.board("larch-27"), material="white oak", key="mine")
    assert stuff_of(oak, profiles, {}).material.key == "d18"
    ply = replace(profiles.board("ply-18"), material="plywood", key="mine")
    assert stuff_of(ply, profiles, {}).material.key == "unnamed-plywood"
    assert stuff_of(ply, profiles, {}).row.bending == 3.0


def test_a_grade_given_counts_and_an_unknown_one_is_told(profiles):
    larch = profiles.board("larch-27")
    assert stuff_of(larch, profiles, {"larch-27": "c24"}).row.bending == 24.0
    with pytest.raises(ProfileError, match="c24"):
        stuff_of(larch, profiles, {"larch-27": "c25"})


@pytest.mark.parametrize(("thickness", "row"), [(17.9, 18.0), (11.9, 12.0), (12.0, 12.0)])
def test_plywood_rows_go_by_the_measured_thickness(profiles, thickness, row):
    board = replace(profiles.board("ply-18"), thickness=thickness)
    assert stuff_of(board, profiles, {}).row.thickness == row


@pytest.mark.parametrize("thickness", [6.5, 16.4, 21.0, 30.0])
def test_a_thickness_beyond_the_table_has_no_values(profiles, thickness):
    found = stuff_of(replace(profiles.board("ply-18"), thickness=thickness), profiles, {})
    assert found.row is None
    assert f"no values for {thickness:g} mm; the table has 9, 12, 15, 18, 24 mm" in found.note


def test_birch_plywood_is_of_one_veneer(profiles):
    # Mean stiffness along and across of equal plies sums to the veneers' own, along plus across,
    # whatever the lay-up: the rows from memory must agree with 9, 12 and 18 mm, which were seen.
    rows = profiles.material("birch-plywood").rows
    assert {r.stiffness + r.stiffness_across for r in rows} == {17_500.0}
    # Thicker sheets come nearer to half and half: strength along falls, across rises.
    assert sorted((r.bending for r in rows), reverse=True) == [r.bending for r in rows]
    assert sorted(r.bending_across for r in rows) == [r.bending_across for r in rows]


def test_published_rows(profiles):
    # Structural engineer's pocket book, p. 266, birch plywood 9, 12, 18 mm: bending, stiffness.
    rows = {r.thickness: r for r in profiles.material("birch-plywood").rows}
    seen = {
        9: (45.6, 32.1, 11395, 6105),
        12: (42.9, 33.2, 10719, 6781),
        18: (40.2, 34.1, 10048, 7452),
    }
    for t, values in seen.items():
        r = rows[t]
        assert (r.bending, r.bending_across, r.stiffness, r.stiffness_across) == values
    # A public list of EN 338:2016 (softwood): bending, shear, across, E, E 5 %, G, densities.
    listed = {
        "c14": (14, 3.0, 2.0, 7000, 4700, 440, 290, 350),
        "c16": (16, 3.2, 2.2, 8000, 5400, 500, 310, 370),
        "c18": (18, 3.4, 2.2, 9000, 6000, 560, 320, 380),
        "c20": (20, 3.6, 2.3, 9500, 6400, 590, 330, 400),
        "c22": (22, 3.8, 2.4, 10000, 6700, 630, 340, 410),
        "c24": (24, 4.0, 2.5, 11000, 7400, 690, 350, 420),
        "c27": (27, 4.0, 2.5, 11500, 7700, 720, 360, 430),
        "c30": (30, 4.0, 2.7, 12000, 8000, 750, 380, 460),
    }
    for key, values in listed.items():
        r = profiles.material(key).rows[0]
        assert (r.bending, r.shear, r.compression_across, r.stiffness, r.stiffness_low,
                r.shear_stiffness, r.density_low, r.density) == values  # fmt: skip
    # fc,0,k over E 5 % as a textbook's table 5.3 prints them: C24 21/7400, C27 22/7700.
    assert profiles.material("c24").rows[0].compression == 21
    assert profiles.material("c27").rows[0].compression == 22


def test_durations_of_a_design_manual(profiles):
    # ICE Manual of Structural Design, table 19.9: classes 1 and 2, and 3.
    for material in profiles.every("materials"):
        if material.kind != "steel":
            assert material.k_mod_dry == (0.60, 0.70, 0.80, 0.90, 1.10)
            assert material.k_mod_wet == (0.50, 0.55, 0.65, 0.70, 0.90)


def test_bolts_and_bars(profiles):
    assert metal_of("Coach bolt M8", profiles).tensile == 400.0
    assert metal_of("Coach bolt M8, stainless", profiles).tensile == 500.0
    assert bar_metal(profiles.rod("hardwood-22"), profiles) is None
    assert bar_metal(profiles.rod("steel-16"), profiles).proof == 190.0


def test_stiffness_on_edge_by_counting_plies(profiles):
    # 13 equal plies, 7 of them along: E = 7/13 of the sum (mixture of parallel layers).
    found = stuff_of(profiles.board("ply-18"), profiles, {})
    assert found.bent(found.row, 130.0, False).stiffness == pytest.approx(17_500 * 7 / 13)
