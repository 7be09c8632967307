"""Any outline as convex pieces, so that gaps can be had in closed form.

A notched outline is cut across from each inward corner.  A hollow arc becomes chords, which add
at most `HOLLOW` mm of material: gaps to it come out too small, never too large.
"""

from __future__ import annotations

import math

from flatpack.geometry import Outline, Point, Segment
from flatpack.mechanism.convex import SMOOTH, Convex, convex

HOLLOW = 0.005  # mm

_Corners = list[tuple[Point, float]]


def pieces(outline: Outline) -> tuple[Convex, ...]:
    """Convex shapes that together make up an anticlockwise outline.

    Raises:
        ValueError: the outline crosses itself or runs clockwise.
    """
    whole = convex(outline)
    if whole is not None:
        return (whole,)
    return tuple(_split(_without_hollows(outline)))


def _without_hollows(outline: Outline) -> _Corners:
    corners: _Corners = []
    for segment in outline.segments:
        if segment.bulge < 0.0:
            corners += [(p, 0.0) for p in segment.sampled(HOLLOW)]
        else:
            corners.append((segment.start, segment.bulge))
    return corners


def _split(corners: _Corners) -> list[Convex]:
    """Cut at the first inward corner, then each half again."""
    shape = convex(_outline(corners))
    if shape is not None:
        return [shape]
    count = len(corners)
    inward = next((i for i in range(count) if _turn(corners, i) < -SMOOTH), None)
    cut = None if inward is None else _best_cut(corners, inward)
    if inward is None or cut is None:
        raise ValueError("the outline can't be cut into convex pieces: does it cross itself?")
    low, high = sorted((inward, cut))
    one = [*corners[low:high], (corners[high][0], 0.0)]
    other = [*corners[high:], *corners[:low], (corners[low][0], 0.0)]
    return _split(one) + _split(other)


def _outline(corners: _Corners) -> Outline:
    following = corners[1:] + corners[:1]
    return Outline(
        tuple(Segment(p, q, b) for (p, b), (q, _) in zip(corners, following, strict=True))
    )


def _turn(corners: _Corners, i: int) -> float:
    """Left turn at a corner, radians; negative at an inward one."""
    arriving, going = _faces(corners, i)
    cross = arriving.x * going.y - arriving.y * going.x
    return math.atan2(cross, arriving.x * going.x + arriving.y * going.y)


def _best_cut(corners: _Corners, i: int) -> int | None:
    """The nearest corner seen from corner i, one that opens the inward corner on both sides first.

    A cut within the two faces' extensions leaves no inward corner at i.
    """
    here = corners[i][0]
    count = len(corners)
    arriving, going = _faces(corners, i)

    def rank(j: int) -> tuple[bool, float, int]:
        to = corners[j][0]
        dx, dy = to.x - here.x, to.y - here.y
        # arriving then turning into the cut, and coming back out of it then going on: both left
        opens = arriving.x * dy >= arriving.y * dx and going.x * dy >= going.y * dx
        return not opens, math.dist(here, to), j

    ways = sorted((j for j in range(count) if (j - i) % count not in (0, 1, count - 1)), key=rank)
    return next((j for j in ways if _sees(corners, i, j)), None)


def _faces(corners: _Corners, i: int) -> tuple[Point, Point]:
    """Directions of arriving at a corner and of going on."""
    (before, bulge), (here, leaving) = corners[i - 1], corners[i]
    after = corners[(i + 1) % len(corners)][0]
    return Segment(before, here, bulge).direction(1.0), Segment(here, after, leaving).direction(0.0)


def _sees(corners: _Corners, i: int, j: int) -> bool:
    """Whether the straight cut from corner i to corner j runs inside, touching nothing else."""
    a, b = corners[i][0], corners[j][0]
    if not (_within(corners, i, b) and _within(corners, j, a)):
        return False
    count = len(corners)
    for k in range(count):
        if k in (i, j):
            continue
        p, q = corners[k][0], corners[(k + 1) % count][0]
        if abs(_side(a, b, p)) < 1e-9 and _between(a, b, p):
            return False
        if (k + 1) % count not in (i, j) and _cross(a, b, p, q):
            return False
    return True


def _within(corners: _Corners, i: int, to: Point) -> bool:
    """Whether the direction from corner i to a place starts inside (by its straight chords)."""
    before, here = corners[i - 1][0], corners[i][0]
    after = corners[(i + 1) % len(corners)][0]
    left_in, left_out = _side(before, here, to), _side(here, after, to)
    if _side(before, here, after) >= 0.0:
        return left_in > 0.0 and left_out > 0.0
    return left_in > 0.0 or left_out > 0.0


def _side(a: Point, b: Point, p: Point) -> float:
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)


def _between(a: Point, b: Point, p: Point) -> bool:
    along = (b.x - a.x) * (p.x - a.x) + (b.y - a.y) * (p.y - a.y)
    return 0.0 < along < (b.x - a.x) ** 2 + (b.y - a.y) ** 2


def _cross(a: Point, b: Point, p: Point, q: Point) -> bool:
    return _side(a, b, p) * _side(a, b, q) < 0.0 and _side(p, q, a) * _side(p, q, b) < 0.0
