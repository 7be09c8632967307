"""Joints that come apart: sound as made, and each way of getting them wrong is caught."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from flatpack.checks import run
from flatpack.features import EdgeHole, Hole
from flatpack.geometry import Frame, Point, Vec, X, Y, Z
from flatpack.geometry.shapes import rectangle
from flatpack.joinery import BarrelNutBolt, BoltThrough, InsertBolt, machine
from flatpack.model import Assembly, Joint
from flatpack.profiles import Profiles

Change = Callable[..., Assembly]


def pair(frame: Assembly, *joints: Joint) -> Assembly:
    """A leg whose end meets another board's face: `post` stands on `base`, both 18 thick.

    base lies flat from z = 0 to 18; post stands on it, its end at z = 18, its faces at y = 41..59.
    """
    leg = frame.parts["leg-left"]
    base = replace(
        leg, key="base", name="base", hand="", features=(), outline=rectangle(300.0, 100.0),
        frame=Frame(Vec(0.0, 0.0, 0.0), X, Y, Z),
    )  # fmt: skip
    post = replace(
        leg, key="post", name="post", hand="", features=(), outline=rectangle(200.0, 80.0),
        frame=Frame(Vec(100.0, 59.0, 18.0), Z, X, Y.negated()),
    )  # fmt: skip
    # z of a right-handed frame: Z cross X = Y, so this one is mirrored; the joints must cope.
    return machine(
        Assembly(family="t", name="t", parts={"base": base, "post": post}, joints=joints)
    )


@pytest.fixture
def barrel(profiles: Profiles) -> BarrelNutBolt:
    return BarrelNutBolt(
        key="barrel", step="s", through="base", into="post", place=Vec(140.0, 50.0, 0.0),
        direction=Z, nut_face=Y, depth=35.0, bolt=profiles.furniture_bolt("furniture-m6"),
        nut=profiles.barrel_nut("barrel-m6-12"),
    )  # fmt: skip


def faults(piece: Assembly) -> list[tuple[str, str]]:
    return [(f.code, f.part) for f in run(piece) if f.severity in ("fault", "not done")]


def test_barrel_nut_is_sound(frame: Assembly, barrel: BarrelNutBolt) -> None:
    piece = pair(frame, barrel)
    assert faults(piece) == []
    kinds = {type(f) for f in piece.parts["post"].features}
    assert kinds == {EdgeHole, Hole}


def test_cross_hole_moved_sideways(frame: Assembly, barrel: BarrelNutBolt, changed: Change) -> None:
    piece = pair(frame, barrel)
    features = tuple(
        replace(f, at=Point(f.at.x, f.at.y + 2.0)) if isinstance(f, Hole) else f
        for f in piece.parts["post"].features
    )
    assert ("hole-unused", "post") in faults(changed(piece, "post", features=features))


def test_tunnel_moved(frame: Assembly, barrel: BarrelNutBolt, changed: Change) -> None:
    piece = pair(frame, barrel)
    features = tuple(
        replace(f, at=Point(f.at.x, f.at.y + 2.0)) if isinstance(f, EdgeHole) else f
        for f in piece.parts["post"].features
    )
    assert ("hole-off-axis", "post") in faults(changed(piece, "post", features=features))


def test_bolt_bottoms_or_hardly_holds(frame: Assembly, barrel: BarrelNutBolt) -> None:
    """Through 18, the nut's middle 35 further, 10 or 12 across: 40 mm of bolt hardly reach it."""
    piece = pair(frame, barrel)
    (bolt,) = piece.fasteners
    for length, code in ((40.0, "thread-held"), (bolt.length + 20.0, "bolt-bottoms")):
        wrong = replace(piece, fasteners=(replace(bolt, length=length),))
        assert code in {f.code for f in run(wrong, only=("bolts",)) if f.severity == "fault"}


def test_insert_is_sound(frame: Assembly, profiles: Profiles) -> None:
    """From the post's face into an edge would split; this one goes down through the base's face."""
    joint = InsertBolt(
        key="insert", step="s", through="base", into="post", place=Vec(140.0, 50.0, 0.0),
        direction=Z, bolt=profiles.furniture_bolt("furniture-m6"),
        insert=profiles.insert("insert-m6"),
    )  # fmt: skip
    assert faults(pair(frame, joint)) == []


@pytest.mark.parametrize(("off", "caught"), [(0.0, False), (6.0, True)])
def test_bolt_lying_in_its_own_tunnel_shares_no_room(
    frame: Assembly, profiles: Profiles, changed: Change, off: float, caught: bool
) -> None:
    """A bolt down the whole post runs in an edge hole, no prism square to the faces."""
    joint = BoltThrough(
        key="long", step="s", through=("base", "post"), place=Vec(140.0, 50.0, 0.0), direction=Z,
        bolt=profiles.coach_bolt("coach-m6"), nut=profiles.nut("lock-m6"),
        washer=profiles.washer("washer-m6"),
    )  # fmt: skip
    piece = pair(frame, joint)
    piece = changed(piece, "post", features=tuple(
        replace(f, at=Point(f.at.x, f.at.y + off)) for f in piece.parts["post"].features
        if isinstance(f, EdgeHole)
    ))  # fmt: skip
    found = {f.part for f in run(piece, only=("space",))}
    assert found == ({"post / long"} if caught else set())
