"""Leaning parts, checked in space: ends lie in their planes, lengths and saw settings agree."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest

from flatpack.checks import run
from flatpack.features import Bevel
from flatpack.geometry import Plane, Vec, X, Y, Z
from flatpack.geometry.compound import leg_end, mitred_corner, splay, turned_leg_end
from flatpack.model import Assembly, Part, corners, saw_cuts
from flatpack.pieces.common.splay import Way, edge_of, face_of, leaning, leg, level
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

BOARD = load(profile_texts()).board("ply-18")


def _placed(part: Part) -> list[Vec]:
    return [part.frame.place(*c) for c in corners(part)]


def _bevels(part: Part) -> list[Bevel]:
    return [f for f in part.features if isinstance(f, Bevel)]


def _leg(front: float, side: float, height: float = 430.0, **more: object) -> Part:
    """Foot at the origin, the top moved over by both angles; a face level from side to side."""
    head = Vec(
        height * math.tan(math.radians(front)), height * math.tan(math.radians(side)), height
    )
    way = Way(Vec(0.0, 0.0, 0.0), head, Y, **({"holds": X} | more))  # type: ignore[arg-type]
    return leg("leg", "Leg", BOARD, 60.0, way)


@pytest.mark.parametrize("seed", range(40))
def test_every_corner_of_a_leg_stands_on_the_ground_or_under_the_top(seed: int) -> None:
    rng = random.Random(seed)
    front, side = rng.uniform(-25, 25), rng.uniform(-25, 25)
    part = _leg(front, side, line=(rng.random(), rng.random()))
    heights = sorted(v.z for v in _placed(part))
    assert len(heights) == 8
    assert heights[:4] == pytest.approx([0.0] * 4, abs=1e-9)
    assert heights[4:] == pytest.approx([430.0] * 4, abs=1e-9)


@pytest.mark.parametrize(("front", "side"), [(10.0, 6.0), (-10.0, 6.0), (0.0, 8.0), (15.0, 0.0)])
def test_settings_and_length_are_those_of_the_formulas(front: float, side: float) -> None:
    part = _leg(front, side)
    want = leg_end(front, side)
    assert len(_bevels(part)) == (2 if side else 0)
    for bevel in _bevels(part):
        assert bevel.setting == pytest.approx(want, abs=1e-9)
    # Over the middle of the section the leg is as long as the formula says; the long points of a
    # board t thick and w wide stand out by half of w tan(table) + t tan(blade) / cos(table) a side.
    m, b = math.radians(want.table), math.radians(want.blade)
    out = 60.0 * math.tan(m) + part.thickness * math.tan(b) / math.cos(m)
    assert part.length == pytest.approx(430.0 * splay(front, side).stretch + out, abs=1e-9)


def test_a_leg_turned_towards_its_lean_needs_no_tilt() -> None:
    """Its faces stand upright, square to the level direction across the lean."""
    front, side = 9.0, 7.0
    lean = Vec(math.tan(math.radians(front)), math.tan(math.radians(side)), 0.0)
    part = _leg(front, side, holds=lean)
    assert _bevels(part) == []
    end = part.outline.segments[1]
    dx, dy = end.end.x - end.start.x, end.end.y - end.start.y
    want = turned_leg_end(front, side)
    assert math.degrees(math.atan2(abs(dx), abs(dy))) == pytest.approx(want.table)
    assert sorted(v.z for v in _placed(part)) == pytest.approx([0.0] * 4 + [430.0] * 4, abs=1e-9)


@pytest.mark.parametrize("seed", range(25))
def test_a_rail_between_two_legs_ends_in_their_faces(seed: int) -> None:
    rng = random.Random(seed)
    front, side = rng.uniform(4, 20), rng.uniform(-15, 15)
    one = _leg(front, side)
    other = one.other_hand("other", 250.0)
    planes = (face_of(one, "show"), face_of(other, "show"))
    rise = Vec(0.0, 0.0, 200.0)
    along = [_at_height(p, rise.z) for p in planes]
    rail = leaning("rail", "Rail", BOARD, 45.0, Way(*along, X, holds=Z), planes)
    ends = [min((abs(plane.beyond(v)), k) for k, plane in enumerate(planes)) for v in _placed(rail)]
    assert [e for e, _ in ends] == pytest.approx([0.0] * len(ends), abs=1e-9)
    assert {k for _, k in ends} == {0, 1}


def _at_height(plane: Plane, z: float) -> Vec:
    """Where the plane meets the line x = 40 at a height."""
    y = (
        plane.at.y
        - ((40.0 - plane.at.x) * plane.out.x + (z - plane.at.z) * plane.out.z) / plane.out.y
    )
    return Vec(40.0, y, z)


def test_planes_of_faces_and_edges_look_out_of_the_part() -> None:
    part = _leg(8.0, 5.0)
    middle = part.frame.place(part.length / 2.0, 30.0, part.thickness / 2.0)
    for plane in (face_of(part, "show"), face_of(part, "back"), edge_of(part, 0), edge_of(part, 2)):
        assert plane.beyond(middle) < -8.0
        assert plane.out.length == pytest.approx(1.0)
    assert level(12.0).beyond(Vec(5.0, 5.0, 14.0)) == pytest.approx(2.0)


def test_hands_are_mirror_images() -> None:
    part = _leg(8.0, 5.0)
    other = part.other_hand("right", 100.0)
    assert other.features == part.features
    for a, b in zip(_placed(part), _placed(other), strict=True):
        assert b == pytest.approx((a.x, 200.0 - a.y, a.z))


@pytest.mark.parametrize(
    ("way", "ends"),
    [
        (Way(Vec(0, 0, 0), Vec(0, 0, 0), Y), (level(0), level(1))),
        (Way(Vec(0, 0, 0), Vec(0, 5, 0), Y), (level(0), level(1))),
        (Way(Vec(0, 0, 0), Vec(5, 0, 0), Y), (level(0), level(1))),
    ],
)
def test_a_part_without_direction_or_end_is_refused(way: Way, ends: tuple[Plane, Plane]) -> None:
    with pytest.raises(ValueError, match=r"two places|along the part"):
        leaning("a", "A", BOARD, 40.0, way, ends)


def _hopper(slope: float, sides: int) -> list[Part]:
    """Sides of a box, each sloping `slope` from level, mitred, lower edges 120 from the middle."""
    made = []
    s, half = math.radians(slope), math.pi / sides
    for number in range(sides):
        turn = 2.0 * half * number
        out = Vec(math.cos(turn), math.sin(turn), 0.0)
        along = Vec(-out.y, out.x, 0.0)
        face = Vec(out.x * math.sin(s), out.y * math.sin(s), -math.cos(s))
        foot = Vec(0.0, 0.0, 0.0).plus(out, 120.0)
        mitres = tuple(
            Plane(Vec(0.0, 0.0, 0.0), Vec(-math.sin(a), math.cos(a), 0.0))
            for a in (turn - half, turn + half)
        )
        way = Way(foot.plus(along, -50.0), foot.plus(along, 50.0), face, line=(0.0, 1.0))
        made.append(
            leaning(f"side-{number}", "Side", BOARD, 100.0, way, (mitres[0], mitres[1]),
                    (level(0.0), level(90.0)))
        )  # fmt: skip
    return made


@pytest.mark.parametrize(
    ("slope", "sides"), [(45.0, 4), (60.0, 4), (75.0, 5), (70.0, 6), (80.0, 8)]
)
def test_a_box_with_sloping_sides_is_sawn_as_the_table_has_it(slope: float, sides: int) -> None:
    """Mitre and bevel of each end are those of the published table, the edges ripped at 90 - slope.

    Neighbours touch over their whole mitres and share no room.
    """
    parts = _hopper(slope, sides)
    for part in parts:
        cuts = {cut.where: cut.setting for cut in saw_cuts(part)}
        assert cuts["start"] == pytest.approx(mitred_corner(slope, sides), abs=1e-9)
        assert cuts["end"] == pytest.approx(mitred_corner(slope, sides), abs=1e-9)
        for edge in ("low", "high"):
            assert cuts[edge] == pytest.approx((90.0, 90.0 - slope), abs=1e-9)
        heights = sorted(v.z for v in _placed(part))
        assert heights == pytest.approx([0.0] * 4 + [90.0] * 4, abs=1e-9)
    pairs = tuple((parts[i].key, parts[(i + 1) % sides].key) for i in range(sides))
    box = Assembly(family="test", name="box", parts={p.key: p for p in parts}, mates=pairs)
    assert [f for f in run(box) if f.severity == "fault"] == []
    moved = parts[0].frame.origin.plus(parts[0].frame.z, -0.5)
    pushed = replace(parts[0], frame=replace(parts[0].frame, origin=moved))
    told = {f.code for f in run(replace(box, parts={**box.parts, pushed.key: pushed}))}
    assert "shared-space" in told
