"""The only bridge to shapely: outlines become polygons within a stated sagitta."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from flatpack.geometry.outline import Outline, Point

Coordinates = Any
"""Array of coordinates; numpy's types are left open so that readers need no array syntax."""

SAGITTA = 0.01
"""Largest distance of a chord from its true arc, mm, unless a caller asks for another."""


def polygon(outline: Outline, sagitta: float = SAGITTA, holes: Iterable[Outline] = ()) -> Polygon:
    """Polygon of an outline less its holes; every corner lies on the true boundary."""
    # An array is read at once, a list of points one by one.
    shell, *rest = (np.array(line.sampled(sagitta)) for line in (outline, *holes))
    return Polygon(shell, rest)


def is_simple(outline: Outline, sagitta: float = SAGITTA) -> bool:
    """True when the outline doesn't cross or touch itself and encloses an area."""
    return bool(shapely.is_valid(polygon(outline, sagitta)))


def mended(shape: Polygon) -> Polygon:
    """A valid shape of about the same area where a boundary crosses itself, else the same one."""
    return shape if shapely.is_valid(shape) else shapely.make_valid(shape).buffer(0.0)


def region(points: Coordinates) -> Polygon:
    """Polygon through the points of an (n, 2) array, mm."""
    return Polygon(points)


def shrunk(shape: Polygon, by: float) -> Polygon:
    """The shape with every side moved inwards by `by` mm, corners kept sharp."""
    return shape.buffer(-by, join_style="mitre", mitre_limit=20.0)


def grown(shape: Polygon, by: float) -> Polygon:
    """The shape with every side moved outwards by `by` mm, corners kept sharp."""
    return shape.buffer(by, join_style="mitre", mitre_limit=20.0)


def without(shape: Polygon, others: Sequence[Polygon]) -> Polygon:
    """The shape less all the others."""
    return shape.difference(shapely.union_all(others)) if others else shape


def swept(shape: Polygon, dx: float, dy: float) -> Polygon:
    """All that a shape covers while it moves straight by dx, dy.

    A place that it covers lies in the shape where it starts, or is crossed by its boundary: each
    straight piece of that sweeps a parallelogram.
    """
    made = [shape]
    for edge in (e for one in pieces(shape) for e in (one.exterior, *one.interiors)):
        at = shapely.get_coordinates(edge)
        start, end = at[:-1], at[1:]
        shift = np.array((dx, dy))
        made += list(shapely.polygons(np.stack((start, end, end + shift, start + shift), axis=1)))
    # On a grid of a nanometre: edges that all but coincide can't be told apart without one.
    return shapely.union_all([one for one in made if one.area > 1e-9], grid_size=1e-6)


def rings(shape: Polygon) -> list[tuple[Coordinates, list[Coordinates]]]:
    """Outer boundary and holes of each separate polygon, as corner arrays."""
    return [
        (ring(one), [shapely.get_coordinates(hole)[:-1] for hole in one.interiors])
        for one in pieces(shape)
    ]


def mapped(shape: Polygon, turn: Coordinates, shift: Coordinates) -> Polygon:
    """The shape with every point p at turn @ p + shift (2 x 2 array, 2 array)."""
    return shapely.transform(shape, lambda p: p @ np.transpose(turn) + shift)


def clipped(shape: Polygon, box: tuple[float, float, float, float]) -> Polygon:
    """What of the shape lies in the box (least x, least y, greatest x, greatest y)."""
    try:
        return shapely.clip_by_rect(shape, *box)
    except shapely.GEOSException:
        # The quick way stumbles over slivers at the box's rim.
        return shapely.intersection(shape, shapely.box(*box))


FAR = 1e5
"""Beyond any part, mm."""


def behind(shape: Polygon, at: tuple[float, float], out: tuple[float, float]) -> Polygon:
    """What of the shape lies behind the line through `at` with unit outward normal `out`."""
    (x, y), (u, v) = at, out
    corners = ((-v, u), (-v - u, u - v), (v - u, -u - v), (v, -u))
    half = Polygon([(x + dx * FAR, y + dy * FAR) for dx, dy in corners])
    return shape.intersection(half)


def ring(shape: Polygon) -> Coordinates:
    """Corners of a shape's outer boundary as an (n, 2) array, the first not repeated."""
    return shapely.get_coordinates(shape.exterior)[:-1]


def pieces(shape: Polygon) -> list[Polygon]:
    """The separate polygons of a shape; lines and points that a cut left are dropped."""
    return [p for p in shapely.get_parts(shape) if p.geom_type == "Polygon" and not p.is_empty]


def convex_pieces(shape: Polygon) -> list[Coordinates]:
    """Corner arrays (n, 2) of convex pieces that together fill the shape."""
    found: list[Coordinates] = []
    for piece in pieces(shape):
        hull = piece.convex_hull
        if hull.area - piece.area <= 1e-9 * hull.area:
            found.append(ring(hull))
        else:
            triangles = shapely.get_parts(shapely.constrained_delaunay_triangles(piece))
            found += [ring(t) for t in triangles if t.area > 0.0]
    return found


def spot_inside(shape: Polygon) -> Point:
    """A point of the shape, inside it where it has an inside."""
    spot = shape.representative_point()
    return Point(spot.x, spot.y)


def crossings(line: Any, at: tuple[float, float], to: tuple[float, float]) -> list[float]:
    """Distances from `at` along the straight way to `to` where it crosses a boundary line."""
    crossing = line.intersection(LineString((at, to)))
    x, y = at
    return sorted(float(np.hypot(*(p - (x, y)))) for p in shapely.get_coordinates(crossing))


def spot(at: Sequence[float]) -> ShapelyPoint:
    """A place in the plane as shapely knows it."""
    return ShapelyPoint(at)


def touched(
    shape: Polygon, origin: tuple[float, float], cell: float, columns: int, rows: int
) -> Coordinates:
    """Cells of a square grid that a shape reaches into: a (columns, rows) array of booleans.

    The grid's low corner is `origin`; reaching less than a micrometre into a cell isn't counted.
    """
    tiny = 1e-3
    x = origin[0] + cell * np.arange(columns)[:, None] + np.zeros((columns, rows))
    y = origin[1] + cell * np.arange(rows)[None, :] + np.zeros((columns, rows))
    shapely.prepare(shape)
    boxes = shapely.box(x + tiny, y + tiny, x + cell - tiny, y + cell - tiny)
    found: Coordinates = shapely.intersects(shape, boxes)
    return found
