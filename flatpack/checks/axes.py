"""Axes of fasteners and bars in the piece, and which holes lie on them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from flatpack.checks.bored import Bored
from flatpack.geometry import Vec
from flatpack.model import Assembly, Part


class Line(NamedTuple):
    """An axis in the piece that holes should lie on, and whose it is."""

    key: str
    start: Vec
    direction: Vec
    diameter: float
    length: float


def off_axis(part: Part, hole: Bored, line: Line) -> float:
    """How far the hole's axis stands from the line at the worse of its two ends, mm."""
    off = 0.0
    slack = part.frame.turn(hole.along)
    for end in (hole.mouth, hole.bottom):
        away = part.frame.place(*end).minus(line.start)
        away = away.plus(line.direction, -away.dot(line.direction))
        if hole.play:
            slide = max(-hole.play, min(hole.play, away.dot(slack)))
            away = away.plus(slack, -slide)
        off = max(off, away.length)
    return off


def lines(assembly: Assembly) -> Iterator[tuple[Line, tuple[str, ...]]]:
    """Every axis with the parts that it passes."""
    parts = assembly.parts
    for f in assembly.fasteners:
        line = Line(f.key, f.start, f.direction, f.diameter, f.length)
        yield line, tuple(key for key in f.passes if key in parts)
    for joint in assembly.joints:
        bar = assembly.bars.get(joint.parts[0]) if joint.parts else None
        if bar is not None:
            line = Line(bar.key, bar.frame.origin, bar.frame.z, bar.stock.diameter, bar.length)
            yield line, tuple(key for key in joint.parts[1:] if key in parts)


def users(
    assembly: Assembly,
    bored: Mapping[str, tuple[Bored, ...]],
    axes: Iterable[tuple[Line, tuple[str, ...]]],
    tolerance: float,
) -> dict[tuple[str, int], Line]:
    """(part's key, feature's number) -> the fastener or bar whose axis the hole lies on."""
    found: dict[tuple[str, int], Line] = {}
    for line, keys in axes:
        for key in keys:
            for hole in bored[key]:
                if off_axis(assembly.parts[key], hole, line) <= tolerance:
                    found.setdefault((key, hole.number), line)
    return found
