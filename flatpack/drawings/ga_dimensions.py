"""What is dimensioned on the general arrangement, as places in the piece."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Literal, NamedTuple

from flatpack.drawings.figures import mm
from flatpack.drawings.projection import Body, View, Views
from flatpack.geometry import Vec, X
from flatpack.model import Assembly, Part
from flatpack.wording import english as words

Where = Literal["below", "left", "right", "along"]
_METAL = 20.0
"""Wheels and heads are dimensioned over all where they add more than this to the wood, mm."""


class Measure(NamedTuple):
    """From `a` to `b` in the piece, shown in a view, beside it or `along` the line itself.

    `row` counts dimension lines outwards from 1.
    """

    view: View
    a: Vec
    b: Vec
    where: Where
    text: str
    row: int = 1

    @property
    def length(self) -> float:
        """True distance, mm."""
        return self.b.minus(self.a).length


class Room(NamedTuple):
    """The box round some bodies: least and greatest corner."""

    low: Vec
    high: Vec


def room_of(found: Iterable[Body]) -> Room:
    """The box round bodies, mm."""
    xs, ys, zs = zip(*(c for body in found for c in body.corners), strict=True)
    return Room(Vec(min(xs), min(ys), min(zs)), Vec(max(xs), max(ys), max(zs)))


def measures(assembly: Assembly, found: tuple[Body, ...], views: Views) -> tuple[Measure, ...]:
    """Every dimension of one pose."""
    whole = room_of(found)
    wood = room_of(b for b in found if b.key in assembly.parts)
    by_key = {b.key: b for b in found}
    slats = _flat_slats(assembly)
    return (
        *_overall(whole, wood, views),
        *_heights(whole, [_top(by_key[p.key]) for p in slats], views),
        *_axles(assembly, whole, views),
        *_back([by_key[p.key] for p in assembly.parts.values() if p.group == "back"], views),
        *_pitch([by_key[p.key] for p in slats], wood, views),
    )


def _between(view: View, a: Vec, b: Vec, where: Where, text: str = "", row: int = 1) -> Measure:
    return Measure(view, a, b, where, text or mm(b.minus(a).length), row)


def _overall(whole: Room, wood: Room, views: Views) -> Iterator[Measure]:
    """Length and width below the two upright views, over the wood and over wheels."""
    for view in (views.main, views.end):
        axis = 0 if abs(view.right.x) > 0.5 else 1
        row = 1
        for room in (wood, whole):
            a, b = _ends(room, axis)
            if room is wood or b.minus(a).length > _span(wood, axis) + _METAL:
                yield _between(view, a, b, "below", "", row)
                row += 1


def _ends(room: Room, axis: int) -> tuple[Vec, Vec]:
    """Two places as far apart as the room is along an axis."""
    low = room.low
    return low, (Vec(room.high.x, low.y, low.z) if axis == 0 else Vec(low.x, room.high.y, low.z))


def _span(room: Room, axis: int) -> float:
    return room.high[axis] - room.low[axis]


def _heights(whole: Room, tops: list[float], views: Views) -> Iterator[Measure]:
    low, row = whole.low, 1
    heights = [whole.high.z]
    if tops and max(tops) < whole.high.z - 0.5:
        heights.insert(0, max(tops))
    for height in heights:
        yield _between(views.main, low, Vec(low.x, low.y, height), "left", "", row)
        row += 1


def _axles(assembly: Assembly, whole: Room, views: Views) -> Iterator[Measure]:
    for bar in assembly.bars.values():
        if "axle" in bar.name.lower():
            at = bar.frame.origin
            ground = Vec(at.x, at.y, whole.low.z)
            yield _between(views.main, ground, Vec(at.x, at.y, at.z), "right")


def _back(back: list[Body], views: Views) -> Iterator[Measure]:
    """Length of the moving back along its braces, over the ends of what belongs to it."""
    along = next((b.frame.x for b in back if abs(b.frame.x.y) < 1e-9), None)
    if along is None:
        return
    along = along if along.x > 0.0 else along.negated()
    out = Vec(-along.z, 0.0, along.x)
    corners = [c for b in back for c in b.corners]
    runs, rises = [c.dot(along) for c in corners], [c.dot(out) for c in corners]
    top = Vec(0.0, corners[0].y, 0.0).plus(out, max(rises))
    view = next(v for v in views if abs(v.toward.y) > 0.5)
    yield _between(view, top.plus(along, min(runs)), top.plus(along, max(runs)), "along")


def _pitch(slats: list[Body], wood: Room, views: Views) -> Iterator[Measure]:
    """Pitch of the fixed slats, said as width and gap."""
    if len(slats) < 2:
        return
    axis = 1 if abs(slats[0].frame.x.x) > 0.5 else 0
    (low, high), (following, _) = sorted(_range(b, axis) for b in slats)[:2]
    if following < high:
        return
    text = words.pitch(mm(following - low), mm(high - low), mm(following - high))
    low_end, next_end = (wood.low._replace(**{"xy"[axis]: v}) for v in (low, following))
    runs = abs(views.plan.right.dot(X)) > 0.5
    yield _between(views.plan, low_end, next_end, "below" if runs == (axis == 0) else "right", text)


def _flat_slats(assembly: Assembly) -> list[Part]:
    """Slats of the seat or deck: fixed, lying flat, and alike in name to the first of them."""
    found = [
        p
        for p in assembly.parts.values()
        if "slat" in p.name and p.group == "frame" and abs(p.frame.z.z) > 0.999
    ]
    return [p for p in found if p.name == found[0].name]


def _top(body: Body) -> float:
    return max(c.z for c in body.corners)


def _range(body: Body, axis: int) -> tuple[float, float]:
    reach = [c[axis] for c in body.corners]
    return min(reach), max(reach)
