"""Formulas of strength against worked examples and tables that others published."""

from __future__ import annotations

import math

import pytest

from flatpack.strength.beams import Patch, bend
from flatpack.strength.frames import FrameBar, NodeLoad, PlaneFrame, Spread, solve
from flatpack.strength.rules import axial, design, dowels, handbook, johansen, members, spacing
from flatpack.strength.rules.sections import rectangle

INCH, POUND = 25.4, 4.4482216
PSI = POUND / INCH**2


def test_two_screws_in_the_edge_of_lvl() -> None:
    # LVL Handbook Europe 2025, example 9.6: f_ax 10 N/mm2, 5 x 60, thread 50 less one diameter.
    one = axial.declared_withdrawal(1, 10.0, 5.0, 45.0)
    assert one == pytest.approx(2250.0, abs=5.0)
    two = axial.declared_withdrawal(2, 10.0, 5.0, 45.0)
    assert design.design_value(two, 0.6, 1.3) == pytest.approx(1938.0, abs=2.0)
    assert design.design_value(two, 0.6, 1.3) > 1.35 * 500.0 * 2.5  # its load, 1.7 kN


@pytest.mark.parametrize(
    ("diameter", "row"),
    [
        (8.0, (40, 32, 80, 32, 32, 24)),
        (12.0, (60, 48, 84, 48, 48, 36)),
        (16.0, (80, 64, 112, 64, 64, 48)),
        (20.0, (100, 80, 140, 80, 80, 60)),
    ],
)
def test_bolt_distances_of_table_8_4(diameter: float, row: tuple[float, ...]) -> None:
    # A Dutch timber wiki's table 8.4 in mm: a1 for load along the grain, a4,t for load across it.
    along, across = spacing.bolts(diameter, 0.0), spacing.bolts(diameter, 90.0)
    found = (along.along, along.across, along.loaded_end, along.free_end,
             across.loaded_edge, across.free_edge)  # fmt: skip
    assert found == pytest.approx(row)


@pytest.mark.parametrize(
    ("diameter", "row"), [(8.0, (40, 24, 80, 24, 32, 24)), (12.0, (60, 36, 84, 36, 48, 36))]
)
def test_dowel_distances_of_table_8_5(diameter: float, row: tuple[float, ...]) -> None:
    # The same wiki's table 8.5; its a3,c is that for load across the end, its least value.
    along, across = spacing.dowels(diameter, 0.0), spacing.dowels(diameter, 90.0)
    found = (along.along, along.across, along.loaded_end, 3.0 * diameter,
             across.loaded_edge, across.free_edge)  # fmt: skip
    assert found == pytest.approx(row)


def test_nail_distances_of_table_8_2() -> None:
    # LVL Handbook Europe 2025, table 5.1 (wide face), the expressions evaluated by hand for d = 4.
    bare = spacing.nails(4.0, 0.0, drilled=False)
    assert bare == pytest.approx((40.0, 20.0, 60.0, 40.0, 20.0, 20.0))
    drilled = spacing.nails(4.0, 90.0, drilled=True)
    assert drilled == pytest.approx((16.0, 16.0, 28.0, 28.0, 20.0, 12.0))
    # Table 5.1, axially loaded: 7d, 5d, end 10d, edge 4d.
    assert spacing.pulled_screws(5.0)[:4] == pytest.approx((35.0, 25.0, 50.0, 50.0))


@pytest.mark.parametrize(("density", "expected"), [(340.0, 23.42), (320.0, 22.04)])
def test_embedment_of_a_textbook(density: float, expected: float) -> None:
    # Structural Timber Design to Eurocode 5, bolted joint in C22 and C18: 23.42 and 22.04 N/mm2.
    assert dowels.embedment_drilled(16.0, density) == pytest.approx(expected, abs=0.006)


def test_multiple_shear_of_a_textbook() -> None:
    # The same book's joint, plane 2: beta 0.77, mode g 13.05 kN, mode h 6.4 kN, two bolts at
    # k_mod 0.8 carry 7.88 kN.  The 45 degrees, 37 and 47 mm are worked back from these results.
    outer = dowels.embedment_drilled(16.0, 320.0)
    inner = dowels.embedment_at(outer, dowels.k_90(16.0), 45.0)
    assert inner / outer == pytest.approx(0.77, abs=0.005)
    modes = johansen.double_shear(outer, 37.0, inner, 47.0, 16.0, 1e9)
    assert modes.values["g"] == pytest.approx(13_050.0, abs=10.0)
    assert modes.values["h"] == pytest.approx(6_400.0, abs=10.0)
    assert design.design_value(2 * modes.values["h"], 0.8, 1.3) == pytest.approx(7880.0, abs=15.0)


def test_bolt_and_plate_of_a_textbook() -> None:
    # Structural Timber Design to Eurocode 5, example 12.8.1: M12 of 400 N/mm2, C24:
    # 33.7 kN in tension, 12.6 kN under a thick plate taken as a washer of 4 d; mode m 12.7 kN.
    assert axial.bolt_tension(84.3, 400.0) == pytest.approx(3.37e4, rel=0.002)
    assert axial.stress_area(12.0, 1.75) == pytest.approx(84.3, abs=0.05)
    bearing = axial.washer_bearing(48.0, 13.0, 2.5)
    assert bearing == pytest.approx(1.26e4, rel=0.003)
    moment = dowels.yield_moment(12.0, 400.0)
    # The angle to the grain isn't in the excerpt; along the grain the value is an upper bound.
    along = dowels.embedment_drilled(12.0, 350.0)
    across = dowels.embedment_at(along, dowels.k_90(12.0), 90.0)
    least, most = (
        johansen.outer_thick_plates(fh, 1e4, 12.0, moment, bearing).values["m"]
        for fh in (across, along)
    )
    assert least < 1.27e4 < most


def test_bending_strength_of_a_czech_example() -> None:
    # Examples of calculation to Eurocode 5 (I), example 1: C24, 100 x 140, class 2, short term:
    # 16.88 N/mm2.
    k_mod = design.k_mod((0.6, 0.7, 0.8, 0.9, 1.1), (0.5, 0.55, 0.65, 0.7, 0.9), 2, "short")
    strength = design.design_value(design.k_h(140.0) * 24.0, k_mod, 1.3)
    assert strength == pytest.approx(16.88, abs=0.05)


def test_floor_joist_of_a_french_textbook() -> None:
    # Calcul de structures en bois, example 2.3.1: C24, 75 x 200, span 4.5 m, spacing 0.5 m:
    # use 0.4557 with k_sys 1.1; 7.50 mm under 0.75 kN/m and 10.00 mm under 1 kN/m with shear.
    section = rectangle(75.0, 200.0)
    ei, ga = 11_000.0 * section.second, 690.0 * section.shear_area
    load = 0.5 * (1.35 * 0.5 + 1.5 * 1.5)
    beam = bend(4500.0, ei, ga, (0.0, 4500.0), (Patch(0.0, 4500.0, load * 4500.0),))
    stress = members.bending_stress(beam.most_moment, section.modulus)
    assert stress / (1.1 * design.design_value(24.0, 0.8, 1.3)) == pytest.approx(0.45573, abs=1e-4)
    for load, expected in ((0.75, 7.50), (1.0, 10.00)):
        beam = bend(4500.0, ei, ga, (0.0, 4500.0), (Patch(0.0, 4500.0, load * 4500.0),))
        assert beam.most_deflection == pytest.approx(expected, abs=0.006)


def test_timber_beam_of_an_online_handbook() -> None:
    # A mechanics site's timber beam, 100 x 200: 6323 N m -> 9.484, 12 676.5 N -> 0.951 N/mm2.
    section = rectangle(100.0, 200.0)
    assert members.bending_stress(6323e3, section.modulus) == pytest.approx(9.484, abs=0.001)
    assert members.shear_stress(12_676.5, section.area) == pytest.approx(0.951, abs=0.001)


@pytest.mark.parametrize(("load", "expected"), [("spread", 22.73), ("centre", 36.36)])
def test_deflections_of_a_construction_site(load: str, expected: float) -> None:
    # "Timber deflection", codingace.net: 50 x 200, E 11 000, span 4 m, 2.5 kN/m or 10 kN.
    section = rectangle(50.0, 200.0)
    patch = Patch(0.0, 4000.0, 10_000.0) if load == "spread" else Patch(2000.0, 2000.0, 10_000.0)
    beam = bend(4000.0, 11_000.0 * section.second, 0.0, (0.0, 4000.0), (patch,))
    assert beam.most_deflection == pytest.approx(expected, abs=0.006)


def test_two_spans_of_a_course() -> None:
    # Theorem of three moments, worked example: spans 6 and 12, 20 kN at 3 and at 12 m:
    # -37.5 kN m over the support; 3.75, 29.375 and 6.875 kN.
    beam = bend(18.0, 1.0, 0.0, (0.0, 6.0, 18.0), (Patch(3.0, 3.0, 20.0), Patch(12.0, 12.0, 20.0)))
    assert beam.reactions == pytest.approx((3.75, 29.375, 6.875))
    assert min(beam.moment) == pytest.approx(-37.5)


def test_two_spans_of_an_indian_course() -> None:
    # NPTEL structural analysis, example 5.22: -56.25 kN m; 41.25, 157.5 and 41.25 kN.
    beam = bend(6.0, 1.0, 0.0, (0.0, 3.0, 6.0), (Patch(0.0, 3.0, 120.0), Patch(4.5, 4.5, 120.0)))
    assert beam.reactions == pytest.approx((41.25, 157.5, 41.25))
    assert min(beam.moment) == pytest.approx(-56.25)


def test_slenderness_of_a_textbook_column() -> None:
    # Structural Timber Design to Eurocode 5, example 5.7.3: 100 x 200, 3.75 m: lambda_z 129.9.
    slender = members.slenderness(3750.0, rectangle(200.0, 100.0).gyration)
    assert slender == pytest.approx(129.9, abs=0.05)
    # By hand from eq. 6.21 to 6.28 for C24 (21 and 7400 N/mm2): 2.203, k 3.117, k_c 0.188.
    relative = members.relative_slenderness(slender, 21.0, 7400.0)
    assert relative == pytest.approx(2.203, abs=0.001)
    assert members.k_c(relative) == pytest.approx(0.188, abs=0.001)


def test_wood_screw_of_an_engineers_table() -> None:
    # Engineering ToolBox, wood screw withdrawal: G 0.45, D 0.190 in: 109 lb/in, cut not rounded.
    per_inch = handbook.screw_allowable(0.45, 0.190 * INCH) * INCH / POUND
    assert math.floor(per_inch) == 109


def test_nail_and_lag_of_the_american_wood_council() -> None:
    # Structural Wood Design, Solved Example Problems: E2.1a 220.17 N, E2.3 4247.94 N.
    nail = handbook.nail_allowable(0.42, 0.131 * INCH) * 2.395 * INCH
    assert nail == pytest.approx(220.17, rel=2e-4)
    lag = handbook.lag_allowable(0.55, 0.5 * INCH) * 2.1875 * INCH
    assert lag == pytest.approx(4247.94, rel=2e-4)


def test_nail_sideways_of_the_american_wood_council() -> None:
    # The same, E2.4: 0.148 x 3 in nail, 3/4 in side of Douglas fir on Douglas fir: 467.49 N.
    fe = handbook.bearing_strength(0.5)
    found, modes = handbook.allowable_lateral(
        fe, 0.75 * INCH, fe, 2.25 * INCH, 0.148 * INCH, 90_000.0 * PSI
    )
    assert found == pytest.approx(467.49, rel=2e-3)
    assert modes.mode == "d"  # III_s in the American numbering: a hinge in the main member


def test_screw_in_double_shear_of_the_american_wood_council() -> None:
    # The same, wood screw in double shear: 0.190 in, root 0.152, 80 000 psi, 1 1/2 in sides on
    # 3 in, bearing strengths of G 0.55: 1039.6 N for both planes.
    fe = handbook.bearing_strength(0.55)
    found, modes = handbook.allowable_lateral(
        fe, 1.5 * INCH, fe, 3.0 * INCH, 0.152 * INCH, 80_000.0 * PSI,
        double=True, outer=0.190 * INCH,
    )  # fmt: skip
    assert found == pytest.approx(1039.6, rel=1e-4)
    assert modes.mode == "k"


def test_shrinkage_of_a_floor_board() -> None:
    # Flooring site after the Wood Handbook: 5 in wide, 0.00129, from 6 to 9 %: 0.019 in.
    assert handbook.movement(5.0, 0.00129, 3.0) == pytest.approx(0.0194, abs=0.0005)


def test_splitting_and_rows_by_hand() -> None:
    # EC5 8.4 as printed in LVL Handbook Europe 2025, p. 152: 14 b sqrt(he/(1 - he/h)).
    assert dowels.splitting(45.0, 200.0, 100.0) == pytest.approx(14 * 45 * math.sqrt(200.0))
    # EC5 8.34 from memory: 4 bolts at 5 d: 4^0.9 (5/13)^0.25 = 2.742.
    assert dowels.n_ef_bolts(4, 60.0, 12.0) == pytest.approx(2.742, abs=0.001)
    assert dowels.n_ef_bolts(2, 400.0, 12.0) == 2.0
    # EC5 table 8.1 from memory: at 10 d n^0.85.
    assert dowels.n_ef_nails(4, 40.0, 4.0, False) == pytest.approx(4**0.85)
    with pytest.raises(ValueError, match="below table"):
        dowels.n_ef_nails(4, 20.0, 4.0, False)


def test_single_shear_is_the_same_from_either_side() -> None:
    # Johansen's theory doesn't know which part is first: swapping them swaps a, b and d, e.
    one = johansen.single_shear(25.0, 30.0, 18.0, 45.0, 8.0, 26_700.0).values
    two = johansen.single_shear(18.0, 45.0, 25.0, 30.0, 8.0, 26_700.0).values
    swap = {"a": "b", "b": "a", "c": "c", "d": "e", "e": "d", "f": "f"}
    for mode, other in swap.items():
        assert one[mode] == pytest.approx(two[other], rel=1e-12)


def test_rope_effect_is_bounded() -> None:
    # EC5 8.2.2(2): no more than a quarter of the Johansen part for bolts (textbook, info-bys).
    bare = johansen.single_shear(25.0, 30.0, 25.0, 30.0, 8.0, 26_700.0)
    roped = johansen.single_shear(25.0, 30.0, 25.0, 30.0, 8.0, 26_700.0, rope=1e9)
    assert roped.values["f"] == pytest.approx(1.25 * bare.values["f"])
    assert roped.values["a"] == bare.values["a"]


def test_creep_of_a_french_textbook() -> None:
    # Calcul de structures en bois, example 2.3.1: k_def 0.6, psi_2 0.3, 0.5 m of 0.57 and 1.5
    # kN/m2: creep adds 3.06 mm, where 0.75 kN/m sag 7.50 mm at once.
    sag = 7.501 / 0.75
    lasting, live = 0.57 * 0.5, 1.5 * 0.5
    of_dead = design.final_deflection(lasting * sag, 0.6, 1.0) - lasting * sag
    of_live = design.final_deflection(live * sag, 0.6, 0.3) - live * sag
    assert of_dead + of_live == pytest.approx(3.060, abs=0.001)


def test_beam_of_equal_reactions_of_an_online_reviewer() -> None:
    # A civil engineers' reviewer, three-moment equation: 300 N/m on three supports 3 m apart, ends
    # beyond by 1.319 m: all reactions are 863.8 N.
    x = 1.319
    whole = 6.0 + 2.0 * x
    beam = bend(whole, 1.0, 0.0, (x, x + 3.0, x + 6.0), (Patch(0.0, whole, 300.0 * whole),))
    assert beam.reactions == pytest.approx((863.8,) * 3, abs=1.0)


def test_fixed_continuous_beam_of_a_textbook() -> None:
    # Structural Analysis, example D.3: fixed at A, spans 20 and 30 ft, 45 k in the middle of the
    # first, 1.8 k/ft on the second, -90 k-ft from an overhang at C: -97.5 and -142.5 k-ft.
    frame = PlaneFrame(
        nodes=((0.0, 0.0), (10.0, 0.0), (20.0, 0.0), (50.0, 0.0)),
        bars=tuple(FrameBar(i, i + 1, 1e6, 1.0) for i in range(3)),
        held=((0, 0), (0, 1), (0, 2), (2, 1), (3, 1)),
    )
    loads = [NodeLoad(1, fz=-45.0), NodeLoad(3, moment=-90.0)]
    found = solve(frame, loads, [Spread(2, -1.8)])
    assert found.bars[0].moment[0] == pytest.approx(-97.5)
    assert found.bars[2].moment[0] == pytest.approx(-142.5)
