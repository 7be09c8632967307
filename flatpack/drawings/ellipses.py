"""Points and boxes of whole and part ellipses.

With half axes a (vector `major`) and b = a turned left a quarter and shortened by `ratio`, the
point at parameter t is centre + a cos t + b sin t.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.drawings.shapes import Ellipse
from flatpack.geometry import Point, cosine_sine


def is_whole(ellipse: Ellipse) -> bool:
    """Whether the ellipse goes all the way round."""
    return abs(ellipse.end - ellipse.start) >= 360.0 - 1e-9


def sweep_of(ellipse: Ellipse) -> float:
    """Degrees of parameter from start to end, anticlockwise: above 0, up to 360."""
    return 360.0 if is_whole(ellipse) else (ellipse.end - ellipse.start) % 360.0


def at_parameter(ellipse: Ellipse, degrees: float) -> Point:
    """The point at a parameter."""
    (cx, cy), (ax, ay), ratio = ellipse.centre, ellipse.major, ellipse.ratio
    c, s = cosine_sine(degrees)
    return Point(cx + ax * c - ay * ratio * s, cy + ay * c + ax * ratio * s)


def sampled(ellipse: Ellipse, sagitta: float) -> tuple[Point, ...]:
    """Points along the ellipse, no chord further than `sagitta` mm inside it.

    An ellipse is a circle of radius a squeezed one way, and squeezing lengthens nothing, so the
    circle's step a (1 - cos(step/2)) <= sagitta holds for it too.  Whole: the first point isn't
    repeated at the end.
    """
    sweep = sweep_of(ellipse)
    half_axis = math.hypot(*ellipse.major)
    step = 2.0 * math.degrees(math.acos(max(1.0 - sagitta / half_axis, 0.0)))
    count = max(2, math.ceil(sweep / step))
    points = (at_parameter(ellipse, ellipse.start + sweep * i / count) for i in range(count))
    if is_whole(ellipse):
        return tuple(points)
    return (*points, at_parameter(ellipse, ellipse.end))


def ellipse_box(ellipse: Ellipse) -> tuple[float, float, float, float]:
    """Smallest x, y and largest x, y, exact: both ends and the turning points between them."""
    turns = (ellipse.start, ellipse.start + sweep_of(ellipse), *_turning_points(ellipse))
    xs, ys = zip(*(at_parameter(ellipse, t) for t in turns), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _turning_points(ellipse: Ellipse) -> Iterator[float]:
    """Parameters in the sweep where x or y stops growing: tan t = b/a of that coordinate."""
    (ax, ay), ratio, sweep = ellipse.major, ellipse.ratio, sweep_of(ellipse)
    for first in (math.atan2(-ay * ratio, ax), math.atan2(ax * ratio, ay)):
        for turn in (math.degrees(first), math.degrees(first) + 180.0):
            past = (turn - ellipse.start) % 360.0
            if past < sweep:
                yield ellipse.start + past
