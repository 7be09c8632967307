"""Holes as the checks see them: a feature's axis in its part and in the piece.

A feature is told by its `operation`, a key of the layer table; one that isn't listed here takes no
axis, and one that nobody knows is reported by the check of features as not done.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, Literal, NamedTuple

from flatpack.geometry import Point, Vec
from flatpack.model import Feature, Part

Kind = Literal["face", "sink", "edge", "pocket", "slot"]
AXISLESS = ("thin-line", "arris", "bevel", "part-mark", "opening", "housing", "text")
"""Operations without an axis: their room is in the outline, in their cuts, or on the surface."""

SHALLOWEST = 0.001
"""Depth given to an edge hole that has none, so that it still has an axis, mm."""


class Bored(NamedTuple):
    """One hole: its mouth and its inner end on the axis, in the part's own axes.

    `blind` holes end inside the part.  A slot's axis is its middle; `play` is how far a fastener
    may stand from it along the slot's direction `along`.
    """

    part: str
    number: int
    feature: Feature
    kind: Kind
    diameter: float
    mouth: Vec
    bottom: Vec
    blind: bool
    play: float = 0.0
    along: Vec = Vec(0.0, 0.0, 0.0)


def bored(part: Part) -> tuple[Bored, ...]:
    """All holes of a part that have an axis."""
    found = []
    for number, feature in enumerate(part.features):
        reader = _READERS.get(feature.operation)
        if reader is not None:
            found.append(reader(part, number, feature))
    return tuple(found)


def known(feature: Feature) -> bool:
    """True when the checks know how to read the feature."""
    return feature.operation in _READERS or feature.operation in AXISLESS


def _ends(part: Part, at: Point, face: str, depth: float | None) -> tuple[Vec, Vec]:
    reach = part.thickness if depth is None else min(depth, part.thickness)
    if face == "show":
        return Vec(at.x, at.y, part.thickness), Vec(at.x, at.y, part.thickness - reach)
    return Vec(at.x, at.y, 0.0), Vec(at.x, at.y, reach)


def _blind(part: Part, depth: float | None) -> bool:
    return depth is not None and depth < part.thickness


def _face(part: Part, number: int, feature: Any) -> Bored:
    mouth, bottom = _ends(part, feature.at, feature.face, feature.depth)
    blind = _blind(part, feature.depth)
    return Bored(part.key, number, feature, "face", feature.diameter, mouth, bottom, blind)


def sink_depth(feature: Any) -> float:
    """Depth of a counterbore, or of a countersink's cone down to its point, mm."""
    if feature.depth is not None:
        return float(feature.depth)
    return float(feature.diameter / 2.0 / math.tan(math.radians(feature.angle) / 2.0))


def _sink(part: Part, number: int, feature: Any) -> Bored:
    mouth, bottom = _ends(part, feature.at, feature.face, sink_depth(feature))
    return Bored(part.key, number, feature, "sink", feature.diameter, mouth, bottom, True)


def _slot(part: Part, number: int, feature: Any) -> Bored:
    mouth, bottom = _ends(part, feature.at, feature.face, feature.depth)
    dx, dy = feature.end.x - feature.start.x, feature.end.y - feature.start.y
    length = math.hypot(dx, dy)
    along = Vec(dx / length, dy / length, 0.0) if length > 0.0 else Vec(1.0, 0.0, 0.0)
    return Bored(
        part.key, number, feature, "slot", feature.width, mouth, bottom,
        _blind(part, feature.depth), length / 2.0, along,
    )  # fmt: skip


def _edge(part: Part, number: int, feature: Any) -> Bored:
    mouth = Vec(feature.at.x, feature.at.y, feature.height)
    bottom = mouth.plus(feature.way, max(feature.depth or 0.0, SHALLOWEST))
    return Bored(part.key, number, feature, "edge", feature.diameter, mouth, bottom, True)


def _pocket(part: Part, number: int, feature: Any) -> Bored:
    """A pocket's screw enters at the ellipse on the face and leaves mid-thickness at the edge."""
    exit_at = Vec(feature.exit.x, feature.exit.y, part.thickness / 2.0)
    height = part.thickness if feature.face == "show" else 0.0
    mouth = Vec(feature.at.x, feature.at.y, height)
    return Bored(part.key, number, feature, "pocket", feature.pilot, mouth, exit_at, False)


_READERS: dict[str, Callable[[Part, int, Any], Bored]] = {
    "drill-through": _face,
    "drill-blind": _face,
    "counterbore": _sink,
    "countersink": _sink,
    "slot": _slot,
    "hidden-edge": _edge,
    "pocket-hole": _pocket,
}
