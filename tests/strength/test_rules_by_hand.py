"""Formulas of EC5 evaluated by hand, where no published example was found; clauses from memory."""

from __future__ import annotations

import math

import pytest

from flatpack.features import Hole
from flatpack.geometry import Frame, Point, Vec
from flatpack.geometry.shapes import rectangle as board_outline
from flatpack.model import Part
from flatpack.strength.holes import left_over, weakest
from flatpack.strength.rules import axial, design, dowels, johansen, members
from flatpack.strength.rules.sections import disc, rectangle


def test_screw_withdrawal_after_the_amendment() -> None:
    # 8.39: d 8, l_ef 64, rho 350: 0.52 x 0.35355 x 0.65975 x 108.46 = 13.155 N/mm2.
    parameter = axial.screw_parameter(8.0, 64.0, 350.0)
    assert parameter == pytest.approx(13.155, abs=0.005)
    # 8.38: four screws, 4^0.9 = 3.482, k_d 1: 3.482 x 13.155 x 8 x 64 = 23 454 N; at 45 degrees
    # over 1.1; d 6 has k_d 0.75.
    four = axial.screw_withdrawal(4, parameter, 8.0, 64.0)
    assert four == pytest.approx(23_454.0, rel=1e-3)
    assert axial.screw_withdrawal(4, parameter, 8.0, 64.0, 45.0) == pytest.approx(four / 1.1)
    six = axial.screw_withdrawal(1, 10.0, 6.0, 60.0)
    assert six == pytest.approx(0.75 * 10.0 * 6.0 * 60.0)


def test_nails_along_their_axis() -> None:
    # 8.25, 8.26 for rho 320: 2.048 and 7.168 N/mm2; 8.24: d 3, 25 mm of point, 12 mm of panel,
    # head 6.75: min(153.6, 73.7 + 326.6) = 153.6 N.
    point, head = axial.nail_withdrawal(320.0), axial.nail_head(320.0)
    assert (point, head) == (pytest.approx(2.048), pytest.approx(7.168))
    assert axial.nail_axial(point, head, 3.0, 25.0, 12.0, 6.75) == pytest.approx(153.6)
    assert axial.nail_axial(point, head, 3.0, 900.0, 12.0, 6.75) == pytest.approx(400.3, abs=0.1)
    # 8.27 and 8.28: half each way is 1 for nails, 1/2 for screws.
    assert axial.combined(5.0, 10.0, 5.0, 10.0, 1.0) == 1.0
    assert axial.combined(5.0, 10.0, 5.0, 10.0) == 0.5
    assert axial.head_pull_through(1, 10.0, 8.0) == 640.0


def test_other_embedments() -> None:
    # 8.15: 0.082 x 350 x 4^-0.3 = 18.94; 8.20: 0.11 x 630 x 3^-0.3 = 49.84; 8.36, d 8: 63.76.
    assert dowels.embedment_undrilled(4.0, 350.0) == pytest.approx(18.94, abs=0.01)
    assert dowels.embedment_plywood_nail(3.0, 630.0) == pytest.approx(49.84, abs=0.01)
    assert dowels.embedment_plywood_bolt(8.0, 630.0) == pytest.approx(63.76, abs=0.01)
    assert dowels.k_90(10.0, "hardwood") == pytest.approx(1.05)
    assert dowels.yield_moment(8.0, 400.0) == pytest.approx(26_743.0, abs=10.0)
    assert dowels.yield_moment(3.0, 600.0, square=True) == pytest.approx(1.5 * 180 * 3**2.6)
    assert dowels.effective_diameter(6.0, 4.0, 24.0, 4.4) == 4.4
    assert dowels.effective_diameter(6.0, 4.0, 20.0, 4.4) == pytest.approx(4.4)
    assert dowels.effective_diameter(6.0, 3.8, 20.0, 4.4) == pytest.approx(4.18)
    # Table 7.1: rho_m 420, d 8: 420^1.5 x 8 / 23 = 2994 N/mm.
    assert dowels.slip_modulus(8.0, 420.0) == pytest.approx(2994.0, abs=1.0)


def test_steel_plates_by_hand() -> None:
    # fh 25, t 40, d 8, M 26 743: 8.9: 3200 and 1.15 sqrt(2 M fh d) = 3761;
    # 8.10: 8000, 8000 (sqrt(2 + 4M/(fh d t^2)) - 1) = 4226, 2.3 sqrt(M fh d) = 5319.
    thin = johansen.thin_plate(25.0, 40.0, 8.0, 26_743.0).values
    assert thin == {"a": pytest.approx(3200.0), "b": pytest.approx(3761.2, abs=0.5)}
    thick = johansen.thick_plate(25.0, 40.0, 8.0, 26_743.0).values
    assert thick["c"] == pytest.approx(8000.0)
    assert thick["d"] == pytest.approx(8000.0 * (math.sqrt(2.33429) - 1.0), rel=1e-4)
    assert thick["e"] == pytest.approx(5319.1, abs=0.5)


def test_factors_before_the_hinges() -> None:
    # 8.6: 1.05 before d and e, 1.15 before f; 8.7 likewise (the code's own allowance).
    given = (20.0, 30.0, 26.0, 45.0, 8.0, 26_743.0)
    for shear, one, two in (
        (johansen.single_shear, "de", "f"),
        (johansen.double_shear, "j", "k"),
    ):
        code, bare = shear(*given).values, shear(*given, factors=(1.0, 1.0)).values
        assert all(code[m] == pytest.approx(1.05 * bare[m]) for m in one)
        assert code[two] == pytest.approx(1.15 * bare[two])


def test_buckling_curves_meet() -> None:
    # 6.34: its three stretches meet at 0.75 and 1.4; 6.25 starts at 1.
    assert members.k_crit(0.7499) == 1.0
    assert members.k_crit(0.7501) == pytest.approx(1.0, abs=0.003)
    assert members.k_crit(1.3999) == pytest.approx(members.k_crit(1.4001), abs=0.001)
    assert members.k_c(0.3) == 1.0
    # The inputs of a French textbook's example 2.3.2: 50 x 200, l_ef 0.9 x 5 m + 0.4 m, C24.
    assert members.critical_bending_stress(50.0, 200.0, 4900.0, 7400.0) == pytest.approx(
        14.72, abs=0.01
    )


def test_bearing_spreads_along_the_grain() -> None:
    # 6.1.5(1): 30 mm each side, no more than the wood there, the contact, half the clear gap.
    assert members.bearing_length(50.0, 100.0, 100.0) == 110.0
    assert members.bearing_length(50.0, 0.0, 12.0) == 62.0
    assert members.bearing_length(20.0, 100.0, 100.0) == 60.0
    assert members.bearing_length(50.0, 100.0, 100.0, clear=40.0) == 90.0
    assert members.strength_at_angle(20.0, 2.0, 0.0) == pytest.approx(20.0)
    assert members.strength_at_angle(20.0, 2.0, 90.0) == pytest.approx(2.0)
    # 6.16 at 45 degrees: 20 / (10 x 1/2 + 1/2) = 3.636.
    assert members.strength_at_angle(20.0, 2.0, 45.0) == pytest.approx(3.636, abs=0.001)
    assert members.bearing_stress(-4400.0, 40.0, 110.0) == 1.0


def test_interactions() -> None:
    # 6.11/6.12, 6.17/6.18 and 6.19/6.20 with halves: 0.5 + 0.7 x 0.5.
    assert members.bending_use(5.0, 10.0, 5.0, 10.0) == pytest.approx(0.85)
    assert members.tension_use(5.0, 10.0, 5.0, 10.0, 0.0, 10.0) == pytest.approx(1.0)
    stocky = members.compression_use(5.0, 10.0, (5.0, 10.0, 0.0, 10.0), (1.0, 1.0))
    assert stocky == pytest.approx(0.25 + 0.5)
    slender = members.compression_use(2.0, 10.0, (3.0, 10.0, 1.0, 10.0), (0.9, 0.4))
    assert slender == pytest.approx(2.0 / 4.0 + 0.7 * 0.3 + 0.1)


def test_sections_and_factors() -> None:
    bar = disc(20.0)
    assert bar.modulus == pytest.approx(math.pi * 8000.0 / 32.0)
    assert bar.second == pytest.approx(math.pi * 160_000.0 / 64.0)
    assert rectangle(40.0, 90.0).gyration == pytest.approx(90.0 / math.sqrt(12.0))
    # 3.1: (150/h)^0.2 up to 1.3; 2.2.3: 5 mm with k_def 2 and half lasting: 10 mm.
    assert design.k_h(150.0) == 1.0
    assert design.k_h(20.0) == 1.3
    assert design.final_deflection(5.0, 2.0, 0.5) == 10.0
    with pytest.raises(ValueError, match="service class"):
        design.k_mod((1.0,) * 5, (1.0,) * 5, 4, "short")


@pytest.mark.parametrize(("y", "gone"), [(50.0, 8.0**3 / 12), (80.0, 0.0)])
def test_what_a_hole_leaves(y, gone, profiles) -> None:
    # A hole of 8 on the axis of a rail 100 deep takes d^3 of h^3; off it (34^3 - 26^3)/3 x 12.
    board = profiles.board("larch-27")
    hole = Hole(at=Point(200.0, y), diameter=8.0, depth=None, face="show", fit="", purpose="bolt")
    part = Part(
        key="rail", name="Rail", board=board, outline=board_outline(1000.0, 100.0),
        frame=Frame(Vec(0, 0, 0)), features=(hole,),
    )  # fmt: skip
    gone = gone or (34.0**3 - 26.0**3) / 3.0
    left = left_over(part)
    assert left == ((pytest.approx(200.0), pytest.approx(1.0 - gone / (100.0**3 / 12), abs=1e-3)),)
    assert weakest(left, 150.0, 250.0) < 1.0
    assert weakest(left, 250.0, 350.0) == 1.0
