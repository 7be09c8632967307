"""A side table on splayed legs: by hand, by the formulas of compound angles, and in space.

By hand, from a table 450 high with slats and boards of 27: its legs end 423 above the ground.  The
formulas of `geometry.compound` are held to published tables elsewhere.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from flatpack import checks
from flatpack.features import Bevel
from flatpack.geometry.compound import leg_end, splay
from flatpack.model import Assembly, Part, corners
from flatpack.parameters import replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
TABLE = PIECES["side-table"]
UNDER = 423.0
BOTH = [(8.0, 5.0), (3.0, 6.0), (12.0, 2.0), (6.0, 0.0), (0.0, 5.0)]


def record(front: float, side: float, **more: object) -> Any:
    made = TABLE.record(name="Trial", **more)
    made = replace(made, splay=replace(made.splay, front=front, side=side))
    # Room for the fixings in a leg that leans away behind the apron.
    return replace(made, legs=replace(made.legs, width=95.0), size=replace(made.size, width=500.0))


def built(front: float, side: float, **more: object) -> Assembly:
    made = record(front, side, **more)
    assert list(TABLE.conflicts(made, PROFILES)) == []
    return TABLE.build(made, PROFILES)


def placed(part: Part) -> list[tuple[float, float, float]]:
    return [part.frame.place(*c) for c in corners(part)]


def legs(piece: Assembly) -> list[Part]:
    return [p for p in piece.parts.values() if p.name == "Leg"]


@pytest.mark.parametrize(("front", "side"), BOTH)
@pytest.mark.parametrize("construction", ["workshop", "knock-down"])
def test_every_joint_meets_and_nothing_is_in_the_way(
    front: float, side: float, construction: str
) -> None:
    found = checks.run(built(front, side, construction=construction))
    assert [f for f in found if f.severity in ("fault", "not done", "warning")] == []


@pytest.mark.parametrize(("front", "side"), BOTH)
def test_legs_stand_level_on_the_ground_and_under_the_slats(front: float, side: float) -> None:
    for leg in legs(built(front, side)):
        heights = sorted(v[2] for v in placed(leg))
        assert heights[: len(heights) // 2] == pytest.approx([0.0] * (len(heights) // 2), abs=1e-6)
        assert heights[len(heights) // 2 :] == pytest.approx([UNDER] * (len(heights) // 2))


@pytest.mark.parametrize(("front", "side"), BOTH)
def test_feet_spread_by_the_angles_seen_in_the_views(front: float, side: float) -> None:
    """423 x tan of each angle further out at the ground than under the slats."""
    for leg in legs(built(front, side)):
        low = [v for v in placed(leg) if v[2] < 1.0]
        top = [v for v in placed(leg) if v[2] > UNDER - 1.0]
        for axis, angle in ((0, side), (1, front)):
            moved = sum(v[axis] for v in low) / len(low) - sum(v[axis] for v in top) / len(top)
            assert abs(moved) == pytest.approx(UNDER * math.tan(math.radians(angle)), abs=1e-6)


@pytest.mark.parametrize(("front", "side"), [row for row in BOTH if row[0]])
def test_saw_settings_of_the_legs(front: float, side: float) -> None:
    """As the formulas have it for a leg whose face stays level the way it leans by `side`.

    The blade then tilts by the lean of the frame itself, the table by atan(tan side x cos front).
    """
    want = leg_end(side, front)
    assert want.blade == pytest.approx(front)
    for leg in legs(built(front, side)):
        cuts = [f for f in leg.features if isinstance(f, Bevel)]
        assert len(cuts) == 2
        for cut in cuts:
            assert cut.setting == pytest.approx(want, abs=1e-9)
            assert cut.setting.table == pytest.approx(
                math.degrees(
                    math.atan(math.tan(math.radians(side)) * math.cos(math.radians(front)))
                )
            )


@pytest.mark.parametrize(("front", "side"), BOTH)
def test_true_length_of_a_leg(front: float, side: float) -> None:
    """Along the middle: 423 x sqrt(1 + tan2 front + tan2 side)."""
    for leg in legs(built(front, side)):
        low = [v for v in placed(leg) if v[2] < 1.0]
        top = [v for v in placed(leg) if v[2] > UNDER - 1.0]
        middle = [[sum(v[i] for v in some) / len(some) for i in range(3)] for some in (low, top)]
        length = math.dist(*middle)
        tans = (math.tan(math.radians(a)) for a in (front, side))
        assert length == pytest.approx(UNDER * math.sqrt(1.0 + sum(t * t for t in tans)))
        assert length == pytest.approx(UNDER * splay(side, front).stretch)


def test_hands_only_where_ends_are_sawn_through_the_thickness_at_a_slant() -> None:
    assert {leg.hand for leg in legs(built(0.0, 5.0))} == {""}
    hands = {leg.key: leg.hand for leg in legs(built(8.0, 5.0))}
    assert hands == {
        "leg-front-left": "left",
        "leg-rear-right": "left",
        "leg-rear-left": "right",
        "leg-front-right": "right",
    }


def test_one_way_only_needs_no_slanting_cut() -> None:
    piece = built(0.0, 5.0)
    assert not [f for p in piece.parts.values() for f in p.features if isinstance(f, Bevel)]
    rail = piece.parts["top-rail-left"].outline
    lower, upper = rail.segments[0].length, rail.segments[2].length
    # 95 wide, each end off square by 5 degrees.
    assert lower - upper == pytest.approx(2.0 * 95.0 * math.tan(math.radians(5.0)))


def test_splay_that_leaves_no_leg_behind_the_apron_is_refused() -> None:
    made = replace(record(0.0, 15.0), legs=replace(record(0.0, 0.0).legs, width=45.0))
    assert {"rails.setback", "legs.width"} & {c.key for c in TABLE.conflicts(made, PROFILES)}


@pytest.mark.parametrize(("front", "side"), BOTH)
def test_workings_tell_the_rails_as_they_are_cut(front: float, side: float) -> None:
    """The angle of the rail's ends and its length along the upper edge, measured on the part."""
    piece = built(front, side)
    noted = {w.name: w.value for w in piece.workings}
    rail = piece.parts["top-rail-left"].outline
    for end in (rail.segments[1], rail.segments[3]):
        run, rise = abs(end.end.x - end.start.x), abs(end.end.y - end.start.y)
        off = math.degrees(math.atan2(run, rise))
        assert noted["Rails' ends and legs, off square across the face"] == pytest.approx(off)
    assert noted["Top rail, between the legs"] == pytest.approx(rail.segments[2].length)
    apron = piece.parts["apron-front"].outline
    assert noted["Clear between the leg frames"] == pytest.approx(apron.segments[2].length)
    end = apron.segments[1]
    off = math.degrees(math.atan2(abs(end.end.x - end.start.x), abs(end.end.y - end.start.y)))
    assert noted["Aprons' and stretcher's ends, off square"] == pytest.approx(off)
