"""The piece's ways in words, and the axes that a part gets from them.

x runs to the rear, y to the right, z up; left and right as for somebody who sits on the piece, or
stands behind it, and looks to its front.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from flatpack.geometry import Vec, X, Y, Z, cosine_sine

AXES = (X, Y, Z)
WAYS: Mapping[str, Vec] = MappingProxyType(
    {
        "front": X.negated(),
        "rear": X,
        "left": Y.negated(),
        "right": Y,
        "bottom": Z.negated(),
        "down": Z.negated(),
        "top": Z,
        "up": Z,
    }
)
OTHER_HAND = {"left": "right", "right": "left"}

Triad = tuple[Vec, Vec, Vec]
"""A part's own x, y and z as directions in the piece."""


class Plane(NamedTuple):
    """All places p with normal . p = reach; the normal is a unit vector."""

    normal: Vec
    reach: float

    def mirrored(self, width: float) -> Plane:
        """Its mirror image across the middle of a piece of this width: y becomes width - y."""
        n = self.normal
        return Plane(Vec(n.x, -n.y, n.z), self.reach - n.y * width)


def triad(runs: Vec, shows: Vec) -> Triad | None:
    """Axes of a part that runs one way and shows its face another; None where the two don't fit."""
    if abs(runs.dot(shows)) > 0.5:
        return None
    return runs, shows.cross(runs), shows


def turned(axes: Triad, degrees: float) -> Triad:
    """The axes turned anticlockwise seen from above."""
    c, s = cosine_sine(degrees)
    x, y, z = (Vec(v.x * c - v.y * s, v.x * s + v.y * c, v.z) for v in axes)
    return x, y, z


def tipped(axes: Triad, degrees: float, to: Vec) -> Triad:
    """The axes tipped: what stood upright then leans towards the level direction `to`."""
    c, s = cosine_sine(degrees)
    up = Vec(to.x * s, to.y * s, c)
    ahead = Vec(to.x * c, to.y * c, -s)
    aside = Z.cross(to)
    x, y, z = (
        Vec(0.0, 0.0, 0.0)
        .plus(up, v.z)
        .plus(ahead, v.dot(to))
        .plus(aside, v.dot(aside))
        for v in axes
    )  # fmt: skip
    return x, y, z


def nearest_axis(axes: Triad, way: Vec) -> tuple[int, int]:
    """The own axis (0 to 2) that runs most nearly a way, and 1 or -1 for its sense."""
    number = max(range(3), key=lambda i: (round(abs(axes[i].dot(way)), 6), -i))
    return number, 1 if axes[number].dot(way) > 0.0 else -1


def meet(a: Plane, b: Plane, along: Vec) -> float | None:
    """Reach along a direction of the line in which two planes meet.

    None where they don't meet in a line that is square to that direction.
    """
    run = a.normal.cross(b.normal)
    if run.length < 1e-6 or abs(run.unit().dot(along)) > 1e-6:
        return None
    place = crossing(a, b, Plane(run.unit(), 0.0))
    return None if place is None else place.dot(along)


def crossing(a: Plane, b: Plane, c: Plane) -> Vec | None:
    """The place that lies on three planes; None where there is no single one."""
    bc, ca, ab = b.normal.cross(c.normal), c.normal.cross(a.normal), a.normal.cross(b.normal)
    whole = a.normal.dot(bc)
    if abs(whole) < 1e-9:
        return None
    zero = Vec(0.0, 0.0, 0.0)
    return (
        zero.plus(bc, a.reach / whole).plus(ca, b.reach / whole).plus(ab, c.reach / whole)
    )  # fmt: skip


def solved(rows: list[list[float]], rests: list[float]) -> list[float] | None:
    """Unknowns of up to three linear equations; None where they have no single solution."""
    lines = [[*row, rest] for row, rest in zip(rows, rests, strict=True)]
    count = len(lines)
    for i in range(count):
        best = max(range(i, count), key=lambda k: abs(lines[k][i]))
        if abs(lines[best][i]) < 1e-6:
            return None
        lines[i], lines[best] = lines[best], lines[i]
        for k in range(count):
            if k != i:
                share = lines[k][i] / lines[i][i]
                lines[k] = [v - share * w for v, w in zip(lines[k], lines[i], strict=True)]
    return [line[-1] / line[i] for i, line in enumerate(lines)]
