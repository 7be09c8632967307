"""The bench's joints, in the order of making."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from flatpack.geometry import Vec, X, Y, Z, cosine_sine
from flatpack.joinery import (
    BarrelNutBolt,
    BoltThrough,
    FaceScrews,
    InsertBolt,
    PocketScrews,
)
from flatpack.joinery.axis import extent
from flatpack.model import Joint, Part, Step
from flatpack.pieces.bench.parameters import Bench
from flatpack.pieces.bench.parts import arm_top, names_of_frames
from flatpack.pieces.bench.setting_out import SettingOut

Parts = Mapping[str, Part]

WORKSHOP_STEPS = (
    Step("leg frames", "Leg frames: rails between the legs"),
    Step("stretcher", "Stretcher between the frames"),
    Step("posts", "Back posts on the rear legs"),
    Step("seat", "Seat slats"),
    Step("back", "Back slats"),
    Step("arm tops", "Arm rests on their posts"),
    Step("arms", "Arms to the frames"),
)
KNOCK_DOWN_STEPS = (
    Step("leg frames", "Leg frames: rails between the legs"),
    Step("seat", "Seat slats on their cleats"),
    Step("arm tops", "Arm rests on their posts"),
    Step("stretcher", "Stretcher between the frames"),
    Step("seat on", "Seat bolted into the frames"),
    Step("posts", "Back posts on the rear legs"),
    Step("back", "Back slats"),
    Step("arms", "Arms to the frames"),
)

EDGE_IN_BOLTS = 3.0
"""Edge distance of a bolt in its diameters: a4,c of Eurocode 5 table 8.4 (3 d)."""


def steps(p: Bench) -> tuple[Step, ...]:
    """Steps in order, less those that this bench doesn't have."""
    gone = set() if p.back.use else {"posts", "back"}
    gone |= set() if p.back.use and p.arms.use else {"arm tops", "arms"}
    every = KNOCK_DOWN_STEPS if p.construction == "knock-down" else WORKSHOP_STEPS
    return tuple(step for step in every if step.key not in gone)


def joints(p: Bench, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Every joint of the bench."""
    for name, _ in names_of_frames(out):
        yield from _leg_frame(p, out, name)
    yield from _stretchers(p, out)
    yield from _seat(p, out, parts)
    if p.construction == "knock-down":
        yield from _seat_on(p, out, parts)
    if p.back.use:
        yield from _posts(p, out)
        yield from _back(p, out)
        if p.arms.use:
            yield from _arms(p, out)


def _pockets(p: Bench, out: SettingOut, **given: object) -> PocketScrews:
    return PocketScrews(
        jig=out.stock.jig,
        screw=out.stock.pocket_screw,
        tip_cover=p.fixings.tip_cover,
        **given,  # type: ignore[arg-type]  # keywords are PocketScrews' own
    )


def _inner(name: str) -> Vec:
    """The way the inner face of a leg frame's parts looks."""
    return Y.negated() if name == "right" else Y


def _leg_frame(p: Bench, out: SettingOut, name: str) -> Iterator[Joint]:
    for rail in ("seat-rail", "low-rail"):
        for where, way in (("front", X.negated()), ("rear", X)):
            yield _pockets(
                p,
                out,
                key=f"{rail}-{name}-to-{where}-leg",
                step="leg frames",
                through=f"{rail}-{name}",
                into=f"leg-{where}-{name}",
                outward=way,
                pocket_face=_inner(name),
                count=2,
            )


def _stretchers(p: Bench, out: SettingOut) -> Iterator[Joint]:
    named = names_of_frames(out)
    for i, (left, right) in enumerate(zip(named, named[1:], strict=False), 1):
        for (name, _), way in ((left, Y.negated()), (right, Y)):
            if p.construction == "knock-down":
                yield from _stretcher_bolts(p, out, i, name, way)
            else:
                yield _pockets(
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
    t, width = out.stock.frames.thickness, out.widths.stretcher
    low = p.frames.low_rail_height + (out.widths.low_rail - width) / 2.0
    alone = len(out.frames) == 2
    aside = 0.0 if alone else 0.75 * t * (1.0 if number % 2 else -1.0)
    for bolt, share in enumerate((0.3, 0.7), 1):
        place = Vec(p.size.depth / 2.0 + aside, frame, low + width * share)
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


def _carriers(p: Bench, name: str) -> tuple[str, ...]:
    """Parts of a frame that a seat slat may be screwed to."""
    if p.construction == "knock-down":
        return (f"cleat-{name}",)
    return (f"leg-front-{name}", f"seat-rail-{name}", f"leg-rear-{name}")


def _seat(p: Bench, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    for i in range(1, out.seat.count + 1):
        for name, _ in names_of_frames(out):
            carrier = _most_under(parts, _carriers(p, name), f"slat-{i}")
            yield _pockets(
                p,
                out,
                key=f"slat-{i}-on-{name}",
                step="seat",
                through=carrier,
                into=f"slat-{i}",
                outward=Z,
                pocket_face=_inner(name),
                count=p.seat.screws,
                avoid=tuple(_rail_pockets(out, parts[carrier])),
                glue=p.construction == "workshop",
            )


def _most_under(parts: Parts, carriers: tuple[str, ...], slat: str) -> str:
    """The carrier that most of the slat's width lies on."""

    def shared(key: str) -> float:
        a0, a1 = extent(parts[key], X, Vec(0.0, 0.0, 0.0))
        b0, b1 = extent(parts[slat], X, Vec(0.0, 0.0, 0.0))
        return min(a1, b1) - max(a0, b0)

    return max(carriers, key=shared)


def _rail_pockets(out: SettingOut, carrier: Part) -> Iterator[tuple[Vec, float]]:
    """Stretches of a rail's edge beside the pockets in its ends: place and half length."""
    if not carrier.key.startswith("seat-rail"):
        return
    slope = math.radians(out.stock.jig.angle)
    reach = carrier.thickness / 2.0 / math.tan(slope) + out.stock.jig.drill / 2.0 / math.sin(slope)
    for end in (0.0, carrier.length):
        yield carrier.frame.place(end, 0.0), reach + out.stock.jig.drill / 2.0 + 4.0


def _seat_on(p: Bench, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    for name, y in names_of_frames(out):
        cleat = parts[f"cleat-{name}"]
        rail = parts[f"seat-rail-{name}"]
        a0, a1 = extent(cleat, X, Vec(0.0, 0.0, 0.0))
        b0, b1 = extent(rail, X, Vec(0.0, 0.0, 0.0))
        low, high = max(a0, b0), min(a1, b1)
        z = out.under_seat - cleat.width + 16.0
        way = Y.negated() if name == "right" else Y
        start = y + (out.stock.frames.thickness if name == "right" else 0.0)
        for number, share in enumerate((0.25, 0.75), 1):
            yield InsertBolt(
                key=f"cleat-{name}-bolt-{number}",
                step="seat on",
                through=rail.key,
                into=cleat.key,
                place=Vec(low + (high - low) * share, start, z),
                direction=way,
                bolt=out.stock.undoing,
                insert=out.stock.insert,
                use="seat",
            )


def _posts(p: Bench, out: SettingOut) -> Iterator[Joint]:
    d = out.stock.bolt.diameter
    edge = EDGE_IN_BOLTS * d
    heights = (out.under_seat - p.back.lap + edge + 8.0, out.under_seat - edge - 8.0)
    for name, y in names_of_frames(out):
        way = _inner(name)
        start = y + (out.stock.frames.thickness if name == "right" else 0.0)
        for number, z in enumerate(heights, 1):
            yield BoltThrough(
                key=f"post-{name}-bolt-{number}",
                step="posts",
                through=(f"leg-rear-{name}", f"post-{name}"),
                place=Vec(out.post.at(z), start, z),
                direction=way,
                bolt=out.stock.bolt,
                nut=out.stock.nut,
                washer=out.stock.washer,
                use="back post to leg",
            )


def _back(p: Bench, out: SettingOut) -> Iterator[Joint]:
    c, s = cosine_sine(p.back.rake)
    forward = Vec(-c, 0.0, s)
    for i in range(1, out.back.count + 1):
        for name, _ in names_of_frames(out):
            yield _pockets(
                p,
                out,
                key=f"back-slat-{i}-on-{name}",
                step="back",
                through=f"post-{name}",
                into=f"back-slat-{i}",
                outward=forward,
                pocket_face=_inner(name),
                count=2,
                glue=p.construction == "workshop",
            )


def _arms(p: Bench, out: SettingOut) -> Iterator[Joint]:
    middle = arm_top(p) - out.stock.arms.thickness / 2.0
    x = out.post.at(middle)
    for name in ("left", "right"):
        way = _inner(name)
        yield _pockets(
            p,
            out,
            key=f"arm-{name}-on-post",
            step="arm tops",
            through=f"arm-post-{name}",
            into=f"arm-{name}",
            outward=Z,
            pocket_face=way,
            count=2,
        )
        yield from _arm_bolts(p, out, name, way)
        inside = 2.0 * out.stock.frames.thickness
        start = inside if name == "left" else p.size.length - inside
        yield FaceScrews(
            key=f"arm-{name}-to-back-post",
            step="arms",
            through=f"post-{name}",
            into=f"arm-{name}",
            places=tuple(Vec(x + dx, start, middle) for dx in (-15.0, 15.0)),
            direction=way.negated(),
            screw=out.stock.wood_screw,
            tip_cover=p.fixings.tip_cover,
        )


def _arm_bolts(p: Bench, out: SettingOut, name: str, way: Vec) -> Iterator[Joint]:
    t = out.stock.frames.thickness
    edge = EDGE_IN_BOLTS * out.stock.bolt.diameter + 4.0
    start = -t if name == "left" else p.size.length + t
    for number, z in enumerate((out.under_seat - p.arms.lap + edge, out.under_seat - edge), 1):
        yield BoltThrough(
            key=f"arm-post-{name}-bolt-{number}",
            step="arms",
            through=(f"arm-post-{name}", f"leg-front-{name}"),
            place=Vec(out.widths.leg / 2.0, start, z),
            direction=way,
            bolt=out.stock.bolt,
            nut=out.stock.nut,
            washer=out.stock.washer,
            use="arm post to leg",
        )
