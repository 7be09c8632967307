"""Joints of a cushion box beyond its sides: racks, hinge rail, lid, arms, hinges."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, X, Y, Z
from flatpack.joinery import HingeJoint, Leaf, PocketScrews
from flatpack.joinery.axis import kept_clear, spread
from flatpack.model import Joint
from flatpack.pieces.common.boarded.screwing import clear_by, screws
from flatpack.pieces.common.prop_joints import prop_joints
from flatpack.pieces.common.propping import PropSetting
from flatpack.pieces.cushion_box.lid_parts import rail_ends
from flatpack.pieces.cushion_box.parameters import CushionBox
from flatpack.pieces.cushion_box.prop import pivot_room
from flatpack.pieces.cushion_box.setting_out import SettingOut

RACK_EDGE = 20.0
"""From a rack's ends to its outer screws, mm (common practice, no source)."""
ROW_EDGE = 12.0
"""Least from an end board's edge to a rack's screws, mm (common practice, no source)."""
RAIL_APART = 250.0
"""From screw to screw along the hinge rail at most, mm (common practice, no source)."""
RAIL_END = 18.0
"""From the hinge rail's ends to its outer screws, mm (common practice, no source)."""
LEAF_ROOM = 12.0
"""From a hinge's leaf to the rail's screws, mm (common practice, no source)."""


def lid_joints(p: CushionBox, out: SettingOut, prop: PropSetting) -> Iterator[Joint]:
    """All of them, in the order of making."""
    yield from _rack_joints(p, out, prop)
    yield from _rail_joints(p, out)
    yield from _lid_joints(p, out, prop)
    yield from prop_joints(prop, out.axis, "lid-batten", out.stock.pivot)
    yield from _hinge_joints(p, out)


def rack_row(out: SettingOut, prop: PropSetting) -> tuple[int, float]:
    """The end board (from 1) that a rack is screwed to, and the screws' height, mm.

    The height nearest to the middle of the rack's web that lies well inside one board.
    """
    wanted = out.axis.z + (prop.bottom + prop.floor) / 2.0
    places = []
    for number, row in enumerate(out.box.rows, 1):
        low, high = row.low + ROW_EDGE, row.low + row.width - ROW_EDGE
        height = min(max(wanted, low), max(high, low))
        places.append((abs(height - wanted), number, height))
    _, number, height = min(places)
    return number, height


def _rack_joints(p: CushionBox, out: SettingOut, prop: PropSetting) -> Iterator[Joint]:
    number, height = rack_row(out, prop)
    low, high = prop.start + RACK_EDGE, prop.end - RACK_EDGE
    step = (high - low) / (p.rack.screws - 1)
    xs = [out.axis.x + low + step * i for i in range(p.rack.screws)]
    for hand, way, y in (
        ("left", Y.negated(), out.lanes.rack),
        ("right", Y, p.size.length - out.lanes.rack),
    ):
        yield screws(
            out.box,
            key=f"rack-{hand}-on-end",
            step="racks",
            through=f"rack-{hand}",
            into=f"{hand}-board-{number}",
            places=tuple(Vec(x, y, height) for x in xs),
            direction=way,
        )


def hinge_places(p: CushionBox) -> tuple[float, ...]:
    """Middles of the hinges along the box."""
    first = p.size.length * p.hinge.inset
    step = (p.size.length - 2.0 * first) / (p.hinge.count - 1)
    return tuple(first + step * i for i in range(p.hinge.count))


def _rail_joints(p: CushionBox, out: SettingOut) -> Iterator[Joint]:
    """Down into the upper edge of the rear side, clear of hinges, posts and battens."""
    t, top, size = out.stock.timber.sides.thickness, len(out.box.rows), p.size.length
    inset = rail_ends(p, out)[0] + RAIL_END
    half = out.stock.hinge.leaf_length / 2.0 + LEAF_ROOM
    room = clear_by(out.box) + out.stock.timber.screw.diameter
    blocked = [(y - half, y + half) for y in hinge_places(p)]
    blocked += [(y - room, y + room) for y in out.box.battens]
    count = max(int((size - 2.0 * inset) / RAIL_APART) + 1, 2)
    wanted = spread(inset, size - inset, count)
    ys = kept_clear(wanted, inset, size - inset, blocked, room)
    yield screws(
        out.box,
        key="hinge-rail-on-rear",
        step="hinge rail",
        through="hinge-rail",
        into=f"rear-board-{top}",
        places=tuple(Vec(t / 2.0, y, out.box.levels.high) for y in ys),
        direction=Z.negated(),
    )


def _lid_joints(p: CushionBox, out: SettingOut, prop: PropSetting) -> Iterator[Joint]:
    """Pocket screws from the battens' faces that look to the middle: none is seen from above."""
    pivot = Vec(out.axis.x + prop.prop.pivot.x, 0.0, out.lid.under)
    outer = [("left", Y, ((pivot, pivot_room(out)),)), ("right", Y.negated(), ())]
    outer[1] = ("right", Y.negated(), outer[0][2])
    middle = [(f"middle-{n}", Y, ()) for n in range(1, len(out.lid.middle) + 1)]
    for number in range(1, len(out.lid.rows) + 1):
        for name, face, avoid in (*outer, *middle):
            yield PocketScrews(
                key=f"lid-board-{number}-on-batten-{name}",
                step="lid",
                through=f"lid-batten-{name}",
                into=f"lid-board-{number}",
                outward=Z,
                pocket_face=face,
                count=p.lid.screws,
                jig=out.stock.jig,
                screw=out.stock.pocket_screw,
                tip_cover=p.fixings.tip_cover,
                avoid=avoid,
                glue=False,
                group="back",
            )


def _hinge_joints(p: CushionBox, out: SettingOut) -> Iterator[Joint]:
    for number, y in enumerate(hinge_places(p), 1):
        yield HingeJoint(
            key=f"hinge-{number}",
            step="hinges",
            centre=Vec(out.axis.x, y, out.axis.z),
            along=Y,
            leaves=(
                Leaf("hinge-rail", X, Z),
                Leaf("lid-board-1", X, Z.negated(), "back"),
            ),
            hinge=out.stock.hinge,
            screw=out.stock.hinge_screw,
            tip_cover=p.fixings.tip_cover,
            second_step="lid",
        )
