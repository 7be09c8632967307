r"""Slats set out like a fan in the plane of a back: u across from its middle, v up along it.

           . - ~ - .            Axes of all slats meet in the apex, R below their lower ends;
       .-. |  .-.  | .-.        neighbours differ by d.  With b a slat's width at its lower end,
       \  \ | | | | /  /        g the gap between two lower ends and B the width over all of them:
        \  \| | | |/  /
         '-'  '-'  '-'          B/2 = R sin a + (b/2) cos a          (a: outermost slat)
            \  |  /              g  = 2 R sin(d/2) - b cos(d/2)      (both corners mirror each
             \ | /                                                    other in the bisector)
              apex              Further up, s from the lower ends, R + s and the width there take
                                the place of R and b: the gap grows by 2 sin(d/2) - k cos(d/2) a
                                millimetre, k being the growth of a slat's width.
(Plane geometry.)
"""

from __future__ import annotations

import math
from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry import Outline, bulge_of, closed
from flatpack.geometry.shapes import filleted

SHORTEST = 60.0
"""A slat is drawn no shorter than this, mm, whatever the keys; conflicts then say why."""


MOST_ROUND = 0.97
"""Share of the largest rounding that corners get at most, so that something straight remains."""
LEAST_ROUND = 0.2
"""A smaller radius leaves a corner sharp, a smaller crown the line of tops level, mm."""


class Ray(NamedTuple):
    """One slat: its axis from upright (degrees, positive to the right) and its length, mm."""

    angle: float
    length: float


@frozen
class Fan:
    """All slats: `low` is v of the middle of their lower ends' arc, `apex` R, `growth` k."""

    apex: float
    low: float
    width: float
    growth: float
    gap: float
    step: float
    rays: tuple[Ray, ...]

    def width_at(self, along: float) -> float:
        """Width of a slat `along` from its lower end."""
        return self.width + self.growth * along

    def gap_at(self, along: float) -> float:
        """Gap between neighbours `along` from their lower ends, both reaching that far."""
        half = math.radians(self.step) / 2.0
        across = 2.0 * (self.apex + along) * math.sin(half)
        return across - self.width_at(along) * math.cos(half)

    def along(self, ray: Ray, v: float) -> float:
        """How far from its lower end a slat's axis passes the height v."""
        return (v - self.low + self.apex) / math.cos(math.radians(ray.angle)) - self.apex

    def half_width(self, v: float) -> float:
        """From the middle to the outermost slat's outer edge where its axis passes v."""
        ray = self.rays[-1]
        a, s = math.radians(ray.angle), self.along(ray, v)
        return (self.apex + s) * math.sin(a) + self.width_at(s) / 2.0 * math.cos(a)


def gap_of(count: int, over_all: float, width: float, spread: float) -> float:
    """Gap between lower ends of `count` slats whose outermost stand `spread` degrees apart."""
    half = math.radians(spread / (count - 1)) / 2.0
    return 2.0 * apex_of(over_all, width, spread) * math.sin(half) - width * math.cos(half)


def apex_of(over_all: float, width: float, spread: float) -> float:
    """R: from the lower ends down to where all axes meet."""
    a = math.radians(spread / 2.0)
    return (over_all / 2.0 - width / 2.0 * math.cos(a)) / math.sin(a)


def angles(count: int, spread: float) -> tuple[float, ...]:
    """Each slat's angle from upright, leftmost first; mirror images to the last bit."""
    step = spread / (count - 1)
    return tuple((2 * i - (count - 1)) * step / 2.0 for i in range(count))


class Tops(NamedTuple):
    """The line that the tops end on; `high` is v of the middle, `rim` of the outermost tops.

    `radius` belongs to an arc, whose tops end `reach` to either side; 0 for other lines.
    """

    kind: str
    high: float
    rim: float
    reach: float
    radius: float

    @property
    def arc_length(self) -> float:
        """Along the arc from the outermost top to the other, mm."""
        return 2.0 * self.radius * math.asin(min(self.reach / self.radius, 1.0))


def tops(kind: str, high: float, crown: float, apex: tuple[float, float]) -> Tops:
    """The line of tops; `apex` is (v of the apex, outermost angle in degrees).

    An arc through the middle `high` and both outermost tops, `crown` lower and u to either side,
    has the radius (u^2 + crown^2) / (2 crown), sagitta and chord of a circle.
    """
    at, outer = apex
    if kind == "fan":
        radius = high - at
        a = math.radians(outer)
        return Tops(kind, high, at + radius * math.cos(a), radius * math.sin(a), radius)
    rim = high if kind == "level" or crown < LEAST_ROUND else high - crown
    reach = (rim - at) * math.tan(math.radians(outer))
    curved = kind == "arc" and crown >= LEAST_ROUND
    radius = (reach * reach + crown * crown) / (2.0 * crown) if curved else 0.0
    return Tops(kind, high, rim, reach, radius)


def ray_to(line: Tops, apex: float, angle: float) -> float:
    """From the apex (v = `apex`) along a slat's axis to the line of tops, mm."""
    a = math.radians(abs(angle))
    c, s = math.cos(a), math.sin(a)
    if line.radius:
        # |apex + t (s, c) - centre| = radius, the farther of both: t = h c + sqrt(r^2 - h^2 s^2).
        h = line.high - line.radius - apex
        return h * c + math.sqrt(max(line.radius**2 - (h * s) ** 2, 0.0))
    fall = (line.high - line.rim) / line.reach if line.reach else 0.0
    return (line.high - apex) / (c + fall * s)


def slat_outline(fan: Fan, length: float, rounding: float | None) -> Outline:
    r"""A slat in its own axes, x along it from its lower end, lowest y at 0.

    Fully rounded: a circle that touches both sides and the top.  With sides that open by t each,
    h half the width below and L the length, its radius is r = (h cos t + L sin t) / (1 + sin t).
    """
    low, high = fan.width / 2.0, fan.width_at(length) / 2.0
    t = math.atan(fan.growth / 2.0)
    radius = (low * math.cos(t) + length * math.sin(t)) / (1.0 + math.sin(t))
    widest = max(low, high if rounding is not None else radius)
    if rounding is not None:
        r = round_or_sharp(min(rounding, MOST_ROUND * largest_rounding(fan, length)))
        corners = ((0.0, -low, 0.0), (length, -high, r), (length, high, r), (0.0, low, 0.0))
        return filleted(corners).moved(0.0, widest)
    x, y = length - radius - radius * math.sin(t), radius * math.cos(t)
    cap = bulge_of(180.0 + 2.0 * math.degrees(t))
    shape = ((0.0, -low, 0.0), (x, -y, cap), (x, y, 0.0), (0.0, low, 0.0))
    return closed(shape).moved(0.0, widest)


def round_or_sharp(radius: float) -> float:
    """The radius, or none where it is too small to be made."""
    return radius if radius >= LEAST_ROUND else 0.0


def middle_of(outline: Outline) -> float:
    """Y of a slat's axis in its own axes."""
    _, low, _, high = outline.bounds
    return (low + high) / 2.0


def largest_rounding(fan: Fan, length: float) -> float:
    """Radius at which the two rounded corners of a top meet in its middle.

    Setback of a corner of inner angle w is r / tan(w/2); here w = 90 - t, t the sides' opening.
    """
    t = math.atan(fan.growth / 2.0)
    return fan.width_at(length) / 2.0 * math.tan((math.pi / 2.0 - t) / 2.0)
