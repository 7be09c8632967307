"""Bolts after EC5 by hand, scope limits, and that a second method is never a pass."""

from __future__ import annotations

import math

import pytest

from flatpack.geometry import Vec
from flatpack.strength import joint_checks
from flatpack.strength.fitness import reasons, shortfalls
from flatpack.strength.joint_forces import shared
from flatpack.strength.layout import links
from flatpack.strength.loading import Loading
from flatpack.strength.records import Case
from flatpack.strength.setting import Setting
from tests.strength.conftest import Made

LOADING = Loading(case=Case("test", "a test load"))


@pytest.fixture(scope="module")
def setting(lounger, profiles) -> Setting:
    return Setting(lounger.assembly, profiles, profiles.load_set("lounger"), {})


def leg(setting: Setting):
    return next(k for k in setting.links if k.second == "leg-foot-left")


def test_a_leg_bolt_in_plywood_by_hand(setting):
    # M8 of class 4.6 through 17.9 + 17.9 mm of birch plywood, rho_k 630: f_h 0.11 x 0.92 x 630
    # = 63.76 (eq. 8.36), alike on both sides.  Equal parts: mode c = f_h t d (sqrt 2 - 1), a
    # well-known reduction of eq. 8.6c for beta 1 and t1 = t2.
    modes, factor = joint_checks.bolt_modes(
        setting, leg(setting), leg(setting).fasteners[0], Vec(0.0, 0.0, 1.0)
    )
    t = setting.part("leg-foot-left").thickness
    fh = 0.11 * 0.92 * 630.0
    assert modes.values["c"] == pytest.approx(fh * t * 8.0 * (math.sqrt(2.0) - 1.0))
    assert modes.mode == "c"
    assert factor == 1.0  # rows of bolts count whole in panels
    moment = 0.3 * 400.0 * 8.0**2.6
    assert modes.values["f"] == pytest.approx(1.15 * math.sqrt(2.0 * moment * fh * 8.0))


def test_rows_along_the_grain_are_weakened(profiles):
    solid = Made("lounger", profiles, boards__timber=_pine())
    setting = Setting(solid.assembly, profiles, profiles.load_set("lounger"), {})
    link = leg(setting)
    # In the leg the two bolts stand 5 d apart in one row: n_ef = 2^0.9 (5/13)^0.25 = 1.470.
    _, factor = joint_checks.bolt_modes(setting, link, link.fasteners[0], Vec(0.0, 0.0, 1.0))
    spacing = abs(link.fasteners[0].start.z - link.fasteners[1].start.z)
    expected = 2**0.9 * (spacing / (13 * 8.0)) ** 0.25 / 2
    assert factor == pytest.approx(expected)
    _, across = joint_checks.bolt_modes(setting, link, link.fasteners[0], Vec(1.0, 0.0, 0.0))
    assert across > factor


def _pine():
    from flatpack.parameters import BoardChoice

    return BoardChoice("pine-28")


def test_bolts_that_keep_their_distances_are_judged(setting):
    link = leg(setting)
    assert reasons(setting, link) == []
    # The rail presses the leg down; the other way its bolts would want 4 d below them, not 3.
    assert shortfalls(setting, link, Vec(0.0, 0.0, -1.0)) == []
    assert {n.needs for n in shortfalls(setting, link, Vec(0.0, 0.0, 1.0))} >= {32.0}
    held = shared(link, LOADING, Vec(0.0, 0.0, -800.0))
    sheared = [c for c in joint_checks.checks_of(setting, held) if c.code == "sheared"]
    assert len(sheared) == 2
    assert all(c.use is not None for c in sheared)
    # F_v = 400 N a bolt against 0.7 F_v,Rk / 1.3.
    modes, _ = joint_checks.bolt_modes(setting, link, link.fasteners[0], Vec(0.0, 0.0, 1.0))
    assert sheared[0].use == pytest.approx(400.0 / (0.7 * modes.least / 1.3))


def test_a_force_towards_the_rails_end_lacks_distance(setting):
    # 55.9 mm to the end of the rail, where table 8.4 asks 80.
    lacks = shortfalls(setting, leg(setting), Vec(1.0, 0.0, 0.0))
    assert [(n.what, n.needs) for n in lacks if "end" in n.what] == [("loaded end distance", 80.0)]
    held = shared(leg(setting), LOADING, Vec(500.0, 0.0, 0.0))
    for check in joint_checks.checks_of(setting, held):
        if check.code == "sheared":
            assert check.use is None
            assert check.second is not None
            assert f"loaded end distance {lacks[0].has:.0f} mm" in check.why
            assert "table 8.4 asks 80" in check.why


def test_thin_screws_are_not_judged_and_say_all_reasons(setting):
    link = next(k for k in links(setting.assembly) if k.second == "slat-3")
    why = "; ".join(reasons(setting, link))
    for part in ("screw of 4.2 mm", "bite 13.6 mm, less than", "runs askew", "edge of plywood"):
        assert part in why
    held = shared(link, LOADING, Vec(0.0, 0.0, -100.0))  # the rail pulls the slat down
    pulled = next(c for c in joint_checks.checks_of(setting, held) if c.code == "pulled")
    assert pulled.use is None
    assert pulled.second is not None
    assert "National Design" in pulled.second.source
    # 2850 G^2 D lb/in with G 0.50, wet 0.7, ten minutes 1.6 (NDS table 2.3.2, from memory), 50 N a
    # screw over the loads' factor 1.5.
    limit = 0.7 * 1.6 * 2850 * 0.25 * (4.2 / 25.4) * 4.4482216 / 25.4 * link.fasteners[0].bite
    assert pulled.second.use == pytest.approx(50.0 / 1.5 / limit)


def test_pressing_needs_no_screw(setting):
    link = next(k for k in links(setting.assembly) if k.second == "slat-3")
    codes = {
        c.code for c in joint_checks.checks_of(setting, shared(link, LOADING, Vec(0.0, 0.0, 300.0)))
    }
    assert codes == {"pressed"}


def test_bearing_of_solid_timber_is_judged(profiles):
    solid = Made("lounger", profiles, boards__timber=_pine())
    found = solid.report()
    pressed = [c for c in found.checks if c.code == "pressed" and c.subject.startswith("slat-")]
    assert pressed
    assert all(c.use is not None for c in pressed)
    assert len(found.open_joints) < len(found.joints)
    check = next(c for c in pressed if c.subject == "slat-5-on-rail-left")
    # C14 outdoors for a moment: 0.9 x 2.0 / 1.3 = 1.38 N/mm2 (EN 338, EC5 table 3.1).
    assert "1.38" in check.formula


def test_a_pivot_is_out_of_scope(setting):
    link = next(k for k in links(setting.assembly) if k.first == "arm-left")
    assert "a washer lies between them" in reasons(setting, link)[0]
