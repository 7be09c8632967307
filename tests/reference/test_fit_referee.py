"""Shared room as found by the checks against a solid-modelling library (manifold3d).

The library builds every body as an extruded polygon less its cuts and intersects pairs.  The check
counts a pair as sharing room when a ball of the tolerance's diameter fits in it.  The referee
applies the same rule on its side: it moves one body about by less than the tolerance and looks at
the volume that is left, so a pair is decided only where that can't change the answer.
"""

from __future__ import annotations

import math
import random

import manifold3d
import numpy as np
import pytest

from flatpack.checks.body import Body
from flatpack.checks.limits import Limits
from flatpack.checks.setting import Setting
from flatpack.checks.space import overlaps
from flatpack.geometry import Frame, Outline, Vec, closed
from flatpack.geometry.shapes import disc, rectangle, round_ended
from flatpack.model import Assembly, Cut

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
    for _ in range(60):
        a = _body(rng, "a", "parallel", pierced=pierced)
        b = _body(rng, "b", kind, pierced=pierced)
        depth, volume = _found(a, b), common_volume(a, b)
        ball = math.pi / 6.0 * depth**3
        if depth > 0.0:
            shared += 1
            assert volume >= 0.9 * ball, (depth, volume)
        else:
            # A ball of 0.05 may find no place in a sliver; slivers here hold less than this.
            assert volume < 60.0 * 60.0 * TOLERANCE * 0.02, volume
            apart += volume == 0.0
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


def solids_agree(assembly: Assembly) -> None:
    """Every pair of bodies of the piece: the check and the library say the same."""
    some = Setting(assembly, Limits()).bodies
    ours = {(o.first.name, o.second.name) for o in overlaps(some, TOLERANCE)}
    solids = [solid_of(b) for b in some]
    for i, a in enumerate(some):
        for j in range(i + 1, len(some)):
            b = some[j]
            if a.owner == b.owner or a.owner in b.inside or b.owner in a.inside:
                continue
            if (solids[i] ^ solids[j]).volume() > 1.0:
                assert (a.name, b.name) in ours, (a.name, b.name)
            else:
                assert (a.name, b.name) not in ours, (a.name, b.name)
