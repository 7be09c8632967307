"""Parts that move: back slats, braces, arms, rod; and the racks that the rod drops into."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.geometry import Frame, Outline, Point, Segment, Vec, X, Y, Z
from flatpack.geometry.shapes import filleted, rectangle
from flatpack.model import Bar, Part
from flatpack.pieces.common.prop_parts import arms, rack_notches, rack_outline
from flatpack.pieces.common.propping import PropSetting
from flatpack.pieces.lounger.frame_parts import slat
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.rack_edge import block_profile
from flatpack.pieces.lounger.setting_out import BRACE_END, SettingOut


def back_parts(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Part]:
    """All parts of the back, and the arms."""
    yield from _braces(p, out)
    yield from _back_slats(p, out)
    yield from _arms(p, out, prop)


def _braces(p: Lounger, out: SettingOut) -> Iterator[Part]:
    board, width = out.stock.moving, out.widths.brace
    length = p.back.length - out.stock.frame.thickness - 2.0 * BRACE_END
    low = out.heights.under_slats - width
    round_corner = min(12.0, width / 4.0)
    shape = filleted(
        (
            (0.0, 0.0, round_corner),
            (length, 0.0, round_corner),
            (length, width, 0.0),
            (0.0, width, 0.0),
        )
    )
    inner = out.lanes.brace + board.thickness
    left = Part(
        key="brace-left",
        name="Back brace",
        board=board,
        outline=shape,
        frame=Frame(Vec(out.deck.hinge_x + BRACE_END, inner, low), X, Z, Y.negated()),
        hand="left",
        group="back",
    )
    yield left
    yield left.other_hand("brace-right", p.size.width / 2.0)


def _back_slats(p: Lounger, out: SettingOut) -> Iterator[Part]:
    first = out.deck.hinge_x + out.deck.hinge_gap - out.deck.gap_on_deck
    pitch = out.widths.slat + out.deck.back_gap
    for i in range(out.deck.back_count):
        made = slat(p, out, f"back-slat-{i + 1}", "Back slat", first + i * pitch)
        yield Part(
            key=made.key,
            name=made.name,
            board=made.board,
            outline=made.outline,
            frame=made.frame,
            group="back",
            arris=made.arris,
        )


def _arms(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Part]:
    faces = (out.lanes.arm + out.stock.moving.thickness, p.size.width - out.lanes.arm)
    axis = Vec(out.deck.hinge_x, 0.0, out.heights.axis)
    yield from arms(prop, axis, out.stock.moving, out.widths.arm, faces)


def rod(p: Lounger, out: SettingOut, prop: PropSetting) -> Bar:
    """The rod that joins the arms."""
    start = Vec(
        out.deck.hinge_x + prop.folded.x,
        out.stock.frame.thickness + p.rack.rod_clearance,
        out.heights.axis + prop.folded.y,
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


def rack_parts(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Part]:
    """The two racks: a notched bar each, or a bearer and its tooth blocks."""
    if p.rack.kind == "bar":
        yield from _bars(p, out, prop)
        return
    yield from _bearers(p, out, prop)
    yield from _blocks(p, out, prop)


def _rack_frame(out: SettingOut, x: float, y: float) -> Frame:
    """Frame of a left rack part whose free end's lower corner lies at x, y (hinge frame)."""
    at = Vec(out.deck.hinge_x + x, out.lanes.rack, out.heights.axis + y)
    return Frame(at, X.negated(), Z, Y)


def _bars(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Part]:
    left = Part(
        key="rack-left",
        name="Rack",
        board=out.stock.rack,
        outline=rack_outline(prop),
        frame=_rack_frame(out, prop.end, prop.bottom),
        hand="left",
        features=rack_notches(prop, p.back.angles),
    )
    yield left
    yield left.other_hand("rack-right", p.size.width / 2.0)


def _bearers(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Part]:
    left = Part(
        key="bearer-left",
        name="Rack bearer",
        board=out.stock.rack,
        outline=rectangle(prop.end - prop.start, prop.floor - prop.bottom),
        frame=_rack_frame(out, prop.end, prop.bottom),
        hand="left",
        features=rack_notches(prop, p.back.angles),
    )
    yield left
    yield left.other_hand("bearer-right", p.size.width / 2.0)


def _blocks(p: Lounger, out: SettingOut, prop: PropSetting) -> Iterator[Part]:
    profile = block_profile(prop.form)
    lean, length = min(x for x, _ in profile), profile[-1][0]
    corners = [Point(length - x, y) for x, y in reversed(profile)]
    shape = Outline(
        tuple(Segment(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    )
    shape = shape if shape.area > 0.0 else shape.reversed()
    assert lean <= 0.0
    assert math.isfinite(shape.area)
    for number, datum in enumerate(prop.blocks, 1):
        left = Part(
            key=f"block-{number}-left",
            name="Tooth block",
            board=out.stock.rack,
            outline=shape,
            frame=_rack_frame(out, datum.x + length, prop.floor),
            hand="left",
        )
        yield left
        yield left.other_hand(f"block-{number}-right", p.size.width / 2.0)
