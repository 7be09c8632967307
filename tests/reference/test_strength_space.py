"""The frame in space against closed forms and against a general-purpose structural library."""

from __future__ import annotations

import math
import random

import pytest

from flatpack.geometry import Vec
from flatpack.strength.frames import UnstableError
from flatpack.strength.space import (
    GROUND,
    Member,
    SpaceLoad,
    SpaceTie,
    Stiffness,
    stand,
)

E, G = 11_000.0, 690.0
AXES = (Vec(1.0, 0.0, 0.0), Vec(0.0, 1.0, 0.0), Vec(0.0, 0.0, 1.0))
HARD, HARD_TURN = 1e8, 1e13
FIXED = (HARD, HARD, HARD, HARD_TURN, HARD_TURN, HARD_TURN)
WIDE, DEEP, LONG = 90.0, 40.0, 1200.0
STIFF = Stiffness(
    ea=E * WIDE * DEEP,
    gj=G * 1.5e6,
    ei_flat=E * WIDE * DEEP**3 / 12.0,
    ei_edge=E * DEEP * WIDE**3 / 12.0,
)


def beam(places: tuple[float, ...] = (0.0, LONG / 2, LONG), stiff: Stiffness = STIFF) -> Member:
    return Member(start=Vec(0.0, 0.0, 0.0), axes=AXES, places=places, stiff=stiff)


def at(node: int, place: float, stiff: tuple[float, ...] = FIXED) -> SpaceTie:
    return SpaceTie(0, node, GROUND, 0, Vec(place, 0.0, 0.0), AXES, stiff)  # type: ignore[arg-type]


def test_cantilever_each_way() -> None:
    # Any handbook: P L^3/3EI both ways, P L/EA, T L/GJ.
    cases = [
        [SpaceLoad(0, 2, Vec(0.0, 0.0, -100.0))],
        [SpaceLoad(0, 2, Vec(0.0, 60.0, 0.0))],
        [SpaceLoad(0, 2, Vec(5000.0, 0.0, 0.0))],
        [SpaceLoad(0, 2, Vec(0.0, 0.0, 0.0), Vec(2e4, 0.0, 0.0))],
    ]
    flat, edge, pull, twist = stand([beam()], [at(0, 0.0)], cases)
    assert flat.moved[0][2].z == pytest.approx(-100.0 * LONG**3 / (3 * STIFF.ei_flat), rel=1e-4)
    assert edge.moved[0][2].y == pytest.approx(60.0 * LONG**3 / (3 * STIFF.ei_edge), rel=1e-4)
    assert pull.moved[0][2].x == pytest.approx(5000.0 * LONG / STIFF.ea, rel=1e-3)
    # The load hangs down, so the root's upper side is pulled: minus P L, nothing at the tip.
    assert flat.bars[0][0].flat == pytest.approx((-100.0 * LONG, -50.0 * LONG))
    assert flat.bars[0][1].flat[1] == pytest.approx(0.0, abs=1e-3)
    assert edge.bars[0][0].edge[0] == pytest.approx(60.0 * LONG)
    assert pull.bars[0][0].pull == pytest.approx(5000.0)
    assert twist.bars[0][0].twist == pytest.approx(2e4)
    # The member presses the ground down by P and turns it by P L (statics).
    assert flat.ties[0][2] == pytest.approx(-100.0)
    assert abs(flat.ties[0][4]) == pytest.approx(100.0 * LONG)


def test_shear_bends_it_more() -> None:
    # P L^3/3EI + P L/GA' (handbook).
    ga = G * WIDE * DEEP * 5 / 6
    (found,) = stand(
        [beam(stiff=STIFF._replace(ga_flat=ga))], [at(0, 0.0)],
        [[SpaceLoad(0, 2, Vec(0.0, 0.0, -100.0))]],
    )  # fmt: skip
    expected = 100.0 * LONG**3 / (3 * STIFF.ei_flat) + 100.0 * LONG / ga
    assert -found.moved[0][2].z == pytest.approx(expected, rel=1e-4)


def test_a_bent_bar_twists_the_arm_it_hangs_on() -> None:
    # An L of two cantilevers in plan, P at the tip: P a^3/3EI + P b^3/3EI + P a^2 b/GJ (handbook).
    other = Member(
        start=Vec(LONG, 0.0, 0.0), axes=(AXES[1], Vec(-1.0, 0.0, 0.0), AXES[2]),
        places=(0.0, 500.0), stiff=STIFF,
    )  # fmt: skip
    corner = SpaceTie(0, 2, 1, 0, Vec(LONG, 0.0, 0.0), AXES, FIXED)
    (found,) = stand(
        [beam(), other], [at(0, 0.0), corner], [[SpaceLoad(1, 1, Vec(0.0, 0.0, -80.0))]]
    )
    expected = 80.0 * (
        500.0**3 / (3 * STIFF.ei_flat) + LONG**3 / (3 * STIFF.ei_flat) + 500.0**2 * LONG / STIFF.gj
    )
    assert -found.moved[1][1].z == pytest.approx(expected, rel=1e-3)
    assert abs(found.bars[0][0].twist) == pytest.approx(80.0 * 500.0)
    # The first member holds the second up by P.
    assert found.ties[1][2] == pytest.approx(80.0)


def test_a_tie_aside_of_a_node_reaches_to_its_place() -> None:
    # A load on a rigid arm beside the tip twists by P times the arm (statics).
    arm = SpaceTie(0, 2, GROUND, 0, Vec(LONG, 30.0, 0.0), AXES, (0.0, 0.0, 50.0, 0.0, 0.0, 0.0))
    (found,) = stand([beam()], [at(0, 0.0), arm], [[SpaceLoad(0, 1, Vec(0.0, 0.0, -100.0))]])
    force = found.ties[1][2]
    assert force < 0.0
    assert abs(found.bars[0][1].twist) == pytest.approx(abs(force) * 30.0)
    assert found.ties[0][2] + force == pytest.approx(-100.0)


def test_a_contact_does_not_pull() -> None:
    # Two supports that only bear up, and a load beyond one of them: the other lets go and the
    # beam turns about the first, held by a soft spring k at the far end: P a = F b (statics).
    bear = (0.0, 0.0, 1e6, 1e-6, 1e-6, 0.0)
    ends = [
        at(0, 0.0, (1e3, 1e3, 90.0, 1e3, 1e-6, 1e3)),
        at(1, LONG / 2, bear),
        at(1, LONG / 2, (1e3, 1e3, 0.0, 1e3, 0.0, 1e3)),
        at(2, LONG, bear),
    ]
    load = [[SpaceLoad(0, 1, Vec(0.0, 0.0, 300.0))], [SpaceLoad(0, 1, Vec(0.0, 0.0, -300.0))]]
    held = stand([beam()], ends, load)
    free = stand([beam()], ends, load, contacts=(1, 3))
    assert held[0].ties[1][2] > 1.0  # as if glued down
    assert free[0].ties[1][2] == 0.0
    assert free[0].moved[0][1].z > 0.0
    assert free[1].ties[1][2] == pytest.approx(-300.0, rel=1e-3)  # pressed: as before
    assert sum(t[2] for t in free[0].ties) == pytest.approx(300.0, rel=1e-6)


def test_letting_go_is_the_same_as_never_having_held() -> None:
    # Woodbury's update against the frame solved without that contact.
    soft = (40.0, 40.0, 40.0, 1e6, 1e6, 1e6)
    contact = (1e-3, 1e-3, 9e3, 7e5, 6e5, 1e-3)
    ties = [at(0, 0.0, soft), at(2, LONG, soft), at(1, LONG / 2, contact)]
    load = [[SpaceLoad(0, 1, Vec(0.0, 0.0, 250.0)), SpaceLoad(0, 2, Vec(3.0, 20.0, -40.0))]]
    gone = (1e-3, 1e-3, 0.0, 0.0, 0.0, 1e-3)
    (updated,) = stand([beam()], ties, load, contacts=(2,))
    (anew,) = stand([beam()], [*ties[:2], at(1, LONG / 2, gone)], load)
    for one, two in zip(updated.moved[0], anew.moved[0], strict=True):
        assert one == pytest.approx(two, rel=1e-9, abs=1e-9)


def test_a_mechanism_is_told() -> None:
    with pytest.raises(UnstableError):
        stand([beam()], [at(0, 0.0, (1e4, 1e4, 1e4, 0.0, 0.0, 0.0))],
              [[SpaceLoad(0, 2, Vec(0.0, 0.0, -1.0))]])  # fmt: skip


def tower(seed: int) -> tuple[list[tuple[float, float, float]], list[tuple[int, int]]]:
    """Nodes of a leaning tower on three feet, and the bars between them."""
    rng = random.Random(seed)
    nodes = [
        (900.0 * math.cos(i * 2.1) + rng.uniform(-80, 80), 900.0 * math.sin(i * 2.1), 800.0 * level)
        for level in range(3)
        for i in range(3)
    ]
    bars = [(i, i + 3) for i in range(6)]
    bars += [(3 * k + i, 3 * k + (i + 1) % 3) for k in (1, 2) for i in range(3)]
    return nodes, bars


def axes_of(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[Vec, Vec, Vec]:
    """x along; z as far up as it can be (for uprights along y); y makes it right-handed."""
    x = Vec(*(q - p for p, q in zip(a, b, strict=True))).unit()
    up = Vec(0.0, 0.0, 1.0) if abs(x.z) < 0.9 else Vec(0.0, 1.0, 0.0)
    y = up.cross(x).unit()
    return x, y, x.cross(y)


@pytest.mark.parametrize("seed", range(4))
def test_towers_against_a_structural_library(seed: int) -> None:
    # PyNite (MIT): the same tower with joints stiff in every way, feet held.
    pynite = pytest.importorskip("Pynite")
    nodes, bars = tower(seed)
    rng = random.Random(100 + seed)
    loads = [(n, Vec(*(rng.uniform(-400, 400) for _ in range(3)))) for n in range(3, 9)]
    members = []
    ties: list[SpaceTie] = []
    ends: dict[int, list[tuple[int, int]]] = {}
    for i, (a, b) in enumerate(bars):
        length = math.dist(nodes[a], nodes[b])
        members.append(
            Member(start=Vec(*nodes[a]), axes=axes_of(nodes[a], nodes[b]),
                   places=(0.0, length * 0.4, length), stiff=STIFF)
        )  # fmt: skip
        ends.setdefault(a, []).append((i, 0))
        ends.setdefault(b, []).append((i, 2))
    for n, meeting in ends.items():
        (m, k), *others = meeting
        place = Vec(*nodes[n])
        ties += [SpaceTie(m, k, o, j, place, AXES, FIXED) for o, j in others]
        if n < 3:
            ties.append(SpaceTie(m, k, GROUND, 0, place, AXES, FIXED))
    (found,) = stand(members, ties, [[SpaceLoad(*ends[n][0], force) for n, force in loads]])
    model = pynite.FEModel3D()
    model.add_material("wood", E, G, 0.3, 0.0)
    model.add_section("S", WIDE * DEEP, 1.0, 1.0, STIFF.gj / G)
    for n, place in enumerate(nodes):
        model.add_node(f"N{n}", *place)
        model.def_support(f"N{n}", *[n < 3] * 6)
    for i, (a, b) in enumerate(bars):
        _add_member(model, i, a, b, members[i])
    for n, force in loads:
        for way, value in zip(("FX", "FY", "FZ"), force, strict=True):
            model.add_node_load(f"N{n}", way, value)
    model.analyze_linear()
    for n, meeting in ends.items():
        node = model.nodes[f"N{n}"]
        theirs = Vec(node.DX["Combo 1"], node.DY["Combo 1"], node.DZ["Combo 1"])
        member, k = meeting[0]
        axes = members[member].axes
        assert found.moved[member][k] == pytest.approx(
            tuple(theirs.dot(a) for a in axes), rel=2e-3, abs=2e-4
        )
    for i, ours in enumerate(found.bars):
        pull = model.members[f"M{i}"].axial(1.0)
        assert ours[0].pull == pytest.approx(-pull, rel=2e-3, abs=0.5)


def _add_member(model, i: int, a: int, b: int, member: Member) -> None:
    """With moments of inertia in that library's own axes, found by asking it for them."""
    model.add_section(f"S{i}", WIDE * DEEP, STIFF.ei_flat / E, STIFF.ei_edge / E, STIFF.gj / G)
    model.add_member(f"M{i}", f"N{a}", f"N{b}", "wood", f"S{i}")
    theirs = model.members[f"M{i}"].T()[:3, :3]
    y = Vec(*map(float, theirs[1]))
    if abs(y.dot(member.axes[1])) < 0.5:  # its y is our z: the two inertias change places
        section = model.sections[f"S{i}"]
        section.Iy, section.Iz = section.Iz, section.Iy


def test_space_frame_of_a_textbook() -> None:
    # Weaver, Computer Programs for Structural Analysis, p. 146, structure 8, as a structural
    # program's verification page prints it: 11 in2, 83, 56, 56 in4, 30 000 ksi, Poisson 0.25; 2 kip
    # along x on joint 1, -1 kip along y and -120 in kip about z on joint 2; joints 3, 4 held.
    # Displacements there to five figures; greatest pull 1.47 kip, moments 84.04 and 95.319 in kip.
    e, g = 30_000.0, 12_000.0
    stiff = Stiffness(ea=11.0 * e, gj=83.0 * g, ei_flat=56.0 * e, ei_edge=56.0 * e)
    joints = {
        1: (0.0, 120.0, 0.0), 2: (240.0, 120.0, 0.0), 3: (0.0, 0.0, 0.0), 4: (360.0, 0.0, 120.0),
    }  # fmt: skip
    bars = ((1, 2), (3, 1), (2, 4))
    members = [
        Member(start=Vec(*joints[a]), axes=axes_of(joints[a], joints[b]),
               places=(0.0, math.dist(joints[a], joints[b])), stiff=stiff)
        for a, b in bars
    ]  # fmt: skip
    hard, turn = 1e9, 1e12
    fixed = (hard, hard, hard, turn, turn, turn)
    ties = [
        SpaceTie(0, 0, 1, 1, Vec(*joints[1]), AXES, fixed),
        SpaceTie(0, 1, 2, 0, Vec(*joints[2]), AXES, fixed),
        SpaceTie(1, 0, GROUND, 0, Vec(*joints[3]), AXES, fixed),
        SpaceTie(2, 1, GROUND, 0, Vec(*joints[4]), AXES, fixed),
    ]
    (found,) = stand(
        members, ties,
        [[SpaceLoad(0, 0, Vec(2.0, 0.0, 0.0)),
          SpaceLoad(0, 1, Vec(0.0, -1.0, 0.0), Vec(0.0, 0.0, -120.0))]],
    )  # fmt: skip
    for node, expected in ((0, (0.22267, 0.00016, -0.17182)), (1, (0.22202, -0.48119, -0.70161))):
        own = found.moved[0][node]
        moved = Vec(0.0, 0.0, 0.0)
        for size, axis in zip(own, members[0].axes, strict=True):
            moved = moved.plus(axis, size)
        assert moved == pytest.approx(expected, abs=6e-6)
    assert abs(found.bars[2][0].pull) == pytest.approx(1.47, abs=0.005)
    # Both moments together are the same about whatever axes a program chooses for the member.
    bar = found.bars[2][0]
    most = max(math.hypot(f, e) for f, e in zip(bar.flat, bar.edge, strict=True))
    assert most == pytest.approx(math.hypot(84.04, 95.319), abs=0.01)
