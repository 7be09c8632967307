"""Parts of a cushion box beyond its sides: hinge rail, racks, battens, lid boards, arms, rod."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.geometry.shapes import filleted, rectangle
from flatpack.model import Bar, Hand, Part
from flatpack.pieces.common.prop_parts import arms, rack_notches, rack_outline
from flatpack.pieces.common.propping import PropSetting
from flatpack.pieces.cushion_box.parameters import CushionBox
from flatpack.pieces.cushion_box.setting_out import SettingOut

RAIL_ROOM = 2.0
"""From the hinge rail's ends to the rear posts, mm (common practice, no source)."""


def lid_parts(p: CushionBox, out: SettingOut, prop: PropSetting) -> Iterator[Part]:
    """All of them, in the order of making."""
    yield from _racks(p, out, prop)
    yield _hinge_rail(p, out)
    yield from _battens(p, out)
    yield from _boards(p, out)
    faces = (out.lanes.arm + out.stock.moving.thickness, p.size.length - out.lanes.arm)
    yield from arms(prop, out.axis, out.stock.moving, p.arms.width, faces)


def _racks(p: CushionBox, out: SettingOut, prop: PropSetting) -> Iterator[Part]:
    at = Vec(out.axis.x + prop.end, out.lanes.rack, out.axis.z + prop.bottom)
    left = Part(
        key="rack-left",
        name="Rack",
        board=out.stock.rack,
        outline=rack_outline(prop),
        frame=Frame(at, X.negated(), Z, Y),
        hand="left",
        features=rack_notches(prop, p.lid.angles, "lid"),
        arris=p.sides.edge_round,
    )
    yield left
    yield left.other_hand("rack-right", p.size.length / 2.0)


def _hinge_rail(p: CushionBox, out: SettingOut) -> Part:
    """Flat on the rear side between the posts, its rear edge flush with the side."""
    start, end = rail_ends(p, out)
    return Part(
        key="hinge-rail",
        name="Hinge rail",
        board=out.stock.timber.posts,
        outline=rectangle(end - start, out.rail_width),
        frame=Frame(Vec(out.rail_width, start, out.box.levels.high), Y, X.negated(), Z),
        arris=p.sides.edge_round,
    )


def rail_ends(p: CushionBox, out: SettingOut) -> tuple[float, float]:
    """Where the hinge rail begins and ends along the box."""
    inset = out.stock.timber.sides.thickness + out.box.corner.y + RAIL_ROOM
    return inset, p.size.length - inset


def _battens(p: CushionBox, out: SettingOut) -> Iterator[Part]:
    t, half = out.stock.moving.thickness, p.size.length / 2.0
    left = _batten(p, out, "lid-batten-left", "Lid batten", out.lanes.brace + t, "left")
    yield left
    yield left.other_hand("lid-batten-right", half)
    for number, middle in enumerate(out.lid.middle, 1):
        key = f"lid-batten-middle-{number}"
        yield _batten(p, out, key, "Middle lid batten", middle + t / 2.0, "")


def _batten(p: CushionBox, out: SettingOut, key: str, name: str, inner: float, hand: Hand) -> Part:
    lid, low = out.lid, out.lid.under - out.lid.batten
    length, width = lid.end - lid.start, lid.batten
    corner = min(12.0, width / 4.0)
    shape = filleted(
        ((0.0, 0.0, corner), (length, 0.0, corner), (length, width, 0.0), (0.0, width, 0.0))
    )
    return Part(
        key=key,
        name=name,
        board=out.stock.moving,
        outline=shape,
        frame=Frame(Vec(lid.start, inner, low), X, Z, Y.negated()),
        hand=hand,
        group="back",
        arris=p.sides.edge_round,
    )


def _boards(p: CushionBox, out: SettingOut) -> Iterator[Part]:
    """From the rear to the front, over the ends by the overhang."""
    over = p.lid.overhang
    for number, row in enumerate(out.lid.rows, 1):
        yield Part(
            key=f"lid-board-{number}",
            name="Lid board",
            board=out.stock.lid,
            outline=rectangle(p.size.length + 2.0 * over, row.width),
            frame=Frame(Vec(row.low + row.width, -over, out.lid.under), Y, X.negated(), Z),
            group="back",
            arris=p.sides.edge_round,
        )


def rod(p: CushionBox, out: SettingOut, prop: PropSetting) -> Bar:
    """The rod that joins the arms, from end board to end board."""
    start = Vec(
        out.axis.x + prop.folded.x,
        out.lanes.rack + p.rack.rod_clearance,
        out.axis.z + prop.folded.y,
    )
    return Bar(
        key="rod",
        name="Prop rod",
        stock=out.stock.rod,
        length=out.lanes.rod_length,
        frame=Frame(start, Z, X, Y),
        group="rod",
        fit="fixed in the arms",
    )
