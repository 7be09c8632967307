"""What slanting cuts leave of a part: its outline at a height, its corners, its volume."""

from __future__ import annotations

from collections.abc import Iterator
from functools import reduce
from itertools import chain, combinations, pairwise
from typing import Protocol, cast

from flatpack.geometry import Outline, Plane, Point, Segment, Vec
from flatpack.geometry.plane import cut_short
from flatpack.model.part import Part

SAGITTA = 0.01
"""Corners of a rounded part lie this near to its true arcs, mm."""


NOISE = 1e-5
"""Heights nearer than this are one, mm."""


class Slanting(Protocol):
    """A feature that takes off all that lies beyond a plane."""

    def plane(self, thickness: float) -> Plane:
        """The plane in the part's own axes."""


def planes(part: Part) -> tuple[Plane, ...]:
    """The part's slanting cuts, in its own axes; empty for a part that is square all round."""
    t = part.thickness
    cuts = (cast(Slanting, f) for f in part.features if f.operation == "bevel")
    return tuple(cut.plane(t) for cut in cuts)


def outline_at(part: Part, height: float) -> Outline:
    """The outline that is left at a height above the back face.

    Where nothing is left it is the part's own outline, which the checks then tell as a fault.
    """
    lines = [plane.line(height) for plane in planes(part)]
    return trimmed(part.outline, lines) or part.outline


def trimmed(outline: Outline, lines: list[tuple[Point, Point]]) -> Outline | None:
    """The outline behind every line (a place on it and its outward normal)."""

    def less(left: Outline | None, line: tuple[Point, Point]) -> Outline | None:
        return None if left is None else cut_short(left, *line)

    return reduce(less, lines, cast("Outline | None", outline))


def corners(part: Part) -> tuple[Vec, ...]:
    """Places of the part in its own axes between which all of it lies.

    Its corners; of an arc places along it no further apart than the sagitta, and its outermost
    ones along and across the grain.
    """
    t = part.thickness
    if not planes(part):
        flat = _spots(part.outline)
        return tuple(Vec(*p, z) for z in (0.0, t) for p in flat)
    return tuple(Vec(*p, z) for z in _levels(part) for p in _spots(outline_at(part, z)))


def _spots(outline: Outline) -> tuple[Point, ...]:
    arcs = (s for s in outline if s.bulge)
    return (*outline.sampled(SAGITTA), *(p for arc in arcs for p in _furthest(arc)))


def _furthest(arc: Segment) -> Iterator[Point]:
    """Where an arc reaches furthest to the right, up, left and down, when that isn't at an end."""
    (cx, cy), r = arc.centre, arc.radius
    x0, y0, x1, y1 = arc.bounds()
    for at, reached in (
        (Point(cx + r, cy), x1 == cx + r), (Point(cx, cy + r), y1 == cy + r),
        (Point(cx - r, cy), x0 == cx - r), (Point(cx, cy - r), y0 == cy - r),
    ):  # fmt: skip
        if reached:
            yield at


def volume(part: Part) -> float:
    """Volume of the wood, mm3, holes not taken out.

    Between heights at which no corner comes or goes every edge moves evenly, so areas run as
    squares of the height, which Simpson's rule adds up exactly; where an arc is sawn, in steps.
    Openings are taken as square.
    """
    openings = sum(o.area for o in part.openings)
    t = part.thickness
    if not planes(part):
        return float((part.outline.area - openings) * t)
    wood = sum(
        (_area(part, low) + 4.0 * _area(part, (low + high) / 2.0) + _area(part, high))
        * (high - low) / 6.0
        for low, high in pairwise(_levels(part))
    )  # fmt: skip
    return float(wood - openings * t)


def _levels(part: Part) -> list[float]:
    """Heights between which every edge moves evenly, rising; close steps where an arc is sawn."""
    t = part.thickness
    levels = [0.0, *(z for z in _changes(part) if NOISE < z < t - NOISE), t]
    if all(s.bulge == 0.0 for s in part.outline):
        return levels
    steps = ((low + (high - low) * i / 8 for i in range(8)) for low, high in pairwise(levels))
    return [*chain.from_iterable(steps), t]


def _area(part: Part, height: float) -> float:
    left = trimmed(part.outline, [plane.line(height) for plane in planes(part)])
    return 0.0 if left is None else left.area


def _changes(part: Part) -> list[float]:
    """Heights at which three edges, one of them slanting, meet in one place.

    Each edge is n . p = c + m z; three meet where the determinant of their rows is nothing.
    """
    rows = [(o.x, o.y, at.dot(o), -o.z) for at, o in planes(part)]
    for (x0, y0), (x1, y1), bulge in part.outline:
        if bulge == 0.0:
            nx, ny = y1 - y0, x0 - x1
            rows.append((nx, ny, nx * x0 + ny * y0, 0.0))
    found = set()
    for a, b, c in combinations(rows, 3):
        still, moving = (
            a[i] * (b[0] * c[1] - b[1] * c[0])
            + b[i] * (c[0] * a[1] - c[1] * a[0])
            + c[i] * (a[0] * b[1] - a[1] * b[0])
            for i in (2, 3)
        )
        if abs(moving) > NOISE:
            found.add(round(-still / moving, 6))
    return sorted(found)
