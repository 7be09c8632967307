"""The lounger's joints that hold the back: racks, braces, arms, rod and hinges."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.geometry import Vec, X, Y, Z
from flatpack.joinery import FaceScrews, GluedFaces, HingeJoint, Leaf
from flatpack.model import Joint
from flatpack.pieces.common.lanes import Pivot
from flatpack.pieces.common.prop_joints import prop_joints
from flatpack.pieces.common.propping import LAND, PropSetting
from flatpack.pieces.lounger.frame_joints import pockets, sides
from flatpack.pieces.lounger.frame_parts import hinge_places
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.prop import pivot_room
from flatpack.pieces.lounger.setting_out import SettingOut


def rack_joints(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Joint]:
    """Racks, or bearers with their tooth blocks, inside the side rails."""
    blocks = p.rack.kind == "blocks"
    name = "bearer" if blocks else "rack"
    height = out.heights.axis + prop.bottom + (prop.floor - prop.bottom) / 2.0
    length = prop.end - prop.start
    edge = 20.0
    step = (length - 2.0 * edge) / (p.rack.screws - 1)
    xs = [prop.start + edge + step * i for i in range(p.rack.screws)]
    for hand, way, y in sides(p):
        yield FaceScrews(
            key=f"{name}-on-rail-{hand}",
            step="racks",
            through=f"{name}-{hand}",
            into=f"rail-{hand}",
            places=tuple(Vec(out.deck.hinge_x + x, y, height) for x in xs),
            direction=way,
            screw=out.stock.wood_screw,
            tip_cover=p.fixings.tip_cover,
            glue=True,
        )
        if blocks:
            yield from _block_joints(p, out, prop, hand, way, y)


def _block_joints(
    p: Lounger, out: SettingOut, prop: PropSetting, hand: str, way: Vec, y: float
) -> Iterator[Joint]:
    run = prop.form.depth / math.tan(math.radians(prop.form.ramp))
    for number, datum in enumerate(prop.blocks, 1):
        key = f"block-{number}-{hand}"
        place = Vec(
            out.deck.hinge_x + datum.x + (LAND + run / 2.0) * 0.6,
            y,
            out.heights.axis + prop.floor + prop.form.depth * 0.45,
        )
        yield GluedFaces(key=f"{key}-on-bearer", step="racks", block=key, onto=f"bearer-{hand}")
        yield FaceScrews(
            key=f"{key}-on-rail",
            step="racks",
            through=key,
            into=f"rail-{hand}",
            places=(place,),
            direction=way,
            screw=out.stock.wood_screw,
            tip_cover=p.fixings.tip_cover,
            glue=True,
        )


def back_joints(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Joint]:
    """Back slats on the two braces."""
    pivot = Vec(out.deck.hinge_x + prop.prop.pivot.x, 0.0, out.heights.under_slats)
    for i in range(1, out.deck.back_count + 1):
        for hand, face in (("left", Y), ("right", Y.negated())):
            yield pockets(
                p,
                out,
                key=f"back-slat-{i}-on-brace-{hand}",
                step="back",
                through=f"brace-{hand}",
                into=f"back-slat-{i}",
                outward=Z,
                pocket_face=face,
                count=p.back.brace_screws,
                avoid=((pivot, pivot_room(out)),),
                group="back",
            )


def arm_joints(out: SettingOut, prop: PropSetting) -> Iterator[Joint]:
    """Arms pivoted on the braces, and the rod that joins them."""
    axis = Vec(out.deck.hinge_x, 0.0, out.heights.axis)
    pivot = Pivot(out.stock.bolt, out.stock.nut, out.stock.washer)
    yield from prop_joints(prop, axis, "brace", pivot)


def hinge_joints(p: Lounger, out: SettingOut) -> Iterator[Joint]:
    """The two hinges, packers to the first back slat."""
    for hand, y in zip(("left", "right"), hinge_places(p), strict=True):
        yield HingeJoint(
            key=f"hinge-{hand}",
            step="hinges",
            centre=Vec(out.deck.hinge_x, y, out.heights.axis),
            along=Y,
            leaves=(
                Leaf(f"packer-{hand}", Z.negated(), X),
                Leaf("back-slat-1", X, Z.negated(), "back"),
            ),
            hinge=out.stock.hinge,
            screw=out.stock.hinge_screw,
            tip_cover=p.fixings.tip_cover,
        )
