"""The folding stool's numbers by hand, both poses, and each finding of its mechanism provoked.

By hand, from the built-in values: seat 350 deep at 440, boards 27 thick, legs 70 wide that open
78 degrees, bars of 16 with 26 to the seat's edges, 46 of batten over the rear one.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from flatpack import checks
from flatpack.finding import Finding
from flatpack.frozen import replace as altered
from flatpack.geometry import Vec
from flatpack.model import Assembly, Folding, folded, lying, saw_cuts
from flatpack.model.sawn import placed_corners
from flatpack.parameters import BoardChoice, replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
STOOL = PIECES["folding-stool"]
SINE, COSINE = math.sin(math.radians(39.0)), math.cos(math.radians(39.0))
HIGH = 440 - 27 - 46 - 8
LONG = (298 / SINE + 46) / 2


def record(**values: object) -> Any:
    made = STOOL.record(name="Trial")
    for path, value in values.items():
        table, _, key = path.partition("__")
        made = replace(made, **{table: replace(getattr(made, table), **{key: value})})
    return made


def built(**values: object) -> Assembly:
    made = record(**values)
    assert list(STOOL.conflicts(made, PROFILES)) == []
    return STOOL.build(made, PROFILES)


def told(piece: Assembly, *codes: str) -> list[Finding]:
    found = checks.run(piece, only=("folding",))
    return [f for f in found if f.code in codes or not codes]


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("Rear top bar's middle above ground", HIGH),
        ("Outer legs longer than inner ones, pivot to bar", 35 + 8 + 3),
        ("Top bars apart, level", 350 - 2 * 26),
        ("Outer legs, pivot to top bar", LONG),
        ("Inner legs, pivot to top bar", LONG - 46),
        ("Legs, pivot to the ground along them", HIGH / COSINE - LONG),
        ("Pivot above ground", HIGH - LONG * COSINE),
        ("Feet apart on the ground, axes", 2 * (HIGH / COSINE - LONG) * SINE),
        ("Angle at which the seat stops the legs", 78.0),
        ("Front bar's middle over the battens' lower edge", 120 - 46 - 8 - 46 * COSINE),
        ("Folded flat, thick", 70 + 27 + 120 - 70),
    ],
)
def test_by_hand(name: str, value: float) -> None:
    (found,) = (w.value for w in built().workings if w.name == name)
    assert found == pytest.approx(value, abs=1e-9)


def test_legs_stand_level_and_cross_at_the_angle() -> None:
    piece = built()
    for key in ("leg-outer-left", "leg-inner-right"):
        part = piece.parts[key]
        heights = sorted(part.frame.place(*p).z for p in part.outline.points)
        assert heights[:2] == pytest.approx([0.0, 0.0], abs=1e-9)
    outer, inner = piece.parts["leg-outer-left"].frame.x, piece.parts["leg-inner-left"].frame.x
    assert math.degrees(math.acos(outer.dot(inner))) == pytest.approx(78.0)


def test_left_and_right_are_the_same_part() -> None:
    piece = built()
    for name in ("leg-outer", "leg-inner", "batten"):
        left, right = piece.parts[f"{name}-left"], piece.parts[f"{name}-right"]
        assert left.outline == right.outline
        assert sorted(map(str, (f.key() for f in left.features))) == sorted(
            map(str, (f.key() for f in right.features))
        )
        middle = left.frame.place(0.0, 0.0, 13.5).y + right.frame.place(0.0, 0.0, 13.5).y
        assert middle == pytest.approx(420.0)


def test_folded_legs_lie_in_line_with_the_seat_between_the_bars() -> None:
    flat = folded(built(), 0.0)
    outer, inner = flat.parts["leg-outer-left"].frame, flat.parts["leg-inner-left"].frame
    assert outer.x.dot(inner.x) == pytest.approx(1.0)
    # Their long edges lie in one line.
    off = outer.origin.minus(inner.origin).dot(inner.y)
    assert off == pytest.approx(0.0, abs=1e-9)


def test_laid_down_it_is_as_thick_as_told() -> None:
    piece = built()
    heights = [v.z for part in lying(piece).parts.values() for v in placed_corners(part)]
    (thick,) = (w.value for w in piece.workings if w.name == "Folded flat, thick")
    assert min(heights) == pytest.approx(0.0, abs=1e-9)
    assert max(heights) == pytest.approx(thick, abs=0.02)


def test_turned_over_where_battens_have_no_room() -> None:
    """A low rail high up leaves no room between bars and rail: the seat lies battens outside."""
    piece = built(legs__rail_height=70.0)
    (thick,) = (w.value for w in piece.workings if w.name == "Folded flat, thick")
    assert thick == pytest.approx(70 + 27 + 27 + 120)
    heights = [v.z for part in lying(piece).parts.values() for v in placed_corners(part)]
    assert max(heights) == pytest.approx(thick, abs=0.02)
    assert [f for f in told(piece) if f.severity == "fault"] == []


def test_on_the_way_the_seat_is_off() -> None:
    piece = folded(built(), 40.0)
    assert not any(k.startswith(("slat", "batten")) for k in piece.parts)
    assert all(not key.startswith("slat") for f in piece.fasteners for key in f.passes)
    outer, inner = piece.parts["leg-outer-left"].frame.x, piece.parts["leg-inner-left"].frame.x
    assert math.degrees(math.acos(outer.dot(inner))) == pytest.approx(40.0)


def test_what_does_not_fold_says_so() -> None:
    bench = PIECES["bench"]
    piece = bench.build(bench.record(), PROFILES)
    with pytest.raises(ValueError, match="doesn't fold"):
        folded(piece, 0.0)
    assert list(checks.run(piece, only=("folding",))) == []


def test_only_fingers_are_told_of_the_built_in_stool() -> None:
    assert {f.code for f in told(built())} == {"finger-trap"}


def test_feet_too_near_each_other() -> None:
    """The weight stands 60 inside the rear edge, which lies half the step's way nearer P."""
    found = told(built(legs__angle=60.0, size__height=472.0), "spread-narrow")
    assert {f.severity for f in found} == {"warning"}
    c, s = math.cos(math.radians(30)), math.sin(math.radians(30))
    low = (HIGH + 32) / c - (298 / s + 46) / 2
    outer = low * s + 35 / c
    behind, before = 175 - 46 / 2 * s - 60, 175 + 46 / 2 * s - 60
    worst = min(outer - behind, outer - before)
    assert min(f.measured or 0.0 for f in found) == pytest.approx(worst, abs=0.06)


def test_feet_under_the_middle_of_the_seat() -> None:
    """So near that a weight half-way out to an edge tips it: a fault."""
    narrow = built(
        legs__angle=50.0,
        size__height=509.0,
        legs__rail=30.0,
        legs__rail_height=15.0,
        boards__timber=BoardChoice("ply-24"),
    )
    assert "fault" in {f.severity for f in told(narrow, "spread-narrow")}


def test_bars_far_from_the_edges_let_the_seat_tilt() -> None:
    assert told(built(legs__bar_inset=70.0), "seat-lifts")


def with_folding(piece: Assembly, **values: object) -> Assembly:
    f = piece.folding
    assert isinstance(f, Folding)
    return altered(piece, folding=altered(f, **values))


def test_shallow_slots_do_not_hold() -> None:
    piece = with_folding(built(), slot=(-7.9, 78.0))
    (one,) = told(piece, "stop-not-held")
    assert one.severity == "fault"
    assert one.measured is not None
    assert one.measured < 0.0


def test_inner_legs_too_long_to_pass_the_rear_bar() -> None:
    piece = built()
    f = piece.folding
    assert f is not None
    (one,) = told(with_folding(piece, short=f.short + 5.0), "folds-not")
    assert one.severity == "fault"
    assert one.measured == pytest.approx(3.0 - 5.0)


def test_low_rail_too_near_the_pivot() -> None:
    """rail sin a - half (1 - cos a) at 78 degrees with the rail 20 below P."""
    (one,) = told(with_folding(built(), rail=20.0), "folds-not")
    gap = 20.0 * math.sin(math.radians(78)) - 35.0 * (1.0 - math.cos(math.radians(78)))
    assert one.measured == pytest.approx(gap, abs=0.006)


def test_the_way_is_judged_in_3d() -> None:
    """A low rail put on the legs' other edge lies in the inner legs' way."""
    piece = built()
    rail = piece.parts["low-rail"]
    moved = altered(rail, frame=altered(rail.frame, origin=rail.frame.origin.plus(
        Vec(*rail.frame.z), -97.0)))  # fmt: skip
    broken = altered(piece, parts={**piece.parts, "low-rail": moved})
    found = [f for f in told(broken, "shared-space") if "leg-inner" in f.part]
    assert any("apart" in f.message for f in found)


@pytest.mark.parametrize(
    ("key", "values"),
    [
        ("legs.width", {"legs__width": 45.0, "fixings__bar": "hardwood-32"}),
        ("legs.bar_inset", {"legs__bar_inset": 150.0}),
        ("legs.bar_inset", {"legs__bar_inset": 20.0}),
        ("legs.angle", {"legs__bar_inset": 140.0}),
        ("legs.angle", {"legs__angle": 44.0}),
        ("legs.rail_height", {"legs__rail_height": 120.0}),
        ("seat.slat_width", {"seat__slat_width": 195.0, "boards__slats": BoardChoice("larch-27")}),
        ("seat.over_slot", {"seat__over_slot": 20.0}),
        ("seat.batten", {"seat__batten": 60.0}),
        ("size.width", {"size__width": 280.0, "boards__frames": BoardChoice("larch-45")}),
        ("fixings.nut", {"fixings__nut": "lock-m10"}),
    ],
)
def test_refuses(key: str, values: dict[str, object]) -> None:
    found = list(STOOL.conflicts(record(**values), PROFILES))
    assert key in {c.key for c in found}
    assert all(c.allowed and c.message for c in found)


def test_saw_setting_of_the_feet() -> None:
    """A foot is level where the leg leans 39: the saw's table turns 39 from square across."""
    piece = built()
    for key in ("leg-outer-left", "leg-inner-left"):
        (cut,) = saw_cuts(piece.parts[key])
        assert cut.where == "start"
        assert (cut.setting.table, cut.setting.blade) == pytest.approx((39.0, 0.0))
    assert saw_cuts(piece.parts["batten-left"]) == ()


def test_angles_allowed_are_accepted_and_the_next_ones_refused() -> None:
    values = {"size__height": 470.0, "legs__rail_height": 15.0, "legs__rail": 45.0}
    (conflict,) = STOOL.conflicts(record(**values, legs__angle=41.0), PROFILES)
    assert conflict.key == "legs.angle"
    least = float(conflict.allowed.removeprefix("from ").split(" ")[0])
    for angle, refused in ((least, False), (least - 1.0, True)):
        found = STOOL.conflicts(record(**values, legs__angle=angle), PROFILES)
        assert ("legs.angle" in {c.key for c in found}) is refused


def test_rail_height_allowed_is_accepted() -> None:
    (conflict,) = STOOL.conflicts(record(legs__rail_height=120.0), PROFILES)
    most = float(conflict.allowed.removeprefix("at most ").split(",")[0])
    for height, refused in ((most, False), (most + 1.1, True)):
        found = STOOL.conflicts(record(legs__rail_height=height), PROFILES)
        assert bool(list(found)) is refused
