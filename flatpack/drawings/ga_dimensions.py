"""What is dimensioned on the general arrangement, as places in the piece."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from flatpack.drawings.figures import mm
from flatpack.drawings.projection import FRONT, PLAN, SIDE, Body, View
from flatpack.geometry import Vec
from flatpack.model import Assembly, Part
from flatpack.wording import english as words

_NEAR, _NEXT = 9.0, 16.0
"""Distances of dimension lines from what they measure, paper mm."""


class Measure(NamedTuple):
    """From `a` to `b` in the piece, shown in a view; `offset` to the left of travel, paper mm."""

    view: View
    a: Vec
    b: Vec
    offset: float
    text: str

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
    xs, ys, zs = zip(*(c for body in found for c in body.corners()), strict=True)
    return Room(Vec(min(xs), min(ys), min(zs)), Vec(max(xs), max(ys), max(zs)))


def measures(assembly: Assembly, found: tuple[Body, ...]) -> tuple[Measure, ...]:
    """Every dimension of one pose."""
    whole = room_of(found)
    wood = room_of(b for b in found if b.key in assembly.parts)
    return (
        *_overall(whole, wood),
        *_heights(assembly, whole),
        *_axles(assembly, whole),
        *_back(assembly),
        *_slats(assembly, wood),
    )


def _between(view: View, a: Vec, b: Vec, offset: float, text: str = "") -> Measure:
    return Measure(view, a, b, offset, text or mm(b.minus(a).length))


def _overall(whole: Room, wood: Room) -> Iterator[Measure]:
    (x0, y0, z0), (x1, y1, _) = whole
    yield _between(SIDE, Vec(x0, y0, z0), Vec(x1, y0, z0), -_NEAR)
    narrow = wood.high.y - wood.low.y
    yield _between(FRONT, Vec(x0, wood.high.y, z0), Vec(x0, wood.low.y, z0), -_NEAR)
    if y1 - y0 > narrow + 0.5:
        yield _between(FRONT, Vec(x0, y1, z0), Vec(x0, y0, z0), -_NEXT)
    yield _between(PLAN, Vec(x0, wood.low.y, z0), Vec(x0, wood.high.y, z0), _NEAR)


def _heights(assembly: Assembly, whole: Room) -> Iterator[Measure]:
    (x0, y0, z0), (_, _, z1) = whole
    tops = [_top(p) for p in _flat_slats(assembly)]
    offset = _NEAR
    if tops and max(tops) < z1 - 0.5:
        yield _between(SIDE, Vec(x0, y0, z0), Vec(x0, y0, max(tops)), offset)
        offset = _NEXT
    yield _between(SIDE, Vec(x0, y0, z0), Vec(x0, y0, z1), offset)


def _axles(assembly: Assembly, whole: Room) -> Iterator[Measure]:
    for bar in assembly.bars.values():
        if "axle" in bar.name.lower():
            low, high = Vec(whole.high.x, 0.0, whole.low.z), bar.frame.origin.z
            yield _between(SIDE, low, Vec(low.x, low.y, high), -_NEAR)


def _back(assembly: Assembly) -> Iterator[Measure]:
    """Length of the moving back along its braces, over the ends of what belongs to it."""
    back = [p for p in assembly.parts.values() if p.group == "back"]
    along = next((p.frame.x for p in back if abs(p.frame.x.y) < 1e-9), None)
    if along is None:
        return
    along = along if along.x > 0.0 else along.negated()
    out = Vec(-along.z, 0.0, along.x)
    corners = [c for p in back for c in Body(p.key, p.frame, p.outline, 0.0, p.thickness).corners()]
    runs, rises = [c.dot(along) for c in corners], [c.dot(out) for c in corners]
    top = Vec(0.0, corners[0].y, 0.0).plus(out, max(rises))
    yield _between(SIDE, top.plus(along, min(runs)), top.plus(along, max(runs)), _NEAR)


def _slats(assembly: Assembly, wood: Room) -> Iterator[Measure]:
    """Pitch of the fixed slats, said as width and gap."""
    slats = _flat_slats(assembly)
    if len(slats) < 2:
        return
    lengthwise = abs(slats[0].frame.x.x) > 0.5
    ranges = sorted(_range(p, 1 if lengthwise else 0) for p in slats)
    (low, high), (following, _) = ranges[:2]
    if following < high:
        return
    text = words.pitch(mm(following - low), mm(high - low), mm(following - high))
    ends = (low, following)
    if lengthwise:
        a, b = (Vec(wood.high.x, y, wood.high.z) for y in ends)
    else:
        a, b = (Vec(x, wood.low.y, wood.high.z) for x in ends)
    yield _between(PLAN, a, b, -_NEAR, text)


def _flat_slats(assembly: Assembly) -> list[Part]:
    """Slats of the seat or deck: fixed, lying flat, and alike in name to the first of them."""
    found = [
        p
        for p in assembly.parts.values()
        if "slat" in p.name and p.group == "frame" and abs(p.frame.z.z) > 0.999
    ]
    return [p for p in found if p.name == found[0].name]


def _top(part: Part) -> float:
    return max(part.frame.place(0.0, 0.0, z).z for z in (0.0, part.thickness))


def _range(part: Part, axis: int) -> tuple[float, float]:
    corners = Body(part.key, part.frame, part.outline, 0.0, part.thickness).corners()
    reach = [c[axis] for c in corners]
    return min(reach), max(reach)
