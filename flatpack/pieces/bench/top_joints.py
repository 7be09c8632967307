"""The bench's joints above the seat: back posts, back slats, arm rests."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.geometry import Vec, Z, cosine_sine
from flatpack.joinery import BoltThrough, FaceScrews
from flatpack.joinery.axis import kept_clear, spread
from flatpack.model import Joint
from flatpack.pieces.bench.parameters import Bench
from flatpack.pieces.bench.parts import arm_top
from flatpack.pieces.bench.setting_out import SettingOut
from flatpack.pieces.common.fixings import EDGE_IN_BOLTS, END_IN_BOLTS, WOOD_BETWEEN, pockets
from flatpack.pieces.common.leg_frames import inner, named_frames


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


def post_joints(p: Bench, out: SettingOut) -> Iterator[Joint]:
    """Back posts bolted to the rear legs."""
    heights = _post_bolt_heights(p, out)
    for name, y in named_frames(out.frames):
        way = inner(name)
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


def back_joints(p: Bench, out: SettingOut) -> Iterator[Joint]:
    """Back slats on the posts' front edges."""
    c, s = cosine_sine(p.back.rake)
    forward = Vec(-c, 0.0, s)
    head, pocket = out.stock.wood_screw.head_diameter / 2.0, out.stock.jig.drill / 2.0
    screws = tuple((at, head + pocket + WOOD_BETWEEN) for at in _arm_screws(p, out, 0.0))
    for i in range(1, out.back.count + 1):
        for name, _ in named_frames(out.frames):
            yield pockets(
                out.stock,
                key=f"back-slat-{i}-on-{name}",
                step="back",
                through=f"post-{name}",
                into=f"back-slat-{i}",
                outward=forward,
                pocket_face=inner(name),
                count=2,
                avoid=screws,
                glue=p.construction == "workshop",
            )


def _arm_screws(p: Bench, out: SettingOut, y: float) -> tuple[Vec, ...]:
    """Places of the screws from the back post into an arm; none without arms."""
    if not p.arms.use:
        return ()
    middle = arm_top(p) - out.stock.arms.thickness / 2.0
    return tuple(Vec(out.post.at(middle) + dx, y, middle) for dx in (-15.0, 15.0))


def arm_joints(p: Bench, out: SettingOut) -> Iterator[Joint]:
    """Arm rests on their posts, at the front legs and the back posts."""
    for name in ("left", "right"):
        way = inner(name)
        yield pockets(
            out.stock,
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
