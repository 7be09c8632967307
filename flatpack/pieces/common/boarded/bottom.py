"""The bottom's slats; the outer two are notched round posts and battens.

y from the long side
|    .--.                .--.
|____|  |________________|  |____   outer slat: notches at its ends and at each batten
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Frame, Outline, Vec, X, Y, Z, closed
from flatpack.geometry.shapes import rectangle
from flatpack.model import Cutting, Part
from flatpack.pieces.common.boarded.carcass import END_ROOM, Carcass
from flatpack.pieces.family import Workings, mm

Notch = tuple[float, float, float]
"""A notch in a slat's edge: start and end along it, depth, mm."""


def slats(out: Carcass) -> Iterator[Part]:
    """Slats from the low side to the high one, lying on the bearers."""
    bottom, width = out.bottom, out.widths.slat
    for i in range(bottom.count):
        front = bottom.first + i * (width + bottom.gap)
        yield _slat(out, i, front, width)


def _slat(out: Carcass, i: int, front: float, width: float) -> Part:
    """Its y runs away from the long side that it is nearest to, so that both outer ones agree."""
    bottom = out.bottom
    last = i == bottom.count - 1
    length = bottom.end - bottom.start
    outer = i == 0 or last
    cuts = notches(out) if outer else ()
    top = out.levels.bearer_high
    frame = (
        Frame(Vec(front + width, bottom.start, top), Y, X.negated(), Z)
        if last
        else Frame(Vec(front, bottom.end, top), Y.negated(), X, Z)
    )
    return Part(
        key=f"bottom-slat-{i + 1}",
        name="Bottom slat",
        board=out.timber.bottom,
        outline=notched(length, width, cuts) if cuts else rectangle(length, width),
        frame=frame,
    )


def notch_depth(out: Carcass, sticks_in: float) -> float:
    """Depth of a notch round what stands `sticks_in` from the long side; 0 where none is needed."""
    return max(sticks_in + END_ROOM - (out.bottom.first - out.timber.sides.thickness), 0.0)


def notches(out: Carcass) -> tuple[Notch, ...]:
    """Notches of an outer slat, from one end to the other (they are the same from both)."""
    start, end = out.bottom.start, out.bottom.end
    t, half = out.timber.sides.thickness, out.widths.post / 2.0
    reach = t + out.corner.y + END_ROOM - start
    corner = notch_depth(out, out.corner.x)
    batten = notch_depth(out, out.timber.posts.thickness)
    middle = [
        (m - half - END_ROOM - start, m + half + END_ROOM - start, batten) for m in out.battens
    ]
    length = end - start
    every = [(0.0, reach, corner), *middle, (length - reach, length, corner)]
    return tuple(n for n in every if n[2] > 0.0)


def notch_sizes(out: Carcass, notes: Workings) -> None:
    """Notes the notches' sizes: what a saw is set to."""
    for number, (start, end, depth) in enumerate(notches(out), 1):
        notes.add(
            f"Outer bottom slat, notch {number}, depth",
            depth,
            f"from {mm(start)} to {mm(end)} along it from either end; {mm(END_ROOM)} free round "
            f"what stands there, the slat {mm(out.bottom.first - out.timber.sides.thickness)} from "
            "the side",
        )


def notched(length: float, width: float, cuts: tuple[Notch, ...]) -> Outline:
    """Rectangle with notches along y = 0; those at the ends take the corner off."""
    edge: list[tuple[float, float, float]] = []
    for start, end, depth in cuts:
        edge += [(start, 0.0, 0.0)] if start > 0.0 else []
        edge += [(start, depth, 0.0), (end, depth, 0.0)]
        edge += [(end, 0.0, 0.0)] if end < length else []
    return closed((*edge, (length, width, 0.0), (0.0, width, 0.0)))


def spacers(out: Carcass) -> tuple[Cutting, ...]:
    """Gap spacers of sides and bottom."""
    rows = (
        Cutting("Gap spacer, sides", 60.0, out.gap, 4, "between side boards"),
        Cutting("Gap spacer, bottom", out.widths.slat, out.bottom.gap, 2, "between bottom slats"),
    )
    return tuple(row for row in rows if row.width > 0.0)
