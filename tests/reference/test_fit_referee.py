"""Shared room as found by the checks against a solid-modelling library (manifold3d).

The library builds every body as an extruded polygon less its cuts and intersects pairs, giving the
volume V and surface S of what they share.  The check tells the diameter d of the largest ball that
fits there, when it is more than the tolerance.  The two must agree by solid geometry:

    d told      a ball fits:               V >= pi d^3 / 6
    none told   no ball of the tolerance:  V <= r S with r half the tolerance, as a convex body of
                inscribed radius r holds no more (Minkowski)
"""

from __future__ import annotations

import math
import random
from dataclasses import replace

import manifold3d
import numpy as np
import pytest

from flatpack.checks.body import Body
from flatpack.checks.limits import Limits
from flatpack.checks.setting import Setting
from flatpack.checks.space import overlaps
from flatpack.geometry import Frame, Outline, Vec, closed
from flatpack.geometry.shapes import disc, rectangle, round_ended
from flatpack.model import Assembly, Cut, Motion, posed
from flatpack.parameters import replace as changed
from flatpack.pieces import PIECES
from flatpack.pieces.lounger import Lounger, build
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

TOLERANCE = 0.05


def _extruded(points: np.ndarray, low: float, high: float) -> manifold3d.Manifold:
    section = manifold3d.CrossSection([np.asarray(points, dtype=np.float64)])
    return manifold3d.Manifold.extrude(section, high - low).translate((0.0, 0.0, low))


def solid_of(body: Body, *, sagitta: float = 0.005) -> manifold3d.Manifold:
    """The body as the modelling library builds it, in the piece's axes."""
    made = _extruded(np.array(body.outline.sampled(sagitta)), body.low, body.high)
    for opening in body.openings:
        made -= _extruded(np.array(opening.sampled(sagitta)), body.low - 1.0, body.high + 1.0)
    for cut in body.cuts:
        low = cut.low - (1.0 if cut.low <= body.low else 0.0)
        high = cut.high + (1.0 if cut.high >= body.high else 0.0)
        made -= _extruded(np.array(cut.outline.sampled(sagitta)), low, high)
    f = body.frame
    matrix = np.array((f.x, f.y, f.z, f.origin)).T
    return made.transform(matrix)


def common_volume(a: Body, b: Body) -> float:
    return (solid_of(a) ^ solid_of(b)).volume()


def agree(depth: float, common: manifold3d.Manifold) -> bool:
    """Whether the check's depth (0: none told) goes with what the library finds in common."""
    volume, surface = common.volume(), common.surface_area()
    if depth > 0.0:
        return volume >= 0.9 * math.pi / 6.0 * depth**3
    return volume <= 1.1 * TOLERANCE / 2.0 * surface


def _turned(rng: random.Random, kind: str) -> Frame:
    """A frame parallel to, square to, or askew of the piece's axes; half of them mirrored."""
    axes = [Vec(1, 0, 0), Vec(0, 1, 0), Vec(0, 0, 1)]
    if kind != "parallel":
        rng.shuffle(axes)
    axes = [v if rng.random() < 0.5 else v.negated() for v in axes]
    if kind == "askew":
        m = np.linalg.qr(np.array([[rng.gauss(0, 1) for _ in range(3)] for _ in range(3)]))[0]
        axes = [Vec(*map(float, row)) for row in m]
    if kind == "tilted":
        a = math.radians(rng.choice((15.0, 30.0, 41.5)))
        c, s = math.cos(a), math.sin(a)
        axes = [Vec(v.x * c - v.z * s, v.y, v.x * s + v.z * c) for v in axes]
    origin = Vec(*(rng.uniform(-35.0, 35.0) for _ in range(3)))
    return Frame(origin, *axes)


def _shape(rng: random.Random) -> Outline:
    length, width = rng.uniform(20, 120), rng.uniform(15, 60)
    return rng.choice(
        (
            rectangle(length, width),
            disc(rng.uniform(3, 25)),
            round_ended(length, width / 2.0),
            closed(((0, 0, 0), (length, 0, 0), (length, width, 0), (length / 2, width * 0.4, 0),
                    (0, width, 0))),
        )
    )  # fmt: skip


def _body(rng: random.Random, owner: str, kind: str, *, pierced: bool) -> Body:
    outline = _shape(rng)
    thickness = rng.uniform(10, 40)
    x0, y0, x1, y1 = outline.bounds
    cuts = []
    if pierced:
        for _ in range(2):
            hole = disc(rng.uniform(2, 9), rng.uniform(x0, x1), rng.uniform(y0, y1))
            depth = rng.choice((thickness, thickness * 0.5))
            cuts.append(Cut(hole, thickness - depth, thickness))
    return Body(owner, owner, _turned(rng, kind), outline, 0.0, thickness, cuts=tuple(cuts))


def _found(a: Body, b: Body) -> float:
    return max((o.depth for o in overlaps((a, b), TOLERANCE)), default=0.0)


@pytest.mark.parametrize("kind", ["parallel", "square", "tilted", "askew"])
@pytest.mark.parametrize("pierced", [False, True])
def test_pairs_share_room_just_where_the_modelling_library_finds_volume(
    kind: str, pierced: bool
) -> None:
    rng = random.Random(f"{kind}{pierced}")
    shared = apart = 0
    for _ in range(40):
        a = _body(rng, "a", "parallel", pierced=pierced)
        b = _body(rng, "b", kind, pierced=pierced)
        depth, common = _found(a, b), solid_of(a) ^ solid_of(b)
        assert agree(depth, common), (depth, common.volume())
        shared += depth > 0.0
        apart += depth == 0.0
    assert shared > 10
    assert apart > 10


@pytest.mark.parametrize("kind", ["parallel", "square", "tilted", "askew"])
def test_depth_is_what_the_modelling_library_needs_to_part_them(kind: str) -> None:
    """Boxes pushed into each other by a known depth along one face's normal.

    The library finds them apart once moved by that depth; the check must tell depths of 0.2 from
    0.02.
    """
    rng = random.Random(kind)
    for _ in range(40):
        low = Body("a", "a", Frame(), rectangle(100.0, 80.0), 0.0, 20.0)
        frame = _turned(rng, kind)
        b = Body("b", "b", frame, rectangle(30.0, 25.0), 0.0, 12.0)
        corners = [frame.place(x, y, z) for x in (0, 30.0) for y in (0, 25.0) for z in (0, 12.0)]
        bottom = min(corners, key=lambda v: v.z)
        for depth, expected in ((0.2, True), (-0.001, False), (0.02, False)):
            shift = Vec(50.0 - bottom.x, 40.0 - bottom.y, 20.0 - depth - bottom.z)
            moved = Body("b", "b", Frame(frame.origin.plus(shift), frame.x, frame.y, frame.z),
                         b.outline, 0.0, 12.0)  # fmt: skip
            volume = common_volume(low, moved)
            assert (volume > 0.0) == (depth > 0.0)
            assert (_found(low, moved) > 0.0) is expected or (kind == "askew" and depth > 0.0)


def solids_agree(assembly: Assembly) -> int:
    """The check and the library say the same of every pair; how many pairs came near enough."""
    some = Setting(assembly, Limits()).bodies
    ours = {(id(o.first), id(o.second)): o.depth for o in overlaps(some, TOLERANCE)}
    solids = [solid_of(b) for b in some]
    boxes = np.array([s.bounding_box() for s in solids])
    compared = 0
    for i, a in enumerate(some):
        near = (boxes[:, :3] < boxes[i, 3:] - 0.01) & (boxes[i, :3] < boxes[:, 3:] - 0.01)
        for j in np.nonzero(near.all(axis=1))[0]:
            b = some[j]
            if j <= i or a.owner == b.owner or a.owner in b.inside or b.owner in a.inside:
                continue
            compared += 1
            depth = ours.pop((id(a), id(b)), 0.0)
            assert agree(depth, solids[i] ^ solids[j]), (a.name, b.name, depth)
    assert not ours, "told of pairs whose boxes are apart"
    return compared


@pytest.fixture(scope="module", params=["bar", "blocks"])
def lounger(request: pytest.FixtureRequest) -> Assembly:
    profiles = load(profile_texts())
    p = Lounger(name="trial")
    return build(changed(p, rack=changed(p.rack, kind=request.param)), profiles)


def test_lounger_agrees_with_the_modelling_library(lounger: Assembly) -> None:
    assert solids_agree(lounger) > 20


@pytest.mark.parametrize("stop", [0, -1])
def test_lounger_with_its_back_up_agrees(lounger: Assembly, stop: int) -> None:
    motion = lounger.motion
    assert isinstance(motion, Motion)
    raised = posed(lounger, motion.wanted[stop], motion.notches[stop])
    assert solids_agree(raised) > 20


@pytest.mark.parametrize("seed", [1, 2])
def test_lounger_with_its_parts_pushed_about_agrees(lounger: Assembly, seed: int) -> None:
    """Every third part moved by up to 8 mm: dozens of clashes, all found by both."""
    rng = random.Random(seed)
    parts = dict(lounger.parts)
    for key in sorted(parts)[seed::3]:
        f = parts[key].frame
        push = Vec(*(rng.uniform(-8.0, 8.0) for _ in range(3)))
        parts[key] = replace(parts[key], frame=replace(f, origin=f.origin.plus(push)))
    moved = replace(lounger, parts=parts)
    assert solids_agree(moved) > 50
    assert (
        len(
            {
                (o.first.owner, o.second.owner)
                for o in overlaps(Setting(moved, Limits()).bodies, TOLERANCE)
            }
        )
        > 20
    )


@pytest.mark.parametrize("construction", ["workshop", "knock-down"])
def test_bench_agrees_with_the_modelling_library(construction: str) -> None:
    bench = PIECES["bench"]
    p = bench.record(name="trial", construction=construction)
    p = changed(p, arms=changed(p.arms, use=True))
    assert solids_agree(bench.build(p, load(profile_texts()))) > 5
