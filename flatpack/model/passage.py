"""Where a straight axis enters a part and leaves it, by the planes that bound the part."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.geometry import Plane, Point, Vec, Z
from flatpack.geometry.outline import is_convex, is_rectangle
from flatpack.geometry.shapes import rectangle
from flatpack.model.part import Part

ALONG = 1e-9
"""An axis this near to a plane's own direction, as a sine, never meets it."""


NEAR = 1e-6
"""Places this near to a plane lie on it, mm."""


class Passage(NamedTuple):
    """Distances along an axis at which it enters and leaves a part, and through which planes."""

    enter: float
    leave: float
    entered: Plane
    left: Plane


def is_shaped(part: Part) -> bool:
    """True for a part of straight lines that isn't a plain box: sawn at a slant, or with mitres."""
    return bool(part.planes) or (not is_rectangle(part.outline) and is_convex(part.outline))


def sides(part: Part) -> Iterator[Plane]:
    """Planes that bound a part in its own axes: both faces, slanting cuts, edges and ends.

    The edges are its own where the outline is straight and without hollows, else those of the
    rectangle round it; one that is sawn at a slant along its whole length is left out.
    """
    yield Plane(Vec(0.0, 0.0, part.thickness), Z)
    yield Plane(Vec(0.0, 0.0, 0.0), Z.negated())
    cuts = part.planes
    yield from cuts
    outline = part.outline
    if not is_convex(outline):
        x0, y0, x1, y1 = outline.bounds
        outline = rectangle(x1 - x0, y1 - y0, x0, y0)
    for segment in outline:
        ux, uy = segment.direction(0.0)
        if not any(_lies_on(cut, segment.start, segment.end) for cut in cuts):
            yield Plane(Vec(*segment.start, 0.0), Vec(uy, -ux, 0.0))


def _lies_on(cut: Plane, *places: Point) -> bool:
    return all(abs(cut.beyond(Vec(*place, cut.at.z))) < NEAR for place in places)


def passage(part: Part, at: Vec, way: Vec) -> Passage:
    """The passage of an axis through `at` along the unit vector `way`, both in the part's axes.

    One that misses the part has both ends where it leaves, for the checks to tell.
    """
    first: tuple[float, Plane] | None = None
    last: tuple[float, Plane] | None = None
    for plane in sides(part):
        slope = way.dot(plane.out)
        if abs(slope) <= ALONG:
            continue
        there = -plane.beyond(at) / slope
        if slope > 0.0 and (last is None or there < last[0]):
            last = there, plane
        if slope < 0.0 and (first is None or there > first[0]):
            first = there, plane
    assert first is not None
    assert last is not None  # the faces and a closed outline bound every direction
    return Passage(min(first[0], last[0]), last[0], first[1], last[1])
