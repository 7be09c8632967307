"""A cushion box's lid: its prop by hand, its weight by moments, and what doesn't go together.

By hand, from the built-in values: 560 deep, 520 high, every board 27 thick, a hinge with its axis
3.5 out of the leaf's face, battens 95 deep, 4 clear, a rod of 22.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import pytest

from flatpack import checks
from flatpack.mechanism.study import Study, clashes, study
from flatpack.model import Assembly, posed
from flatpack.parameters import BoardChoice, replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
BOX = PIECES["cushion-box"]


def record(**values: object) -> Any:
    made = BOX.record(name="Trial")
    for path, value in values.items():
        table, _, key = path.partition("__")
        made = replace(made, **{table: replace(getattr(made, table), **{key: value})})
    return made


def built(**values: object) -> Assembly:
    made = record(**values)
    assert list(BOX.conflicts(made, PROFILES)) == []
    return BOX.build(made, PROFILES)


def studied(piece: Assembly) -> Study:
    made = study(piece)
    assert made is not None
    return made


def noted(piece: Assembly, name: str) -> float:
    (found,) = (w.value for w in piece.workings if w.name == name)
    return found


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("Lid's underside above ground", 520 - 27),
        ("Gap under the closed lid", 27 + 2 * 3.5),
        ("Side boards' top above ground", 493 - 34),
        ("Rack's top below the lid", 95 + 4 + 22),
        ("Rack's lower edge below the lid", 121 + 0.8 * 22 + 24),
        ("Pivot below the lid", 95 / 2),
        ("Rod length", 1180 - 2 * 27 - 2 * 3),
    ],
)
def test_by_hand(name: str, value: float) -> None:
    assert noted(built(), name) == pytest.approx(value)


def test_battens_pass_the_front_posts() -> None:
    """The lower front corner's circle about the axis keeps 4 from the posts: Pythagoras."""
    piece = built()
    batten, post = piece.parts["lid-batten-left"], piece.parts["post-front-left"]
    assert piece.motion is not None
    axis = piece.motion.axis
    corner = batten.frame.place(batten.length, 0.0)
    reach = math.hypot(corner.x - axis.x, corner.z - axis.z)
    front = min(post.frame.place(0.0, 0.0, z).x for z in (0.0, post.thickness))
    assert front - (axis.x + reach) == pytest.approx(4.0)


def test_arm_joins_pivot_and_notch_at_every_angle() -> None:
    """Law of cosines in no form of the program's own: turn the pivot, measure to the notch."""
    motion = built().motion
    assert motion is not None
    for angle, notch in zip(motion.wanted, motion.notches, strict=True):
        turn = math.radians(angle)
        x = motion.pivot.x * math.cos(turn) - motion.pivot.y * math.sin(turn)
        y = motion.pivot.x * math.sin(turn) + motion.pivot.y * math.cos(turn)
        assert math.dist((x, y), notch) == pytest.approx(motion.arm, abs=1e-6)


def test_stops_are_reached_held_and_let_go() -> None:
    made = studied(built())
    assert [s.angle for s in made.found.stops] == pytest.approx([40.0, 70.0], abs=0.1)
    assert all(h.held for h in made.holds)
    assert all(k.captured for k in made.knocks)
    assert all(r.clears is not None for r in made.releases)
    assert list(clashes(made)) == []


def test_rod_lies_on_both_racks_at_the_highest_stop() -> None:
    """In 3D: the rod's middle stands at the seat of the rack's own notch, on both hands."""
    piece = built()
    top = studied(piece).found.stops[-1]
    moved = posed(piece, top.angle, top.rod)
    rod = moved.bars["rod"].frame
    for hand in ("left", "right"):
        rack = moved.parts[f"rack-{hand}"]
        notch = next(f for f in rack.features if getattr(f, "number", 0) == 2)
        at = rack.frame.place(*notch.at)
        assert (at.x, at.z) == pytest.approx((rod.origin.x, rod.origin.z), abs=1e-6)


def test_lid_rests_on_the_four_posts_clear_of_the_hinge_rail() -> None:
    piece = built()
    posts = [p for k, p in piece.parts.items() if k.startswith("post-")]
    rail = piece.parts["hinge-rail"]
    under = piece.parts["lid-board-1"].frame.origin.z
    assert len(posts) == 4
    assert all(p.frame.place(p.length, 0.0).z == pytest.approx(under) for p in posts)
    assert under - rail.frame.place(0.0, 0.0, rail.thickness).z == pytest.approx(2 * 3.5)


def test_weight_of_the_lid_and_lift_at_its_edge() -> None:
    """Moments of each part's box about the hinge axis, from the parts in place."""
    piece = built()
    assert piece.motion is not None
    moments = [0.0, 0.0]
    for part in piece.parts.values():
        if part.group == "back":
            kg = abs(part.outline.area) * part.thickness * part.board.density * 1e-9
            x0, y0, x1, y1 = part.outline.bounds
            middle = part.frame.place((x0 + x1) / 2.0, (y0 + y1) / 2.0).x
            moments[0] += kg
            moments[1] += kg * (middle - piece.motion.axis.x)
    assert noted(piece, "Lid, weight") == pytest.approx(moments[0])
    front = 560 + 25 - piece.motion.axis.x
    lift = moments[1] * 9.80665 / front
    assert noted(piece, "Lift at the lid's front edge") == pytest.approx(lift)


@pytest.mark.parametrize("rear", [0.0, 12.0, 30.0])
def test_room_behind_is_what_the_open_lid_takes(rear: float) -> None:
    """Every corner of the lid at every whole degree up to the highest stop."""
    piece = built(lid__rear_overhang=rear)
    made = studied(piece)
    board = piece.parts["lid-board-1"]
    furthest = 0.0
    for tenth in range(701):
        frame = board.frame.swung(made.motion.axis, tenth / 10.0)
        corners = [frame.place(0.0, y, z).x for y in (0.0, board.width) for z in (0.0, 27.0)]
        furthest = max(furthest, -min(corners))
    assert noted(piece, "Room behind the box for the lid") == pytest.approx(furthest, abs=0.01)


def test_words_speak_of_a_lid() -> None:
    motion = built().motion
    assert motion is not None
    assert (motion.panel, motion.rest, motion.gap) == ("lid", "closed", None)
    told = checks.run(built(), only=("release", "travel"))
    assert told
    assert not any("the back" in f.message for f in told)


def test_remarks_name_the_falling_lid() -> None:
    told = {f.code: f.severity for f in checks.run(built(), only=("remarks",))}
    assert told == {"caution": "note", "lid-falls": "not done", "rain-tight": "not done"}


def test_front_board_of_the_lid_is_a_whole_one() -> None:
    """Ripped boards lie inside: the front one hangs over beyond the battens."""
    widths = [p.width for k, p in built().parts.items() if k.startswith("lid-board")]
    assert widths[-1] == max(widths) > min(widths)


CONFLICTS: list[tuple[str, Mapping[str, object]]] = [
    ("lid.angles", {"lid__angles": (50.0, 40.0)}),
    ("lid.angles", {"lid__angles": (60.0, 61.0)}),
    ("size.depth", {"size__depth": 720.0, "size__length": 640.0}),
    ("size.height", {"size__height": 300.0}),
    ("hinge.inset", {"hinge__count": 4, "hinge__inset": 0.4, "size__length": 600.0}),
    ("hinge.hinge", {"boards__posts": BoardChoice("ply-9")}),
    ("lid.board_width", {"lid__board_width": 70.0}),
    ("arms.width", {"arms__width": 110.0, "lid__batten_width": 70.0}),
    ("arms.pivot", {"arms__pivot": 690.0}),
    ("fixings.nut", {"fixings__nut": "lock-m8"}),
    ("fixings.pocket_screw", {"fixings__pocket_screw": "wood-5"}),
]


@pytest.mark.parametrize(("key", "values"), CONFLICTS, ids=[k for k, _ in CONFLICTS])
def test_refused_with_what_would_do(key: str, values: Mapping[str, object]) -> None:
    found = list(BOX.conflicts(record(**values), PROFILES))
    assert key in {c.key for c in found}
    assert all(c.allowed and c.message for c in found)
