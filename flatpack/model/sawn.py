"""What slanting cuts leave of a part: its outline at a height, its corners, its volume."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from itertools import chain, combinations, pairwise
from typing import cast

from flatpack.geometry import Outline, Plane, Point, Segment, Vec
from flatpack.geometry.outline import is_rectangle
from flatpack.geometry.plane import cut_short
from flatpack.model.part import Part

SAGITTA = 0.05
"""Places along an arc stand for it this nearly, mm."""


NOISE = 1e-5
"""Heights nearer than this are one, mm."""


def outline_at(part: Part, height: float) -> Outline:
    """The outline that is left at a height above the back face.

    Where nothing is left it is the part's own outline, which the checks then tell as a fault.
    """
    lines = [plane.line(height) for plane in part.planes]
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
    return left_corners(part.outline, part.planes, 0.0, part.thickness)


def placed_corners(part: Part) -> tuple[Vec, ...]:
    """The part's corners where they are in the piece."""
    place = part.frame.place
    return tuple(place(*corner) for corner in corners(part))


def left_corners(
    outline: Outline, cuts: Sequence[Plane], low: float, high: float
) -> tuple[Vec, ...]:
    """The same of a prism between two heights, behind every plane; all of it if nothing is."""
    found: list[Vec] = []
    if not cuts:
        flat = outline.points if is_rectangle(outline) else _spots(outline)
        return tuple(Vec(x, y, z) for z in (low, high) for x, y in flat)
    for height in _levels(outline, cuts, low, high):
        left = trimmed(outline, [cut.line(height) for cut in cuts])
        found += [Vec(*p, height) for p in _spots(left)] if left else []
    return tuple(found) or tuple(Vec(*p, z) for z in (low, high) for p in _spots(outline))


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
    cuts, t = part.planes, part.thickness
    if not cuts:
        return float((part.outline.area - openings) * t)

    def area(height: float) -> float:
        left = trimmed(part.outline, [cut.line(height) for cut in cuts])
        return 0.0 if left is None else left.area

    wood = sum(
        (area(low) + 4.0 * area((low + high) / 2.0) + area(high)) * (high - low) / 6.0
        for low, high in pairwise(_levels(part.outline, cuts, 0.0, t))
    )
    return float(wood - openings * t)


def _levels(outline: Outline, cuts: Sequence[Plane], low: float, high: float) -> list[float]:
    """Heights between which every edge moves evenly, rising; close steps where an arc is sawn."""
    if not cuts:
        return [low, high]
    between = (z for z in _changes(outline, cuts) if low + NOISE < z < high - NOISE)
    levels = [low, *between, high]
    if all(s.bulge == 0.0 for s in outline):
        return levels
    steps = ((a + (b - a) * i / 8 for i in range(8)) for a, b in pairwise(levels))
    return [*chain.from_iterable(steps), high]


def _changes(outline: Outline, cuts: Sequence[Plane]) -> list[float]:
    """Heights at which three edges, one of them slanting, meet in one place.

    Each edge is n . p = c + m z; three meet where the determinant of their rows is nothing.
    """
    rows = [(o.x, o.y, at.dot(o), -o.z) for at, o in cuts]
    for (x0, y0), (x1, y1), bulge in outline:
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
