"""The room that back, arms and rod take with the back flat and the rod let down."""

from __future__ import annotations

from collections.abc import Iterable

from flatpack.mechanism.bodies import Body
from flatpack.mechanism.pairs import on_arm, placing
from flatpack.mechanism.path import Path

Box = tuple[float, float, float, float]


def folded_boxes(bodies: Iterable[Body], path: Path) -> tuple[tuple[str, Box], ...]:
    """Name and bounds (x0, y0, x1, y1) in the hinge frame of every moving body when folded, mm.

    Exact; compare with the frame's lower edge and the ground.
    """
    stand = path.folded
    found = []
    for body in bodies:
        if body.fixed:
            continue
        at = placing(body, stand)
        shapes = on_arm(body, path.prop.arm)
        east, north, west, south = (
            max(shape.furthest(ux, uy, at) for shape in shapes)
            for ux, uy in ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))
        )
        found.append((body.name, (-west, -south, east, north)))
    return tuple(found)
