"""Where leaning parts come to lie: their corners in the planes that the file states.

Each place says one linear equation of the corner's reaches u along the part's own axes:
slopes . u = rest.  Of a part that stands square each has one slope; of one that leans up to three
are solved together.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from flatpack.geometry import Vec, cosine_sine
from flatpack.pieces.composed import directions
from flatpack.pieces.composed.directions import AXES, Plane, nearest_axis, solved
from flatpack.pieces.composed.rows import Stated

if TYPE_CHECKING:
    from flatpack.pieces.composed.layout import Layout

SQUARE = 1e-9
"""Slopes smaller than this are none."""


class Equation(NamedTuple):
    """What a stated place says of a corner's reaches along the part's three axes."""

    slopes: tuple[float, float, float]
    rest: float
    stated: Stated


def is_side(term: float | str) -> bool:
    """Whether a term names a side, and isn't a length from the ground, the front or the left."""
    return isinstance(term, str) and "." in term


def value_of(layout: Layout, name: str, axis: int, stated: Stated) -> float:
    """Where a side stated lies along a part's own axis, mm.

    Raises:
        StuckError: it can't be worked out.
    """
    own = _equation(layout, name, axis, stated)
    if all(abs(c) <= SQUARE for j, c in enumerate(own.slopes) if j != axis):
        return _solved(layout, [own], [axis])[axis]
    if stated == _corner(layout, name, axis):
        return _at_corner(layout, name, axis)
    rest = own.rest
    for other in range(3):
        if other != axis and abs(own.slopes[other]) > SQUARE:
            corner = _corner(layout, name, other)
            rest -= own.slopes[other] * layout.value(name, other, corner)
    return _solved(layout, [own._replace(rest=rest)], [axis])[axis]


def _corner(layout: Layout, name: str, axis: int) -> Stated:
    """The place stated for an axis that the part's corner lies on: the first where two are."""
    found = layout.stated(name, axis)
    if not found:
        raise layout.ill_stated(name, axis, found, 0.0)
    return found[0]


def _at_corner(layout: Layout, name: str, axis: int) -> float:
    """Reach of the corner that lies in the planes stated for this and all tied axes."""
    tied, rows = [axis], []
    for one in tied:
        rows.append(_equation(layout, name, one, _corner(layout, name, one)))
        more = (j for j, c in enumerate(rows[-1].slopes) if abs(c) > SQUARE)
        tied += [j for j in more if j not in tied]
    return _solved(layout, rows, tied)[axis]


def _solved(layout: Layout, rows: list[Equation], tied: list[int]) -> dict[int, float]:
    found = solved([[row.slopes[j] for j in tied] for row in rows], [r.rest for r in rows])
    if found is None:
        raise layout.faults.stop(rows[0].stated.key, rows[0].stated.said, "a side that faces it",
                               "this part never meets that side")  # fmt: skip
    return dict(zip(tied, found, strict=True))


def _equation(layout: Layout, name: str, axis: int, stated: Stated) -> Equation:
    """What a place states of a corner's reaches u along the part's axes: slopes . u = rest.

    What is added to a side shifts the corner along this axis once it lies in the side's plane.
    """
    said, own, axes = stated.said, layout.axes(name)[axis], layout.axes(name)
    way, sense = nearest_axis(AXES, own)
    if said.at is None and not is_side(said.first):
        plane = Plane(AXES[way], layout.length(said, stated.key))
        beyond = 0.0
    else:
        plane = layout.plane(said.first, way, stated, layout.parts[name].made.pair)
        beyond = said.sign * sense * layout.term(said.second, stated.key, said)
    if said.at is not None:
        plane = Plane(own, at_height(layout, own, plane, stated, layout.parts[name].made.pair))
    x, y, z = (plane.normal.dot(a) for a in axes)
    slopes = (x, y, z)
    return Equation(slopes, plane.reach + beyond * slopes[axis], stated)


def at_height(layout: Layout, own: Vec, plane: Plane, stated: Stated, owner: str) -> float:
    """Where a leaning side stands at a height, along a direction such as a part's own axis.

    Raises:
        StuckError: it stands square to that direction nowhere.
    """
    assert stated.said.at is not None
    level = layout.plane(stated.said.at, 2, stated, owner)
    found = directions.meet(plane, level, own)
    if found is None:
        raise layout.faults.stop(stated.key, stated.said, "a side that leans this part's way",
                               "this side doesn't meet that height in one line")  # fmt: skip
    return found


def inset(layout: Layout, name: str, stated: Stated) -> float:
    """How far within the part's reach along its length the corner stated lies, mm.

    Of a leaning board with a slanting end it is the true corner on the side stated for the width;
    otherwise the end's longest point counts.
    """
    angle = slant(layout, name, high=stated.share > 0.5)
    own = _equation(layout, name, 0, stated)
    if angle == 0.0 or stated.share == 0.5 or abs(own.slopes[1]) <= SQUARE:
        return 0.0
    off = layout.extent(name, 1) * math.tan(math.radians(angle))
    share = _corner(layout, name, 1).share
    return off * (1.0 - share) if off > 0.0 else -off * share


def slant(layout: Layout, name: str, *, high: bool) -> float:
    """How far off square an end of a part is sawn, degrees; 0 for shapes without slanting ends."""
    angles = getattr(layout.parts[name].made, "slants", ())
    if not angles:
        return 0.0
    return float(angles[-1] if high else angles[0])


def end_plane(layout: Layout, name: str, *, high: bool) -> Plane:
    """The plane of a part's end as it is sawn: of a slanting one through its longest point.

    The upper edge is the longer one by the width times the slant's tangent, at either end.
    """
    x, y, _ = layout.axes(name)
    angle = slant(layout, name, high=high)
    at = layout.reach(name, 0)[1 if high else 0]
    if angle == 0.0:
        return Plane(x, at)
    across = layout.reach(name, 1)[1 if angle > 0.0 else 0]
    c, s = cosine_sine(abs(angle))
    lean = -math.copysign(s, angle) if high else math.copysign(s, angle)
    normal = Vec(0.0, 0.0, 0.0).plus(x, c).plus(y, lean)
    return Plane(normal, at * c + across * lean)
