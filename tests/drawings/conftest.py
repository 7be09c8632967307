"""A small recliner made by hand: enough of every feature to draw, and not a family's default."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import pytest

from flatpack.drawings.settings import Settings
from flatpack.features import Notch
from flatpack.geometry import Frame, Point, Vec, X, Y, Z
from flatpack.geometry.shapes import filleted, rectangle, round_ended
from flatpack.joinery import (
    BarInHoles,
    BoltThrough,
    FaceScrews,
    PocketScrews,
    WheelsOnAxle,
    machine,
)
from flatpack.model import Assembly, Bar, Cutting, Part, Working
from flatpack.profile_files import ProfileTexts, shipped_folder
from flatpack.profiles import load

LONG, WIDE, DECK, RAIL, SLAT, GAP = 1500.0, 560.0, 330.0, 96.0, 62.0, 14.0
HINGE = 760.0
DOWN = Z.negated()


def _across(x: float, top: float, width: float) -> Frame:
    """Frame of a slat whose grain runs across the piece, show face up, from x to x + width."""
    return Frame(Vec(x + width, 0.0, top - 20.0), Y, X.negated(), Z)


def _handed(parts: dict[str, Part], part: Part, name: str) -> None:
    parts[f"{name}-left"] = replace(part, key=f"{name}-left", hand="left")
    parts[f"{name}-right"] = parts[f"{name}-left"].other_hand(f"{name}-right", WIDE / 2.0)


def _parts(ply, pine) -> dict[str, Part]:
    t, low = ply.thickness, DECK - pine.thickness - RAIL
    parts: dict[str, Part] = {}
    upright = Frame(Vec(0.0, t, low), X, Z, Y.negated())
    rail = Part(
        key="",
        name="side rail",
        board=ply,
        frame=upright,
        outline=filleted(((0, 0, 0), (LONG, 0, 30), (LONG, RAIL, 30), (0, RAIL, 0))),
    )
    _handed(parts, rail, "rail")
    for end, x, way in (("head", LONG - 60.0, Y), ("foot", 60.0, Y.negated())):
        start = Vec(x, t if way is Y else WIDE - t, low)
        parts[f"end-{end}"] = Part(
            key=f"end-{end}",
            name="end rail",
            board=ply,
            outline=rectangle(WIDE - 2 * t, RAIL),
            frame=Frame(start, way, Z, way.cross(Z)),
        )
    for number in range(9):
        key = f"slat-{number + 1}"
        parts[key] = Part(
            key=key,
            name="deck slat",
            board=pine,
            outline=rectangle(WIDE, SLAT),
            frame=_across(number * (SLAT + GAP), DECK, SLAT),
        )
    leg = Part(
        key="",
        name="leg",
        board=ply,
        outline=filleted(((0, 0, 12), (250, 0, 0), (250, 80, 0), (0, 80, 12))),
        frame=Frame(Vec(180.0, t, 0.0), Z, X.negated(), Y),
    )
    _handed(parts, leg, "leg")
    brace = Part(
        key="",
        name="back brace",
        board=ply,
        outline=rectangle(620.0, 60.0),
        group="back",
        frame=Frame(Vec(HINGE, 80.0, DECK - pine.thickness - 60.0), X, Z, Y.negated()),
    )
    _handed(parts, brace, "brace")
    for number in range(8):
        key = f"back-slat-{number + 1}"
        x = HINGE + number * (SLAT + GAP)
        parts[key] = Part(
            key=key,
            name="back slat",
            board=pine,
            group="back",
            outline=rectangle(WIDE - 2 * t - 20, SLAT),
            frame=replace(_across(x, DECK, SLAT), origin=Vec(x + SLAT, t + 10, DECK - 20.0)),
        )
    arm = Part(
        key="",
        name="prop arm",
        board=ply,
        outline=round_ended(210.0, 24.0),
        group="arm",
        frame=Frame(Vec(HINGE + 300.0, 62.0, DECK - 70.0), X, Z, Y.negated()),
    )
    _handed(parts, arm, "arm")
    return parts


def _joints(shelf) -> tuple[object, ...]:
    bolt, nut, washer = shelf.coach_bolt("coach-m8"), shelf.nut("lock-m8"), shelf.washer("wide-m8")
    screw, jig = shelf.screw("pocket-coarse"), shelf.get("pocket-jigs", "pocket-15")
    wood = shelf.screw("wood-4")
    joints: list[object] = []
    for hand, outward, y in (("left", Y.negated(), 0.0), ("right", Y, WIDE)):
        inward = outward.negated()
        for end, face in (("head", X.negated()), ("foot", X)):
            joints.append(
                PocketScrews(
                    key=f"{end}-{hand}",
                    step="frame",
                    through=f"end-{end}",
                    into=f"rail-{hand}",
                    outward=outward,
                    pocket_face=face,
                    count=2,
                    jig=jig,
                    screw=screw,
                )
            )
        for number in range(9):
            joints.append(
                PocketScrews(
                    key=f"slat-{number}-{hand}",
                    step="deck",
                    through=f"rail-{hand}",
                    into=f"slat-{number + 1}",
                    outward=Z,
                    pocket_face=inward,
                    count=1,
                    jig=jig,
                    screw=screw,
                )
            )
        for number, (x, z) in enumerate(((130.0, 238.0), (150.0, 224.0))):
            joints.append(
                BoltThrough(
                    key=f"leg-{hand}-{number}",
                    step="frame",
                    through=(f"rail-{hand}", f"leg-{hand}"),
                    place=Vec(x, y, z),
                    direction=inward,
                    bolt=bolt,
                    nut=nut,
                    washer=washer,
                    use="leg",
                )
            )
        pivot = Vec(HINGE + 300.0, y, DECK - 70.0)
        joints.append(
            BoltThrough(
                key=f"pivot-{hand}",
                step="back",
                through=(f"arm-{hand}", f"brace-{hand}"),
                place=pivot,
                direction=inward,
                bolt=bolt,
                nut=nut,
                washer=washer,
                turning=(f"arm-{hand}",),
                use="pivot",
            )
        )
        for number in range(8):
            brace_y = 71.0 if hand == "left" else WIDE - 71.0
            places = tuple(Vec(HINGE + number * (SLAT + GAP) + at, brace_y, 0.0) for at in (18, 44))
            joints.append(
                FaceScrews(
                    key=f"back-{number}-{hand}",
                    step="back",
                    through=f"back-slat-{number + 1}",
                    into=f"brace-{hand}",
                    places=places,
                    direction=DOWN,
                    screw=wood,
                )
            )
    joints.append(BarInHoles(key="rod", step="back", bar="rod", holders=("arm-left", "arm-right")))
    joints.append(
        BarInHoles(
            key="axle", step="frame", bar="axle", fit="free", holders=("rail-left", "rail-right")
        )
    )
    joints.append(
        WheelsOnAxle(
            key="wheels",
            step="frame",
            bar="axle",
            wheel=shelf.get("wheels", "wheel-200"),
            inner=60.0,
        )
    )
    return tuple(joints)


def build(shelf) -> Assembly:
    """The recliner with its back flat."""
    ply, pine = shelf.board("ply-18"), shelf.board("pine-20")
    along = Frame(Vec(0, 0, 0), Z, X, Y)
    rod_at = Vec(HINGE + 510.0, 40.0, DECK - 70.0)
    bars = {
        "rod": Bar(
            key="rod",
            name="prop rod",
            stock=shelf.get("rods", "hardwood-22"),
            group="rod",
            length=WIDE - 80.0,
            frame=replace(along, origin=rod_at),
            fit="fixed",
        ),
        "axle": Bar(
            key="axle",
            name="axle",
            stock=shelf.get("rods", "steel-16"),
            fit="free",
            length=WIDE + 120.0,
            frame=replace(along, origin=Vec(LONG - 160.0, -60.0, 240.0)),
        ),
    }
    piece = Assembly(
        family="recliner",
        name="Hand-made recliner",
        parts=_parts(ply, pine),
        bars=bars,
        joints=_joints(shelf),
        date="2031-04-05",
        spacers=(Cutting("gap spacer", 300.0, GAP, 2, "between slats"),),
        workings=(
            Working(
                "end rail length",
                WIDE - 2 * ply.thickness,
                f"{WIDE:g} overall - 2 x {ply.thickness:g} rail",
            ),
        ),
    )
    made = machine(piece)
    notch = Notch(at=Point(400.0, RAIL), number=1, diameter=22.0, shape="vee")
    parts = dict(made.parts)
    for hand in ("left", "right"):
        parts[f"rail-{hand}"] = parts[f"rail-{hand}"].with_features((notch,))
    return replace(made, parts=parts)


def raised(piece: Assembly, degrees: float) -> Assembly:
    """The recliner with its back up; arms and rod swing along, which is near enough to draw."""
    about = Vec(HINGE, 0.0, DECK)
    parts = {
        key: replace(p, frame=p.frame.swung(about, degrees)) if p.group != "frame" else p
        for key, p in piece.parts.items()
    }
    bars = {
        key: replace(b, frame=b.frame.swung(about, degrees)) if b.group == "rod" else b
        for key, b in piece.bars.items()
    }
    return replace(piece, parts=parts, bars=bars)


@pytest.fixture(scope="session")
def shelf():
    return load(ProfileTexts([shipped_folder()]))


@pytest.fixture(scope="session")
def piece(shelf):
    return build(shelf)


@pytest.fixture(scope="session")
def settings(shelf, piece):
    return Settings(
        workshop=shelf.get("workshops", "default"),
        code="7K3M-9QXA",
        poses={"back flat": piece, "back up": raised(piece, 50.0)},
    )


@pytest.fixture(scope="session")
def sizes():
    return SimpleNamespace(
        long=LONG, wide=WIDE, deck=DECK, rail=RAIL, slat=SLAT, gap=GAP, hinge=HINGE
    )
