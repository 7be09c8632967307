"""Cross-sections of parts and bars: area, section modulus, second moment."""

from __future__ import annotations

import math
from typing import NamedTuple


class Section(NamedTuple):
    """Area mm2, section modulus mm3 and second moment mm4 about the axis of bending.

    `depth` is the size in the direction of the load, `width` square to it; `form` is the factor
    of the greatest over the mean shear stress; `shear_area` resists shear deformation.
    """

    width: float
    depth: float
    area: float
    modulus: float
    second: float
    form: float
    shear_area: float

    @property
    def gyration(self) -> float:
        """Radius of gyration, mm."""
        return math.sqrt(self.second / self.area)


def rectangle(width: float, depth: float) -> Section:
    """Rectangle bent in the direction of `depth`: W = b h^2/6, I = b h^3/12, shear 3/2 and 5/6.

    Source: any handbook of mechanics (A' = 5/6 A after Timoshenko).
    """
    area = width * depth
    return Section(
        width, depth, area, area * depth / 6.0, area * depth**2 / 12.0, 1.5, area * 5.0 / 6.0
    )


def disc(diameter: float) -> Section:
    """Solid round bar: W = pi d^3/32, I = pi d^4/64, shear 4/3 and 9/10.

    Source: any handbook of mechanics.
    """
    area = math.pi * diameter**2 / 4.0
    return Section(
        diameter, diameter, area, area * diameter / 8.0, area * diameter**2 / 16.0, 4.0 / 3.0,
        0.9 * area,
    )  # fmt: skip


def twist_constant(width: float, depth: float) -> float:
    """Torsion constant J of a rectangle, mm4: a b^3 (1/3 - 0.21 b/a (1 - b^4/12 a^4)), a >= b.

    Source: any handbook of mechanics (Roark's Formulas for Stress and Strain, torsion table).
    """
    a, b = max(width, depth), min(width, depth)
    return a * b**3 * (1.0 / 3.0 - 0.21 * b / a * (1.0 - b**4 / (12.0 * a**4)))


def twist_stress(moment: float, width: float, depth: float) -> float:
    """Greatest shear stress of a twisted rectangle, N/mm2 (Roark, torsion table, the same)."""
    a, b = max(width, depth), min(width, depth)
    r = b / a
    series = 1.0 + 0.6095 * r + 0.8865 * r**2 - 1.8023 * r**3 + 0.91 * r**4
    return 3.0 * abs(moment) / (a * b * b) * series
