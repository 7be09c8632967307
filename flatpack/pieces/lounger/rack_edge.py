"""The rack's upper edge: notches in a bar, or tooth blocks on a bearer."""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.geometry import Point, Segment, chain
from flatpack.geometry.corners import relieved, rounded_inside
from flatpack.mechanism.notches import Kind, NotchForm, cut, rack_contour
from flatpack.profiles import Notch

LAND = 12.0
"""Flat left before the first notch and on top of a tooth block, mm (common practice, no source)."""


def notch_form(notch: Notch, rod: float) -> NotchForm:
    """A notch profile's shares and slopes made into sizes for a rod of this diameter."""
    kind = Kind(notch.shape.replace("-", "_"))
    return NotchForm(
        kind=kind,
        depth=notch.depth * rod,
        base=(rod + notch.clearance) if kind is Kind.SQUARE else notch.floor * rod,
        ramp=notch.ramp,
        undercut=notch.stop - 90.0,
        near=90.0 - notch.ramp,
        far=90.0 - notch.stop,
        radius=(rod + notch.clearance) / 2.0,
    )


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


def cornered(edge: tuple[Segment, ...], notch: Notch) -> tuple[Segment, ...]:
    """A bar's edge with its inside corners as the notch's profile wants them.

    A square notch gets a corner circle, so that a square block would still seat; all others are
    rounded.  Both stay clear of the rod, whose contacts lie further from the corner.
    """
    if not edge or notch.root_radius == 0.0:
        return edge
    work = relieved if notch.shape == "square" else rounded_inside
    return work(edge, notch.root_radius)


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
