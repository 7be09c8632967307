r"""Johansen's yield modes of a dowel: EC5 8.2.2 and 8.2.3.

      a        b        c        d        e        f          single shear, wood on wood
    _____    _____    _____    _____    _____    _____
    |///|    |   |    |\  |    |/  |    |\ o|    |o/ |
    |   |    |///|    |  \|    | \o|    |  \|    | \o|

Every function gives N a shear plane.  `rope` is F_ax,Rk, of which a quarter counts, no more than
a share of the Johansen part: 0 smooth nails 0.15, bolts 0.25, screws 1.0 (8.2.2(2)).
"""

from __future__ import annotations

import math
from typing import NamedTuple


class Modes(NamedTuple):
    """Capacity of each mode, N a shear plane, by its letter in the code."""

    values: dict[str, float]

    @property
    def least(self) -> float:
        """The smallest."""
        return min(self.values.values())

    @property
    def mode(self) -> str:
        """Its letter."""
        return min(self.values, key=lambda name: (self.values[name], name))


def roped(part: float, rope: float, share: float) -> float:
    """Johansen part with the rope effect: + F_ax/4, at most `share` of the part (EC5 8.2.2(2))."""
    return part + min(rope / 4.0, share * part)


def single_shear(
    fh1: float,
    t1: float,
    fh2: float,
    t2: float,
    diameter: float,
    moment: float,
    rope: float = 0.0,
    share: float = 0.25,
    *,
    factors: tuple[float, float] = (1.05, 1.15),
) -> Modes:
    """Wood or panel on wood, one shear plane, N (EC5 eq. 8.6 a to f).

    `factors` stand before the modes with one hinge and with two; (1, 1) is Johansen's theory bare.
    """
    one, two = factors
    b, r, base = fh2 / fh1, t2 / t1, fh1 * t1 * diameter
    c = (
        base
        / (1.0 + b)
        * (math.sqrt(b + 2.0 * b * b * (1.0 + r + r * r) + b**3 * r * r) - b * (1.0 + r))
    )
    far = fh1 * t2 * diameter
    found = {
        "a": base,
        "b": fh2 * t2 * diameter,
        "c": roped(c, rope, share),
        "d": roped(one * _hinged(base, b, 2.0 + b, fh1, diameter, t1, moment), rope, share),
        "e": roped(one * _far(far, b, fh1, diameter, t2, moment), rope, share),
        "f": roped(two * _both(b, fh1, diameter, moment), rope, share),
    }
    return Modes(found)


def double_shear(
    fh1: float,
    t1: float,
    fh2: float,
    t2: float,
    diameter: float,
    moment: float,
    rope: float = 0.0,
    share: float = 0.25,
    *,
    factors: tuple[float, float] = (1.05, 1.15),
) -> Modes:
    """Wood on both sides of wood, each of two shear planes, N (EC5 eq. 8.7 g to k)."""
    one, two = factors
    b, base = fh2 / fh1, fh1 * t1 * diameter
    found = {
        "g": base,
        "h": 0.5 * fh2 * t2 * diameter,
        "j": roped(one * _hinged(base, b, 2.0 + b, fh1, diameter, t1, moment), rope, share),
        "k": roped(two * _both(b, fh1, diameter, moment), rope, share),
    }
    return Modes(found)


def thin_plate(fh: float, t1: float, diameter: float, moment: float, rope: float = 0.0,
               share: float = 0.25) -> Modes:  # fmt: skip
    """Thin steel plate (up to d/2) on wood, one shear plane, N (EC5 eq. 8.9 a, b)."""
    b = 1.15 * math.sqrt(2.0 * moment * fh * diameter)
    return Modes({"a": 0.4 * fh * t1 * diameter, "b": roped(b, rope, share)})


def thick_plate(fh: float, t1: float, diameter: float, moment: float, rope: float = 0.0,
                share: float = 0.25) -> Modes:  # fmt: skip
    """Thick steel plate (d or more) on wood, one shear plane, N (EC5 eq. 8.10 c, d, e)."""
    base = fh * t1 * diameter
    d = base * (math.sqrt(2.0 + 4.0 * moment / (fh * diameter * t1**2)) - 1.0)
    e = 2.3 * math.sqrt(moment * fh * diameter)
    return Modes({"c": base, "d": roped(d, rope, share), "e": roped(e, rope, share)})


def outer_thick_plates(fh: float, t2: float, diameter: float, moment: float,
                       rope: float = 0.0, share: float = 0.25) -> Modes:  # fmt: skip
    """Thick steel plates on both sides of wood, each shear plane, N (EC5 eq. 8.13 l, m)."""
    m = 2.3 * math.sqrt(moment * fh * diameter)
    return Modes({"l": 0.5 * fh * t2 * diameter, "m": roped(m, rope, share)})


def _hinged(base: float, b: float, k: float, fh1: float, d: float, t: float, m: float) -> float:
    """One plastic hinge, in the far part (modes d, j)."""
    root = math.sqrt(2.0 * b * (1.0 + b) + 4.0 * b * (2.0 + b) * m / (fh1 * d * t * t))
    return base / k * (root - b)


def _far(far: float, b: float, fh1: float, d: float, t2: float, m: float) -> float:
    """One plastic hinge, in the near part (mode e)."""
    root = math.sqrt(2.0 * b * b * (1.0 + b) + 4.0 * b * (1.0 + 2.0 * b) * m / (fh1 * d * t2 * t2))
    return far / (1.0 + 2.0 * b) * (root - b)


def _both(b: float, fh1: float, d: float, m: float) -> float:
    """A hinge in both parts (modes f, k)."""
    return math.sqrt(2.0 * b / (1.0 + b)) * math.sqrt(2.0 * m * fh1 * d)
