"""The rack's upper edge: notches in a bar, or tooth blocks on a bearer."""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.geometry import Point, Segment, chain
from flatpack.mechanism.notches import Kind, NotchForm, cut, rack_contour

LAND = 12.0
"""Flat left before the first notch and on top of a tooth block, mm (common practice, no source)."""


@frozen(kw_only=False)
class Levels:
    """Heights in the hinge frame: the rack's top, its notches' floor, its lower edge, the pivot."""

    top: float
    floor: float
    bottom: float
    pivot: float


def run_of(form: NotchForm) -> float:
    """Length of a notch beyond its floor towards the hinge: the ramp's, or the rim's."""
    if form.kind is Kind.RAMP:
        return form.depth / math.tan(math.radians(form.ramp))
    if form.kind is Kind.VEE:
        return form.depth * math.tan(math.radians(form.near))
    return form.radius if form.kind is Kind.HALF_ROUND else 0.0


def bar_edge(
    form: NotchForm, datums: tuple[Point, ...], levels: Levels, start: float, end: float
) -> tuple[Segment, ...]:
    """Edge of a bar with a notch at each datum, from the hinge end."""
    notches = [cut(form, d) for d in reversed(datums)]
    made = rack_contour(notches, Point(start, levels.top), Point(end, levels.top))
    return made if isinstance(made, tuple) and isinstance(made[0], Segment) else ()


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
