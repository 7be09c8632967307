"""The bench's joints up to the seat: leg frames, stretchers, cleats and slats."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import pairwise

from flatpack.geometry import ORIGIN, Vec, X, Y, Z
from flatpack.joinery import BarrelNutBolt, FaceScrews, InsertBolt, PocketScrews
from flatpack.joinery.axis import extent
from flatpack.model import Joint, Part
from flatpack.pieces.bench.parameters import Bench
from flatpack.pieces.bench.parts import names_of_frames, stretcher_middle
from flatpack.pieces.bench.setting_out import SettingOut

Parts = Mapping[str, Part]
EDGE_IN_BOLTS = 3.0
"""Edge distance of a bolt in its diameters: a4,c of Eurocode 5 table 8.4 (3 d)."""
END_IN_BOLTS = 4.0
"""End distance of a bolt in its diameters where no load pulls that way: a3,c of the same (4 d)."""


WOOD_BETWEEN = 4.0
"""From a screw's countersink or a bolt to the pocket beside it, mm (common practice, no source)."""
FIXING_HEIGHT = 14.0
"""Least height of a cleat's screws or bolts above its lower edge, mm, under the pockets."""


CLEAR_OF_POCKETS = 14.0
"""From the pockets in a rail's ends to the next hole, mm (common practice, no source)."""


def pockets(p: Bench, out: SettingOut, **given: object) -> PocketScrews:
    """Pocket screws with the bench's jig, screw and tip cover."""
    return PocketScrews(
        jig=out.stock.jig,
        screw=out.stock.pocket_screw,
        tip_cover=p.fixings.tip_cover,
        **given,  # type: ignore[arg-type]  # keywords are PocketScrews' own
    )


def inner(name: str) -> Vec:
    """The way the inner face of a leg frame's parts looks."""
    return Y.negated() if name == "right" else Y


def leg_frame_joints(p: Bench, out: SettingOut, name: str) -> Iterator[Joint]:
    """Rails between the legs of one frame."""
    for rail in ("seat-rail", "low-rail"):
        for where, way in (("front", X.negated()), ("rear", X)):
            yield pockets(
                p,
                out,
                key=f"{rail}-{name}-to-{where}-leg",
                step="leg frames",
                through=f"{rail}-{name}",
                into=f"leg-{where}-{name}",
                outward=way,
                pocket_face=inner(name),
                count=2,
            )


def stretcher_joints(p: Bench, out: SettingOut) -> Iterator[Joint]:
    """Stretchers between neighbouring frames: pocket screws or barrel nuts."""
    named = names_of_frames(out)
    for i, (left, right) in enumerate(pairwise(named), 1):
        for (name, _), way in ((left, Y.negated()), (right, Y)):
            if p.construction == "knock-down":
                yield from _stretcher_bolts(p, out, i, name, way)
            else:
                yield pockets(
                    p,
                    out,
                    key=f"stretcher-{i}-to-{name}",
                    step="stretcher",
                    through=f"stretcher-{i}",
                    into=f"low-rail-{name}",
                    outward=way,
                    pocket_face=X,
                    count=2,
                )


def _stretcher_bolts(
    p: Bench, out: SettingOut, number: int, name: str, way: Vec
) -> Iterator[Joint]:
    frame = dict(names_of_frames(out))[name]
    width = out.widths.stretcher
    low = p.frames.low_rail_height + (out.widths.low_rail - width) / 2.0
    middle = stretcher_middle(p, out, number)
    for bolt, share in enumerate((0.3, 0.7), 1):
        place = Vec(middle, frame, low + width * share)
        yield BarrelNutBolt(
            key=f"stretcher-{number}-to-{name}-bolt-{bolt}",
            step="stretcher",
            through=f"low-rail-{name}",
            into=f"stretcher-{number}",
            place=place,
            direction=way.negated(),
            nut_face=X,
            depth=32.0,
            bolt=out.stock.undoing,
            nut=out.stock.barrel_nut,
            use="stretcher",
        )


def seat_joints(p: Bench, out: SettingOut) -> Iterator[Joint]:
    """Seat slats on the cleats."""
    for i in range(1, out.seat.count + 1):
        for name, _ in names_of_frames(out):
            yield pockets(
                p,
                out,
                key=f"slat-{i}-on-{name}",
                step="seat",
                through=f"cleat-{name}",
                into=f"slat-{i}",
                outward=Z,
                pocket_face=inner(name),
                count=p.seat.screws,
                glue=p.construction == "workshop",
            )


def pocket_reach(out: SettingOut) -> float:
    """How far in from an edge the pockets of the frames' board reach, mm."""
    slope = math.radians(out.stock.jig.angle)
    half = out.stock.frames.thickness / 2.0
    return half / math.tan(slope) + out.stock.jig.drill / 2.0 / math.sin(slope)


def cleat_joints(p: Bench, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Cleats on the seat rails: glued and screwed from inside, or bolted from outside."""
    for name, y in names_of_frames(out):
        cleat, rail = parts[f"cleat-{name}"], parts[f"seat-rail-{name}"]
        a0, a1 = extent(cleat, X, ORIGIN)
        b0, b1 = extent(rail, X, ORIGIN)
        inset = pocket_reach(out) + CLEAR_OF_POCKETS
        low, high = max(a0, b0 + inset), min(a1, b1 - inset)
        z = out.under_seat - cleat.width + _fixing_height(p, out, cleat.width)
        places = tuple(Vec(low + (high - low) * share, y, z) for share in (0.0, 1.0))
        if p.construction == "workshop":
            yield FaceScrews(
                key=f"cleat-{name}-on-rail",
                step="cleats",
                through=cleat.key,
                into=rail.key,
                places=places,
                direction=inner(name).negated(),
                screw=out.stock.wood_screw,
                tip_cover=p.fixings.tip_cover,
                glue=True,
            )
            continue
        for number, place in enumerate(places, 1):
            yield InsertBolt(
                key=f"cleat-{name}-bolt-{number}",
                step="cleats",
                through=rail.key,
                into=cleat.key,
                place=place,
                direction=inner(name),
                bolt=out.stock.undoing,
                insert=out.stock.insert,
                use="seat",
            )


def _fixing_height(p: Bench, out: SettingOut, width: float) -> float:
    """Edge distance of a cleat's fixings, as far as the pockets above leave room for it."""
    loose = p.construction == "knock-down"
    size = out.stock.undoing.diameter if loose else out.stock.wood_screw.diameter
    head = out.stock.insert.outer if loose else out.stock.wood_screw.head_diameter
    room = width - pocket_reach(out) - head / 2.0 - WOOD_BETWEEN
    return max(min(EDGE_IN_BOLTS * size, room), FIXING_HEIGHT)
