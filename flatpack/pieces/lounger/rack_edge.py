"""The upper edge of a rack of tooth blocks on a bearer."""

from __future__ import annotations

import math

from flatpack.geometry import Point, Segment, chain
from flatpack.mechanism.notches import NotchForm
from flatpack.pieces.common.propping import LAND


def block_edge(form: NotchForm, blocks: tuple[Point, ...], end: float) -> tuple[Segment, ...]:
    """Edge of a bearer with a tooth block at each datum, from the hinge end."""
    floor = blocks[0].y
    corners = [(d.x + x, floor + y, 0.0) for d in reversed(blocks) for x, y in block_profile(form)]
    return chain([*corners, (end, floor, 0.0)])


def block_profile(form: NotchForm) -> tuple[tuple[float, float], ...]:
    """A tooth block's upper edge from its foot: stop face, land, ramp down on the far side."""
    lean = form.depth * math.tan(math.radians(form.undercut))
    run = form.depth / math.tan(math.radians(form.ramp))
    return ((0.0, 0.0), (-lean, form.depth), (LAND, form.depth), (LAND + run, 0.0))
