"""The low chair's numbers by hand, its fan against shapely, and what doesn't go together.

By hand, from the built-in values: 620 x 860 x 370, boards 27 thick, seat falling 14 degrees with
20 of overhang, rails 170 and apron 95; five slats 70 wide over 390 that open by 14 degrees.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import Any

import pytest
from shapely.affinity import affine_transform
from shapely.geometry import Polygon

from flatpack import checks
from flatpack.frozen import replace as altered
from flatpack.geometry import Vec
from flatpack.model import Assembly, Part, saw_cuts
from flatpack.parameters import BoardChoice, replace
from flatpack.pieces import PIECES
from flatpack.pieces.low_chair.fan import Fan, slat_outline
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
CHAIR = PIECES["low-chair"]
SINE, COSINE = math.sin(math.radians(14.0)), math.cos(math.radians(14.0))


def record(**values: object) -> Any:
    made = CHAIR.record(name="Trial")
    for path, value in values.items():
        table, _, key = path.partition("__")
        made = replace(made, **{table: replace(getattr(made, table), **{key: value})})
    return made


def built(**values: object) -> Assembly:
    made = record(**values)
    assert list(CHAIR.conflicts(made, PROFILES)) == []
    return CHAIR.build(made, PROFILES)


def noted(piece: Assembly, name: str) -> float:
    (found,) = (w.value for w in piece.workings if w.name == name)
    return found


RAIL_TOP = 370 - 27 * COSINE - 20 * SINE
APEX = (390 / 2 - 35 * math.cos(math.radians(7))) / math.sin(math.radians(7))


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("Rails' front corner above ground", RAIL_TOP),
        ("Back leans from upright", 104 - 90 + 14),
        # The apron's upper front arris stands 95 sin 14 behind the legs' front; the lower edge of
        # the rail runs 170 / cos 14 below the upper one and falls tan 14 a millimetre.
        (
            "Rails' foot begins, from the front legs",
            95 * SINE + (RAIL_TOP - 170 / COSINE) / (SINE / COSINE),
        ),
        ("Seat slats cover", 470 - 27 * SINE / COSINE - 4),
        ("Between the rails", 620 - 4 * 27),
        ("Arm's top above ground", 370 + 210),
        ("Back slats differ by", 14 / 4),
        ("Back slats' axes meet below their lower ends", APEX),
        (
            "Gap between back slats, lower ends",
            2 * APEX * math.sin(math.radians(1.75)) - 70 * math.cos(math.radians(1.75)),
        ),
    ],
)
def test_by_hand(name: str, value: float) -> None:
    assert noted(built(), name) == pytest.approx(value, abs=1e-9)


def in_back(part: Part, of: Part) -> Polygon:
    """A slat's outline on paper in another one's axes, arcs as chords within 0.001 mm."""
    shape = Polygon(part.outline.sampled(0.001))
    axes = [(v.dot(of.frame.x), v.dot(of.frame.y)) for v in (part.frame.x, part.frame.y)]
    at = of.frame.local(part.frame.origin)
    return affine_transform(shape, [axes[0][0], axes[1][0], axes[0][1], axes[1][1], at.x, at.y])


def slats_of(piece: Assembly) -> list[Part]:
    count = sum(key.startswith("back-slat-") for key in piece.parts)
    return [piece.parts[f"back-slat-{n}"] for n in range(1, count + 1)]


FANS: tuple[Mapping[str, object], ...] = (
    {},
    {"back__top_width": 85.0},
    {"back__profile": "gable", "back__rounding": 25.0},
    {"back__profile": "fan", "back__fan": 12.0, "back__count": 4},
    {"back__profile": "level", "back__slat_width": 45.0, "back__top_width": 40.0},
)


@pytest.mark.parametrize("keys", FANS)
def test_gaps_of_the_fan_as_shapely_measures_them(keys: Mapping[str, object]) -> None:
    piece = built(**keys)
    slats = slats_of(piece)
    drawn = [in_back(s, slats[0]) for s in slats]
    told = noted(piece, "Gap between back slats, lower ends")
    for one, other in pairwise(drawn):
        assert one.distance(other) == pytest.approx(told, abs=0.002)
    assert told >= 8.0


@pytest.mark.parametrize("keys", FANS)
def test_width_over_the_lower_ends(keys: Mapping[str, object]) -> None:
    slats = slats_of(built(**keys))
    places = [s.frame.place(*p) for s in (slats[0], slats[-1]) for p in s.outline.points]
    low = min(v.z for v in places)
    ends = [v.y for v in places if v.z < low + 30.0]
    assert max(ends) - min(ends) == pytest.approx(390.0, abs=1e-6)


def tips(piece: Assembly) -> list[tuple[float, float]]:
    """Place of each slat's top across and up the back, from the middle slat's own foot."""
    middle = piece.parts["back-slat-3"].frame
    found = []
    for slat in slats_of(piece):
        _, low, _, high = slat.outline.bounds
        at = middle.local(slat.frame.place(slat.length, (low + high) / 2.0))
        found.append((at.y - 35.0, at.x))
    return found


def circle_through(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    """Radius from the sides of a triangle: R = abc / 4 area (Euclid)."""
    sides = math.dist(a, b), math.dist(b, c), math.dist(c, a)
    return sides[0] * sides[1] * sides[2] / (4.0 * Polygon([a, b, c]).area)


def test_tops_of_an_arc_lie_on_one_circle() -> None:
    piece = built()
    at = tips(piece)
    assert at[2][1] == pytest.approx(720 + 45)
    assert at[2][1] - at[0][1] == pytest.approx(90.0)
    radius = noted(piece, "Arc over the back slats' tops, radius")
    for three in ((0, 2, 4), (0, 1, 2), (1, 2, 3)):
        assert circle_through(*(at[i] for i in three)) == pytest.approx(radius, abs=1e-6)
    turn = 2.0 * math.asin(math.dist(at[0], at[4]) / 2.0 / radius)
    told = noted(piece, "Arc over the back slats' tops, length")
    assert told == pytest.approx(radius * turn)


def test_tops_of_a_gable_lie_on_two_slopes() -> None:
    at = tips(built(back__profile="gable", back__crown=80.0))
    assert at[2][1] - at[0][1] == pytest.approx(80.0)
    slope = (at[1][1] - at[0][1]) / (at[1][0] - at[0][0])
    assert (at[2][1] - at[1][1]) / (at[2][0] - at[1][0]) == pytest.approx(slope)


def test_tops_of_a_fan_are_slats_of_one_length() -> None:
    assert {round(s.length, 6) for s in slats_of(built(back__profile="fan"))} == {765.0}


@pytest.mark.parametrize("growth", [-0.2, 0.0, 0.02, 0.3])
def test_a_fully_rounded_top_touches_sides_and_end(growth: float) -> None:
    """Where the arc meets a side, its radius is square to that side; it reaches the top's end."""
    fan = Fan(apex=1000.0, low=0.0, width=90.0, growth=growth, gap=10.0, step=3.0, rays=())
    outline = slat_outline(fan, 300.0, None)
    (arc,) = (s for s in outline if s.bulge)
    assert arc.centre.x + arc.radius == pytest.approx(300.0)
    low, high = (p for p in outline.points if p.x == 0.0)
    for foot, touch in ((low, arc.start), (high, arc.end)):
        off = (touch.x - arc.centre.x) * (touch.x - foot.x)
        off += (touch.y - arc.centre.y) * (touch.y - foot.y)
        assert off == pytest.approx(0.0, abs=1e-6)
        slope = abs(touch.y - foot.y) / touch.x
        assert slope == pytest.approx(abs(growth) / 2.0)


def test_rail_stands_level_on_the_ground() -> None:
    piece = built()
    rail = piece.parts["rail-left"]
    heights = sorted(rail.frame.place(*p).z for p in rail.outline.points)
    assert heights[0] == pytest.approx(0.0, abs=1e-9)
    assert heights[1] == pytest.approx(0.0, abs=1e-9)
    assert max(rail.frame.place(*p).x for p in rail.outline.points[1:4]) == pytest.approx(
        860.0, abs=1e-9
    )


def test_seat_front_edge_stands_at_its_height_and_depth() -> None:
    piece = built()
    slat, back = piece.parts["slat-1"], piece.parts["back-slat-3"]
    front = slat.frame.place(0.0, slat.width, slat.thickness)
    assert front.z == pytest.approx(370.0)
    # From there 470 down the seat to the back slats' front.
    rear = front.plus(Vec(COSINE, 0.0, -SINE), 470.0)
    off = rear.minus(back.frame.place(0.0, 0.0, back.thickness)).dot(back.frame.z)
    assert off == pytest.approx(0.0, abs=1e-9)


def test_angle_between_seat_and_back() -> None:
    piece = built(back__angle=108.0)
    seat, back = piece.parts["slat-1"].frame.z, piece.parts["back-slat-3"].frame.z
    assert math.degrees(math.acos(seat.dot(back))) == pytest.approx(180.0 - 108.0)


def test_comfort_is_told() -> None:
    found = {c.what: c.value for c in built().comfort}
    assert found["seat height"] == 370.0
    assert found["seat slope"] == 14.0
    assert found["back angle"] == 104.0
    assert found["arm height"] == pytest.approx(210.0 + 235.0 * SINE)


@pytest.mark.parametrize(
    ("key", "values"),
    [
        ("seat.count", {"seat__count": 9}),
        ("rails.apron", {"rails__apron": 165.0, "boards__timber": "ply"}),
        ("rails.width", {"seat__slope": 8.0}),
        ("size.depth", {"size__depth": 1390.0}),
        (
            "size.depth",
            {
                "size__depth": 640.0,
                "rails__width": 200.0,
                "seat__depth": 600.0,
                "boards__timber": "ply",
            },
        ),
        ("rails.width", {"size__height": 230.0}),
        ("back.count", {"back__count": 8}),
        ("back.top_width", {"back__top_width": 140.0}),
        ("back.crown", {"back__crown": 400.0}),
        ("back.bottom_width", {"back__bottom_width": 600.0}),
        ("back.bottom_width", {"back__fan": 30.0}),
        ("back.rail_height", {"back__rail_height": 650.0}),
        ("back.rail_height", {"back__rail_height": 380.0, "back__fan": 16.0}),
        ("arms.width", {"arms__width": 90.0}),
        ("arms.rear_width", {"arms__rear_width": 160.0}),
        ("fixings.nut", {"fixings__nut": "lock-m8"}),
        ("fixings.wood_screw", {"fixings__wood_screw": "pocket-coarse"}),
    ],
)
def test_refuses(key: str, values: dict[str, object]) -> None:
    if "boards__timber" in values:
        values = {**values, "boards__timber": BoardChoice("ply-24")}
    found = list(CHAIR.conflicts(record(**values), PROFILES))
    assert key in {c.key for c in found}
    assert all(c.allowed and c.message for c in found)


@pytest.mark.parametrize(
    ("key", "values"),
    [
        ("back__bottom_width", {"back__fan": 18.0}),
        ("back__rail_height", {"back__rail_height": 650.0}),
        ("back__top_width", {"back__top_width": 140.0, "back__bottom_width": 340.0}),
        ("rails__width", {"seat__slope": 10.0, "size__depth": 1000.0}),
    ],
)
def test_what_is_allowed_is_accepted_afterwards(key: str, values: dict[str, object]) -> None:
    values = {**values, "boards__timber": BoardChoice("ply-24")}
    dotted = key.replace("__", ".")
    found = list(CHAIR.conflicts(record(**values), PROFILES))
    said = next(c.allowed for c in found if c.key == dotted)
    number = float(said.removeprefix("at most ").removeprefix("at least ").split(",")[0])
    again = list(CHAIR.conflicts(record(**{**values, key: number}), PROFILES))
    assert dotted not in {c.key for c in again}


def test_gap_check_of_a_fan_sees_a_slat_pushed_aside() -> None:
    piece = built()
    part = piece.parts["back-slat-2"]
    gap = noted(piece, "Gap between back slats, lower ends")
    pushed = part.frame.origin.plus(part.frame.y, gap - 1.0)
    broken = altered(part, frame=altered(part.frame, origin=pushed))
    whole = altered(piece, parts={**piece.parts, "back-slat-2": broken})
    told = [f for f in checks.run(whole, only=("slats",)) if f.code == "slat-gap"]
    assert [f.part for f in told] == ["back-slat-2 / back-slat-3"]
    assert told[0].measured == pytest.approx(1.0, abs=0.1)
    assert list(checks.run(piece, only=("slats",))) == []


def test_saw_settings_of_a_rail() -> None:
    """Plumb front end 14 from square across; the foot 14 from the edge, so 76 from square."""
    front, foot = saw_cuts(built().parts["rail-left"])
    assert (front.where, foot.where) == ("start", "low")
    assert front.setting.table == pytest.approx(14.0)
    assert foot.setting.table == pytest.approx(90.0 - 14.0)


def test_no_saw_settings_for_curved_outlines() -> None:
    piece = built(back__top_width=85.0)
    assert saw_cuts(piece.parts["back-slat-3"]) == ()
    assert saw_cuts(piece.parts["arm-left"]) == ()
