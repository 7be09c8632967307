"""The bench's joints, in the order of making."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from flatpack.geometry import ORIGIN, Vec, X, Y, Z, cosine_sine
from flatpack.joinery import (
    BarrelNutBolt,
    BoltThrough,
    FaceScrews,
    InsertBolt,
    PocketScrews,
)
from flatpack.joinery.axis import extent, kept_clear, spread
from flatpack.model import Joint, Part, Step
from flatpack.pieces.bench.parameters import Bench
from flatpack.pieces.bench.parts import arm_top, names_of_frames, stretcher_middle
from flatpack.pieces.bench.setting_out import SettingOut

Parts = Mapping[str, Part]

WORKSHOP_STEPS = (
    Step("leg frames", "Leg frames: rails between the legs"),
    Step("cleats", "Cleats that carry the seat, on the seat rails"),
    Step("seat", "Seat slats on the cleats"),
    Step("stretcher", "Stretcher between the frames"),
    Step("posts", "Back posts on the rear legs"),
    Step("back", "Back slats"),
    Step("arm tops", "Arm rests on their posts"),
    Step("arms", "Arms to the frames"),
)
KNOCK_DOWN_STEPS = (
    Step("leg frames", "Leg frames: rails between the legs"),
    Step("seat", "Seat slats on their cleats"),
    Step("arm tops", "Arm rests on their posts"),
    Step("cleats", "Seat bolted into the frames"),
    Step("stretcher", "Stretcher between the frames"),
    Step("posts", "Back posts on the rear legs"),
    Step("back", "Back slats"),
    Step("arms", "Arms to the frames"),
)

EDGE_IN_BOLTS = 3.0
"""Edge distance of a bolt in its diameters: a4,c of Eurocode 5 table 8.4 (3 d)."""
END_IN_BOLTS = 4.0
"""End distance of a bolt in its diameters where no load pulls that way: a3,c of the same (4 d)."""


FIXING_HEIGHT = 14.0
"""Least height of a cleat's screws or bolts above its lower edge, mm, under the pockets."""


CLEAR_OF_POCKETS = 14.0
"""From the pockets in a rail's ends to the next hole, mm (common practice, no source)."""


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
    yield from _seat(p, out)
    yield from _cleats(p, out, parts)
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


def _seat(p: Bench, out: SettingOut) -> Iterator[Joint]:
    for i in range(1, out.seat.count + 1):
        for name, _ in names_of_frames(out):
            yield _pockets(
                p,
                out,
                key=f"slat-{i}-on-{name}",
                step="seat",
                through=f"cleat-{name}",
                into=f"slat-{i}",
                outward=Z,
                pocket_face=_inner(name),
                count=p.seat.screws,
                glue=p.construction == "workshop",
            )


def _pocket_reach(out: SettingOut) -> float:
    """How far in from an edge the pockets of the frames' board reach, mm."""
    slope = math.radians(out.stock.jig.angle)
    half = out.stock.frames.thickness / 2.0
    return half / math.tan(slope) + out.stock.jig.drill / 2.0 / math.sin(slope)


def _cleats(p: Bench, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Cleats on the seat rails: glued and screwed from inside, or bolted from outside."""
    for name, y in names_of_frames(out):
        cleat, rail = parts[f"cleat-{name}"], parts[f"seat-rail-{name}"]
        a0, a1 = extent(cleat, X, ORIGIN)
        b0, b1 = extent(rail, X, ORIGIN)
        inset = _pocket_reach(out) + CLEAR_OF_POCKETS
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
                direction=_inner(name).negated(),
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
                direction=_inner(name),
                bolt=out.stock.undoing,
                insert=out.stock.insert,
                use="seat",
            )


def _fixing_height(p: Bench, out: SettingOut, width: float) -> float:
    """Edge distance of a cleat's fixings, as far as the pockets above leave room for it."""
    loose = p.construction == "knock-down"
    size = out.stock.undoing.diameter if loose else out.stock.wood_screw.diameter
    head = out.stock.insert.outer if loose else out.stock.wood_screw.head_diameter
    room = width - _pocket_reach(out) - head / 2.0 - WOOD_BETWEEN
    return max(min(EDGE_IN_BOLTS * size, room), FIXING_HEIGHT)


def _post_bolt_heights(p: Bench, out: SettingOut) -> tuple[float, float]:
    """As far apart as the lap allows, and as keeps both within the leg's edge distance."""
    edge = EDGE_IN_BOLTS * out.stock.bolt.diameter
    middle = out.under_seat - p.back.lap / 2.0
    apart = p.back.lap / 2.0 - edge - 8.0
    if p.back.rake > 0.0:
        aside = out.widths.leg / 2.0 - edge
        apart = min(apart, max(aside, 4.0) / math.tan(math.radians(p.back.rake)))
    wanted = (middle - apart, middle + apart)
    head = out.stock.bolt.head_diameter / 2.0 + 4.0
    rails = (
        (out.under_seat - out.widths.seat_rail, out.widths.seat_rail),
        (p.frames.low_rail_height, out.widths.low_rail),
    )
    screws = [z for low, width in rails for z in spread(low, low + width, 2)]
    low, high = out.under_seat - p.back.lap + edge, out.under_seat - edge
    blocked = [(z - head, z + head) for z in screws]
    found = kept_clear(wanted, low, high, blocked, 4.0 * out.stock.bolt.diameter)
    return found[0], found[1]


def _posts(p: Bench, out: SettingOut) -> Iterator[Joint]:
    heights = _post_bolt_heights(p, out)
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
    head, pocket = out.stock.wood_screw.head_diameter / 2.0, out.stock.jig.drill / 2.0
    screws = tuple((at, head + pocket + WOOD_BETWEEN) for at in _arm_screws(p, out, 0.0))
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
                avoid=screws,
                glue=p.construction == "workshop",
            )


WOOD_BETWEEN = 4.0
"""From a screw's countersink or a bolt to the pocket beside it, mm (common practice, no source)."""


def _arm_screws(p: Bench, out: SettingOut, y: float) -> tuple[Vec, ...]:
    """Places of the screws from the back post into an arm; none without arms."""
    if not p.arms.use:
        return ()
    middle = arm_top(p) - out.stock.arms.thickness / 2.0
    return tuple(Vec(out.post.at(middle) + dx, y, middle) for dx in (-15.0, 15.0))


def _arms(p: Bench, out: SettingOut) -> Iterator[Joint]:
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
            places=_arm_screws(p, out, start),
            direction=way.negated(),
            screw=out.stock.wood_screw,
            tip_cover=p.fixings.tip_cover,
        )


def _arm_bolts(p: Bench, out: SettingOut, name: str, way: Vec) -> Iterator[Joint]:
    t = out.stock.frames.thickness
    edge = END_IN_BOLTS * out.stock.bolt.diameter
    top = out.under_seat - out.widths.seat_rail - out.stock.washer.outer / 2.0 - 4.0
    start = -t if name == "left" else p.size.length + t
    for number, z in enumerate((out.under_seat - p.arms.lap + edge, top), 1):
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
