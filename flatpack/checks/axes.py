"""Axes of fasteners and bars in the piece, and which holes lie on them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
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


def offsets(part: Part, holes: tuple[Bored, ...], some: Sequence[Line]) -> list[tuple[float, ...]]:
    """For each line, how far each hole's axis stands from it at the worse of its two ends, mm.

    A slot counts from where the line comes nearest along it.
    """
    ways = np.array([line.direction for line in some]).reshape(-1, 1, 1, 3)
    away = in_place(part, holes) - np.array([line.start for line in some]).reshape(-1, 1, 1, 3)
    away -= (away * ways).sum(axis=3, keepdims=True) * ways
    for number, hole in enumerate(holes):
        if hole.play:
            along = np.array(part.frame.turn(hole.along))
            slide = np.clip(away[:, number] @ along, -hole.play, hole.play)
            away[:, number] -= slide[..., None] * along
    worse = np.sqrt((away * away).sum(axis=3)).max(axis=2, initial=0.0)
    return list(map(tuple, worse.tolist()))


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
