"""Pieces looked at as one frame: balance, what bears what, what is loaded; by statics."""

from __future__ import annotations

import math

import pytest

from flatpack.frozen import replace
from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.geometry.shapes import rectangle
from flatpack.joinery import BoltThrough, FaceScrews, machine
from flatpack.model import Assembly, Hardware, Part
from flatpack.parameters import replace as record_replaced
from flatpack.strength import (
    bolt_pull,
    report,
    thin_screws,
    tilting,
    undone_bolts,
    whole_joints,
)
from flatpack.strength.joint_forces import shared
from flatpack.strength.layout import reach
from flatpack.strength.loading import Loading
from flatpack.strength.meeting import feet_of, lying_on, mouth, space_links
from flatpack.strength.records import Case
from flatpack.strength.rules import dowels, members, sections
from flatpack.strength.rules.johansen import single_shear
from flatpack.strength.setting import Setting
from flatpack.strength.spreading import Rectangle, on_part, spread
from flatpack.strength.surfaces import arm_parts, back_parts, floor_of, level_surfaces, top_of
from flatpack.strength.use_cases import own_weight
from flatpack.strength.uses import uses
from flatpack.strength.whole import Push, whole
from flatpack.strength.whole_solving import solved
from flatpack.strength.whole_stability import Spot, hull, worst_edge

LOADING = Loading(case=Case("test", "a test load"))


def board(profiles, key: str, name: str, size: tuple[float, float], frame: Frame) -> Part:
    return Part(
        key=key, name=name, board=profiles.board("larch-27"), outline=rectangle(*size), frame=frame
    )


def trestle(profiles, screw: str = "wood-5", **more) -> Assembly:
    """A plank 900 x 120 on two uprights 400 high, each screwed down through its face."""
    up = Frame(Vec(0, 0, 0), Z, Y, X)
    left = board(profiles, "upright-left", "Upright", (400.0, 120.0), up)
    right = replace(left, key="upright-right", frame=replace(up, origin=Vec(873.0, 0, 0)))
    plank = board(profiles, "plank", "Plank", (900.0, 120.0), Frame(Vec(0, 0, 400.0), X, Y, Z))
    joints = tuple(
        FaceScrews(
            key=f"plank-{side.key}", step="", through="plank", into=side.key,
            places=tuple(Vec(side.frame.origin.x + 13.5, y, 400.0) for y in (30.0, 90.0)),
            direction=Z.negated(), screw=profiles.screw(screw),
        )
        for side in (left, right)
    )  # fmt: skip
    made = Assembly(
        family="trestle", name="Trestle", joints=joints, loads="side-table",
        parts={p.key: p for p in (left, right, plank)}, **more,
    )  # fmt: skip
    return machine(made)


@pytest.fixture(scope="module")
def setting(profiles) -> Setting:
    return Setting(trestle(profiles), profiles, profiles.load_set("side-table"), {})


def frame_of(setting: Setting, pushes: tuple[Push, ...]):
    places: dict[str, list[Vec]] = {}
    for push in pushes:
        places.setdefault(push.part, []).append(push.place)
    return whole(setting, places)


class OneCase:
    """A case for the solver: its pushes and a loading."""

    def __init__(self, *pushes: Push) -> None:
        self.pushes, self.loading = pushes, LOADING


def test_feet_carry_what_is_put_on(setting):
    # 300 N at a third of the plank: the uprights' middles stand at 13.5 and 886.5 mm (statics).
    push = Push("plank", Vec(300.0, 60.0, 427.0), Vec(0.0, 0.0, -300.0))
    frame = frame_of(setting, (push,))
    (state,) = solved(frame, [OneCase(push)], ())
    feet = {
        h.parts[0]: sum(t[2] for g, t in zip(frame.held, state.stood.ties, strict=True)
                        if g.kind == "foot" and g.parts == h.parts)
        for h in frame.held if h.kind == "foot"
    }  # fmt: skip
    assert sum(feet.values()) == pytest.approx(-300.0, rel=1e-6)
    share = (886.5 - 300.0) / 873.0
    assert feet["upright-left"] == pytest.approx(-300.0 * share, rel=0.03)


def test_a_push_is_shared_by_the_feet_and_turns_the_frame(setting):
    push = Push("plank", Vec(450.0, 60.0, 427.0), Vec(60.0, 0.0, -600.0))
    frame = frame_of(setting, (push,))
    (state,) = solved(frame, [OneCase(push)], ())
    ties = [t for h, t in zip(frame.held, state.stood.ties, strict=True) if h.kind == "foot"]
    assert sum(t[0] for t in ties) == pytest.approx(60.0, rel=1e-6)
    at = [t for t in frame.ties if t.second == -1]
    # Moments about y at the origin: the ground's answer equals the push's.
    ground = sum(-t[2] * a.place.x for t, a in zip(ties, at, strict=True))
    assert ground == pytest.approx(600.0 * 450.0 + 60.0 * 427.0, rel=1e-4)


def test_a_load_on_a_rectangle_bends_as_much_as_one_spread_evenly(setting):
    # M in the middle of a simple beam: F/4 (L - b/2) (statics).
    plank = setting.part("plank")
    pushes = on_part(plank, 0.5, 200.0, Vec(0.0, 0.0, -100.0))
    assert [p.place.x for p in pushes] == pytest.approx([400.0, 500.0])
    moment = 50.0 * 450.0 - 50.0 * 50.0
    assert moment == pytest.approx(100.0 / 4.0 * (900.0 - 100.0))
    top = top_of(setting.assembly)
    shared_out = spread(top, Rectangle((0.0, 300.0), (0.0, 120.0)), Vec(0.0, 6.0, -90.0))
    assert sum(p.force.z for p in shared_out) == pytest.approx(-90.0)
    assert [p.place.x for p in shared_out] == pytest.approx([75.0, 225.0])


def test_where_parts_meet(profiles, setting):
    links = space_links(setting.assembly)
    assert {(k.first, k.second) for k in links} == {
        ("plank", "upright-left"), ("plank", "upright-right"),
    }  # fmt: skip
    leaves = mouth(setting.part("plank"), links[0].fasteners[0])
    assert leaves.z == pytest.approx(400.0)
    assert feet_of(setting.part("plank")) == ()
    (left,) = feet_of(replace(setting.part("upright-left"), outline=rectangle(400.0, 90.0)))
    assert left == pytest.approx((13.5, 45.0, 0.0))
    assert len(feet_of(setting.part("upright-left"))) == 2  # 120 mm wide: both its ends
    bare = replace(setting.assembly, fasteners=())
    lying = [row[:2] for row in lying_on(bare, set())]
    assert lying == [("upright-left", "plank"), ("upright-right", "plank")]
    assert list(lying_on(setting.assembly, {frozenset((k.first, k.second)) for k in links})) == []


def test_surfaces_by_where_parts_lie(bench, profiles):
    assembly = bench.assembly
    seat = top_of(assembly)
    assert {p.key for p in seat.parts} == {k for k in assembly.parts if k.startswith("slat-")}
    back = {p.key for p in back_parts(assembly, seat)}
    assert back == {k for k in assembly.parts if k.startswith("back-slat-")}
    assert arm_parts(assembly, seat) == ()
    shelf = board(profiles, "shelf", "Shelf", (860.0, 110.0), Frame(Vec(20.0, 5.0, 100.0), X, Y, Z))
    two = trestle(profiles)
    two = replace(two, parts={**two.parts, "shelf": shelf})
    assert [s.parts[0].key for s in level_surfaces(two)] == ["shelf", "plank"]
    assert top_of(two).parts[0].key == "plank"
    assert floor_of(two).parts[0].key == "shelf"


def test_a_part_that_nothing_holds_is_not_judged(profiles):
    shelf = board(
        profiles, "shelf", "Shelf", (300.0, 110.0), Frame(Vec(300.0, 5.0, 700.0), X, Y, Z)
    )
    piece = trestle(profiles)
    found = report(replace(piece, parts={**piece.parts, "shelf": shelf}), None, profiles)
    assert "shelf" in found.open_parts
    assert any("ties it to what stands" in c.why for c in found.checks if c.subject == "shelf")


def test_every_family_has_loads_and_no_loads_is_no_pass(profiles):
    from flatpack.pieces import PIECES

    known = set(profiles.names("loads"))
    assert set(PIECES) - known <= {"composed", "loose-parts"}
    piece = replace(trestle(profiles), loads="")
    found = report(piece, None, profiles)
    assert found.open_joints == found.joints
    assert "nothing could be judged" in found.headline
    assert "no loads are known for a trestle" in found.checks[0].why


def test_every_load_says_where_it_comes_from(profiles):
    for loads in profiles.every("loads"):
        told = dict(loads.sources)
        for name in ("person", "persons", "edge_share", "table_edge", "push", "lasting_share",
                     "friction", "impact"):  # fmt: skip
            value = getattr(loads, name)
            assert name in told or value in (0, 0.0), (loads.key, name)
        assert all(told.values())


@pytest.mark.parametrize(
    ("key", "cases"),
    [
        ("side-table", {"laid", "edge left edge", "edge corner", "spot", "push to the left"}),
        ("low-chair", {"one", "drop", "sway to the left", "spot", "front edge"}),
        ("sheet-stool", {"one", "front edge", "rear edge", "lift first end"}),
        ("cushion-box", {"one", "push forwards", "lift second end"}),
        ("planter", {"soil", "front rim", "push backwards"}),
    ],
)
def test_cases_by_what_a_piece_is_for(key, cases, profiles):
    piece = trestle(profiles)
    found = uses(Setting(piece, profiles, profiles.load_set(key), {}))
    assert cases <= {u.loading.case.key for u in found}
    for use in found:
        assert use.pushes
        assert all(math.isfinite(v) for p in use.pushes for v in (*p.place, *p.force))


def test_soil_weighs_and_pushes(profiles):
    # A box 400 x 400 inside, 300 deep: floor at 27 mm, walls to 300: density x g x volume; a wall
    # feels K0 times the depth of its middle (soil mechanics), out of the box.
    floor = board(profiles, "floor", "Floor", (400.0, 400.0), Frame(Vec(0, 0, 0), X, Y, Z))
    walls = {
        "wall-front": Frame(Vec(0.0, 0.0, 27.0), Y, Z, X.negated()),
        "wall-rear": Frame(Vec(400.0, 0.0, 27.0), Y, Z, X),
    }
    parts = {k: board(profiles, k, "Wall", (400.0, 273.0), f) for k, f in walls.items()}
    piece = Assembly(family="planter", name="Box", parts={"floor": floor, **parts})
    loads = profiles.load_set("planter")
    (soil,) = (u for u in uses(Setting(piece, profiles, loads, {})) if u.loading.case.key == "soil")
    down = sum(p.force.z for p in soil.pushes)
    weight = loads.soil_density * 9.81e-9 * loads.gamma_dead
    assert down == pytest.approx(-weight * 400.0 * 400.0 * 273.0)
    front = [p for p in soil.pushes if p.part == "wall-front"]
    expected = weight * loads.soil_pressure * (300.0 - 163.5) * 400.0 * 273.0
    assert sum(p.force.x for p in front) == pytest.approx(-expected)
    assert soil.loading.duration == "permanent"
    assert soil.loading.lasting == 1.0


def test_tipping_about_any_edge():
    # A square of feet 400 wide: 100 N outside by 50 mm against 250 N in the middle (statics).
    square = hull(sorted(Spot(x, y) for x in (0.0, 400.0) for y in (0.0, 400.0)))
    own = (Vec(200.0, 200.0, 300.0), Vec(0.0, 0.0, -250.0))
    out = (Vec(450.0, 200.0, 500.0), Vec(0.0, 0.0, -100.0))
    found = worst_edge(square, (own, out))
    assert (found.holding, found.tipping) == pytest.approx((250.0 * 200.0, 100.0 * 50.0))
    assert found.side == "rear"
    # Three feet: about the sloping edge, its distance from the middle is what holds.
    three = hull([Spot(0.0, 0.0), Spot(0.0, 400.0), Spot(400.0, 200.0)])
    push = (Vec(133.0, 200.0, 400.0), Vec(0.0, 90.0, 0.0))
    found = worst_edge(three, ((Vec(133.0, 200.0, 300.0), Vec(0.0, 0.0, -250.0)), push))
    normal = Vec(200.0, 400.0, 0.0).unit()
    inside = (400.0 - 133.0) * normal.x
    assert found.holding == pytest.approx(250.0 * inside, rel=1e-6)
    assert found.tipping == pytest.approx(90.0 * normal.y * 400.0)
    assert hull([Spot(0.0, 0.0), Spot(1.0, 0.0)]) == (Spot(0.0, 0.0), Spot(1.0, 0.0))


def test_a_light_table_loaded_on_its_edge_tips(profiles):
    # 300 N half a spot (60 mm) from the plank's end, 13.5 mm outside no foot: it stands; moved in
    # by 200 mm the same upright lets it tip.
    piece = trestle(profiles)
    stood = report(piece, None, profiles)
    parts = dict(piece.parts)
    left = parts["upright-left"]
    parts["upright-left"] = replace(left, frame=replace(left.frame, origin=Vec(200.0, 0.0, 0.0)))
    fasteners = tuple(
        replace(f, start=f.start.plus(Vec(200.0, 0.0, 0.0))) if "upright-left" in f.passes else f
        for f in piece.fasteners
    )
    moved = report(replace(piece, parts=parts, fasteners=fasteners), None, profiles)
    before, after = (
        next(c.use for c in found.checks if c.code == "tipping") for found in (stood, moved)
    )
    assert after > 1.0 > 0.0
    assert after > before


def test_a_straight_screw_after_ec5(profiles):
    # 5 mm screw with a root of 3.02: d_ef = 1.1 x 3.02 (8.7.1(3)); f_h 0.082 (1 - 0.01 d) 310
    # (8.16), M_y 0.3 x 600 d^2.6 (8.14), in larch taken as the lowest class with rho_k 290.
    piece = trestle(profiles)
    setting = Setting(piece, profiles, profiles.load_set("side-table"), {})
    link = next(k for k in space_links(piece) if k.second == "upright-left")
    screw = link.fasteners[0]
    found = thin_screws.modes(setting, link, screw, X)
    rho = setting.stuff(setting.part("plank")).row.density_low
    d = 1.1 * 3.02
    fh, my = 0.082 * (1 - 0.01 * d) * rho, 0.3 * 600.0 * d**2.6
    t1, t2 = screw.length - screw.bite, screw.bite - 5.0
    assert found.diameter == pytest.approx(d)
    assert found.modes.values == pytest.approx(single_shear(fh, t1, fh, t2, d, my).values)
    # Into the upright's end: end grain, which EC5 8.3.1.2(3) leaves out.
    assert any("in end grain" in why for why in thin_screws.reasons(setting, link))
    checks = list(
        whole_joints.joint_checks.checks_of(setting, shared(link, LOADING, Vec(80, 0, 0)))
    )
    sheared = next(c for c in checks if c.code == "sheared")
    assert sheared.use is None
    assert "end grain" in sheared.why


def test_a_screw_within_the_code_is_judged(profiles):
    # Two planks face to face, drilled, all distances of table 8.2 kept: judged, not by another way.
    one = board(profiles, "one", "Plank", (600.0, 145.0), Frame(Vec(0, 0, 54.0), X, Y, Z))
    two = board(profiles, "two", "Plank", (600.0, 145.0), Frame(Vec(0, 0, 27.0), X, Y, Z))
    three = board(profiles, "three", "Plank", (600.0, 145.0), Frame(Vec(0, 0, 0), X, Y, Z))
    thick = record_replaced(two.board, thickness=54.0)
    two = replace(two, board=thick, frame=Frame(Vec(0, 0, 0), X, Y, Z))
    joint = FaceScrews(
        key="lap", step="", through="one", into="two",
        places=(Vec(200.0, 60.0, 60.0), Vec(300.0, 85.0, 60.0)), direction=Z.negated(),
        screw=profiles.screw("wood-5"),
    )  # fmt: skip
    piece = machine(Assembly(family="x", name="x", parts={"one": one, "two": two}, joints=(joint,)))
    assert three.key not in piece.parts
    setting = Setting(piece, profiles, profiles.load_set("side-table"), {})
    (link,) = space_links(piece)
    assert thin_screws.reasons(setting, link) == []
    assert thin_screws.shortfalls(setting, link, X) == []
    held = shared(link, LOADING, Vec(400.0, 0.0, 0.0))
    sheared = next(
        c for c in whole_joints.joint_checks.checks_of(setting, held) if c.code == "sheared"
    )
    modes = thin_screws.modes(setting, link, link.fasteners[0], X)
    # 200 N a screw against k_mod 0.7 of class 3 and gamma 1.3; no row along the grain.
    assert sheared.use == pytest.approx(200.0 / (modes.row * modes.modes.least * 0.7 / 1.3))
    near = replace(joint, places=(Vec(200.0, 8.0, 60.0), Vec(300.0, 85.0, 60.0)))
    close = machine(Assembly(family="x", name="x", parts={"one": one, "two": two}, joints=(near,)))
    (link,) = space_links(close)
    lacks = thin_screws.shortfalls(Setting(close, profiles, setting.loads, {}), link, Y.negated())
    assert ("loaded edge distance", 8.0) in {(n.what, round(n.has, 1)) for n in lacks}


def test_a_bolt_pulled_hangs_on_its_washer(profiles):
    # 3 f_c,90,k over the washer's ring (8.5.2(2)), k_mod 0.7, gamma 1.3: M8, washer 16, hole 8.5.
    one = board(profiles, "one", "Plank", (600.0, 145.0), Frame(Vec(0, 0, 27.0), X, Y, Z))
    two = board(profiles, "two", "Plank", (600.0, 145.0), Frame(Vec(0, 0, 0), X, Y, Z))
    bolt = BoltThrough(
        key="bolt", step="", through=("one", "two"), place=Vec(300.0, 70.0, 60.0),
        direction=Z.negated(), bolt=profiles.coach_bolt("coach-m8"), nut=profiles.nut("lock-m8"),
        washer=profiles.washer("washer-m8"),
    )  # fmt: skip
    piece = machine(Assembly(family="x", name="x", parts={"one": one, "two": two}, joints=(bolt,)))
    setting = Setting(piece, profiles, profiles.load_set("side-table"), {})
    (link,) = space_links(piece)
    found = bolt_pull.capacity(setting, link, link.fasteners[0], LOADING)
    row, hole = setting.stuff(one).row, profiles.coach_bolt("coach-m8").hole_wood
    ring = math.pi / 4.0 * (16.0**2 - hole**2)
    assert found.missing == ""
    assert found.limit == pytest.approx(3.0 * row.compression_across * 0.7 / 1.3 * ring)
    assert "washer" in found.words
    wide = replace(bolt, washer=profiles.washer("wide-m8"))
    more = machine(Assembly(family="x", name="x", parts={"one": one, "two": two}, joints=(wide,)))
    bigger = bolt_pull.capacity(setting, link, more.fasteners[0], LOADING)
    assert bigger.limit > found.limit


def test_notch_and_twist_formulas_by_hand():
    # 6.62: h 100, half left, corner at the support: 5/(10 x 0.5) = 1; 30 mm off:
    # 5/(10 (0.5 + 0.24 sqrt(2 - 0.25))) = 0.6116.
    assert members.k_v(100.0, 0.5, 0.0) == 1.0
    assert members.k_v(100.0, 0.5, 30.0) == pytest.approx(0.6116, abs=1e-4)
    assert members.k_v(400.0, 0.5, 0.0) == pytest.approx(0.5)
    # 6.15: 1 + 0.15 h/b, at most 2.
    assert members.k_shape(90.0, 30.0) == pytest.approx(1.45)
    assert members.k_shape(300.0, 20.0) == 2.0
    # Handbook: a square twists with J = 0.1406 a^4 and tau = T / (0.208 a^3); thin: b t^3/3.
    assert sections.twist_constant(50.0, 50.0) == pytest.approx(0.1406 * 50.0**4, rel=0.002)
    assert sections.twist_stress(1e5, 50.0, 50.0) == pytest.approx(
        1e5 / (0.208 * 50.0**3), rel=0.01
    )
    assert sections.twist_constant(1000.0, 10.0) == pytest.approx(1e6 / 3.0, rel=0.01)


def test_creep_makes_a_lasting_load_sag_more(profiles):
    # w_fin = w (1 + psi_2 k_def), k_def 2.0 of solid timber in class 3 (EC5 2.2.3, table 3.2).
    piece = trestle(profiles)
    setting = Setting(piece, profiles, profiles.load_set("side-table"), {})
    part = setting.part("plank")
    assert setting.stuff(part).k_def(3) == 2.0
    assert setting.crept(part, 3.0, 1.5) == pytest.approx(2.0 * (1.0 + 0.3 * 2.0))
    assert setting.crept(part, 3.0, 1.5, 1.0) == pytest.approx(2.0 * 3.0)
    assert dowels.effective_diameter(5.0, 3.02, 0.0, 0.0) == pytest.approx(3.322)


def test_own_weight_is_that_of_the_boards(setting):
    pushes = own_weight(setting, 1.35)
    weight, _ = setting.weight
    assert -sum(p.force.z for p in pushes) == pytest.approx(1.35 * weight)
    assert reach(setting.part("plank"), Z) == (400.0, 427.0)


def test_a_tall_part_tilts_where_nothing_holds_it(setting):
    # The inputs of a French textbook's example 2.3.2 (l_ef 0.9 x 5 m + 0.4 m, 14.72 N/mm2) by a
    # part that is held at its ends: lambda_rel sqrt(24 / sigma), k_crit 1.56 - 0.75 lambda.
    plank = setting.part("plank")
    low = setting.stuff(plank).row.stiffness_low
    critical = 0.78 * 27.0**2 * low / (200.0 * 4900.0)
    free = tilting.factor(setting, plank, (5000.0, 200.0), 24.0, (0.0, 5000.0))
    assert free == pytest.approx(critical / 24.0)  # 1 / lambda^2, beyond 1.4
    # Held every 500 mm it is loaded there: l_ef is the stretch.
    critical = 0.78 * 27.0**2 * low / (200.0 * 500.0)
    often = tilting.factor(setting, plank, (5000.0, 200.0), 24.0, range(0, 5001, 500))
    assert often == pytest.approx(min(1.56 - 0.75 * math.sqrt(24.0 / critical), 1.0))
    assert tilting.factor(setting, plank, (600.0, 60.0), 24.0, (0.0, 600.0)) == 1.0


def test_bolts_that_come_apart_have_a_second_method_only(setting, profiles):
    (link, _) = space_links(setting.assembly)
    screw = link.fasteners[0]

    def bolt(holder: str):
        rows = [Hardware(item=item, size="", pieces=1, use="") for item in ("Bolt M6", holder)]
        return replace(screw, hardware=tuple(rows))

    # A barrel nut of 10 x 20 presses 200 mm2 of end grain; k_mod 0.7, gamma_M 1.3.
    nut = undone_bolts.pulled(
        setting, bolt("Barrel nut M6, 10 x 20"), link.second, 1000.0, LOADING, 0.7, 0.5
    )
    row = setting.stuff(setting.part(link.second)).row
    assert nut is not None
    assert nut.use == pytest.approx(1000.0 / 200.0 / (row.compression * 0.7 / 1.3))
    # NDS eq. 11.2-1 as a lag screw of the insert's 10 mm: 1800 G^1.5 D^0.75 lb/in over 13 mm,
    # wet 0.7, ten minutes 1.6; the load without its factor 1.5.
    insert = undone_bolts.pulled(
        setting, bolt("Threaded insert M6"), link.second, 1000.0, LOADING, 0.7, 0.5
    )
    assert insert is not None
    per_inch = 1800.0 * 0.5**1.5 * (10.0 / 25.4) ** 0.75
    allowed = 0.7 * 1.6 * per_inch * 4.4482216 * 13.0 / 25.4
    assert insert.use == pytest.approx(1000.0 / 1.5 / allowed, rel=1e-4)
    unknown = bolt("Nut of nobody")
    assert undone_bolts.pulled(setting, unknown, link.second, 1e3, LOADING, 0.7, 0.5) is None
