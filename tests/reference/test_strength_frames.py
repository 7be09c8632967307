"""The frame solver against closed forms and against a general-purpose structural library."""

from __future__ import annotations

import random

import pytest

from flatpack.strength.beams import Patch, bend
from flatpack.strength.frames import (
    SMALL,
    FrameBar,
    NodeLoad,
    PlaneFrame,
    Spread,
    Tie,
    UnstableError,
    solve,
    solve_all,
)
from flatpack.strength.two_supports import march

E, A, I = 11_000.0, 2000.0, 4.0e6  # noqa: E741 - second moment of area, as in every handbook
EA, EI = E * A, E * I
L = 3000.0


def cantilever(load: NodeLoad | None, spread: float = 0.0, ga: float = 0.0) -> float:
    frame = PlaneFrame(
        nodes=((0.0, 0.0), (L, 0.0)),
        bars=(FrameBar(0, 1, EA, EI, ga),),
        held=((0, 0), (0, 1), (0, 2)),
    )
    loads = [] if load is None else [load]
    return -solve(frame, loads, [Spread(0, -spread)] if spread else []).moved[1][1]


def test_cantilevers() -> None:
    # Any handbook: P L^3/3EI, w L^4/8EI, M L^2/2EI; with shear P L/GA' besides.
    assert cantilever(NodeLoad(1, fz=-500.0)) == pytest.approx(500.0 * L**3 / (3 * EI))
    assert cantilever(None, 2.0) == pytest.approx(2.0 * L**4 / (8 * EI))
    assert cantilever(NodeLoad(1, moment=-1e6)) == pytest.approx(1e6 * L**2 / (2 * EI))
    ga = 700.0 * A * 5 / 6
    with_shear = 500.0 * L**3 / (3 * EI) + 500.0 * L / ga
    assert cantilever(NodeLoad(1, fz=-500.0), ga=ga) == pytest.approx(with_shear)


@pytest.mark.parametrize(
    ("patch", "expected"),
    [
        (Patch(L / 2, L / 2, 900.0), 900.0 * L**3 / (48 * EI)),
        (Patch(0.0, L, 900.0), 5 * 900.0 * L**3 / (384 * EI)),
    ],
)
def test_simple_beams(patch: Patch, expected: float) -> None:
    # P L^3/48EI and 5 w L^4/384EI ("Timber deflection", codingace.net, coefficients).
    beam = bend(L, EI, 0.0, (0.0, L), (patch,))
    assert beam.most_deflection == pytest.approx(expected)
    assert beam.reactions == pytest.approx((450.0, 450.0))


def test_fixed_beam_and_its_end_moments() -> None:
    # Same page: P L^3/192EI; end and middle moments P L/8 (handbook).
    frame = PlaneFrame(
        nodes=((0.0, 0.0), (L / 2, 0.0), (L, 0.0)),
        bars=(FrameBar(0, 1, EA, EI), FrameBar(1, 2, EA, EI)),
        held=tuple((n, w) for n in (0, 2) for w in range(3)),
    )
    found = solve(frame, [NodeLoad(1, fz=-800.0)])
    assert -found.moved[1][1] == pytest.approx(800.0 * L**3 / (192 * EI))
    assert found.bars[0].moment == pytest.approx((-800.0 * L / 8, 800.0 * L / 8))


def test_portal_frame_by_slope_deflection() -> None:
    # Fixed feet, height h, span l, all EI alike, H at one corner: moment at the feet
    # H h/2 (3k+1)/(6k+1), at the corners H h/2 3k/(6k+1), k = h/l (Kleinlogel's frame formulas).
    h, span, push = 2000.0, 3000.0, 1000.0
    k = h / span
    frame = PlaneFrame(
        nodes=((0.0, 0.0), (0.0, h), (span, h), (span, 0.0)),
        bars=tuple(FrameBar(i, i + 1, 1e15, EI) for i in range(3)),
        held=tuple((n, w) for n in (0, 3) for w in range(3)),
    )
    found = solve(frame, [NodeLoad(1, fx=push)])
    foot = push * h / 2 * (3 * k + 1) / (6 * k + 1)
    corner = push * h / 2 * 3 * k / (6 * k + 1)
    assert abs(found.bars[0].moment[0]) == pytest.approx(foot, rel=1e-6)
    assert abs(found.bars[0].moment[1]) == pytest.approx(corner, rel=1e-6)
    assert found.reactions[0, 0] + found.reactions[3, 0] == pytest.approx(-push)


def test_a_tie_passes_the_force_at_its_place() -> None:
    # Two cantilevers one above the other, tied at their tips by a spring: forces share as their
    # stiffness, P1/P2 = k1/k2 with k1 = 3EI/L^3 and k2 = 1/(L^3/3EI + 1/k) (springs in series).
    k = 40.0
    frame = PlaneFrame(
        nodes=((0.0, 0.0), (L, 0.0), (0.0, 50.0), (L, 50.0)),
        bars=(FrameBar(0, 1, EA, EI), FrameBar(2, 3, EA, EI)),
        held=tuple((n, w) for n in (0, 2) for w in range(3)),
        ties=(Tie(1, 3, (L, 25.0), 0.0, k),),
    )
    found = solve(frame, [NodeLoad(1, fz=-1000.0)])
    own = 3 * EI / L**3
    other = 1.0 / (1.0 / own + 1.0 / k)
    assert abs(found.ties[0][1]) == pytest.approx(1000.0 * other / (own + other))


def test_two_ties_hold_a_moment() -> None:
    # A bar hung by two ties d apart and pushed at a distance: +-M/d in the ties (statics).
    frame = PlaneFrame(
        nodes=((0.0, 0.0), (400.0, 0.0), (0.0, 10.0), (400.0, 10.0)),
        bars=(FrameBar(0, 1, EA, EI), FrameBar(2, 3, EA, EI)),
        held=tuple((n, w) for n in (0, 1) for w in range(3)),
        ties=(Tie(0, 2, (0.0, 5.0), 1e4, 1e4), Tie(0, 2, (80.0, 5.0), 1e4, 1e4)),
    )
    found = solve(frame, [NodeLoad(3, fz=-100.0)])
    forces = [abs(t[1]) for t in found.ties]
    assert forces == pytest.approx([100.0 * 320.0 / 80.0, 100.0 * 400.0 / 80.0], rel=1e-6)


def test_mechanisms_are_told() -> None:
    loose = PlaneFrame(
        nodes=((0.0, 0.0), (L, 0.0)), bars=(FrameBar(0, 1, EA, EI),), held=((0, 0), (0, 1))
    )
    with pytest.raises(UnstableError):
        solve(loose, [NodeLoad(1, fz=-1.0)])
    with pytest.raises(UnstableError):
        bend(L, EI, 0.0, (), (Patch(0.0, L, 1.0),))
    count = SMALL
    chain = PlaneFrame(
        nodes=tuple((100.0 * i, 0.0) for i in range(count)),
        bars=tuple(FrameBar(i, i + 1, EA, EI) for i in range(count - 1)),
        held=((0, 0), (0, 1)),
    )
    with pytest.raises(UnstableError):
        solve(chain, [NodeLoad(count - 1, fz=-1.0)])


def grid(seed: int) -> tuple[PlaneFrame, list[NodeLoad], list[Spread]]:
    """A random frame of storeys and bays, its corners shifted, with sway and uniform loads."""
    rng = random.Random(seed)
    columns, rows = rng.randint(2, 4), rng.randint(2, 6)
    nodes = [
        (1500.0 * c + rng.uniform(-200, 200), 1200.0 * r + (rng.uniform(-200, 200) if r else 0.0))
        for r in range(rows)
        for c in range(columns)
    ]
    ends = [(i, i + columns) for i in range(columns * (rows - 1))]
    ends += [(r * columns + c, r * columns + c + 1) for r in range(1, rows)
             for c in range(columns - 1)]  # fmt: skip
    bars = tuple(FrameBar(a, b, EA, EI * rng.uniform(0.5, 2.0)) for a, b in ends)
    held = tuple((c, w) for c in range(columns) for w in (0, 1))
    loads = [NodeLoad(n, rng.uniform(-900, 900), rng.uniform(-900, 0), rng.uniform(-1e5, 1e5))
             for n in range(columns, len(nodes))]  # fmt: skip
    spread = [Spread(i, rng.uniform(-3, 3)) for i in range(len(bars))]
    return PlaneFrame(nodes=tuple(nodes), bars=bars, held=held), loads, spread


@pytest.mark.parametrize("seed", range(6))
def test_random_frames_against_a_structural_library(seed: int) -> None:
    # PyNite (MIT), a three-dimensional frame library, held out of the plane.
    pynite = pytest.importorskip("Pynite")
    frame, loads, spread = grid(seed)
    model = pynite.FEModel3D()
    model.add_material("wood", E, E / 2.0, 0.3, 0.0)
    for i, (x, z) in enumerate(frame.nodes):
        model.add_node(f"N{i}", x, z, 0.0)
        ways = [(i, w) in frame.held for w in range(3)]
        model.def_support(f"N{i}", ways[0], ways[1], True, True, True, ways[2])
    for i, bar in enumerate(frame.bars):
        model.add_section(f"S{i}", bar.ea / E, bar.ei / E, bar.ei / E, 1e6)
        model.add_member(f"M{i}", f"N{bar.start}", f"N{bar.end}", "wood", f"S{i}")
    for load in loads:
        for way, value in (("FX", load.fx), ("FY", load.fz), ("MZ", load.moment)):
            model.add_node_load(f"N{load.node}", way, value)
    for bar, value in spread:
        # Given by its parts along the axes: that library turns a member's own axes upright.
        (x0, z0), (x1, z1) = (frame.nodes[n] for n in frame.bars[bar][:2])
        length = ((x1 - x0) ** 2 + (z1 - z0) ** 2) ** 0.5
        for way, share in (("FX", (z0 - z1) / length), ("FY", (x1 - x0) / length)):
            model.add_member_dist_load(f"M{bar}", way, value * share, value * share)
    model.analyze_linear()
    found = solve(frame, loads, spread)
    for i, moved in enumerate(found.moved):
        node = model.nodes[f"N{i}"]
        theirs = (node.DX["Combo 1"], node.DY["Combo 1"], node.RZ["Combo 1"])
        assert moved == pytest.approx(theirs, rel=1e-6, abs=1e-9)
    for i, ours in enumerate(found.bars):
        member = model.members[f"M{i}"]
        length = member.L()
        for at, moment in zip((0.0, length), ours.moment, strict=True):
            # Their moment about z at the start is that of the cut's left side: opposite in sign.
            assert abs(moment) == pytest.approx(abs(member.moment("Mz", at)), rel=1e-5, abs=1.0)
        assert ours.pull == pytest.approx(-member.axial(length / 2.0), rel=1e-5, abs=1e-3)


def test_both_ways_of_solving_agree(monkeypatch: pytest.MonkeyPatch) -> None:
    frame, loads, spread = grid(11)
    first = solve_all(frame, ((loads, spread), (loads, ())))
    monkeypatch.setattr("flatpack.strength.frames.SMALL", 0)
    second = solve_all(frame, ((loads, spread), (loads, ())))
    for a, b in zip(first, second, strict=True):
        assert [v for n in a.moved for v in n] == pytest.approx([v for n in b.moved for v in n])


@pytest.mark.parametrize("stands", [(0, 3), (1, 3), (1, 2), (3, 0)])
@pytest.mark.parametrize("ga", [0.0, 4e6])
def test_a_beam_on_two_points_is_as_the_frame_has_it(stands: tuple[int, int], ga: float) -> None:
    # Marched along from end to end, against the stiffness method: loads at places and between
    # them, one upwards, ends that overhang.
    places, points, spread = (
        (0.0, 300.0, 750.0, 1100.0),
        (80.0, 900.0, 0.0, -40.0),
        (0.4, -0.2, 1.1),
    )
    made = march(places, (EI, ga), stands, points, spread)
    i, j = stands
    frame = PlaneFrame(
        nodes=tuple((p, 0.0) for p in places),
        bars=tuple(FrameBar(k, k + 1, 1e9, EI, ga) for k in range(3)),
        held=((i, 1), (j, 1), (i, 0)),
    )
    loads = [NodeLoad(k, fz=-p) for k, p in enumerate(points)]
    found = solve(frame, loads, [Spread(k, -q) for k, q in enumerate(spread)])
    ends = found.bars
    moments = [*(e.moment[0] for e in ends), ends[-1].moment[1]]
    shears = [*(e.shear[0] for e in ends), ends[-1].shear[1]]
    assert made.deflection == pytest.approx([-z for _, z, _ in found.moved], rel=1e-6, abs=1e-9)
    assert made.moment == pytest.approx(moments, rel=1e-6, abs=1e-3)
    assert made.shear == pytest.approx(shears, rel=1e-6, abs=1e-6)
    assert made.reactions == pytest.approx([found.reactions[i, 1], found.reactions[j, 1]])
