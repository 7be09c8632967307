"""A piece on wheels, tipped to roll: the tyres must stay the lowest thing behind the legs.

Lifted at the legless end's far side by an angle a, about the axle at height R, a point that lies
dx beyond the axle and dz above it comes to  R + dz cos a - dx sin a  above the ground.  With
rho, phi the polar form of (dx, dz) that is R - rho sin(a - phi): it meets the ground at
a = phi + asin(R / rho).  (Plane geometry.)
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.checks.limits import PRACTICE
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.model import Bar, Part, outline_at

HAND_HEIGHT = 750.0
"""Height to which a standing person lifts the end to roll it, mm (common practice, no source)."""


def check_rolling(setting: Setting) -> Iterator[Finding]:
    """Nothing else touches the ground before the end is lifted to a hand's height."""
    wheels = [f for f in setting.assembly.fasteners if f.kind == "wheel"]
    axles = [b for b in setting.assembly.bars.values() if b.key == "axle"]
    if not wheels or not axles:
        return
    axle, radius = axles[0], wheels[0].diameter / 2.0
    yield from _height(axle, radius)
    parts = setting.assembly.parts.values()
    places = [x for p in parts for x, _ in _corners(p)]
    low, high, at = min(places), max(places), axle.frame.origin.x
    away = 1.0 if at > (low + high) / 2.0 else -1.0
    needed = math.degrees(math.asin(min(HAND_HEIGHT / max(at - low, high - at), 1.0)))
    least, name = min((_meets(p, axle, radius, away), p.key) for p in parts)
    if least < needed:
        yield Finding(
            "scrapes-when-rolled", "warning", name,
            f"it meets the ground when the other end is lifted {least:.0f}°; to walk with it the "
            f"end comes to {HAND_HEIGHT:g} above the ground, {needed:.0f}°",
            round(least, 1), round(needed, 1), "degrees", PRACTICE,
            "an axle nearer that end, a larger wheel, or the corner rounded off",
        )  # fmt: skip


def _height(axle: Bar, radius: float) -> Iterator[Finding]:
    """The tyres stand on the ground, level with the legs."""
    off = axle.frame.origin.z - radius
    if abs(off) > 0.05:
        yield Finding(
            "wheels-not-level", "fault", axle.key,
            f"the tyres stand {abs(off):.1f} {'above' if off > 0.0 else 'below'} the ground",
            round(axle.frame.origin.z, 2), radius,
            remedy=f"the axle's middle {radius:g} above the ground",
        )  # fmt: skip


def _corners(part: Part) -> Iterator[tuple[float, float]]:
    """Place along the piece and height of the part's outline, on both faces."""
    for z in (0.0, part.thickness):
        for x, y in outline_at(part, z).sampled(0.5):
            at = part.frame.place(x, y, z)
            yield at.x, at.z


def _meets(part: Part, axle: Bar, radius: float, away: float) -> float:
    """Angle of lift at which the part comes down to the ground behind the axle, degrees.

    `away` is the way from the piece's middle to the wheels' end: +1 or -1.
    """
    middle, found = axle.frame.origin, 180.0
    for x, z in _corners(part):
        dx, dz = (x - middle.x) * away, z - middle.z
        rho = math.hypot(dx, dz)
        if dx > 0.0 and rho > radius:
            found = min(found, math.degrees(math.atan2(dz, dx) + math.asin(radius / rho)))
    return found
