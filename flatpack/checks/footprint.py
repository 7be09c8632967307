"""The room that each hole takes in its part: seen square to the face, and as a body in space."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

import numpy as np

from flatpack.checks.bored import Bored
from flatpack.checks.convex import Convex, prism, unit
from flatpack.geometry import Frame
from flatpack.geometry.polygon import SAGITTA, polygon, region
from flatpack.geometry.shapes import disc
from flatpack.model import Part

Array = Any
FACETS = 32
"""Sides by which a slanting or lying round hole is drawn; the circle lies outside by 0.5 % of r."""

SHORTEST = 0.9
"""Where a shoulder beyond its pocket's mouth is taken to be, share of half the ellipse."""


def footprint(part: Part, hole: Bored) -> Any:
    """Polygon of the hole on its face; of an edge hole its shadow, of a pocket its mouth."""
    if hole.kind == "edge":
        return region(_shadow(hole))
    if hole.kind == "pocket":
        return region(pocket_mouth(part, hole.feature))
    if hole.kind == "slot":
        slot: Any = hole.feature
        return polygon(slot.outline)
    return region(_round(hole.diameter / 2.0) + np.array(hole.feature.at))


@lru_cache(maxsize=64)
def _round(radius: float) -> Array:
    """Corners of a circle about the origin, as fine as any polygon here; not to be changed."""
    corners = np.array(disc(radius).sampled(SAGITTA))
    corners.setflags(write=False)
    return corners


def room(part: Part, hole: Bored) -> Convex:
    """The hole as a convex body in the part's own axes."""
    if hole.kind == "pocket":
        return _pocket(part, hole.feature)
    if hole.kind == "edge":
        return _lying(hole)
    low, high = sorted((hole.mouth.z, hole.bottom.z))
    if hole.kind == "slot":
        slot: Any = hole.feature
        return prism(np.array(slot.outline.sampled(0.02)), low, high, Frame())
    ring = _circle(hole.diameter / 2.0) + np.array(hole.feature.at)
    return prism(ring, low, high, Frame())


_TURNS = np.linspace(0.0, 2.0 * math.pi, 2 * FACETS, endpoint=False)
_COSINES, _SINES = np.cos(_TURNS), np.sin(_TURNS)


def _circle(radius: float) -> Array:
    return radius * np.column_stack((_COSINES[::2], _SINES[::2]))


def _shadow(hole: Bored) -> Array:
    a, b = np.array(hole.mouth[:2]), np.array(hole.bottom[:2])
    way = (b - a) / np.hypot(*(b - a))
    side = np.array((-way[1], way[0])) * hole.diameter / 2.0
    return np.array((a - side, b - side, b + side, a + side))


def _lying(hole: Bored) -> Convex:
    way = hole.bottom.minus(hole.mouth)
    run = way.length
    z = way.unit()
    x = z.cross(type(z)(0.0, 0.0, 1.0)).unit()
    return prism(_circle(hole.diameter / 2.0), 0.0, run, Frame(hole.mouth, x, z.cross(x), z))


def pocket_mouth(part: Part, pocket: Any) -> Array:
    """Corners of the ellipse on the face, cut short at the shoulder, in the part's x and y."""
    inward = np.array(pocket.inward)
    side = np.array((-inward[1], inward[0]))
    a, b = pocket.half_length, pocket.diameter / 2.0
    along, across = pocket.setback + a * _COSINES, b * _SINES
    near = min(pocket.shoulder_line, pocket.setback + SHORTEST * a)
    kept = along > near
    corners = [np.column_stack((along[kept], across[kept]))]
    cut = (near - pocket.setback) / a
    if cut > -1.0:
        half = b * math.sqrt(max(0.0, 1.0 - cut * cut))
        corners = [_in_order(np.concatenate((corners[0], ((near, half), (near, -half)))))]
    flat = corners[0]
    return np.array(pocket.exit) + flat[:, :1] * inward + flat[:, 1:] * side


def _in_order(corners: Array) -> Array:
    middle = corners.mean(axis=0)
    turn = np.arctan2(corners[:, 1] - middle[1], corners[:, 0] - middle[0])
    return corners[np.argsort(turn)]


def _pocket(part: Part, pocket: Any) -> Convex:
    """The thick part of the stepped drill, from the shoulder to the face.

    Each line along the drill's side starts at the shoulder's ring and ends on the face; where
    the ring itself stands out of the face, the line of shoulder and face bounds the room.
    """
    slope = math.radians(pocket.slope)
    up = 1.0 if pocket.face == "show" else -1.0
    face = part.thickness if up > 0.0 else 0.0
    inward = np.array((*pocket.inward, 0.0))
    side = np.array((-inward[1], inward[0], 0.0))
    axis = inward * math.cos(slope) + np.array((0.0, 0.0, up * math.sin(slope)))
    lift = np.cross(axis, side)
    exit_at = np.array((*pocket.exit, part.thickness / 2.0))
    circle = _circle(pocket.diameter / 2.0)
    radial = circle[:, :1] * side + circle[:, 1:] * lift
    ring = exit_at + pocket.shoulder * axis + radial
    depth = (face - ring[:, 2]) * up
    below = ring[depth > 0.0]
    mouth = pocket_mouth(part, pocket)
    top = np.column_stack((mouth, np.full(len(mouth), face)))
    points = np.concatenate((below, top))
    edges = np.concatenate((axis[None], side[None], unit(np.roll(ring, -1, axis=0) - ring)))
    outward = np.concatenate((unit(radial), axis[None], np.array(((0.0, 0.0, up),))))
    return Convex(points, outward, edges)
