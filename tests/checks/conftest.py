"""A small frame with every kind of joint, sound as it stands, for tests to break.

y ^      rail-right  =====================     z up; the frame stands on two legs, an end
  |      |end rail|        slats               rail joins the rails, three slats lie across
  +----> x  rail-left ====================     them, and a rod runs from rail to rail
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.geometry.shapes import rectangle
from flatpack.joinery import BarInHoles, BoltThrough, PocketScrews, machine
from flatpack.model import Assembly, Bar, Joint, Part, Step, axis_frame
from flatpack.profile_files import profile_texts
from flatpack.profiles import Profiles, load

WIDTH = 600.0
T = 18.0


@pytest.fixture(scope="session")
def profiles() -> Profiles:
    return load(profile_texts())


def plank(
    profiles: Profiles, key: str, length: float, width: float, frame: Frame, **more: object
) -> Part:
    """A rectangular part of 18 mm plywood."""
    board = replace_thickness(profiles)
    made = Part(key=key, name=key, board=board, outline=rectangle(length, width), frame=frame)
    return replace(made, **more)  # type: ignore[arg-type]  # keys differ from test to test


def replace_thickness(profiles: Profiles) -> object:
    from flatpack.parameters import replace as changed

    return changed(profiles.board("ply-18"), thickness=T)


def _parts(profiles: Profiles) -> list[Part]:
    rail = plank(
        profiles, "rail-left", 800.0, 100.0, Frame(Vec(0.0, T, 200.0), X, Z, Y.negated()),
        name="Side rail", hand="left",
    )  # fmt: skip
    leg = plank(
        profiles, "leg-left", 300.0, 70.0, Frame(Vec(100.0, T, 0.0), Z, X, Y),
        name="Leg", hand="left",
    )  # fmt: skip
    end = plank(profiles, "end-rail", WIDTH - 2 * T, 100.0, Frame(Vec(0.0, T, 200.0), Y, Z, X))
    slats = [
        plank(
            profiles, f"slat-{n}", WIDTH, 60.0,
            Frame(Vec(182.0 + 78.0 * n, 0.0, 300.0), Y, X.negated(), Z), name="Slat",
        )
        for n in (1, 2, 3)
    ]  # fmt: skip
    return [
        rail, rail.other_hand("rail-right", WIDTH / 2.0),
        leg, leg.other_hand("leg-right", WIDTH / 2.0), end, *slats,
    ]  # fmt: skip


def _bolts(profiles: Profiles) -> list[Joint]:
    made: list[Joint] = []
    for side, way, y in (("left", Y, 0.0), ("right", Y.negated(), WIDTH)):
        for number, z in ((1, 230.0), (2, 266.0)):
            made.append(
                BoltThrough(
                    key=f"leg-bolt-{side}-{number}", step="frame",
                    through=(f"rail-{side}", f"leg-{side}"), place=Vec(135.0, y, z),
                    direction=way, bolt=profiles.coach_bolt("coach-m8"),
                    nut=profiles.nut("lock-m8"), washer=profiles.washer("washer-m8"),
                )
            )  # fmt: skip
    return made


def pocket_screws(
    profiles: Profiles, key: str, through: str, into: str, outward: Vec, face: Vec, **more: object
) -> PocketScrews:
    made = PocketScrews(
        key=key, step="frame", through=through, into=into, outward=outward, pocket_face=face,
        count=2, jig=profiles.pocket_jig("pocket-15"), screw=profiles.screw("pocket-coarse"),
    )  # fmt: skip
    return replace(made, **more)  # type: ignore[arg-type]  # keys differ from test to test


def _joints(profiles: Profiles) -> list[Joint]:
    ends = [
        pocket_screws(profiles, f"end-to-{side}", "end-rail", f"rail-{side}", way, X)
        for side, way in (("left", Y.negated()), ("right", Y))
    ]
    slats = [
        pocket_screws(
            profiles, f"slat-{n}-{side}", f"rail-{side}", f"slat-{n}", Z, face, step="deck"
        )
        for n in (1, 2, 3)
        for side, face in (("left", Y), ("right", Y.negated()))
    ]
    rod = BarInHoles(
        key="rod-in-rails", step="frame", bar="rod", holders=("rail-left", "rail-right")
    )
    return [*_bolts(profiles), *ends, rod, *slats]


@pytest.fixture(scope="session")
def unmade(profiles: Profiles) -> Assembly:
    """The frame before its joints have worked the parts."""
    stock = profiles.rod("hardwood-22")
    rod = Bar(
        key="rod", name="Rod", stock=stock, length=WIDTH,
        frame=axis_frame(Vec(600.0, 0.0, 250.0), Y),
    )  # fmt: skip
    return Assembly(
        family="test", name="frame", parts={p.key: p for p in _parts(profiles)},
        bars={"rod": rod}, joints=tuple(_joints(profiles)),
        steps=(Step("frame", "Frame"), Step("deck", "Deck")),
    )  # fmt: skip


@pytest.fixture(scope="session")
def frame(unmade: Assembly) -> Assembly:
    """The frame, sound."""
    return machine(unmade)


@pytest.fixture(scope="session")
def changed() -> Callable[..., Assembly]:
    """A copy of a piece with one part changed: `changed(piece, key, outline=...)`."""

    def change(piece: Assembly, key: str, **values: object) -> Assembly:
        part = replace(piece.parts[key], **values)  # type: ignore[arg-type]  # a part's own fields
        return replace(piece, parts={**piece.parts, key: part})

    return change


@pytest.fixture(scope="session")
def shifted(changed: Callable[..., Assembly]) -> Callable[..., Assembly]:
    """A copy of a piece with one part moved: `shifted(piece, key, dx, dy, dz)`."""

    def shift(piece: Assembly, key: str, dx: float, dy: float, dz: float) -> Assembly:
        old = piece.parts[key].frame
        return changed(piece, key, frame=replace(old, origin=old.origin.plus(Vec(dx, dy, dz))))

    return shift
