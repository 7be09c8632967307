"""Balance of forces in the idealised piece, and what holds the parts across."""

from __future__ import annotations

import math

import pytest

from flatpack.geometry import Vec
from flatpack.parameters import replace as changed_record
from flatpack.strength.frames import solve
from flatpack.strength.layout import links, reach
from flatpack.strength.loading import Area, Slats, deck_of, loadings
from flatpack.strength.raised import raised
from flatpack.strength.setting import Setting
from flatpack.strength.sides import Force, sides
from flatpack.strength.stability import Feet, Push, tipping
from flatpack.strength.supports import supports


@pytest.fixture(scope="module")
def setting(lounger, profiles) -> Setting:
    return Setting(lounger.assembly, profiles, profiles.load_set("lounger"), {})


def test_feet_bear_what_lies_on_the_rail(setting):
    places = {"rail-left": [Vec(400.0, 9.0, 320.0), Vec(1500.0, 9.0, 320.0)]}
    forces = [Force("rail-left", v, Vec(0.0, 0.0, -300.0)) for v in places["rail-left"]]
    left = next(s for s in sides(setting, places) if s.parts[0].key == "rail-left")
    found = solve(left.frame, left.loads(forces))
    up = {key: found.reactions[node, 1] for key, node in left.feet}
    assert sum(up.values()) == pytest.approx(600.0)
    # Moments about the foot leg's middle, 56 mm from the end; the head leg's is 1904 (statics).
    expected = 300.0 * ((400.0 - 56.0) + (1500.0 - 56.0)) / (1904.0 - 56.0)
    assert up["leg-head-left"] == pytest.approx(expected, rel=1e-3)


def test_slats_stand_on_both_rails(setting):
    for key in ("slat-3", "back-slat-4"):
        stands = supports(setting, setting.part(key))
        assert [s.bearer for s in stands] == ["rail-left", "rail-right"]
        assert stands[0].place == pytest.approx(9.0, abs=0.1)
        assert stands[1].place == pytest.approx(631.0, abs=0.1)


def test_each_case_puts_its_load_on_the_slats(setting):
    deck = deck_of(setting)
    for loading in loadings(setting):
        for area in loading.deck:
            shares = [share for _, share in deck.shares(area)]
            assert sum(shares) == pytest.approx(1.0)


def test_shares_go_by_the_width_covered(setting):
    deck = deck_of(setting)
    low = reach(deck.parts[0], deck.way)[0]
    area = Area(low=low, high=low + 72.0 + 18.0 + 36.0, left=0, right=9, force=Vec(0, 0, -1))
    shares = {part.key: share for part, share in deck.shares(area)}
    gap = reach(deck.parts[1], deck.way)[0] - low - 72.0
    second = 126.0 - 72.0 - gap
    assert shares["slat-1"] == pytest.approx(72.0 / (72.0 + second))
    assert set(shares) == {"slat-1", "slat-2"}


def test_links_gather_the_bolts_of_a_leg(setting):
    leg = next(k for k in links(setting.assembly) if k.second == "leg-foot-left")
    assert len(leg.fasteners) == 2
    assert leg.joints == ("leg-foot-left-bolt-1", "leg-foot-left-bolt-2")
    assert abs(leg.normal.y) == 1.0


def test_the_raised_back_is_in_balance(setting):
    # Arms, hinges and load on the back add up to nothing, in every stop (statics of a body).
    seen = 0
    for r in raised(setting, deck_of(setting)):
        arm = Vec(-2.0 * r.on_rack.x, 0.0, -2.0 * r.on_rack.z)
        hinge = Vec(-2.0 * r.on_frame.x, 0.0, -2.0 * r.on_frame.z)
        total = r.in_back(arm.x + hinge.x, arm.z + hinge.z).plus(r.load)
        assert total.length == pytest.approx(0.0, abs=1e-6 * r.push)
        seen += 1
    assert seen == 2 * len(setting.assembly.motion.wanted)


@pytest.mark.parametrize(("angle", "tips"), [(33.0, False), (34.5, True)])
def test_a_crate_on_a_ramp_tips_at_the_angle_of_its_diagonal(angle, tips):
    # A cube of 1.2 m whose centre stands 0.9 m high tips at atan(0.6/0.9) = 33.69 degrees, as in
    # a well-known physics textbook's crate (its answers from memory: 31 slides, 34 tips).
    import math

    s, c = math.sin(math.radians(angle)), math.cos(math.radians(angle))
    ground = Feet(0.0, 1200.0, 0.0, 1200.0)
    weight = Push(Vec(600.0, 600.0, 900.0), Vec(1000.0 * s, 0.0, -1000.0 * c))
    holding, tip, edge = tipping(ground, [weight])
    # One force both holds and tips about the lower edge: what is left of it says which.
    assert (holding, tip > 0.0) == (pytest.approx(holding), tips)
    assert edge == ("head side" if tips else "")


def test_slats_know_their_extent(setting):
    deck = deck_of(setting)
    assert isinstance(deck, Slats)
    assert deck.span == pytest.approx((0.0, 1960.0), abs=0.5)
    assert deck.across == pytest.approx((0.0, 640.0))


def test_leaning_back_on_a_bench_by_hand(bench):
    # Push 0.3 x 1079 N square to a back raked 14 degrees, 300 mm up it from the seat; seat and
    # piece hold, about the outermost line of the rear legs' feet.
    check = next(c for c in bench.report().checks if c.code == "tipping" and "leaning" in c.case)
    c, s = math.cos(math.radians(14.0)), math.sin(math.radians(14.0))
    push, person = 0.3 * 110 * 9.81, 110 * 9.81
    parts, x = bench.assembly.parts, Vec(1.0, 0.0, 0.0)
    seats = [p for k, p in parts.items() if k.startswith("slat-")]
    top = max(reach(p, Vec(0.0, 0.0, 1.0))[1] for p in seats)
    height = top + 300.0 * c
    # The back slats' middle line at that height; the rear legs end at the depth of the piece.
    back = parts["back-slat-1"]
    mid = back.frame.place(0.0, sum(back.outline.bounds[1::2]) / 2, back.thickness / 2)
    at = mid.x + (height - mid.z) * s / c
    rear = max(reach(p, x)[1] for k, p in parts.items() if k.startswith("leg-rear"))
    seat = (min(reach(p, x)[0] for p in seats) + max(reach(p, x)[1] for p in seats)) / 2
    # The push's downward part acts behind the feet.
    tip = push * c * height + max(push * s * (at - rear), 0.0)
    weight, centre = _weight(bench)
    hold = person * (rear - seat) + weight * (rear - centre)
    assert check.use == pytest.approx(1.1 * tip / hold, rel=0.05)


def _last(made, prefix: str):
    keys = [k for k in made.assembly.parts if k.startswith(prefix)]
    return made.assembly.parts[keys[-1]]


def _weight(made) -> tuple[float, float]:
    rows = [
        (abs(p.outline.area) * p.thickness * p.board.density * 9.81e-9, p)
        for p in made.assembly.parts.values()
    ]
    whole = sum(w for w, _ in rows)
    ends = [(w, reach(p, Vec(1.0, 0.0, 0.0))) for w, p in rows]
    return whole, sum(w * (a + b) / 2 for w, (a, b) in ends) / whole


def test_an_axle_by_hand(profiles):
    from tests.strength.conftest import Made

    rolling = Made("lounger", profiles, wheels__use=True)
    found = rolling.report()
    check = next(c for c in found.checks if c.subject == "axle")
    force = (
        1.5 * 110 * 9.81 / 2
        + 1.35 * Setting(rolling.assembly, profiles, profiles.load_set("lounger"), {}).weight[0] / 4
    )
    wheel = next(f for f in rolling.assembly.fasteners if f.kind == "wheel")
    leg = rolling.assembly.parts["leg-head-left"]
    lane = sum(reach(leg, Vec(0.0, 1.0, 0.0))) / 2
    out = abs(wheel.start.y + wheel.direction.y * wheel.length / 2 - lane)
    # Plastic bending of a round bar d^3/6 f_y (EN 1993-1-1, 6.2.5), 190 N/mm2 over 1.1.
    assert check.use == pytest.approx(force * out / (16.0**3 / 6 * 190.0 / 1.1), rel=1e-6)
    assert "wheel" in {c.code for c in found.checks if c.subject == "wheels"}


def test_a_glued_block_with_one_screw_cannot_turn(profiles):
    from tests.strength.conftest import Made

    blocks = Made("lounger", profiles, rack__kind="blocks").report()
    assert "one screw" not in {c.code for c in blocks.checks}


def test_a_leg_beside_its_rail_by_hand(lounger, profiles):
    # One of four feet under two persons and the piece: half of each side's load, 17.9 mm aside.
    check = next(
        c
        for c in lounger.report().checks
        if (c.subject, c.code) == ("leg-foot-left", "bending aside")
    )
    own = Setting(lounger.assembly, profiles, profiles.load_set("lounger"), {}).weight[0]
    force = (2 * 1.5 * 110 * 9.81 + 1.35 * own) / 4.0
    leg = lounger.assembly.parts["leg-foot-left"]
    stress = force * leg.thickness / (76.0 * leg.thickness**2 / 6.0)
    # The persons sit at a quarter and three quarters: within some percent of evenly.
    assert check.use == pytest.approx(stress / (0.7 * 40.2 / 1.2), rel=0.05)


def test_lifting_the_end_rail_by_hand(lounger, profiles):
    # Half the weight, 1.35 and 1.5, at the middle of 604 mm borne at the side rails' middles; who
    # pushes across would strain it more, so nobody does.
    still = changed_record(profiles.load_set("lounger"), sway_share=0.0)
    found = lounger.report(loads=still)
    check = next(c for c in found.checks if (c.subject, c.code) == ("end-rail-head", "bending"))
    rail = lounger.assembly.parts["end-rail-head"]
    own = Setting(lounger.assembly, profiles, profiles.load_set("lounger"), {}).weight[0]
    moment = own / 2.0 * 1.35 * 1.5 * rail.length / 4.0
    stress = moment / (rail.thickness * rail.width**2 / 6.0)
    # It may tilt between its screws (6.3.3): 0.9 x 569.6 + 2 x 127 mm, E_0,05 8038.
    critical = 0.78 * rail.thickness**2 * 8038.0 / (127.0 * (0.9 * 569.6 + 2.0 * 127.0))
    tilts = 1.56 - 0.75 * math.sqrt(27.2 / critical)
    assert check.use == pytest.approx(stress / (tilts * 0.7 * 27.2 / 1.2), rel=0.01)


def test_a_hinge_leaf_pries_on_its_near_screws(setting):
    # Pull H at the axis, screws 16 and 38 mm from it: near pair T = H 38/(38 - 16) (statics).
    from flatpack.strength.raised_checks import hinge_checks

    r = max(raised(setting, deck_of(setting)), key=lambda r: r.on_frame.x)
    checks = [c for c in hinge_checks(r) if "packer-left" in c.formula and c.code == "pulled"]
    away = sorted(
        {
            round(abs(f.start.z - r.motion.axis.z), 3)
            for f in setting.assembly.fasteners
            if f.kind == "hinge screw" and f.passes == ("packer-left",)
        }
    )
    near, far = away[0], away[-1]
    expected = r.on_frame.x * far / (far - near) / 2
    assert checks[0].formula == f"F {expected:.0f} N a screw in packer-left"


def test_an_arm_bends_by_standing_beside_its_brace(setting):
    # Thrust N at half the lanes' distance, on an arm as wide as it is cut and 17.9 thick (statics).
    from flatpack.strength.raised_checks import arm_checks

    r = max(raised(setting, deck_of(setting)), key=lambda r: r.hold.arm)
    check = next(c for c in arm_checks(r) if (c.subject, c.code) == ("arm-left", "buckling"))
    arm, brace = setting.part("arm-left"), setting.part("brace-left")
    y = Vec(0.0, 1.0, 0.0)
    aside = abs(sum(reach(arm, y)) - sum(reach(brace, y))) / 2.0
    stress = r.hold.arm * aside / 2.0 / (arm.width * arm.thickness**2 / 6.0)
    assert f"+ sigma_m {stress:.2f} /" in check.formula


def test_a_great_hole_in_a_rail_is_taken_off(lounger):
    from dataclasses import replace

    from flatpack.features import Hole
    from flatpack.geometry import Point

    rail = lounger.assembly.parts["rail-left"]
    x0, y0, x1, y1 = rail.outline.bounds
    deep = y1 - y0
    hole = Hole(
        at=Point((x0 + x1) / 2, (y0 + y1) / 2),
        diameter=100.0,
        depth=None,
        face="show",
        fit="",
        purpose="",
    )
    holed = replace(rail, features=(*rail.features, hole))
    parts = {**lounger.assembly.parts, "rail-left": holed}
    before = lounger.report().use("rail-left")
    after = lounger.report(replace(lounger.assembly, parts=parts)).use("rail-left")
    # A hole of 100 on the axis leaves 1 - (100/h)^3 of W (mechanics); the worst place may lie a
    # little beside it.
    assert 1.5 < after / before <= 1.0 / (1.0 - (100.0 / deep) ** 3) + 0.01
