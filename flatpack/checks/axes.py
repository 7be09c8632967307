"""Axes of fasteners and bars in the piece, and which holes lie on them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np

from flatpack.checks.bored import Bored
from flatpack.geometry import Vec
from flatpack.model import Assembly, Part

Array = Any


class Line(NamedTuple):
    """An axis in the piece that holes should lie on, and whose it is."""

    key: str
    start: Vec
    direction: Vec
    diameter: float
    length: float


def in_place(part: Part, holes: tuple[Bored, ...]) -> Array:
    """Both ends of each hole's axis in the piece: (n, 2, 3)."""
    ends = [part.frame.place(*end) for hole in holes for end in (hole.mouth, hole.bottom)]
    return np.array(ends).reshape(-1, 2, 3)


def offsets(part: Part, holes: tuple[Bored, ...], places: Array, line: Line) -> tuple[float, ...]:
    """How far each hole's axis stands from the line at the worse of its two ends, mm.

    A slot counts from where the line comes nearest along it.
    """
    way = np.array(line.direction)
    away = places - np.array(line.start)
    away -= (away @ way)[..., None] * way
    for number, hole in enumerate(holes):
        if hole.play:
            along = np.array(part.frame.turn(hole.along))
            slide = np.clip(away[number] @ along, -hole.play, hole.play)
            away[number] -= slide[:, None] * along
    return tuple(np.sqrt((away * away).sum(axis=2)).max(axis=1, initial=0.0).tolist())


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
