"""Joints of the leg frames, and of the aprons, bearers and stretcher between them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from flatpack.geometry import Vec, X, Y, Z
from flatpack.joinery import BarrelNutBolt, FaceScrews
from flatpack.model import Joint, Part
from flatpack.pieces.common.fixings import pockets
from flatpack.pieces.common.leg_frames import cleat_joints, inner, rail_joints, stretcher_joints
from flatpack.pieces.common.slatted.plan import Plan
from flatpack.pieces.common.slatted.setting_out import SettingOut
from flatpack.pieces.common.slatted.slat_screws import pockets_at
from flatpack.pieces.common.slatted.spacing import (
    all_across,
    bolt_heights,
    end_heights,
    nut_depth,
    taken,
)

Parts = Mapping[str, Part]
SIDES = ("left", "right")
ROOM_FOR_DRIVER = 340.0
"""Least room between two aprons for a long bit and the driver behind it, mm: 150 of bit and 120 of
driver at a slope, behind a pocket that ends 68 from the end (common practice, no source)."""
BITE = 10.0
"""Screws into a bearer's end bite this many diameters in its end grain, if sold so long."""


def frame_joints(p: Plan, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Rails between the legs, then what joins the two frames, and the stretcher."""
    rails = ("top-rail", "low-rail") if p.rails.low else ("top-rail",)
    for name in SIDES:
        near = {rail: all_across(parts[f"{rail}-{name}"], Z) for rail in rails}
        yield from rail_joints(out.stock, name, rails, near)
    for where in ("front", "rear"):
        for name in SIDES:
            join = _apron_bolts if p.loose else _apron_pockets
            yield from join(out, parts, where, name)
    yield from _bearer_joints(p, out, parts)
    for name in SIDES:
        bearer, rail = parts[f"bearer-{name}"], parts[f"top-rail-{name}"]
        step = "legs" if p.loose else "bearers"
        yield from cleat_joints(
            out.stock,
            bearer,
            rail,
            name,
            step,
            loose=p.loose,
            use="top",
            pockets_at=pockets_at(p, out),
        )
    if p.rails.low:
        yield from stretcher_joints(out.stock, out.frames, parts, loose=p.loose)


def inwards(where: str) -> Vec:
    """The way an apron's inner face looks."""
    return X if where == "front" else X.negated()


def _apron_pockets(out: SettingOut, parts: Parts, where: str, name: str) -> Iterator[Joint]:
    apron = parts[f"apron-{where}"]
    yield pockets(
        out.stock,
        key=f"apron-{where}-to-{name}-leg",
        step="aprons",
        through=apron.key,
        into=f"leg-{where}-{name}",
        outward=inner(name).negated(),
        pocket_face=inwards(where),
        count=2,
        avoid=all_across(apron, Z),
    )


def _apron_bolts(out: SettingOut, parts: Parts, where: str, name: str) -> Iterator[Joint]:
    """Bolts through a leg into barrel nuts in the apron's end, past the end bearer's end."""
    apron, kit = parts[f"apron-{where}"], out.stock
    middle = apron.frame.place(0.0, 0.0, apron.thickness / 2.0)
    for number, z in enumerate(bolt_heights(out), 1):
        yield BarrelNutBolt(
            key=f"apron-{where}-to-{name}-leg-bolt-{number}",
            step="legs",
            through=f"leg-{where}-{name}",
            into=apron.key,
            place=Vec(middle.x, out.frames[0], z),
            direction=inner(name),
            nut_face=inwards(where),
            depth=nut_depth(out),
            bolt=kit.undoing,
            nut=kit.barrel_nut,
            use="leg frame to apron",
        )


def _bearer_joints(p: Plan, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Bearers between the aprons: all of them where the top holds together by itself.

    Else the end ones are glued and screwed to the rails.  Their holes stand on the face away from
    the slats' pockets.
    """
    join = _by_pockets if out.bearers.length >= ROOM_FOR_DRIVER else _by_screws
    if p.loose:
        for name in SIDES:
            yield from join(out, parts[f"bearer-{name}"], inner(name).negated(), bolted=True)
    for number in range(1, len(out.middles) + 1):
        yield from join(out, parts[f"bearer-middle-{number}"], Y.negated(), bolted=False)


def _by_pockets(out: SettingOut, bearer: Part, face: Vec, *, bolted: bool) -> Iterator[Joint]:
    hole, neck = out.stock.jig.drill / 2.0, out.stock.pocket_screw.diameter / 2.0
    spots = taken(out, hole, neck, bolted=bolted)
    for where in ("front", "rear"):
        yield pockets(
            out.stock,
            key=f"{bearer.key}-to-{where}-apron",
            step="bearers",
            through=bearer.key,
            into=f"apron-{where}",
            outward=inwards(where).negated(),
            pocket_face=face,
            count=2,
            avoid=tuple((Vec(0.0, 0.0, (a + b) / 2.0), (b - a) / 2.0) for a, b in spots),
        )


def _by_screws(out: SettingOut, bearer: Part, _: Vec, *, bolted: bool) -> Iterator[Joint]:
    """Through the apron's face, where there is no room between the aprons to drive from inside."""
    screw = out.stock.wood_screw
    middle = bearer.frame.place(0.0, 0.0, bearer.thickness / 2.0)
    heights = end_heights(out, screw, bolted=bolted)
    for where in ("front", "rear"):
        yield FaceScrews(
            key=f"{bearer.key}-to-{where}-apron",
            step="bearers",
            through=f"apron-{where}",
            into=bearer.key,
            places=tuple(Vec(middle.x, middle.y, z) for z in heights),
            direction=inwards(where),
            screw=screw,
            tip_cover=out.stock.tip_cover,
            most_bite=BITE * screw.diameter,
            glue=True,
        )
