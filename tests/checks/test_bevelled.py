r"""Checks of parts sawn at a slant: a rail between two leaning boards, set out by hand.

post      rail       post       The posts lean outwards by 10 degrees towards the ground;
 /  |=============|  \          the rail's ends are sawn to lie on their inner faces, so
/   |=============|   \         it is longer below: its show face looks down.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from flatpack.checks import Setting, run
from flatpack.checks.bored import bored
from flatpack.checks.limits import Limits
from flatpack.checks.screws import tip
from flatpack.checks.walls import check_walls
from flatpack.drawings.book.details import _ends_on
from flatpack.features import Hole, Slant, bevels
from flatpack.finding import Finding
from flatpack.geometry import Frame, Point, Vec, X, Y, Z, closed
from flatpack.geometry.shapes import rectangle
from flatpack.joinery import BarrelNutBolt, FaceScrews, machine
from flatpack.joinery.axis import extent, span
from flatpack.model import Assembly, Part, Step, is_shaped
from flatpack.pieces.common.splay import Way, face_of, leaning, level
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
BOARD = PROFILES.board("ply-18")
T = BOARD.thickness
LEAN = 10.0
C, S = math.cos(math.radians(LEAN)), math.sin(math.radians(LEAN))


def _post(key: str, side: float) -> Part:
    """A board 300 high whose inner face passes x = 200 * side at a height of 150."""
    foot, head = (Vec(side * (200.0 + (150.0 - z) * S / C), 0.0, z) for z in (0.0, 300.0))
    way = Way(foot, head, Vec(-side, 0.0, 0.0), holds=Y, line=(0.5, 1.0))
    return leaning(key, "Post", BOARD, 120.0, way, (level(0.0), level(300.0)))


def _rail(posts: tuple[Part, Part]) -> Part:
    """Level, 60 wide, show face down, its middle at a height of 150."""
    ends = tuple(face_of(post, "show") for post in posts)
    start, end = (Vec(200.0 * side, 0.0, 150.0) for side in (-1.0, 1.0))
    way = Way(start, end, Z.negated(), line=(0.5, 0.5))
    return leaning("rail", "Rail", BOARD, 60.0, way, (ends[0], ends[1]))


def _piece(more: tuple[object, ...] = ()) -> Assembly:
    posts = _post("left", -1.0), _post("right", 1.0)
    rail = _rail(posts)
    screw = PROFILES.screw("wood-4")
    joints = [
        FaceScrews(
            key=f"to-{post.key}", step="frame", through=post.key, into="rail",
            places=tuple(Vec(200.0 * side, y, 150.0) for y in (-15.0, 15.0)),
            direction=post.frame.z, screw=screw,
        )
        for post, side in zip(posts, (-1.0, 1.0), strict=True)
    ]  # fmt: skip
    return machine(
        Assembly(
            family="test", name="rail", steps=(Step("frame", "Frame"),), joints=tuple(joints),
            parts={p.key: replace(p, features=(*p.features, *more) if p is rail else p.features)
                   for p in (*posts, rail)},
        )
    )  # fmt: skip


def _told(piece: Assembly) -> dict[str, Finding]:
    return {f.code: f for f in run(piece) if f.severity in ("fault", "warning")}


def test_the_rail_is_as_long_as_plane_geometry_has_it() -> None:
    """400 at its middle; each end falls 10 degrees from square over the thickness."""
    rail = _piece().parts["rail"]
    assert rail.length == pytest.approx(400.0 + 2.0 * (T / 2.0) * S / C)
    assert is_shaped(rail)
    low, high = extent(rail, X, Vec(0.0, 0.0, 0.0))
    assert (low, high) == pytest.approx((-rail.length / 2.0, rail.length / 2.0))
    for y, z, half in ((0.0, 150.0, 200.0), (9.0, 150.0 + 4.0, 200.0 - 4.0 * S / C)):
        enter, leave = span(rail, Vec(0.0, y, z), X)
        assert (enter, leave) == pytest.approx((-half, half))


def test_a_sound_piece_has_no_fault() -> None:
    assert _told(_piece()) == {}


def test_screws_run_square_into_the_sawn_end() -> None:
    piece = _piece()
    rail, post = piece.parts["rail"], piece.parts["left"]
    holes = [h for h in bored(rail) if h.kind == "edge"]
    assert len(holes) == 4
    for hole in holes:
        way = rail.frame.turn(hole.bottom.minus(hole.mouth)).unit()
        assert max(abs(way.dot(p.frame.z)) for p in (post, piece.parts["right"])) == pytest.approx(
            1.0
        )
        assert hole.mouth.z == pytest.approx(T / 2.0)
    for f in piece.fasteners:
        bite, cover, _ = tip(f, rail)
        assert bite == pytest.approx(f.length - T)
        # Over the tip: half the thickness, as far as the screw has climbed from mid thickness.
        assert cover == pytest.approx(T / 2.0 - (f.length - T) * S)


@pytest.mark.parametrize(("gap", "code"), [(1.0, "mates-apart"), (-1.0, "shared-space")])
def test_a_post_moved_along_its_normal_is_told(gap: float, code: str) -> None:
    piece = _piece()
    post = piece.parts["left"]
    frame = replace(post.frame, origin=post.frame.origin.plus(post.frame.z, -gap))
    moved = replace(piece, parts={**piece.parts, "left": replace(post, frame=frame)})
    told = _told(moved)[code]
    assert told.measured == pytest.approx(1.0, abs=0.03)


def test_a_rail_sawn_one_degree_wrong_no_longer_lies_on_the_post() -> None:
    piece = _piece()
    rail = piece.parts["rail"]
    wrong = tuple(
        replace(f, slant=f.slant + 1.0) if f.operation == "bevel" else f for f in rail.features
    )  # fmt: skip
    changed = replace(piece, parts={**piece.parts, "rail": replace(rail, features=wrong)})
    assert "mates-apart" in _told(changed)


def _walls(x: float, depth: float | None, face: str) -> dict[str, Finding]:
    """Findings about one hole of 8 in the rail, its centre x from the short face's end."""
    piece = _piece()
    rail = piece.parts["rail"]
    short = T * S / C
    hole = Hole(at=Point(short + x, 30.0), diameter=8.0, depth=depth, face=face)  # type: ignore[arg-type]  # a face
    parts = {"rail": replace(rail, features=(*_bevels(rail), hole))}
    setting = Setting(replace(piece, parts=parts, fasteners=(), mates=(), joints=()), Limits())
    return {f.code: f for f in check_walls(setting)}


def _bevels(rail: Part) -> tuple[object, ...]:
    return tuple(f for f in rail.features if f.operation == "bevel")


@pytest.mark.parametrize(
    ("x", "depth", "face", "wall"),
    [
        (5.0, None, "show", 1.0),  # through: the shorter face counts
        (5.0, 6.0, "back", 1.0),  # blind from the shorter face: its own mouth counts
        (2.5, 6.0, "show", -1.5 + (T - 6.0) * S / C),  # blind from the longer: its floor counts
    ],
)
def test_walls_are_measured_on_the_face_that_the_hole_stands_on(
    x: float, depth: float | None, face: str, wall: float
) -> None:
    """The centre stands x from the shorter face's end, so that x - 4 of wood is left there."""
    told = _walls(x, depth, face)["hole-wall"]
    assert told.measured == pytest.approx(wall, abs=1e-3)


def test_a_hole_in_what_is_sawn_off_is_outside() -> None:
    assert "hole-outside" in _walls(2.0, None, "show")
    assert "hole-outside" not in _walls(2.0, 1.0, "show")


def test_an_outline_beyond_the_line_of_the_saw_is_told() -> None:
    """A saw goes right through: a part that reaches past the line would lose what stands there."""
    outline = closed(((0, 0, 0), (100, 0, 0), (100, 40, 0), (130, 40, 0), (130, 80, 0), (0, 80, 0)))
    line = outline.segments[1]
    cut = bevels(outline, T, [Slant(line.start, line.end, 15.0)])
    part = Part(key="a", name="A", board=BOARD, outline=outline, frame=Frame(), features=cut)
    piece = Assembly(family="test", name="a", parts={"a": part})
    assert "bevel-cuts-part" in _told(piece)
    square = replace(part, outline=rectangle(100.0, 40.0))
    assert "bevel-cuts-part" not in _told(replace(piece, parts={"a": square}))


@pytest.mark.parametrize(("aside", "codes"), [(0.0, {"nut-askew"}), (LEAN, set())])
def test_a_bolt_askew_of_its_barrel_nut_is_told(aside: float, codes: set[str]) -> None:
    """Square to the post's face the bolt runs 10 degrees off the rail's; level it meets the nut."""
    posts = _post("left", -1.0), _post("right", 1.0)
    rail = _rail(posts)
    way = posts[0].frame.z if aside == 0.0 else X
    joint = BarrelNutBolt(
        key="bolt", step="frame", through="left", into="rail", place=Vec(-200.0, 0.0, 150.0),
        direction=way, nut_face=Z.negated(), depth=35.0, nut=PROFILES.barrel_nut("barrel-m6-12"),
        bolt=PROFILES.furniture_bolt("furniture-m6"),
    )  # fmt: skip
    parts = {p.key: p for p in (*posts, rail)}
    made = machine(
        Assembly(family="test", name="rail", parts=parts, joints=(joint,),
                 steps=(Step("frame", "Frame"),))
    )  # fmt: skip
    told = {f.code: f for f in run(made) if f.code == "nut-askew"}
    assert set(told) == codes
    if told:
        assert told["nut-askew"].measured == pytest.approx(LEAN)


def test_glued_ends_are_those_that_lie_on_a_face_however_sawn() -> None:
    """The book names parts whose end grain is glued: the rail's ends lie on the posts' faces."""
    piece = _piece()
    ends = [(a, b) for a, b in piece.mates if _ends_on(piece.parts[b], piece.parts[a])]
    assert ends == [("left", "rail"), ("right", "rail")]
    assert not _ends_on(piece.parts["left"], piece.parts["rail"])
    frame = piece.parts["rail"].frame
    apart = replace(frame, origin=frame.origin.plus(X, 1.0))
    assert not _ends_on(replace(piece.parts["rail"], frame=apart), piece.parts["left"])


@pytest.mark.parametrize("up", [-3.0, 3.0])
def test_a_slanting_screw_keeps_wood_beside_it_on_the_face_it_nears(up: float) -> None:
    """Entered `up` above the middle it has that much less to the face that it climbs towards."""
    posts = _post("left", -1.0), _post("right", 1.0)
    rail = _rail(posts)
    inside = Vec(-200.0 - up * S / C, 0.0, 150.0 + up)
    joint = FaceScrews(
        key="screw", step="frame", through="left", into="rail", places=(inside,),
        direction=posts[0].frame.z, screw=PROFILES.screw("wood-4"),
    )  # fmt: skip
    made = machine(Assembly(family="test", name="rail", joints=(joint,),
                            parts={p.key: p for p in (*posts, rail)}))  # fmt: skip
    (screw,) = made.fasteners
    climbs = rail.frame.z.dot(screw.direction)
    wood = T / 2.0 + (up if rail.frame.z.z * climbs < 0.0 else -up)
    room = wood - (screw.length - T) * S
    assert room >= 3.0 + 2.0
    longer = min(n for n in joint.screw.lengths if n > screw.length)
    assert wood - (longer - T) * S < 3.0 + 2.0
