"""Convex bodies with slanting cuts: a prism, less what lies beyond each of some planes.

A convex body is kept as its faces, each a ring of corners.  A plane shortens every ring that it
crosses; where it passed, the rings' new corners make one more face.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from flatpack.checks.convex import Convex, axes_of, prism, unit
from flatpack.geometry import Frame, Plane

Array = Any
ON = 1e-7
"""Corners nearer than this to a plane lie on it, mm."""


def sawn_prism(
    corners: Array, low: float, high: float, frame: Frame, planes: Sequence[Plane]
) -> Convex | None:
    """Convex polygon (n, 2) between two heights of a frame, behind every plane (piece's axes).

    None when nothing is left.
    """
    whole = prism(corners, low, high, frame)
    beyond = [(whole.points - np.array(p.at)) @ np.array(p.out) for p in planes]
    crossing = [p for p, far in zip(planes, beyond, strict=True) if far.max() > ON]
    if not crossing:
        return whole
    rings = _rings(corners, low, high, frame)
    for plane in crossing:
        rings = _shortened(rings, np.array(plane.at), np.array(plane.out))
        if not rings:
            return None
    return _body(rings, whole.normals, [np.array(p.out) for p in crossing])


def _rings(corners: Array, low: float, high: float, frame: Frame) -> list[Array]:
    axes = axes_of(frame)
    flat = corners @ axes[:2] + np.array(frame.origin)
    bottom, top = flat + axes[2] * low, flat + axes[2] * high
    onward = np.roll(np.arange(len(corners)), -1)
    sides = np.stack((bottom, bottom[onward], top[onward], top), axis=1)
    return [bottom, top, *sides]


def _shortened(rings: list[Array], at: Array, out: Array) -> list[Array]:
    """The faces behind the plane, and the new one that lies on it."""
    left, new = [], []
    for ring in rings:
        beyond = (ring - at) @ out
        if beyond.max() <= ON:
            left.append(ring)
            continue
        if beyond.min() >= -ON:
            continue
        short, on = _clipped(ring, beyond)
        left.append(short)
        new += on
    if not left or len(new) < 3:
        return left
    return [*left, _in_order(np.array(new), out)]


def _clipped(ring: Array, beyond: Array) -> tuple[Array, list[Array]]:
    """A ring's part behind the plane, and which of its corners lie on the plane."""
    kept, on = [], []
    for i, place in enumerate(ring):
        j = (i + 1) % len(ring)
        here, then = beyond[i], beyond[j]
        if here <= ON:
            kept.append(place)
            if here >= -ON:
                on.append(place)
        if (here < -ON and then > ON) or (here > ON and then < -ON):
            cross = place + (ring[j] - place) * (here / (here - then))
            kept.append(cross)
            on.append(cross)
    return np.array(kept), on


def _in_order(points: Array, out: Array) -> Array:
    """Points of a plane round their middle; those on one another once."""
    side = np.cross(out, np.eye(3)[abs(out).argmin()])
    side /= np.linalg.norm(side)
    up = np.cross(out, side)
    away = points - points.mean(axis=0)
    ring = points[np.argsort(np.arctan2(away @ up, away @ side), kind="stable")]
    apart = np.linalg.norm(ring - np.roll(ring, 1, axis=0), axis=1) > ON
    return ring[apart]


def _body(rings: list[Array], normals: Array, more: list[Array]) -> Convex:
    ways = np.concatenate([unit(np.roll(ring, -1, axis=0) - ring) for ring in rings])
    points = np.concatenate(rings)
    return Convex(points, np.concatenate((normals, np.array(more))), _once(ways))


def _once(ways: Array) -> Array:
    """Directions without repeats and without those that only point the other way."""
    rounded = np.round(ways, 9) + 0.0
    first = np.take_along_axis(rounded, (abs(rounded) > 1e-9).argmax(axis=1)[:, None], axis=1)
    return np.unique(rounded * np.sign(first), axis=0)
