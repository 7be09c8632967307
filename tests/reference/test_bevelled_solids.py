"""Bevelled bodies against a solid-modelling library (manifold3d) that shares no code with them.

The library trims an extruded outline by the very planes; volumes, shared room and flats must agree.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace

import manifold3d
import numpy as np
import pytest

from flatpack.checks.body import Body, part_body
from flatpack.checks.limits import Limits
from flatpack.checks.mates import flats, nearest
from flatpack.checks.setting import Setting
from flatpack.checks.space import overlaps
from flatpack.drawings.projection import View, faces
from flatpack.drawings.projection import bodies as drawn_bodies
from flatpack.features import Hole, Slant, bevels
from flatpack.geometry import Frame, Outline, Point, Vec, X, Y, Z, closed
from flatpack.geometry.shapes import filleted, rectangle, round_ended
from flatpack.model import Assembly, Part, corners, volume
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

from .sawn_solids import trimmed

TOLERANCE = 0.05
SAGITTA = 0.004
BOARD = load(profile_texts()).board("ply-18")
T = BOARD.thickness


def solid_of(part: Part) -> manifold3d.Manifold:
    """The part in the piece's axes: board, less holes, trimmed by each cut's plane."""
    section = manifold3d.CrossSection([np.array(part.outline.sampled(SAGITTA))])
    made = manifold3d.Manifold.extrude(section, part.thickness)
    for feature in part.features:
        for cut in feature.cuts(part.thickness):
            hole = manifold3d.CrossSection([np.array(cut.outline.sampled(SAGITTA))])
            made -= manifold3d.Manifold.extrude(hole, part.thickness + 2.0).translate((0, 0, -1.0))
    made = trimmed(made, part)
    f = part.frame
    return made.transform(np.array((f.x, f.y, f.z, f.origin)).T)


def _outline(rng: random.Random) -> Outline:
    long, wide = rng.uniform(60, 160), rng.uniform(40, 90)
    lean = rng.uniform(-15, 15)
    return rng.choice(
        (
            rectangle(long, wide),
            closed(((0, 0, 0), (long, 0, 0), (long + lean, wide, 0), (lean / 2, wide, 0))),
            filleted(((0, 0, 0), (long, 0, 0), (long, wide, 12), (0, wide, 8))),
        )
    )  # fmt: skip


def bevelled(rng: random.Random, key: str, frame: Frame, *, pierced: bool = False) -> Part:
    """A board with one to three of its straight sides sawn at a slant."""
    outline = _outline(rng)
    straight = [s for s in outline if s.bulge == 0.0 and s.chord > 25.0]
    wanted = [
        Slant(s.start, s.end, rng.uniform(2.0, 48.0), rng.choice(("show", "back")))
        for s in rng.sample(straight, rng.choice((1, 2, 3)))
    ]
    features: tuple[object, ...] = bevels(outline, T, wanted)
    if pierced:
        x0, y0, x1, y1 = outline.bounds
        features += (Hole(at=Point((x0 + x1) / 2, (y0 + y1) / 2), diameter=rng.uniform(6, 20)),)
    return Part(
        key=key, name=key, board=BOARD, outline=outline, frame=frame,
        features=features,  # type: ignore[arg-type]  # holes and bevels
    )  # fmt: skip


def turned(rng: random.Random, kind: str) -> Frame:
    """A frame parallel to, square to, or askew of the piece's axes; half of them mirrored."""
    axes = [Vec(1, 0, 0), Vec(0, 1, 0), Vec(0, 0, 1)]
    if kind == "square":
        rng.shuffle(axes)
    axes = [v if rng.random() < 0.5 else v.negated() for v in axes]
    if kind == "askew":
        m = np.linalg.qr(np.array([[rng.gauss(0, 1) for _ in range(3)] for _ in range(3)]))[0]
        axes = [Vec(*map(float, row)) for row in m]
    return Frame(Vec(*(rng.uniform(-25.0, 25.0) for _ in range(3))), *axes)


@pytest.mark.parametrize("seed", range(30))
def test_volume_and_corners_are_the_modelled_solids(seed: int) -> None:
    rng = random.Random(seed)
    part = bevelled(rng, "a", turned(rng, "askew"))
    solid = solid_of(part)
    rounded = any(s.bulge for s in part.outline)
    assert volume(part) == pytest.approx(solid.volume(), rel=1e-4 if rounded else 1e-6)
    box = solid.bounding_box()
    places = np.array([part.frame.place(*c) for c in corners(part)])
    slack = 0.1 if rounded else 1e-3  # the library counts in single precision
    assert places.min(axis=0) == pytest.approx(box[:3], abs=slack)
    assert places.max(axis=0) == pytest.approx(box[3:], abs=slack)


def brought_near(rng: random.Random, a: Part, b: Part) -> Part:
    """Every second time `b` is moved until the boxes round both share only a few millimetres."""
    if rng.random() < 0.5:
        return b
    axis = rng.randrange(3)
    right = max(a.frame.place(*c)[axis] for c in corners(replace(a, features=())))
    left = min(b.frame.place(*c)[axis] for c in corners(replace(b, features=())))
    shift = [0.0, 0.0, 0.0]
    shift[axis] = right - left - rng.uniform(0.2, 9.0)
    return replace(b, frame=replace(b.frame, origin=b.frame.origin.plus(Vec(*shift))))


def _found(a: Body, b: Body) -> float:
    return max((o.depth for o in overlaps((a, b), TOLERANCE)), default=0.0)


@pytest.mark.parametrize("kind", ["parallel", "square", "askew"])
@pytest.mark.parametrize("pierced", [False, True])
def test_bevelled_pairs_share_room_just_where_the_library_finds_volume(
    kind: str, pierced: bool
) -> None:
    """By solid geometry, as in the referee of square bodies.

    A ball of the told diameter fits, so V >= pi d^3 / 6; where none is told none of the tolerance
    fits, so V <= r S (Minkowski).
    """
    rng = random.Random(f"{kind}{pierced}")
    shared = apart = saved = 0
    for _ in range(60):
        a = bevelled(rng, "a", turned(rng, "parallel"), pierced=pierced)
        b = brought_near(rng, a, bevelled(rng, "b", turned(rng, kind), pierced=pierced))
        depth = _found(part_body(a), part_body(b))
        common = solid_of(a) ^ solid_of(b)
        if depth > 0.0:
            assert common.volume() >= 0.9 * math.pi / 6.0 * depth**3
        else:
            assert common.volume() <= 1.1 * TOLERANCE / 2.0 * common.surface_area()
        shared, apart = shared + (depth > 0.0), apart + (depth == 0.0)
        square = [replace(part, features=()) for part in (a, b)]
        saved += depth == 0.0 and _found(*map(part_body, square)) > 0.0
    assert shared > 12
    assert apart > 12
    assert saved > 0, "some pairs are apart only because of what was sawn off"


@pytest.mark.parametrize("seed", range(12))
def test_two_halves_of_a_sawn_board_touch_and_share_nothing(seed: int) -> None:
    """A board sawn in two at a slant: the halves' cuts face each other; pushed together they clash.

    Long face of one half is the short face of the other, the slant is the same (plane geometry).
    """
    rng = random.Random(seed)
    frame = turned(rng, "askew")
    slant, run = rng.uniform(5, 45), rng.uniform(-20, 20)
    left = closed(((0, 0, 0), (100 + run, 0, 0), (100, 70, 0), (0, 70, 0)))
    one = Part(key="one", name="one", board=BOARD, outline=left, frame=frame)
    side = left.segments[1]
    first = bevels(left, T, [Slant(side.start, side.end, slant, "show")])[0]
    low, high = first.far_line()
    back = first.set_back / math.cos(math.atan2(abs(run), 70.0))
    right = closed(((100 + run - back, 0, 0), (220, 0, 0), (220, 70, 0), (100 - back, 70, 0)))
    end = right.segments[3]
    second = bevels(right, T, [Slant(end.start, end.end, slant, "back")])[0]
    assert {round(low.y, 6), round(high.y, 6)} == {0.0, 70.0}
    one = one.with_features((first,))
    two = Part(key="two", name="two", board=BOARD, outline=right, frame=frame, features=(second,))
    assert _found(part_body(one), part_body(two)) == 0.0
    setting = Setting(Assembly(family="t", name="t", parts={"one": one, "two": two}), Limits())
    sides = [tuple(flats(p, setting.face(p))) for p in (one, two)]
    assert nearest(*sides) == pytest.approx(0.0, abs=1e-6)
    total = solid_of(one).volume() + solid_of(two).volume()
    assert total == pytest.approx(220.0 * 70.0 * T, rel=1e-5)
    for gap in (0.4, -0.4):
        shift = frame.turn(first.plane(T).out)
        moved = replace(two, frame=replace(frame, origin=frame.origin.plus(shift, gap)))
        assert (_found(part_body(one), part_body(moved)) > 0.0) is (gap < 0.0)
        assert nearest(sides[0], tuple(flats(moved, setting.face(moved)))) == pytest.approx(gap)


@pytest.mark.parametrize("seed", range(20))
def test_flats_have_the_area_of_the_modelled_surface(seed: int) -> None:
    """All flats of a straight-sided part together are the solid's surface."""
    rng = random.Random(100 + seed)
    part = bevelled(rng, "a", turned(rng, "askew"))
    if any(s.bulge for s in part.outline):
        part = replace(part, outline=rectangle(*_size(part)), features=())
    setting = Setting(Assembly(family="t", name="t", parts={"a": part}), Limits())
    area = sum(flat.shape.area for flat in flats(part, setting.face(part)))
    assert area == pytest.approx(solid_of(part).surface_area(), rel=1e-5)


def _size(part: Part) -> tuple[float, float]:
    return part.length, part.width


def test_a_wrong_slant_would_be_seen() -> None:
    """The referee tells one degree: the volumes above agree to 1e-6."""
    outline = rectangle(100.0, 50.0)
    side = outline.segments[1]
    made = bevels(outline, T, [Slant(side.start, side.end, 12.0)])
    part = Part(key="a", name="a", board=BOARD, outline=outline, frame=Frame(), features=made)
    wrong = replace(part, features=bevels(outline, T, [Slant(side.start, side.end, 13.0)]))
    assert abs(volume(wrong) - solid_of(part).volume()) > 100.0
    assert round_ended(10.0, 5.0).area > 0.0


def _view(rng: random.Random) -> View:
    toward = Vec(*(rng.gauss(0, 1) for _ in range(3))).unit()
    right = Vec(0.0, 0.0, 1.0).cross(toward).unit()
    return View("any", right, toward.cross(right), toward)


@pytest.mark.parametrize("seed", range(40))
def test_visible_faces_fill_the_modelled_silhouette(seed: int) -> None:
    """The faces of a convex body that look at the reader cover its shadow once."""
    rng = random.Random(200 + seed)
    part = bevelled(rng, "a", turned(rng, "askew" if seed % 2 else "parallel"))
    rounded = any(s.bulge for s in part.outline)
    view = _view(rng) if seed % 4 else View("plan", X, Y, Z)
    body = drawn_bodies(Assembly(family="t", name="t", parts={"a": part}))[0]
    area = sum(abs(outline.area) for outline in faces(body, view))
    onto = np.array((view.right, view.up, view.toward, (0.0, 0.0, 0.0))).T
    onto[:, :3] = np.array((view.right, view.up, view.toward))
    shadow = solid_of(part).transform(onto).project()
    assert area == pytest.approx(shadow.area(), rel=0.04 if rounded else 1e-5)
