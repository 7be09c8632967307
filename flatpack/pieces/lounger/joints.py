"""The lounger's joints, in the order of making."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from flatpack.geometry import Vec, X, Y, Z
from flatpack.joinery import (
    BarInHoles,
    BoltThrough,
    FaceScrews,
    GluedFaces,
    HingeJoint,
    Leaf,
    PocketScrews,
    WheelsOnAxle,
)
from flatpack.model import Joint, Part, Step
from flatpack.pieces.lounger.frame_parts import (
    PACKER_MARGIN,
    hinge_places,
    packer_face,
    packer_size,
)
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.prop import LAND, PropSetting, pivot_room
from flatpack.pieces.lounger.setting_out import SettingOut, pocket_reach

Parts = Mapping[str, Part]

STEPS = (
    Step("frame", "Side rails, end rails and hinge rail"),
    Step("deck", "Fixed slats"),
    Step("racks", "Racks inside the side rails"),
    Step("legs", "Legs"),
    Step("back", "Back: slats on the two braces"),
    Step("arms", "Arms and rod"),
    Step("hinges", "Back hinged to the frame"),
)

DRIVER_ROOM = 10.0
"""From a cross rail to a pocket beside it, mm, so that drill and driver pass (common practice)."""
EDGE_IN_BOLTS = 3.0
"""Edge distance of a bolt in its diameters: a4,c of Eurocode 5 table 8.4 (3 d)."""
SPACING_IN_BOLTS = 5.0
"""Spacing along the grain in diameters: a1 of Eurocode 5 table 8.4, (4 + |cos a|) d."""


def joints(p: Lounger, out: SettingOut, prop: PropSetting, parts: Parts) -> Iterator[Joint]:
    """Every joint of the lounger."""
    yield from _frame(p, out)
    yield from _deck(p, out, parts)
    yield from _racks(p, out, prop)
    yield from _legs(p, out)
    yield from _back(p, out, prop)
    yield from _arms(out, prop)
    yield from _hinges(p, out)


def _pockets(p: Lounger, out: SettingOut, **given: object) -> PocketScrews:
    return PocketScrews(
        jig=out.stock.jig,
        screw=out.stock.pocket_screw,
        tip_cover=p.fixings.tip_cover,
        **given,  # type: ignore[arg-type]  # keywords are PocketScrews' own
    )


def _frame(p: Lounger, out: SettingOut) -> Iterator[Joint]:
    for key, face in (
        ("end-rail-foot", X),
        ("end-rail-head", X.negated()),
        ("hinge-rail", X.negated()),
    ):
        for hand, outward in (("left", Y.negated()), ("right", Y)):
            yield _pockets(
                p,
                out,
                key=f"{key}-to-rail-{hand}",
                step="frame",
                through=key,
                into=f"rail-{hand}",
                outward=outward,
                pocket_face=face,
                count=p.frame.rail_screws,
            )
    yield from _packers(p, out)


def _packers(p: Lounger, out: SettingOut) -> Iterator[Joint]:
    length, height = packer_size(out)
    low = out.heights.under_slats - height + PACKER_MARGIN
    for hand, middle in zip(("left", "right"), hinge_places(p), strict=True):
        side = length / 2.0 - PACKER_MARGIN
        yield FaceScrews(
            key=f"packer-{hand}-to-hinge-rail",
            step="frame",
            through=f"packer-{hand}",
            into="hinge-rail",
            places=tuple(Vec(packer_face(out), middle + y, low) for y in (-side, side)),
            direction=X.negated(),
            screw=out.stock.wood_screw,
            tip_cover=p.fixings.tip_cover,
            glue=True,
        )


def _deck(p: Lounger, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    bolts = tuple((place, _clear_of_bolt(out)) for place in _pocket_bolts(p, out))
    for i in range(1, out.deck.deck_count + 1):
        for hand, face in (("left", Y), ("right", Y.negated())):
            yield _pockets(
                p,
                out,
                key=f"slat-{i}-on-rail-{hand}",
                step="deck",
                through=f"rail-{hand}",
                into=f"slat-{i}",
                outward=Z,
                pocket_face=face,
                count=p.slats.screws,
                clear_of=("end-rail-foot", "hinge-rail"),
                room=DRIVER_ROOM,
                avoid=bolts,
            )


def _clear_of_bolt(out: SettingOut) -> float:
    return out.stock.bolt.hole_wood / 2.0 + out.stock.jig.drill / 2.0 + 6.0


def _bolt_heights(out: SettingOut) -> tuple[float, float]:
    """Heights of the two bolts in a leg's lap: edge distance below, then along the leg's grain."""
    d = out.stock.bolt.diameter
    low = out.heights.under_rail + EDGE_IN_BOLTS * d
    most = out.heights.under_slats - EDGE_IN_BOLTS * d
    return low, min(low + SPACING_IN_BOLTS * d, most)


def _leg_middles(p: Lounger, out: SettingOut) -> tuple[float, float]:
    t, half = out.stock.frame.thickness, out.widths.leg / 2.0
    return t + half, p.size.length - t - half


def _pocket_bolts(p: Lounger, out: SettingOut) -> Iterator[Vec]:
    """Bolt places that stand so high in the rail that a slat's pocket could meet them."""
    high = _bolt_heights(out)[1] + out.stock.bolt.hole_wood / 2.0 + 6.0
    if high > out.heights.under_slats - pocket_reach(out.stock.frame, out.stock.jig):
        for x in _leg_middles(p, out):
            yield Vec(x, 0.0, out.heights.under_slats)


def _racks(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Joint]:
    blocks = p.rack.kind == "blocks"
    name = "bearer" if blocks else "rack"
    height = out.heights.axis + prop.bottom + (prop.floor - prop.bottom) / 2.0
    length = prop.end - prop.start
    edge = 20.0
    step = (length - 2.0 * edge) / (p.rack.screws - 1)
    xs = [prop.start + edge + step * i for i in range(p.rack.screws)]
    for hand, way, y in _sides(p):
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


def _sides(p: Lounger) -> tuple[tuple[str, Vec, float], ...]:
    """Hand, the way outwards, and a place on the outer face."""
    return ("left", Y.negated(), 0.0), ("right", Y, p.size.width)


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
        yield GluedFaces(
            key=f"{key}-on-bearer", step="racks", block=key, onto=f"bearer-{hand}"
        )
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


def _legs(p: Lounger, out: SettingOut) -> Iterator[Joint]:
    heights = _bolt_heights(out)
    for end, x in zip(("foot", "head"), _leg_middles(p, out), strict=True):
        for hand, way, y in _sides(p):
            for number, z in enumerate(heights, 1):
                yield BoltThrough(
                    key=f"leg-{end}-{hand}-bolt-{number}",
                    step="legs",
                    through=(f"rail-{hand}", f"leg-{end}-{hand}"),
                    place=Vec(x, y, z),
                    direction=way.negated(),
                    bolt=out.stock.bolt,
                    nut=out.stock.nut,
                    washer=out.stock.washer,
                    use="leg to rail",
                )
    if out.stock.wheel is not None:
        yield BarInHoles(
            key="axle-in-legs",
            step="legs",
            bar="axle",
            holders=("leg-head-left", "leg-head-right"),
            fit="free",
            use="axle",
        )
        yield WheelsOnAxle(
            key="wheels", step="legs", bar="axle", wheel=out.stock.wheel, inner=wheel_reach(out)
        )


AXLE_STUB = 8.0
"""Axle left beyond the hub for its cap, mm (common practice, no source)."""


def wheel_reach(out: SettingOut) -> float:
    """From an axle's end to the hub's inner face, mm."""
    return AXLE_STUB + (out.stock.wheel.hub_width if out.stock.wheel else 0.0)


def _back(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Joint]:
    pivot = Vec(out.deck.hinge_x + prop.prop.pivot.x, 0.0, out.heights.under_slats)
    for i in range(1, out.deck.back_count + 1):
        for hand, face in (("left", Y), ("right", Y.negated())):
            yield _pockets(
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


def _arms(out: SettingOut, prop: PropSetting) -> Iterator[Joint]:
    x = out.deck.hinge_x + prop.prop.pivot.x
    z = out.heights.axis + prop.prop.pivot.y
    for hand, way in (("left", Y), ("right", Y.negated())):
        yield BoltThrough(
            key=f"pivot-{hand}",
            step="arms",
            through=(f"arm-{hand}", f"brace-{hand}"),
            place=Vec(x, 0.0, z),
            direction=way,
            bolt=out.stock.bolt,
            nut=out.stock.nut,
            washer=out.stock.washer,
            turning=(f"brace-{hand}",),
            between=True,
            use="arm's pivot",
            group="back",
        )
    yield BarInHoles(
        key="rod-in-arms",
        step="arms",
        bar="rod",
        holders=("arm-left", "arm-right"),
        fit="fixed",
        use="prop rod",
    )


def _hinges(p: Lounger, out: SettingOut) -> Iterator[Joint]:
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
