"""Parts broken on purpose: each check catches its own kind of mistake, and says how much.

The amounts are those that the test itself puts in (a hole moved by 2 mm stands 2 mm off its axis),
or are worked out by hand beside the assertion.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from flatpack.checks import marks_coincide, run
from flatpack.features import Counterbore, EdgeHole, Hole, Notch, PocketHole
from flatpack.finding import Finding
from flatpack.geometry import Frame, Point, Vec, X, Y, Z, closed
from flatpack.geometry.shapes import disc, one_round_end, rectangle
from flatpack.joinery import machine
from flatpack.model import Assembly, Feature, Part, Step
from flatpack.profiles import Profiles

Change = Callable[..., Assembly]


def found(piece: Assembly, check: str, code: str) -> list[Finding]:
    return [f for f in run(piece, only=(check,)) if f.code == code]


def codes(piece: Assembly, check: str, severity: str = "fault") -> set[str]:
    return {f.code for f in run(piece, only=(check,)) if f.severity == severity}


def moved_hole(part: Part, dx: float, dy: float, kind: type = Hole) -> tuple[Feature, ...]:
    """The part's features with the first of a kind moved."""
    number = next(i for i, f in enumerate(part.features) if isinstance(f, kind))
    old = part.features[number]
    at = "at" if kind is Hole else "exit"
    spot = getattr(old, at)
    new = replace(old, **{at: Point(spot.x + dx, spot.y + dy)})  # type: ignore[type-var]  # a feature is a dataclass
    return (*part.features[:number], new, *part.features[number + 1 :])


class TestAlignment:
    @pytest.mark.parametrize("key", ["rail-left", "leg-left", "rail-right", "leg-right"])
    def test_one_hole_moved_2_mm(self, frame: Assembly, changed: Change, key: str) -> None:
        piece = changed(frame, key, features=moved_hole(frame.parts[key], 2.0, 0.0))
        (fault,) = found(piece, "alignment", "hole-off-axis")
        assert (fault.part, fault.measured) == (key, 2.0)
        (unused,) = found(piece, "orphans", "hole-unused")
        assert unused.part == key

    def test_hole_moved_less_than_the_tolerance(self, frame: Assembly, changed: Change) -> None:
        for off, caught in ((0.04, False), (0.06, True)):
            features = moved_hole(frame.parts["leg-left"], off, 0.0)
            piece = changed(frame, "leg-left", features=features)
            assert bool(found(piece, "alignment", "hole-off-axis")) is caught

    def test_pocket_moved_2_mm(self, frame: Assembly, changed: Change) -> None:
        features = moved_hole(frame.parts["end-rail"], 0.0, 2.0, PocketHole)
        piece = changed(frame, "end-rail", features=features)
        (fault,) = found(piece, "alignment", "hole-off-axis")
        assert fault.measured == pytest.approx(2.0)

    def test_rod_hole_moved(self, frame: Assembly, changed: Change) -> None:
        part = frame.parts["rail-right"]
        features = tuple(
            replace(f, at=Point(f.at.x + 3.0, f.at.y))
            if isinstance(f, Hole) and f.diameter > 20.0 else f
            for f in part.features
        )  # fmt: skip
        piece = changed(frame, "rail-right", features=features)
        (fault,) = found(piece, "alignment", "hole-off-axis")
        assert fault.measured == pytest.approx(3.0)
        assert "rod" in fault.message
        # The rod then runs 3 mm less the play of 0.2 / 2 into the wood on one side.
        (clash,) = found(piece, "space", "shared-space")
        assert clash.part == "rail-right / rod"
        assert 0.5 < (clash.measured or 0.0) < 3.0

    def test_hole_left_out(self, frame: Assembly, changed: Change) -> None:
        part = frame.parts["leg-left"]
        piece = changed(frame, "leg-left", features=part.features[1:])
        assert codes(piece, "alignment") == {"hole-missing"}
        assert codes(piece, "space") == {"shared-space"}

    def test_hole_too_small_blind_or_from_the_wrong_side(
        self, frame: Assembly, changed: Change
    ) -> None:
        part = frame.parts["rail-left"]
        first = next(f for f in part.features if isinstance(f, Hole))
        for change, code in (
            ({"diameter": 7.0}, "hole-too-small"),
            ({"depth": 10.0, "face": "show"}, "hole-stops-short"),
            ({"depth": 10.0, "face": "back"}, "hole-wrong-side"),
        ):
            features = tuple(replace(f, **change) if f is first else f for f in part.features)
            assert codes(changed(frame, "rail-left", features=features), "alignment") == {code}

    def test_stray_hole(self, frame: Assembly, changed: Change) -> None:
        part = frame.parts["slat-2"]
        stray = Hole(at=Point(300.0, 30.0), diameter=6.0)
        piece = changed(frame, "slat-2", features=(*part.features, stray))
        (fault,) = found(piece, "orphans", "hole-unused")
        assert fault.part == "slat-2"

    def test_whole_part_moved_lengthwise(self, frame: Assembly, shifted: Change) -> None:
        piece = shifted(frame, "leg-left", 2.0, 0.0, 0.0)
        assert {f.measured for f in found(piece, "alignment", "hole-off-axis")} == {2.0}


class TestSpace:
    @pytest.mark.parametrize(("down", "caught"), [(0.2, True), (0.02, False), (0.0, False)])
    def test_slat_let_into_the_rails(
        self, frame: Assembly, shifted: Change, down: float, caught: bool
    ) -> None:
        faults = found(shifted(frame, "slat-2", 0.0, 0.0, -down), "space", "shared-space")
        pairs = {f.part for f in faults}
        assert pairs == ({"rail-left / slat-2", "rail-right / slat-2"} if caught else set())
        assert all(f.measured == pytest.approx(down, abs=0.01) for f in faults)

    @pytest.mark.parametrize(("closer", "caught"), [(0.2, True), (0.02, False)])
    def test_leg_pushed_into_the_rail(
        self, frame: Assembly, shifted: Change, closer: float, caught: bool
    ) -> None:
        faults = found(shifted(frame, "leg-left", 0.0, -closer, 0.0), "space", "shared-space")
        assert bool(faults) is caught
        assert all(f.measured == pytest.approx(closer, abs=0.01) for f in faults)

    @pytest.mark.parametrize("degrees", [30.0, -30.0, 17.3])
    @pytest.mark.parametrize(("deep", "caught"), [(0.2, True), (-0.02, False)])
    def test_a_slat_askew(
        self, frame: Assembly, changed: Change, degrees: float, deep: float, caught: bool
    ) -> None:
        """A slat tipped about its length, its lower arris `deep` below the rails' top edge.

        Rail and slat then stand with z axes square; against slat-1, laid flat, they stand askew.
        """
        tipped = frame.parts["slat-3"].frame.swung(Vec(400.0, 0.0, 300.0), degrees)
        low = min(tipped.place(0.0, y, z).z for y in (0.0, 60.0) for z in (0.0, 18.0))
        up = Vec(0.0, 0.0, 300.0 - deep - low)
        piece = changed(frame, "slat-3", frame=replace(tipped, origin=tipped.origin.plus(up)))
        piece = replace(piece, fasteners=())
        assert bool(found(piece, "space", "shared-space")) is caught

    @pytest.mark.parametrize(("deep", "caught"), [(0.2, True), (-0.02, False), (0.01, False)])
    def test_two_slats_askew(
        self, frame: Assembly, changed: Change, deep: float, caught: bool
    ) -> None:
        """Tipped by 30 degrees, with its lower arris `deep` in the show face of slat-1."""
        tipped = frame.parts["slat-3"].frame.swung(Vec(0.0, 0.0, 0.0), 30.0)
        corners = [tipped.place(0.0, y, z) for y in (0.0, 60.0) for z in (0.0, 18.0)]
        lowest = min(corners, key=lambda v: v.z)
        move = Vec(230.0 - lowest.x, 0.0, 318.0 - deep - lowest.z)
        piece = changed(frame, "slat-3", frame=replace(tipped, origin=tipped.origin.plus(move)))
        piece = replace(piece, fasteners=())
        pairs = {f.part for f in found(piece, "space", "shared-space")}
        assert pairs == ({"slat-1 / slat-3"} if caught else set())

    def test_rod_in_a_notch_shifted(self, frame: Assembly, profiles: Profiles) -> None:
        """A rod of 22 rests in a half-round notch; the notch cut 1 mm further along fouls it."""
        rod = replace(frame.bars["rod"], length=100.0)

        def rack(at: float) -> Assembly:
            notched = closed(
                ((0, 0, 0), (200, 0, 0), (200, 60, 0), (at + 11.1, 60, 0), (at + 11.1, 45, -1),
                 (at - 11.1, 45, 0), (at - 11.1, 60, 0), (0, 60, 0))
            )  # fmt: skip
            bar = replace(
                frame.parts["leg-left"], key="rack", outline=notched, features=(),
                frame=Frame(Vec(500.0, 20.0, 205.0), X, Z, Y),
            )  # fmt: skip
            return Assembly(family="t", name="t", parts={"rack": bar}, bars={"rod": rod})

        assert found(rack(100.0), "space", "shared-space") == []
        (fault,) = found(rack(101.0), "space", "shared-space")
        # Centre 1 mm off in a notch 0.1 wider all round: the rod stands 0.9 in its side.
        assert fault.measured == pytest.approx(0.9, abs=0.05)

    def test_screw_tips_meet(self, frame: Assembly) -> None:
        one = frame.fasteners[-1]
        solid = one.solids[0]
        twin = replace(one, key="twin", solids=(replace(solid, name="twin"),))
        piece = replace(frame, fasteners=(*frame.fasteners, twin))
        assert {f.part for f in found(piece, "space", "shared-space")} == {f"{one.key} / twin"}

    def test_bolt_head_counts(self, frame: Assembly, changed: Change) -> None:
        """A plank laid against the rail's outer face is in the way of the bolts' heads."""
        plank = replace(
            frame.parts["slat-1"], key="plank", features=(),
            frame=Frame(Vec(60.0, -18.0, 210.0), X, Z, Y.negated()),
        )  # fmt: skip
        plank = replace(plank, outline=rectangle(150.0, 60.0),
                        frame=Frame(Vec(60.0, 0.0, 210.0), X, Z, Y.negated()))  # fmt: skip
        piece = replace(frame, parts={**frame.parts, "plank": plank})
        clashes = {f.part for f in found(piece, "space", "shared-space")}
        assert clashes == {"plank / leg-bolt-left-1", "plank / leg-bolt-left-2"}


class TestHands:
    def test_two_of_one_hand(self, frame: Assembly, changed: Change) -> None:
        f = frame.parts["leg-right"].frame
        straight = Frame(f.origin, f.x, f.y, f.z.negated())
        assert codes(changed(frame, "leg-right", frame=straight), "hands") == {"two-of-one-hand"}

    def test_one_pair_named_the_other_way_round(self, frame: Assembly, changed: Change) -> None:
        piece = changed(changed(frame, "leg-left", hand="right"), "leg-right", hand="left")
        assert "hands-swapped" in codes(piece, "hands")

    def test_one_hand_swapped(self, frame: Assembly, changed: Change) -> None:
        assert codes(changed(frame, "leg-right", hand="left"), "hands") == {"hands-uneven"}

    def test_holes_of_one_hand_differ(self, frame: Assembly, changed: Change) -> None:
        features = moved_hole(frame.parts["leg-right"], 0.5, 0.0)
        piece = changed(frame, "leg-right", features=features)
        assert codes(piece, "hands") == {"hands-differ"}

    def test_outlines_differ(self, frame: Assembly, changed: Change) -> None:
        piece = changed(frame, "leg-right", outline=rectangle(301.0, 70.0))
        assert codes(piece, "hands") == {"hands-differ"}

    def test_pocket_marks_laid_over_each_other(self, frame: Assembly, changed: Change) -> None:
        left, right = frame.parts["rail-left"], frame.parts["rail-right"]
        assert any(isinstance(f, PocketHole) for f in left.features)
        assert not marks_coincide(left, right)
        # Slats shared evenly about the middle would make one drawing of the two.
        pockets = tuple(f for f in left.features if isinstance(f, PocketHole))
        even = pockets + tuple(replace(f, exit=Point(800.0 - f.exit.x, f.exit.y)) for f in pockets)
        piece = changed(changed(frame, "rail-left", features=even), "rail-right", features=even)
        assert marks_coincide(piece.parts["rail-left"], piece.parts["rail-right"])
        assert codes(piece, "hands", "note") == {"hands-indistinct"}


class TestMates:
    @pytest.mark.parametrize(("up", "caught"), [(0.3, True), (0.02, False), (-0.3, True)])
    def test_faces_apart(self, frame: Assembly, shifted: Change, up: float, caught: bool) -> None:
        faults = found(shifted(frame, "slat-1", 0.0, 0.0, up), "mates", "mates-apart")
        assert len(faults) == (2 if caught else 0)
        assert all(f.measured == pytest.approx(up) for f in faults)

    def test_faces_beside_each_other(self, frame: Assembly, shifted: Change) -> None:
        piece = shifted(frame, "slat-1", 2000.0, 0.0, 0.0)
        (fault, _) = found(piece, "mates", "mates-apart")
        assert fault.measured is None

    def test_tipped_mates(self, frame: Assembly) -> None:
        """Turned together nothing changes: the faces still touch."""
        about = Vec(10.0, 20.0, 30.0)
        parts = {k: replace(p, frame=p.frame.swung(about, 33.0)) for k, p in frame.parts.items()}
        assert found(replace(frame, parts=parts), "mates", "mates-apart") == []

    def test_a_mate_that_is_no_part(self, frame: Assembly) -> None:
        piece = replace(frame, mates=(("rail-left", "rod"),))
        assert codes(piece, "mates", "not done") == {"mates"}


class TestOutlines:
    def test_clockwise(self, frame: Assembly, changed: Change) -> None:
        piece = changed(frame, "slat-1", outline=rectangle(600.0, 60.0).reversed())
        assert codes(piece, "outlines") == {"outline-clockwise"}

    def test_crossed(self, frame: Assembly, changed: Change) -> None:
        bow = closed(((0, 0, 0), (600, 0, 0), (0, 60, 0), (700, 90, 0)))
        assert "outline-not-simple" in codes(changed(frame, "slat-1", outline=bow), "outlines")

    @pytest.mark.parametrize(
        ("x", "code"), [(595.0, "opening-outside"), (588.0, "opening-wall"), (300.0, None)]
    )
    def test_openings(self, frame: Assembly, changed: Change, x: float, code: str | None) -> None:
        piece = changed(frame, "slat-1", openings=(disc(10.0, x, 30.0),))
        assert codes(piece, "outlines") == ({code} if code else set())

    def test_board_sizes(self, frame: Assembly, changed: Change, profiles: Profiles) -> None:
        length, width = max(profiles.board("ply-18").sheets)
        for size, caught in (((length, width), False), ((length + 1.0, 60.0), True),
                             ((60.0, width + 1.0), True)):  # fmt: skip
            piece = changed(frame, "slat-1", outline=rectangle(*size))
            assert codes(piece, "boards") == ({"larger-than-sheet"} if caught else set())

    def test_planed_sizes(self, frame: Assembly, changed: Change, profiles: Profiles) -> None:
        board = profiles.board("pine-20")
        sold, longest = sorted(board.widths), max(board.lengths)
        for size, code in (
            ((600.0, sold[0]), None),
            ((longest + 1.0, sold[0]), "longer-than-board"),
            ((600.0, sold[-1] + 1.0), "wider-than-board"),
            ((600.0, sold[-1] - 1.0), "width-not-sold"),
        ):
            piece = changed(frame, "slat-1", outline=rectangle(*size), board=board)
            assert {f.code for f in run(piece, only=("boards",))} == ({code} if code else set())


def worked(frame: Assembly, *features: Feature, **more: object) -> Assembly:
    """One plank alone with these features."""
    part = replace(frame.parts["slat-1"], features=features, **more)  # type: ignore[arg-type]  # a part's own fields
    return Assembly(family="t", name="t", parts={"slat-1": part})


class TestWalls:
    @pytest.mark.parametrize(
        ("y", "fit", "code"),
        [
            (2.0, "bolt in wood", "hole-outside"),
            (7.0, "bolt in wood", "hole-wall"),  # 7 - 4.25 = 2.75 of wood, less than 3
            (8.0, "bolt in wood", None),  # 3.75
        ],
    )
    def test_wall_to_the_edge(self, frame: Assembly, y: float, fit: str, code: str | None) -> None:
        piece = worked(frame, Hole(at=Point(300.0, y), diameter=8.5, fit=fit))
        assert codes(piece, "walls") == ({code} if code else set())

    def test_edge_and_end_distance_from_the_centre(self, frame: Assembly) -> None:
        """EN 1995-1-1 table 8.4: 3 d to an unloaded edge, 4 d to an unloaded end."""
        piece = worked(frame, Hole(at=Point(31.0, 23.0), diameter=8.0, fit="bolt in wood"))
        told = {f.code: (f.measured, f.limit) for f in run(piece, only=("walls",))}
        assert told == {"edge-distance": (23.0, 24.0), "end-distance": (31.0, 32.0)}
        piece = worked(frame, Hole(at=Point(33.0, 25.0), diameter=8.0, fit="bolt in wood"))
        told = {f.code: (f.measured, f.limit) for f in run(piece, only=("walls",))}
        assert told == {"loaded-end-distance": (33.0, 80.0)}

    def test_wall_left_at_a_rounded_end(self, frame: Assembly) -> None:
        """Radius less the hole's radius: 30 - 23 = 7, wanted 8."""
        hole = Hole(at=Point(570.0, 30.0), diameter=46.0, fit="rod fixed in wood")
        piece = worked(frame, hole, outline=one_round_end(600.0, 60.0))
        (fault,) = found(piece, "walls", "round-end-wall")
        assert fault.measured == pytest.approx(7.0, abs=0.02)

    @pytest.mark.parametrize(
        ("depth", "severity"), [(17.5, "fault"), (16.5, "warning"), (15.0, None), (None, None)]
    )
    def test_floor_under_a_blind_hole(
        self, frame: Assembly, depth: float | None, severity: str | None
    ) -> None:
        piece = worked(frame, Hole(at=Point(300.0, 30.0), diameter=6.0, depth=depth))
        told = [f.severity for f in found(piece, "walls", "thin-floor")]
        assert told == ([severity] if severity else [])

    def test_edge_hole_near_the_face_and_off_the_edge(self, frame: Assembly) -> None:
        def drilled(y: float, height: float) -> set[str]:
            hole = EdgeHole(
                at=Point(0.0 if y > 0 else 20.0, abs(y)), inward=Point(1.0, 0.0), height=height,
                diameter=7.0, depth=50.0,
            )  # fmt: skip
            return codes(worked(frame, hole), "walls")

        assert drilled(30.0, 9.0) == set()
        assert drilled(30.0, 5.0) == {"edge-hole-wall"}  # 5 - 3.5 = 1.5, less than 2
        assert drilled(-30.0, 9.0) == {"edge-hole-mouth"}
        assert drilled(2.0, 9.0) == {"hole-outside"}

    def test_work_that_nobody_knows_is_not_done(self, frame: Assembly) -> None:
        odd = replace(Counterbore(at=Point(9.0, 9.0), diameter=2.0, depth=1.0), operation="odd")
        assert codes(worked(frame, odd), "walls", "not done") == {"walls"}


def pocket(x: float, face: str = "show", **more: object) -> PocketHole:
    made = PocketHole(
        exit=Point(x, 0.0), inward=Point(0.0, 1.0), thickness=18.0,
        face="show" if face == "show" else "back", slope=15.0, diameter=9.5, pilot=4.0,
        shoulder=18.0,
    )  # fmt: skip
    return replace(made, **more)  # type: ignore[arg-type]  # a pocket's own fields


class TestPockets:
    """Plane geometry of a pocket in 18 mm at 15 degrees: axis at the face 33.59 from the edge,
    ellipse to 33.59 + 4.75 / sin 15 = 51.94 from the edge."""

    def test_mouth_ends_where_the_ellipse_does(self, frame: Assembly) -> None:
        from flatpack.checks.bored import bored
        from flatpack.checks.footprint import footprint, room

        piece = worked(frame, pocket(300.0), outline=rectangle(600.0, 100.0))
        (hole,) = bored(piece.parts["slat-1"])
        x0, y0, x1, y1 = footprint(piece.parts["slat-1"], hole).bounds
        slope = math.radians(15.0)
        far = 9.0 / math.tan(slope) + 4.75 / math.sin(slope)
        near = max(9.0 / math.tan(slope) - 4.75 / math.sin(slope),
                   (18.0 - 9.0 * math.sin(slope)) / math.cos(slope))  # fmt: skip
        assert (x0, x1) == pytest.approx((300.0 - 4.75, 300.0 + 4.75), abs=0.02)
        assert (y0, y1) == pytest.approx((near, far), abs=0.02)
        body = room(piece.parts["slat-1"], hole)
        # Deepest at the shoulder: 9 - 18 sin 15 below the face, and the radius's share below that.
        deepest = 9.0 - 18.0 * math.sin(slope) + 4.75 * math.cos(slope)
        assert body.points[:, 2].max() == pytest.approx(18.0)
        assert body.points[:, 2].min() == pytest.approx(18.0 - deepest, abs=0.03)

    @pytest.mark.parametrize(
        ("apart", "severity"),
        [(9.0, "fault"), (11.0, "fault"), (12.5, "warning"), (14.0, None)],
    )
    def test_side_by_side(self, frame: Assembly, apart: float, severity: str | None) -> None:
        """Two drills of 9.5 side by side leave `apart` - 9.5 between them; 2 and 4 are wanted."""
        piece = worked(frame, pocket(300.0), pocket(300.0 + apart), outline=rectangle(600.0, 100.0))
        told = found(piece, "webs", "pocket-fouls")
        assert [f.severity for f in told] == ([severity] if severity else [])
        if severity == "warning":
            assert told[0].measured == pytest.approx(apart - 9.5, abs=0.05)

    @pytest.mark.parametrize(("dy", "caught"), [(30.0, True), (70.0, False)])
    def test_bolt_through_a_pocket(self, frame: Assembly, dy: float, caught: bool) -> None:
        bolt = Hole(at=Point(302.0, dy), diameter=8.5, fit="bolt in wood")
        piece = worked(frame, pocket(300.0), bolt, outline=rectangle(600.0, 100.0))
        assert bool(found(piece, "webs", "pocket-fouls")) is caught

    def test_opposite_faces_in_depth(self, frame: Assembly) -> None:
        """At their mouths' far ends the drills are shallow; near the edge they meet in the middle.

        In thick board the same two pockets clear each other.
        """
        both = (pocket(300.0), pocket(300.0, "back"))
        piece = worked(frame, *both, outline=rectangle(600.0, 100.0))
        assert found(piece, "webs", "pocket-fouls")

    def test_shallow_hole_over_a_pockets_far_end_from_the_other_face(self, frame: Assembly) -> None:
        """45 from the edge the drill is at most (33.59 - 45) tan 15 + 4.75 / cos 15 = 1.86 deep.

        A hole 10 deep from the back leaves 18 - 10 - 1.86 = 6 of wood under it; 16 deep doesn't.
        """
        for depth, caught in ((10.0, False), (16.0, True)):
            hole = Hole(at=Point(300.0, 47.0), diameter=4.0, depth=depth, face="back")
            piece = worked(frame, pocket(300.0), hole, outline=rectangle(600.0, 100.0))
            assert bool(found(piece, "webs", "pocket-fouls")) is caught

    def test_exit_must_be_at_the_edge(self, frame: Assembly) -> None:
        off = pocket(300.0, exit=Point(300.0, 5.0))
        piece = worked(frame, off, outline=rectangle(600.0, 100.0))
        assert codes(piece, "walls") == {"pocket-exit"}


class TestWebs:
    @pytest.mark.parametrize(
        ("apart", "severity"), [(9.0, "fault"), (11.0, "warning"), (13.0, None)]
    )
    def test_holes_apart(self, frame: Assembly, apart: float, severity: str | None) -> None:
        """Two holes of 8 leave `apart` - 8: 1, 3, 5 against 2 and 4 wanted."""
        holes = [Hole(at=Point(x, 30.0), diameter=8.0) for x in (300.0, 300.0 + apart)]
        told = found(worked(frame, *holes), "webs", "thin-web")
        assert [(f.severity, f.measured) for f in told] == (
            [(severity, pytest.approx(apart - 8.0, abs=0.02))] if severity else []
        )

    def test_blind_holes_from_both_faces(self, frame: Assembly) -> None:
        """7 and 7 deep in 18 leave 4; 8 and 8 leave 2, which is less than wanted."""
        for depth, count in ((7.0, 0), (8.0, 1)):
            holes = [
                Hole(at=Point(300.0, 30.0), diameter=8.0, depth=depth, face=face)
                for face in ("show", "back")
            ]
            assert len(found(worked(frame, *holes), "webs", "thin-web")) == count

    def test_counterbore_belongs_to_its_hole(self, frame: Assembly) -> None:
        hole = Hole(at=Point(300.0, 30.0), diameter=8.0)
        bore = Counterbore(at=Point(300.0, 30.0), diameter=24.0, depth=6.0)
        assert run(worked(frame, hole, bore), only=("webs",)) == ()
        off = replace(bore, at=Point(301.0, 30.0))
        assert codes(worked(frame, hole, off), "webs") == {"thin-web"}

    def test_worked_twice(self, frame: Assembly) -> None:
        hole = Hole(at=Point(300.0, 30.0), diameter=8.0)
        assert "hole-doubled" in codes(worked(frame, hole, replace(hole)), "webs")

    def test_bolts_apart_by_table_8_4(self, frame: Assembly) -> None:
        """Four diameters across the grain: 32 for a bolt of 8."""
        for apart, count in ((31.0, 1), (33.0, 0)):
            holes = [
                Hole(at=Point(x, 30.0), diameter=8.0, fit="bolt in wood")
                for x in (300.0, 300.0 + apart)
            ]
            told = found(worked(frame, *holes), "webs", "bolts-apart")
            assert [f.limit for f in told] == [32.0] * count


class TestScrewsAndBolts:
    @pytest.mark.parametrize(
        ("asked", "value", "severity"),
        [
            ("bite", 5.0, "fault"),
            ("bite", 11.0, "warning"),
            ("tip_cover", 0.5, "fault"),
            ("tip_cover", 2.0, "warning"),
        ],
    )
    def test_screws(self, frame: Assembly, asked: str, value: float, severity: str) -> None:
        """The screw is slid along its axis: 1 mm of depth is 1 / cos 15 mm of way."""
        *rest, last = frame.fasteners
        sign = 1.0 if asked == "bite" else -1.0
        way = sign * (value - getattr(last, asked)) / math.cos(math.radians(15.0))
        slid = replace(last, start=last.start.plus(last.direction, way))
        told = run(replace(frame, fasteners=(*rest, slid)), only=("screws",))
        code = asked.replace("_", "-")
        assert (code, severity, last.key) in [(f.code, f.severity, f.part) for f in told]
        assert {f.part for f in told} == {last.key}

    @pytest.mark.parametrize(("value", "severity"), [(1.0, "fault"), (4.0, "warning")])
    def test_a_tip_near_an_edge(self, frame: Assembly, value: float, severity: str) -> None:
        *rest, last = frame.fasteners
        mate = frame.parts[last.passes[-1]]
        tip = mate.frame.local(last.start.plus(last.direction, last.length))
        shift = mate.frame.turn(Vec(0.0, value - tip.y, 0.0))
        moved = replace(last, start=last.start.plus(shift))
        told = run(replace(frame, fasteners=(*rest, moved)), only=("screws",))
        assert [(f.code, f.severity, f.part) for f in told] == [("tip-end", severity, last.key)]

    def test_what_a_joint_says_of_its_screw_isnt_believed(self, frame: Assembly) -> None:
        *rest, last = frame.fasteners
        said = replace(last, length=last.length + 20.0)
        told = run(replace(frame, fasteners=(*rest, said)), only=("screws",))
        assert "tip-cover" in {f.code for f in told}

    def test_remedy_counts_the_slope(self, frame: Assembly) -> None:
        """A lack of 1 mm over the tip wants 1 / cos 15 = 1.035 mm less of screw."""
        *rest, last = frame.fasteners
        assert last.tip_cover is not None
        way = last.tip_cover / math.cos(math.radians(15.0))
        slid = replace(last, start=last.start.plus(last.direction, way))
        (fault,) = found(replace(frame, fasteners=(*rest, slid)), "screws", "tip-cover")
        assert fault.remedy == "take a screw 1.0 mm shorter"
        way = (last.tip_cover + 19.0) / math.cos(math.radians(15.0))
        slid = replace(last, start=last.start.plus(last.direction, way))
        (fault,) = found(replace(frame, fasteners=(*rest, slid)), "screws", "tip-cover")
        assert fault.remedy == f"take a screw {20.0 / math.cos(math.radians(15.0)):.1f} mm shorter"

    def test_screw_without_figures_is_not_done(self, frame: Assembly) -> None:
        *rest, last = frame.fasteners
        piece = replace(frame, fasteners=(*rest, replace(last, passes=("nothing",))))
        assert codes(piece, "screws", "not done") == {"screw"}

    @pytest.mark.parametrize(("thickness", "caught"), [(11.9, True), (12.0, False), (39.0, True)])
    def test_board_that_the_jig_does_not_take(
        self, frame: Assembly, changed: Change, thickness: float, caught: bool
    ) -> None:
        """Its profile: 12 to 38.5."""
        from flatpack.parameters import replace as altered

        board = altered(frame.parts["end-rail"].board, thickness=thickness)
        piece = changed(frame, "end-rail", board=board)
        assert bool(found(piece, "screws", "pocket-jig")) is caught

    def test_bolt_lengths(self, frame: Assembly) -> None:
        """Two boards of 18, a washer and a nut: shorter bolts don't show a thread.

        ISO 888: a bolt M8 up to 125 long has 2 x 8 + 6 = 22 of thread, so one of 100 has 78
        without, more than the grip of 36 and a washer.
        """
        first, *rest = frame.fasteners
        for length, code in ((45.0, "bolt-too-short"), (100.0, "thread-too-short")):
            piece = replace(frame, fasteners=(replace(first, length=length), *rest))
            assert codes(piece, "bolts") == {code}
        (told,) = run(piece, only=("bolts",))
        assert told.limit == 78.0

    def test_bolt_of_unknown_joint_is_not_done(self, frame: Assembly) -> None:
        first, *rest = frame.fasteners
        piece = replace(frame, fasteners=(replace(first, joint="none"), *rest))
        assert codes(piece, "bolts", "not done") == {"bolt"}


class TestDrivers:
    def blocked(self, piece: Assembly) -> set[str]:
        return {f.part for f in found(piece, "drivers", "driver-blocked")}

    def with_panel(self, unmade: Assembly, step: str, profiles: Profiles) -> Assembly:
        """A panel under the deck, screwed to a leg at a step, in the way of the slats' screws."""
        panel = replace(
            unmade.parts["end-rail"], key="panel", name="panel", outline=rectangle(564.0, 200.0),
            frame=Frame(Vec(170.0, 18.0, 180.0), Y, X, Z.negated()),
        )  # fmt: skip
        from flatpack.joinery import GluedFaces

        joint = GluedFaces(key="panel-glue", step=step, block="panel", onto="leg-left")
        return machine(
            replace(
                unmade, parts={**unmade.parts, "panel": panel}, joints=(*unmade.joints, joint),
                steps=(*unmade.steps, Step("last", "Last")),
            )
        )  # fmt: skip

    def test_panel_before_the_deck_is_in_the_way(
        self, unmade: Assembly, profiles: Profiles
    ) -> None:
        piece = self.with_panel(unmade, "frame", profiles)
        assert any(part.endswith("/ panel") for part in self.blocked(piece))

    def test_panel_after_the_deck_is_not(self, unmade: Assembly, profiles: Profiles) -> None:
        assert self.blocked(self.with_panel(unmade, "last", profiles)) == set()

    def test_a_part_not_joined_yet_is_not_in_the_way(
        self, unmade: Assembly, profiles: Profiles
    ) -> None:
        piece = self.with_panel(unmade, "frame", profiles)
        loose = tuple(j for j in piece.joints if j.key != "panel-glue")
        assert self.blocked(replace(piece, joints=loose)) == set()


class TestSlats:
    @pytest.mark.parametrize(
        ("move", "codes_told"),
        [(0.0, set()), (-16.0, {"slat-gap"}), (-18.5, {"slat-gap"}), (20.0, {"slat-gap"})],
    )
    def test_gaps(
        self, frame: Assembly, shifted: Change, move: float, codes_told: set[str]
    ) -> None:
        """Gaps of 18, changed by `move` between the last two: 2 is narrow, 38 wide, -0.5 none."""
        piece = shifted(frame, "slat-3", move, 0.0, 0.0)
        told = run(piece, only=("slats",))
        assert {f.code for f in told} == codes_told
        assert [f.measured for f in told] == ([18.0 + move] if codes_told else [])
        assert [f.severity == "fault" for f in told] == ([move < -18.0] if codes_told else [])

    def test_swelling_of_solid_slats(
        self, frame: Assembly, changed: Change, shifted: Change, profiles: Profiles
    ) -> None:
        """Two slats of 60 that move 0.0026 a percent lose 60 x 0.0026 x 8 = 1.25 of a gap of 4."""
        from flatpack.parameters import replace as altered

        board = altered(frame.parts["slat-1"].board, movement=0.0026)
        for gap, caught in ((4.0, False), (2.6, True)):
            piece = shifted(frame, "slat-3", gap - 18.0, 0.0, 0.0)
            for key in ("slat-2", "slat-3"):
                piece = changed(piece, key, board=board)
            told = found(piece, "slats", "slat-gap-wet")
            assert [f.measured for f in told] == ([pytest.approx(2.6 - 1.248)] if caught else [])

    def test_slats_not_parallel_are_not_done(self, frame: Assembly, changed: Change) -> None:
        tipped = frame.parts["slat-2"].frame.swung(Vec(0.0, 0.0, 300.0), 10.0)
        assert codes(changed(frame, "slat-2", frame=tipped), "slats", "not done") == {"slat-gaps"}


class TestNotches:
    """A rod of 22 in a round-bottomed notch whose floor is 15 below the rack's edge."""

    def rack(self, frame: Assembly, key: str, y: float, *, at: float, told: float) -> Part:
        outline = closed(
            ((0, 0, 0), (200, 0, 0), (200, 60, 0), (at + 11, 60, 0), (at + 11, 45, -1),
             (at - 11, 45, 0), (at - 11, 60, 0), (0, 60, 0))
        )  # fmt: skip
        notch = Notch(at=Point(told, 45.0), number=1, diameter=22.0, shape="half-round")
        return replace(
            frame.parts["leg-left"], key=key, name="Rack", hand="", outline=outline,
            features=(notch,), frame=Frame(Vec(500.0, y, 205.0), X, Z, Y),
        )  # fmt: skip

    def piece(self, frame: Assembly, **left: float) -> Assembly:
        racks = [
            self.rack(frame, "rack-left", 20.0, **left),
            self.rack(frame, "rack-right", 500.0, at=100.0, told=100.0),
        ]
        return Assembly(family="t", name="t", parts={p.key: p for p in racks})

    def test_sound(self, frame: Assembly) -> None:
        assert run(self.piece(frame, at=100.0, told=100.0), only=("notches",)) == ()

    def test_outline_shifted_under_its_notch(self, frame: Assembly) -> None:
        (fault,) = run(self.piece(frame, at=101.0, told=100.0), only=("notches",))
        assert (fault.code, fault.part) == ("notch-off", "rack-left")
        assert fault.measured == pytest.approx(-1.0, abs=0.02)

    def test_whole_notch_shifted_on_one_rack(self, frame: Assembly) -> None:
        (fault,) = run(self.piece(frame, at=101.0, told=101.0), only=("notches",))
        assert (fault.code, fault.measured) == ("notches-out-of-line", 1.0)
