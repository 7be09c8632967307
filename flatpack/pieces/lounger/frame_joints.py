"""The lounger's joints that stand still: frame, deck, legs and wheels."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, X, Y, Z
from flatpack.joinery import BarInHoles, BoltThrough, FaceScrews, PocketScrews, WheelsOnAxle
from flatpack.model import Joint
from flatpack.pieces.lounger.frame_parts import (
    PACKER_MARGIN,
    hinge_places,
    packer_face,
    packer_size,
)
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.setting_out import SettingOut
from flatpack.pieces.lounger.widths import pocket_reach

DRIVER_ROOM = 10.0
"""From a cross rail to a pocket beside it, mm, so that drill and driver pass (common practice)."""
OFF_HINGE = 0.5
"""What a packer's upper screws stand higher, mm, to leave wood to the hinge's own screws."""
BOLT_TO_POCKET = 6.0
"""Wood between a bolt's hole and a pocket, mm (common practice)."""
POCKET_SPARE = 1.0
"""What the upper bolt stays further below the pockets, mm."""
EDGE_IN_BOLTS = 3.0
"""Edge distance of a bolt in its diameters: a4,c of Eurocode 5 table 8.4 (3 d)."""
SPACING_IN_BOLTS = 5.0
"""Spacing along the grain in diameters: a1 of Eurocode 5 table 8.4, (4 + |cos a|) d."""
END_IN_BOLTS = 7.0
"""End distance of a bolt in its diameters where a load pulls that way: a3,t of the same (7 d)."""


def pockets(p: Lounger, out: SettingOut, **given: object) -> PocketScrews:
    """Pocket screws with the lounger's jig, screw and tip cover."""
    return PocketScrews(
        jig=out.stock.jig,
        screw=out.stock.pocket_screw,
        tip_cover=p.fixings.tip_cover,
        **given,  # type: ignore[arg-type]  # keywords are PocketScrews' own
    )


def frame_joints(p: Lounger, out: SettingOut) -> Iterator[Joint]:
    """End rails and hinge rail between the side rails, packers on the hinge rail."""
    for key, face in (
        ("end-rail-foot", X),
        ("end-rail-head", X.negated()),
        ("hinge-rail", X.negated()),
    ):
        for hand, outward in (("left", Y.negated()), ("right", Y)):
            yield pockets(
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
    top = out.heights.under_slats
    heights = (top - height + PACKER_MARGIN, top - PACKER_MARGIN + OFF_HINGE)
    for hand, middle in zip(("left", "right"), hinge_places(p), strict=True):
        side = length / 2.0 - PACKER_MARGIN
        yield FaceScrews(
            key=f"packer-{hand}-to-hinge-rail",
            step="frame",
            through=f"packer-{hand}",
            into="hinge-rail",
            places=tuple(
                Vec(packer_face(out), middle + y, z) for z in heights for y in (-side, side)
            ),
            direction=X.negated(),
            screw=out.stock.wood_screw,
            tip_cover=p.fixings.tip_cover,
            glue=True,
        )


def deck_joints(p: Lounger, out: SettingOut) -> Iterator[Joint]:
    """Fixed slats on the side rails."""
    bolts = tuple((place, _clear_of_bolt(out)) for place in _pocket_bolts(p, out))
    for i in range(1, out.deck.deck_count + 1):
        for hand, face in (("left", Y), ("right", Y.negated())):
            yield pockets(
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
    return _bolt_room(out) + float(out.stock.jig.drill) / 2.0


def _bolt_heights(out: SettingOut) -> tuple[float, float]:
    """Heights of the two bolts in a leg's lap: edge distance below, then along the leg's grain.

    A deep rail lets the upper one stand higher, its full end distance under the leg's top and
    below the slats' pockets: the further apart they are, the less each has to hold when the leg
    is pushed along (statics).
    """
    d = out.stock.bolt.diameter
    low, top = out.heights.under_rail + EDGE_IN_BOLTS * d, out.heights.under_slats
    near = min(low + SPACING_IN_BOLTS * d, top - EDGE_IN_BOLTS * d)
    pockets_end = pocket_reach(out.stock.frame, out.stock.jig) + _bolt_room(out) + POCKET_SPARE
    return low, max(near, top - max(END_IN_BOLTS * d, pockets_end))


def _bolt_room(out: SettingOut) -> float:
    """From a bolt's middle to the nearest pocket."""
    return float(out.stock.bolt.hole_wood / 2.0 + BOLT_TO_POCKET)


def _leg_middles(p: Lounger, out: SettingOut) -> tuple[float, float]:
    t, half = out.stock.frame.thickness, out.widths.leg / 2.0
    return t + half, p.size.length - t - half


def _pocket_bolts(p: Lounger, out: SettingOut) -> Iterator[Vec]:
    """Bolt places that stand so high in the rail that a slat's pocket could meet them."""
    high = _bolt_heights(out)[1] + _bolt_room(out)
    if high > out.heights.under_slats - pocket_reach(out.stock.frame, out.stock.jig):
        for x in _leg_middles(p, out):
            yield Vec(x, 0.0, out.heights.under_slats)


def sides(p: Lounger) -> tuple[tuple[str, Vec, float], ...]:
    """Hand, the way outwards, and a place on the outer face."""
    return ("left", Y.negated(), 0.0), ("right", Y, p.size.width)


def leg_joints(p: Lounger, out: SettingOut) -> Iterator[Joint]:
    """Legs bolted inside the side rails; axle and wheels."""
    heights = _bolt_heights(out)
    for end, x in zip(("foot", "head"), _leg_middles(p, out), strict=True):
        for hand, way, y in sides(p):
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
