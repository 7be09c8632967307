"""Parts of a low chair's sides and seat: rails, legs, posts, apron, slats."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Frame, Outline, Vec, X, Y, Z
from flatpack.geometry.shapes import filleted, rectangle
from flatpack.model import Part
from flatpack.pieces.common.fixings import END_IN_BOLTS
from flatpack.pieces.low_chair.arm_parts import arm_parts
from flatpack.pieces.low_chair.back_parts import back_parts
from flatpack.pieces.low_chair.bolting import post_bolts
from flatpack.pieces.low_chair.parameters import LowChair
from flatpack.pieces.low_chair.setting_out import SIDE_ROOM, SettingOut

CORNER = 12.0
"""Rounding of corners that legs and clothes brush past, mm."""
POST_ROOM = 3.0
"""From a post's lower corner to the rail's lower edge, mm."""


def parts(p: LowChair, out: SettingOut) -> Iterator[Part]:
    """Every part, its arrises rounded."""
    return (replace(part, arris=p.seat.edge_round) for part in _sharp(p, out))


def _sharp(p: LowChair, out: SettingOut) -> Iterator[Part]:
    """Sides as left hands and their mirror images, then what joins them."""
    for part in (_rail(out), _leg(p, out), _post(p, out), *arm_parts(p, out)):
        yield part
        yield part.other_hand(part.key.removesuffix("left") + "right", p.size.width / 2.0)
    yield _apron(p, out)
    yield from _seat(p, out)
    yield from back_parts(p, out)


def _rail(out: SettingOut) -> Part:
    """Grain along the seat: upper edge to the slats, front end for the apron, foot level."""
    t, width = out.stock.frames.thickness, out.widths.rail
    return Part(
        key="rail-left",
        name="Side rail",
        board=out.stock.frames,
        outline=_rail_outline(out),
        frame=Frame(
            out.lines.on_rail(0.0, -width, 2.0 * t), out.lines.along, out.lines.normal, Y.negated()
        ),
        hand="left",
    )


def _rail_outline(out: SettingOut) -> Outline:
    width, foot = out.widths.rail, out.foot
    slope = math.tan(math.radians(out.lines.slope))
    heel, below = foot.rise * slope, width - out.widths.apron
    round_top = min(CORNER, (width - heel) / 3.0)
    return filleted(
        (
            (below * slope, 0.0, CORNER),
            (foot.start, 0.0, 0.0),
            (foot.end, heel, 0.0),
            (foot.end, width, round_top),
            (0.0, width, 0.0),
            (0.0, below, 0.0),
        )
    )


def _leg(p: LowChair, out: SettingOut) -> Part:
    t, width = out.stock.frames.thickness, out.widths.leg
    return Part(
        key="leg-front-left",
        name="Front leg",
        board=out.stock.frames,
        outline=rectangle(out.arm_top - out.stock.arms.thickness, width),
        frame=Frame(Vec(width, t, 0.0), Z, X.negated(), Y.negated()),
        hand="left",
    )


def post_edge(out: SettingOut) -> float:
    """How far the posts' front edges lie behind the back slats' front."""
    return out.stock.slats.thickness + out.stock.frames.thickness


def post_foot(p: LowChair, out: SettingOut) -> float:
    """V of the posts' lower end: its rear corner just inside the rail's lower edge, as a rule.

    The back leans from square to the seat by d = angle - 90, so that v up the back and w behind
    its front plane stand t + v cos d - w sin d above the rail's upper edge, t a slat's thickness.
    Lower where the bolt there wants more wood below it.
    """
    d = math.radians(p.back.angle - 90.0)
    drop = out.widths.rail - POST_ROOM + out.stock.slats.thickness
    flush = -(drop - (post_edge(out) + out.widths.post) * math.sin(d)) / math.cos(d)
    return min(flush, post_bolts(out)[1] - END_IN_BOLTS * out.stock.bolt.diameter)


def _post(p: LowChair, out: SettingOut) -> Part:
    t, width = out.stock.frames.thickness, out.widths.post
    low, high = post_foot(p, out), p.back.rail_height + out.widths.cross / 2.0
    length = high - low
    corners = ((0.0, 0.0, CORNER), (length, 0.0, CORNER), (length, width, 0.0), (0.0, width, 0.0))
    origin = out.lines.on_back(low, post_edge(out) + width, 3.0 * t)
    return Part(
        key="post-left",
        name="Back post",
        board=out.stock.frames,
        outline=filleted(corners),
        frame=Frame(origin, out.lines.up, out.lines.forward, Y.negated()),
        hand="left",
    )


def _apron(p: LowChair, out: SettingOut) -> Part:
    """Between the rails, flush with their front ends, square to the seat."""
    t, width = out.stock.frames.thickness, out.widths.apron
    origin = out.lines.on_rail(t, -width, p.size.width - 2.0 * t)
    return Part(
        key="apron",
        name="Apron",
        board=out.stock.frames,
        outline=rectangle(out.clear, width),
        frame=Frame(origin, Y.negated(), out.lines.normal, out.lines.along.negated()),
    )


def _seat(p: LowChair, out: SettingOut) -> Iterator[Part]:
    """Slats across the rails, between the legs; numbered from the front."""
    t, width, pitch = (
        out.stock.frames.thickness,
        out.widths.seat_slat,
        out.widths.seat_slat + out.seat.gap,
    )
    length = p.size.width - 2.0 * (t + SIDE_ROOM)
    for i in range(out.seat.count):
        rear = i * pitch + width - p.seat.overhang
        yield Part(
            key=f"slat-{i + 1}",
            name="Seat slat",
            board=out.stock.slats,
            outline=rectangle(length, width),
            frame=Frame(
                out.lines.on_rail(rear, 0.0, t + SIDE_ROOM),
                Y,
                out.lines.along.negated(),
                out.lines.normal,
            ),
        )
