"""Parts and bars of a folding stool."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Frame, Outline, Vec, X, Y, Z, closed
from flatpack.geometry.shapes import rectangle
from flatpack.model import Bar, Part, axis_frame
from flatpack.pieces.folding_stool.parameters import FoldingStool
from flatpack.pieces.folding_stool.setting_out import SettingOut, slat_width

STOW_ROOM = 2.0
"""From the stowed battens' ends to the bars, mm (common practice, no source)."""
PAST_SLOT = 16.0
"""Wood of a batten past a slot, mm, along the grain (common practice, no source)."""


def parts(p: FoldingStool, out: SettingOut) -> Iterator[Part]:
    """Every part, its arrises rounded."""
    return (replace(part, arris=p.seat.edge_round) for part in _sharp(p, out))


def _sharp(p: FoldingStool, out: SettingOut) -> Iterator[Part]:
    """Legs and battens, the low rail, the seat.

    What stands on the right is the same part as on the left and no mirror image: its holes go
    through or lie in the middle of its thickness.
    """
    for part in (_leg(out, "outer"), _leg(out, "inner"), _batten(p, out)):
        yield part
        at = part.frame.origin
        across = Vec(at.x, p.size.width - at.y + part.thickness, at.z)
        key = part.key.removesuffix("left") + "right"
        yield replace(part, key=key, frame=replace(part.frame, origin=across))
    yield _rail(p, out)
    yield from _slats(p, out)


def bars(p: FoldingStool, out: SettingOut) -> Iterator[Bar]:
    """Round bars: at both tops, and low between the inner legs."""
    inside = out.lanes.inner
    yield _bar(p, out, "bar-rear", "Rear top bar", out.on_leg(out.legs.long, rear=True))
    for key, name, along in (
        ("bar-front", "Front top bar", out.legs.short),
        ("bar-low", "Low bar", -low_bar(p, out)),
    ):
        yield _bar(p, out, key, name, out.on_leg(along, rear=False, y=inside))


def _bar(p: FoldingStool, out: SettingOut, key: str, name: str, start: Vec) -> Bar:
    length = p.size.width - 2.0 * start.y
    return Bar(
        key=key,
        name=name,
        stock=out.stock.bar,
        length=length,
        frame=axis_frame(start, Y),
        fit="fixed",
    )


def low_bar(p: FoldingStool, out: SettingOut) -> float:
    """How far the low bar lies below P; its underside is as high as the low rail's."""
    height = p.legs.rail_height + out.stock.bar.diameter / 2.0
    return (out.legs.pivot - height) / math.cos(out.lean)


def low_rail(p: FoldingStool, out: SettingOut) -> float:
    """How far the low rail's upper edge lies below P along the outer legs.

    Its lower edge lies on the legs' front edges, which stand half a leg's width before the axis
    and so higher by that times the sine of the lean.
    """
    edge = out.legs.pivot + out.widths.leg / 2.0 * math.sin(out.lean) - p.legs.rail_height
    return edge / math.cos(out.lean) - out.widths.rail


def _axes(out: SettingOut, which: str) -> tuple[Vec, Vec]:
    """Up along a leg, and across it to its front edge."""
    c, s = math.cos(out.lean), math.sin(out.lean)
    if which == "outer":
        return Vec(s, 0.0, c), Vec(-c, 0.0, s)
    return Vec(-s, 0.0, c), Vec(-c, 0.0, -s)


def _leg(out: SettingOut, which: str) -> Part:
    """Foot level, top rounded about its bar, from the outer face inwards."""
    up, front = _axes(out, which)
    t, half = out.stock.frames.thickness, out.widths.leg / 2.0
    foot = out.legs.low + half * math.tan(out.lean)
    long = out.legs.long if which == "outer" else out.legs.short
    y = t if which == "outer" else out.lanes.inner + t
    pivot = Vec(out.pivot.x, y, out.pivot.z)
    return Part(
        key=f"leg-{which}-left",
        name=f"{which.capitalize()} leg",
        board=out.stock.frames,
        outline=_leg_outline(out, foot + long, which == "outer"),
        frame=Frame(pivot.plus(up, -foot).plus(front, -half), up, front, Y.negated()),
    )


def _leg_outline(out: SettingOut, bar: float, rearwards: bool) -> Outline:
    width = out.widths.leg
    cut = width * math.tan(out.lean)
    low, high = (cut, 0.0) if rearwards else (0.0, cut)
    return closed(((low, 0.0, 0.0), (bar, 0.0, 1.0), (bar, width, 0.0), (high, width, 0.0)))


def _rail(p: FoldingStool, out: SettingOut) -> Part:
    """Across the outer legs' front edges, where the inner legs never come."""
    up, front = _axes(out, "outer")
    low = Vec(out.pivot.x, p.size.width, out.pivot.z)
    origin = low.plus(up, -low_rail(p, out) - out.widths.rail).plus(front, out.widths.leg / 2.0)
    return Part(
        key="low-rail",
        name="Low rail",
        board=out.stock.frames,
        outline=rectangle(p.size.width, out.widths.rail),
        frame=Frame(origin, Y.negated(), up, front),
    )


def slot_half(p: FoldingStool, out: SettingOut) -> float:
    """Half the width of a batten's slot."""
    return (out.stock.bar.diameter + p.seat.play) / 2.0


def batten_start(p: FoldingStool, out: SettingOut) -> float:
    """X of the battens' front ends."""
    return p.legs.bar_inset - slot_half(p, out) - PAST_SLOT


def _batten(p: FoldingStool, out: SettingOut) -> Part:
    """Slots open below; pulled apart, the bars press on their outer walls at the set distance."""
    first, t = batten_start(p, out), out.stock.frames.thickness
    low = p.size.height - out.stock.slats.thickness - out.widths.batten
    length = p.size.depth - 2.0 * first
    return Part(
        key="batten-left",
        name="Seat batten",
        board=out.stock.frames,
        outline=_batten_outline(p, out, length),
        frame=Frame(Vec(first, out.lanes.batten + t, low), X, Z, Y.negated()),
    )


def _batten_outline(p: FoldingStool, out: SettingOut, length: float) -> Outline:
    half, width = slot_half(p, out), out.widths.batten
    corners = [(0.0, 0.0, 0.0)]
    middle = PAST_SLOT + half + p.seat.play / 2.0
    for at, high in ((middle, out.seat.front_slot), (length - middle, out.seat.rear_slot)):
        corners += [
            (at - half, 0.0, 0.0),
            (at - half, high, -1.0),
            (at + half, high, 0.0),
            (at + half, 0.0, 0.0),
        ]
    return closed((*corners, (length, 0.0, 0.0), (length, width, 0.0), (0.0, width, 0.0)))


def nested(p: FoldingStool, out: SettingOut) -> bool:
    """Whether the stowed seat's battens fit between the inner legs, clear of bars and low rail."""
    low, high = stowing(p, out)
    return p.size.depth - 2.0 * batten_start(p, out) + 2.0 * STOW_ROOM <= high - low


def stowing(p: FoldingStool, out: SettingOut) -> tuple[float, float]:
    """Along the folded legs from P: the stretch between bars and rail free for the battens."""
    r = out.stock.bar.diameter / 2.0
    low = -(low_bar(p, out) - r)
    if out.widths.batten > out.widths.leg:
        low = max(low, -low_rail(p, out))
    return low, out.legs.short - r


def slat_places(p: FoldingStool, out: SettingOut) -> tuple[float, ...]:
    """X of each slat's front edge."""
    pitch = slat_width(p, out) + out.seat.gap
    return tuple(i * pitch for i in range(out.seat.count))


def _slats(p: FoldingStool, out: SettingOut) -> Iterator[Part]:
    width = slat_width(p, out)
    low = p.size.height - out.stock.slats.thickness
    for number, front in enumerate(slat_places(p, out), 1):
        yield Part(
            key=f"slat-{number}",
            name="Seat slat" if p.seat.kind == "slats" else "Seat board",
            board=out.stock.slats,
            outline=rectangle(p.size.width, width),
            frame=Frame(Vec(front + width, 0.0, low), Y, X.negated(), Z),
        )
