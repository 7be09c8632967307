"""Parts of a bench: leg frames, stretchers, slats, cleats, posts, arm rests."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal

from flatpack.frozen import replace
from flatpack.geometry import Frame, Vec, X, Y, Z, cosine_sine
from flatpack.geometry.shapes import filleted, one_round_end, rectangle
from flatpack.model import Part
from flatpack.pieces.bench.parameters import Bench
from flatpack.pieces.bench.setting_out import SettingOut
from flatpack.pieces.common.leg_frames import named_frames

ARM_ROOM = 2.0
"""From the arm rests' inner edges to the ends of the back slats between them, mm."""
CLEAT_ROOM = 3.0
"""From a cleat's ends to the leg's edge and the post, mm (common practice, no source)."""
STAGGER = 14.0
"""From the middle of the bench's depth to neighbouring stretchers' faces, in front and behind, mm,
so that their fixings miss each other."""


def parts(p: Bench, out: SettingOut) -> Iterator[Part]:
    """Every part: frames from left to right, then what joins them."""
    for name, y in named_frames(out.frames):
        yield from _with_hands(p, name, tuple(_leg_frame(p, out, name, y)))
    yield from _stretchers(p, out)
    yield from _seat(p, out)
    if p.back.use:
        yield from _back_slats(p, out)


def _with_hands(p: Bench, name: str, made: tuple[Part, ...]) -> Iterator[Part]:
    for part in made:
        if name != "right":
            yield part
            continue
        other = part.other_hand(part.key.removesuffix("left") + "right", p.size.length / 2.0)
        yield other if part.hand else replace(other, hand="")


def _leg_frame(p: Bench, out: SettingOut, name: str, y: float) -> Iterator[Part]:
    """A leg frame and what lies against it; the right one is made as the left and mirrored."""
    if name == "right":
        name, y = "left", out.frames[0]
    hand: Literal["", "left"] = "left" if name == "left" else ""
    t, board = out.stock.frames.thickness, out.stock.frames
    depth, leg = p.size.depth, out.widths.leg
    for where, rear in (("front", leg), ("rear", depth)):
        yield Part(
            key=f"leg-{where}-{name}",
            name=f"{where.capitalize()} leg",
            board=board,
            outline=rectangle(out.under_seat, leg),
            frame=Frame(Vec(rear, y + t, 0.0), Z, X.negated(), Y.negated()),
            hand=hand,
        )
    span = depth - 2.0 * leg
    for key, title, width, low in (
        ("seat-rail", "Seat rail", out.widths.seat_rail, out.under_seat - out.widths.seat_rail),
        ("low-rail", "Low rail", out.widths.low_rail, p.frames.low_rail_height),
    ):
        yield Part(
            key=f"{key}-{name}",
            name=title,
            board=board,
            outline=rectangle(span, width),
            frame=Frame(Vec(leg, y + t, low), X, Z, Y.negated()),
            hand="" if key == "low-rail" and _staggered_bolts(p, out) else hand,
        )
    yield _cleat(p, out, name, y, hand)
    if p.back.use:
        yield _post(p, out, name, y, hand)
    if p.back.use and p.arms.use and name == "left":
        yield _arm_post(p, out)
        yield _arm(p, out)


def _staggered_bolts(p: Bench, out: SettingOut) -> bool:
    """True when the low rails' bolt holes stand behind the middle in one, before it in another."""
    return p.construction == "knock-down" and len(out.frames) > 2


def seat_end(out: SettingOut) -> float:
    """Rear edge of the seat's slats."""
    seat = out.seat
    return seat.first + seat.count * out.widths.seat_slat + (seat.count - 1) * seat.gap


def _cleat(p: Bench, out: SettingOut, name: str, y: float, hand: Literal["", "left"]) -> Part:
    """Carries the seat's slats, against the seat rail's inner face."""
    t = out.stock.frames.thickness
    first, last = max(out.seat.first, 0.0), seat_end(out)
    length = last - first - (CLEAT_ROOM if p.back.use else 0.0) - _post_below(p, out)
    width = out.widths.seat_rail
    return Part(
        key=f"cleat-{name}",
        name="Seat cleat",
        board=out.stock.frames,
        outline=rectangle(length, width),
        frame=Frame(Vec(first, y + 2.0 * t, out.under_seat - width), X, Z, Y.negated()),
        hand=hand,
    )


def _post_below(p: Bench, out: SettingOut) -> float:
    """How much further forward a post's front edge stands at the cleat's lower edge, mm."""
    if not p.back.use:
        return 0.0
    return out.widths.seat_rail * math.tan(math.radians(p.back.rake))


def _post(p: Bench, out: SettingOut, name: str, y: float, hand: Literal["", "left"]) -> Part:
    """Back post, leaning back by the rake, lapped inside the rear leg."""
    c, s = cosine_sine(p.back.rake)
    up, forward = Vec(s, 0.0, c), Vec(-c, 0.0, s)
    width, t = out.widths.post, out.stock.frames.thickness
    foot = out.under_seat - p.back.lap
    middle = Vec(out.post.at(foot), y + 2.0 * t, foot)
    length = (p.back.lap + out.stock.slats.thickness + p.back.height) / c
    rounding = min(20.0, width / 3.0)
    shape = filleted(
        (
            (0.0, 0.0, rounding),
            (length, 0.0, rounding),
            (length, width, 0.0),
            (0.0, width, rounding),
        )
    )
    # Across the grain y runs forward, so that the front edge is the outline's upper one.
    frame = Frame(middle.plus(forward, -width / 2.0), up, forward, Y.negated())
    return Part(
        key=f"post-{name}",
        name="Back post",
        board=out.stock.frames,
        outline=shape,
        frame=frame,
        hand=hand,
    )


def arm_top(p: Bench) -> float:
    """Height of the arm rests' top above ground."""
    return p.size.height + p.arms.height


def _arm_post(p: Bench, out: SettingOut) -> Part:
    """Arm's post, lapped on the outside of the front leg, past the ends of the slats."""
    low = out.under_seat - p.arms.lap
    height = arm_top(p) - out.stock.arms.thickness - low
    width = out.widths.arm_post
    return Part(
        key="arm-post-left",
        name="Arm post",
        board=out.stock.frames,
        outline=filleted(
            ((0.0, 0.0, 12.0), (height, 0.0, 0.0), (height, width, 0.0), (0.0, width, 12.0))
        ),
        frame=Frame(Vec(width, 0.0, low), Z, X.negated(), Y.negated()),
        hand="left",
    )


def _arm(p: Bench, out: SettingOut) -> Part:
    """Arm rest: grain front to rear, inner edge against the post's outer face."""
    t = out.stock.frames.thickness
    height = arm_top(p) - out.stock.arms.thickness / 2.0
    rear = out.post.at(height) + out.widths.post / 2.0
    length = rear + p.arms.overhang
    # The part's x runs forward, so that its round end is the front one.
    frame = Frame(
        Vec(rear, t - out.widths.arm, arm_top(p) - out.stock.arms.thickness), X.negated(), Y, Z
    )
    return Part(
        key="arm-left",
        name="Arm rest",
        board=out.stock.arms,
        outline=one_round_end(length, out.widths.arm),
        frame=frame,
        hand="left",
        arris=p.seat.edge_round,
    )


def _stretchers(p: Bench, out: SettingOut) -> Iterator[Part]:
    """One between each pair of frames, standing on edge level with the low rails."""
    t, width = out.stock.frames.thickness, out.widths.stretcher
    low = p.frames.low_rail_height + (out.widths.low_rail - width) / 2.0
    for i, (a, b) in enumerate(zip(out.frames, out.frames[1:], strict=False), 1):
        rear = stretcher_middle(p, out, i) + t / 2.0
        yield Part(
            key=f"stretcher-{i}",
            name="Stretcher",
            board=out.stock.frames,
            outline=rectangle(b - a - t, width),
            frame=Frame(Vec(rear, b, low), Y.negated(), Z, X.negated()),
        )


def stretcher_middle(p: Bench, out: SettingOut, number: int) -> float:
    """X of a stretcher's middle: in the middle when alone, else in turn behind it and before."""
    if len(out.frames) == 2:
        return p.size.depth / 2.0
    aside = STAGGER + out.stock.frames.thickness / 2.0
    return p.size.depth / 2.0 + (aside if number % 2 else -aside)


def _seat(p: Bench, out: SettingOut) -> Iterator[Part]:
    width, pitch = out.widths.seat_slat, out.widths.seat_slat + out.seat.gap
    for i in range(out.seat.count):
        rear = out.seat.first + i * pitch + width
        yield Part(
            key=f"slat-{i + 1}",
            name="Seat slat",
            board=out.stock.slats,
            outline=rectangle(p.size.length, width),
            frame=Frame(Vec(rear, 0.0, out.under_seat), Y, X.negated(), Z),
            arris=p.seat.edge_round,
        )


def _back_slats(p: Bench, out: SettingOut) -> Iterator[Part]:
    """Slats on the posts' front edges, from the seat upwards."""
    c, s = cosine_sine(p.back.rake)
    up, forward = Vec(s, 0.0, c), Vec(-c, 0.0, s)
    seat = p.size.height
    edge = Vec(out.post.at(seat), 0.0, seat).plus(forward, out.widths.post / 2.0)
    pitch = out.widths.back_slat + out.back.gap
    inset = out.stock.frames.thickness + ARM_ROOM if p.arms.use else 0.0
    for i in range(out.back.count):
        low = edge.plus(up, out.back.first + i * pitch)
        yield Part(
            key=f"back-slat-{i + 1}",
            name="Back slat",
            board=out.stock.slats,
            outline=rectangle(p.size.length - 2.0 * inset, out.widths.back_slat),
            frame=Frame(Vec(low.x, p.size.length - inset, low.z), Y.negated(), up, forward),
            arris=p.seat.edge_round,
        )
