"""Convex bodies in space and the gap between two of them (separating axis theorem).

Two convex polyhedra are apart if and only if some direction separates them, and it is enough to
try the normals of both bodies' faces and the cross products of their edges.  Along each such unit
direction the gap is a lower bound of the true distance; the greatest is the answer here, exact
where faces or edges are nearest.  (Gottschalk, Lin and Manocha 1996.)
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

from flatpack.geometry import Frame

Array = Any
MANY = 8
"""Sides from which it pays to look for pairs that run the same way."""


class Convex(NamedTuple):
    """Corners (n, 3), unit normals of its faces (k, 3) and unit directions of its edges (m, 3)."""

    points: Array
    normals: Array
    edges: Array


def axes_of(frame: Frame) -> Array:
    """The frame's unit axes as the rows of a 3 x 3 array."""
    return np.array((frame.x, frame.y, frame.z))


def prism(corners: Array, low: float, high: float, frame: Frame) -> Convex:
    """Convex polygon (n, 2) in the frame's x and y, from `low` to `high` along its z."""
    axes = axes_of(frame)
    flat = corners @ axes[:2] + np.array(frame.origin)
    points = np.concatenate((flat + axes[2] * low, flat + axes[2] * high))
    sides = unit(np.roll(corners, -1, axis=0) - corners)
    ways = (_once(sides) if len(sides) > MANY else sides) @ axes[:2]
    normals = _crossed(ways, axes[2:])
    return Convex(points, np.concatenate((normals, axes[2:])), np.concatenate((ways, axes[2:])))


def _crossed(a: Array, b: Array) -> Array:
    """Vector products of rows; numpy's own spends its time on shapes that don't occur here."""
    ax, ay, az = a[..., 0], a[..., 1], a[..., 2]
    bx, by, bz = b[..., 0], b[..., 1], b[..., 2]
    return np.stack((ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx), axis=-1)


def unit(vectors: Array) -> Array:
    """The vectors at length 1; those too short to have a direction are dropped."""
    lengths = np.linalg.norm(vectors, axis=-1)
    good = lengths > 1e-9
    return vectors[good] / lengths[good, None]


def _once(ways: Array) -> Array:
    """Directions without those that only point the other way."""
    flip = (ways[:, :1] < -1e-12) | ((abs(ways[:, :1]) <= 1e-12) & (ways[:, 1:2] < 0.0))
    return np.unique(np.round(np.where(flip, -ways, ways), 12), axis=0)


def gap(a: Convex, b: Convex) -> float:
    """Gap between two bodies, mm: never more than their true distance; negative when they meet.

    When they meet, it is minus the least move along a tried direction that parts them.
    """
    first = np.concatenate((a.normals, b.normals))
    best = _widest(a, b, first)
    if best > 0.0:
        return max(best, _widest(a, b, _nearest_way(a, b)))
    crossed = _crossed(a.edges[:, None], b.edges[None]).reshape(-1, 3)
    lengths = np.linalg.norm(crossed, axis=1)
    slanting = lengths > 1e-6
    if not slanting.any():
        return best
    return max(best, _widest(a, b, crossed[slanting] / lengths[slanting, None]))


def _widest(a: Convex, b: Convex, ways: Array) -> float:
    if len(ways) == 0:
        return -np.inf
    on_a, on_b = ways @ a.points.T, ways @ b.points.T
    ahead = on_b.min(axis=1) - on_a.max(axis=1)
    behind = on_a.min(axis=1) - on_b.max(axis=1)
    return float(np.maximum(ahead, behind).max())


def _nearest_way(a: Convex, b: Convex) -> Array:
    """Direction between the two nearest corners: finds the true distance of corner to corner."""
    between = b.points[None] - a.points[:, None]
    squares = (between * between).sum(axis=2)
    at = np.unravel_index(squares.argmin(), squares.shape)
    return unit(between[at][None])


def middle_of_overlap(a: Convex, b: Convex) -> Array:
    """Middle of the box that both bodies' bounding boxes share: near where they meet."""
    low = np.maximum(a.points.min(axis=0), b.points.min(axis=0))
    high = np.minimum(a.points.max(axis=0), b.points.max(axis=0))
    return (low + high) / 2.0
