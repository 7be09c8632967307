"""The piece as the sweep sees it: each part's side view in the hinge frame, in its lane."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Frame, Outline, Point, Segment, Vec, Y
from flatpack.geometry.shapes import disc, rectangle
from flatpack.mechanism.bodies import Body, Carrier
from flatpack.model import Assembly, Bar, Fastener, Group, Motion, Part, Solid

SEEN = ("coach bolt", "hinge", "wheel")
"""Kinds of fastener that stand out of the parts that they hold."""
SQUARE = 1e-6


def bodies(assembly: Assembly, motion: Motion) -> tuple[Body, ...]:
    """Parts, bars and what stands out of them, with the back flat."""
    return (
        *(_part(part, motion) for part in assembly.parts.values()),
        *(_bar(bar, motion) for bar in assembly.bars.values()),
        *(
            body
            for fastener in assembly.fasteners
            if fastener.kind in SEEN
            for body in _fastener(fastener, motion)
        ),
    )


def _part(part: Part, motion: Motion) -> Body:
    return _body(part.key, part.frame, part.outline, 0.0, part.thickness, part.group, motion)


def _bar(bar: Bar, motion: Motion) -> Body:
    shape = disc(bar.stock.diameter / 2.0)
    return _body(bar.key, bar.frame, shape, 0.0, bar.length, bar.group, motion)


def _fastener(fastener: Fastener, motion: Motion) -> Iterator[Body]:
    for solid in fastener.solids:
        group = solid.group or fastener.group
        yield _solid(solid, group, motion)


def _solid(solid: Solid, group: Group, motion: Motion) -> Body:
    return _body(solid.name, solid.frame, solid.outline, solid.low, solid.high, group, motion)


def _body(
    name: str,
    frame: Frame,
    outline: Outline,
    low: float,
    high: float,
    group: Group,
    motion: Motion,
) -> Body:
    frame, outline, low, high = _across(frame, outline, low, high)
    ends = [frame.place(0.0, 0.0, z).y for z in (low, high)]
    seen = _seen(frame, outline, _home(group, motion))
    return Body(
        name=name,
        outlines=(seen,),
        lane=(min(ends), max(ends)),
        carrier=Carrier(group),
    )


def _across(
    frame: Frame, outline: Outline, low: float, high: float
) -> tuple[Frame, Outline, float, float]:
    """The same prism with its z across the piece; a box is stood on another side for that.

    Raises:
        ValueError: the body lies askew across the piece.
    """
    if abs(abs(frame.z.dot(Y)) - 1.0) < SQUARE:
        return frame, outline, low, high
    x0, y0, x1, y1 = outline.bounds
    if abs(abs(frame.x.dot(Y)) - 1.0) < SQUARE:
        turned = Frame(frame.origin, frame.y, frame.z, frame.x)
        return turned, rectangle(y1 - y0, high - low, y0, low), x0, x1
    if abs(abs(frame.y.dot(Y)) - 1.0) < SQUARE:
        turned = Frame(frame.origin, frame.z, frame.x, frame.y)
        return turned, rectangle(high - low, x1 - x0, low, x0), y0, y1
    raise ValueError("a body lies askew across the piece")


def _home(group: Group, motion: Motion) -> tuple[Vec, float, float]:
    """Origin of a carrier's axes with the back flat, and the cosine and sine of their turn."""
    axis, pivot, rod = motion.axis, motion.pivot, motion.folded
    if group == "rod":
        return Vec(axis.x + rod.x, 0.0, axis.z + rod.y), 1.0, 0.0
    if group == "arm":
        c, s = (rod.x - pivot.x) / motion.arm, (rod.y - pivot.y) / motion.arm
        return Vec(axis.x + pivot.x, 0.0, axis.z + pivot.y), c, s
    return axis, 1.0, 0.0


def _seen(frame: Frame, outline: Outline, home: tuple[Vec, float, float]) -> Outline:
    """The outline in a carrier's axes, anticlockwise."""
    origin, c, s = home

    def moved(p: Point) -> Point:
        at = frame.place(p.x, p.y)
        x, y = at.x - origin.x, at.z - origin.z
        return Point(round(x * c + y * s, 9), round(y * c - x * s, 9))

    sign = 1.0 if frame.x.x * frame.y.z - frame.x.z * frame.y.x > 0.0 else -1.0
    seen = Outline(tuple(Segment(moved(a), moved(b), sign * k) for a, b, k in outline))
    return seen if sign > 0.0 else seen.reversed()
