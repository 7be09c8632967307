"""Holes and pockets as they show on a part's face, and at which step something goes in them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from math import ceil, floor
from typing import NamedTuple

from flatpack.drawings.ellipses import at_parameter, sweep_of
from flatpack.drawings.faces import one_sided
from flatpack.drawings.shapes import Circle, Closed, Ellipse, Shape
from flatpack.geometry import Point, cosine_sine
from flatpack.model import Assembly, Face, Fastener, Part

_SEEN = frozenset(
    {"drill-through", "drill-blind", "counterbore", "countersink", "pocket-hole", "slot"}
)
_FLAT = 0.01
"""An axis that rises less than this from a face never crosses it at a hole."""


class Spot(NamedTuple):
    """A hole's edge in the part's own axes; `face` is "" for one that goes through.

    `steps` are those whose fasteners go in it.
    """

    face: str
    points: tuple[Point, ...]
    steps: frozenset[str]


Spots = tuple[Spot, ...]
Filled = frozenset[str]
"""Steps at which something goes in an opening."""
Place = tuple[Face, int, int]
"""A face and a place on it in tenths of a mm."""


def holes(assembly: Assembly) -> dict[str, Spots]:
    """Every hole of every part, by the part's key."""
    through: dict[str, list[Fastener]] = {}
    for fastener in assembly.fasteners:
        for key in fastener.passes:
            through.setdefault(key, []).append(fastener)
    return {
        key: tuple(_spots(part, _crossings(part, through.get(key, [])), _filled(part, assembly)))
        for key, part in assembly.parts.items()
    }


def _spots(part: Part, crossed: Mapping[Place, set[str]], filled: Filled) -> Iterator[Spot]:
    for opening in part.openings:
        yield Spot("", opening.sampled(0.3), filled)
    for feature in part.features:
        if feature.operation not in _SEEN:
            continue
        at = (feature.face, round(feature.at.x * 10.0), round(feature.at.y * 10.0))
        steps = frozenset(crossed.get(at, ()))
        face = feature.face if one_sided(feature) else ""
        for layer, shape in feature.shapes():
            points = _edge(shape) if layer == feature.operation else ()
            if points:
                yield Spot(face, points, steps)


def _filled(part: Part, assembly: Assembly) -> Filled:
    """Steps at which tenons or wedges go into the part's openings."""
    step_of = {joint.key: joint.step for joint in assembly.joints}
    into = (f for f in assembly.fits if part.key in (f.part, f.onto) and part.key not in f.tongues)
    return frozenset(step_of[fit.joint] for fit in into if fit.joint in step_of)


def _crossings(part: Part, fasteners: list[Fastener]) -> dict[Place, set[str]]:
    """Where the fasteners' axes cross the part's faces, and each one's step."""
    found: dict[Place, set[str]] = {}
    for fastener in fasteners:
        at = part.frame.local(fastener.start)
        way = part.frame.local_direction(fastener.direction)
        if abs(way.z) < _FLAT:
            continue
        for face, height in (("show", part.thickness), ("back", 0.0)):
            share = (height - at.z) / way.z
            for place in _tenths(at.x + way.x * share, at.y + way.y * share):
                found.setdefault((face, *place), set()).add(fastener.step)  # type: ignore[arg-type]  # face is one of the two
    return found


def _tenths(x: float, y: float) -> Iterator[tuple[int, int]]:
    """The tenths of a mm round a place, so that the last bits never part a hole from its axis."""
    for a in {floor(x * 10.0), ceil(x * 10.0)}:
        for b in {floor(y * 10.0), ceil(y * 10.0)}:
            yield a, b


def _edge(shape: Shape) -> tuple[Point, ...]:
    if isinstance(shape, Circle):
        (x, y), r = shape.centre, shape.radius
        return tuple(Point(x + r * c, y + r * s) for c, s in _round())
    if isinstance(shape, Ellipse):
        step = sweep_of(shape) / 10.0
        return tuple(at_parameter(shape, shape.start + step * i) for i in range(11))
    return shape.outline.sampled(0.3) if isinstance(shape, Closed) else ()


@cache
def _round() -> tuple[tuple[float, float], ...]:
    return tuple(cosine_sine(degrees) for degrees in range(0, 360, 36))
