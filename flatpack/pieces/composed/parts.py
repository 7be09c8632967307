"""The parts themselves: each entry's copies and hands, outlines in their places."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Frame, Vec
from flatpack.model import Bar, Hand, Part, axis_frame
from flatpack.pieces.common import given
from flatpack.pieces.composed.layout import Instance, Layout
from flatpack.pieces.composed.part_records import BAR
from flatpack.pieces.composed.shaping import shape_of

Made = dict[str, Part | Bar]


def made_parts(layout: Layout) -> Made:
    """Every part and bar that can be worked out; faults of the others are noted."""
    found: Made = {}
    for name in layout.parts:
        found |= layout.faults.attempt(lambda name=name: dict(_entry(layout, name))) or {}  # type: ignore[misc]  # a loop's value bound
    return found


def _entry(layout: Layout, name: str) -> Iterator[tuple[str, Part | Bar]]:
    make = _bar if layout.parts[name].kind == BAR else _part
    whole = make(layout, name)
    for key, one in layout.copies(name).items():
        yield key, _placed(layout, whole, key, one)


def _frame(layout: Layout, name: str, lows: tuple[float, float, float]) -> Frame:
    """The part's frame: `lows` is where its own axes' least places lie within its outline."""
    axes = layout.axes(name)
    origin = Vec(0.0, 0.0, 0.0)
    for axis in range(3):
        origin = origin.plus(axes[axis], layout.reach(name, axis)[0] - lows[axis])
    return Frame(origin, *axes)


def _part(layout: Layout, name: str) -> Part:
    made, board, shape = layout.parts[name].made, layout.board_of(name), shape_of(layout, name)
    x0, y0, _, _ = shape.outline.bounds
    return Part(
        key=name,
        name=made.title or name.replace("-", " ").capitalize(),
        board=board,
        outline=shape.outline,
        frame=_frame(layout, name, (x0, y0, 0.0)),
        features=(*shape.features, *given.holes(made.holes), *given.slots(made.slots)),
        arris=layout.length(made.arris, f"parts.{name}.arris"),
        openings=shape.openings,
    )


def _bar(layout: Layout, name: str) -> Bar:
    made = layout.parts[name].made
    stock = layout.profiles.rod(made.rod)
    half = stock.diameter / 2.0
    lying = _frame(layout, name, (0.0, -half, -half))
    return Bar(
        key=name,
        name=made.title or name.replace("-", " ").capitalize(),
        stock=stock,
        length=layout.extent(name, 0),
        frame=axis_frame(lying.origin, lying.x),
    )


def _placed(layout: Layout, whole: Part | Bar, key: str, one: Instance) -> Part | Bar:
    """A copy moved along its row, or mirrored."""
    row, axes, pair = layout.row(one.base), layout.axes(one.base), layout.parts[one.base].made.pair
    frame = whole.frame
    if row is not None:
        by = row.step * one.number
        frame = Frame(frame.origin.plus(axes[row.axis], by), frame.x, frame.y, frame.z)
    width = layout.record.size.width
    if isinstance(whole, Bar):
        if one.hand != pair and one.hand:
            other = frame.mirrored_across(width / 2.0)
            frame = axis_frame(other.origin, other.z)
        return replace(whole, key=key, frame=frame)
    if not one.hand:
        return replace(whole, key=key, frame=frame)
    hand: Hand = "left" if pair == "left" else "right"
    own = replace(whole, key=key, frame=frame, hand=hand)
    return own if one.hand == pair else own.other_hand(key, width / 2.0)


def siblings(layout: Layout, name: str, key: str) -> tuple[str, ...]:
    """The keys of all parts that a name means: those of its entry, or the one named."""
    if name in layout.parts:
        return tuple(layout.copies(name))
    one = layout.instance(name, key)
    suffix = (str(one.number + 1) if layout.row(one.base) else "", one.hand)
    whole = "-".join(filter(None, (one.base, *suffix)))
    if whole not in layout.copies(one.base):
        return tuple(k for k, v in layout.copies(one.base).items() if v.number == one.number)
    return (whole,)
