"""Second methods, never a pass: American and handbook formulas for what EC5 doesn't cover.

Formulas in inches and pounds as printed are turned into N and mm here.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from flatpack.strength.rules.design import Duration
from flatpack.strength.rules.johansen import Modes, double_shear, single_shear

POUND = 4.4482216
"""N."""
INCH = 25.4
STEEL_BEARING = 61_850.0 * POUND / INCH**2
"""Dowel bearing strength of thin sheet steel, N/mm2 (NDS table 12N notes, from memory)."""

LOAD_DURATION: Mapping[Duration, float] = MappingProxyType(
    {"permanent": 0.9, "long": 1.0, "medium": 1.15, "short": 1.6, "instantaneous": 1.6}
)
"""C_D: permanent, ten years, two months, ten minutes; no more than 1.6 in joints.

Source: National Design Specification for Wood Construction, table 2.3.2.
"""


def screw_allowable(gravity: float, diameter: float) -> float:
    """Allowable pull of a wood screw in side grain, N a mm of thread: 2850 G^2 D lb/in.

    Source: National Design Specification for Wood Construction, eq. 11.2-2 (allowable stress
    design, a safety of about 5); G is oven-dry specific gravity.
    """
    return 2850.0 * gravity**2 * (diameter / INCH) * POUND / INCH


def nail_allowable(gravity: float, diameter: float) -> float:
    """Allowable pull of a plain nail in side grain, N a mm: 1380 G^2.5 D lb/in (NDS eq. 11.2-3)."""
    return float(1380.0 * gravity**2.5 * (diameter / INCH) * POUND / INCH)


def lag_allowable(gravity: float, diameter: float) -> float:
    """Allowable pull of a lag screw, N a mm: 1800 G^1.5 D^0.75 lb/in (NDS eq. 11.2-1)."""
    return float(1800.0 * gravity**1.5 * (diameter / INCH) ** 0.75 * POUND / INCH)


def bearing_strength(gravity: float) -> float:
    """Dowel bearing strength of thin fasteners, N/mm2: 16600 G^1.84 lb/in2, D below 1/4 in.

    Source: NDS table 11.3.3.
    """
    return float(16600.0 * gravity**1.84 * POUND / INCH**2)


def thin_reduction(diameter: float) -> float:
    """K_D, by which thin fasteners' yield load is divided: 2.2 up to 0.17 in, 10 D + 0.5 to 1/4 in.

    Source: NDS table 11.3.1B.
    """
    inches = diameter / INCH
    return 2.2 if inches <= 0.17 else 10.0 * inches + 0.5


def allowable_lateral(
    fe_side: float, side: float, fe_main: float, main: float, diameter: float, bending: float,
    *, double: bool = False, outer: float | None = None,
) -> tuple[float, Modes]:  # fmt: skip
    """Allowable lateral load, N, of a thin nail or screw, and the bare yield modes.

    The yield modes of NDS 11.3.1 are Johansen's without EC5's 1.05 and 1.15; M_y = F_yb D^3/6.
    Double: of the whole fastener, both planes.  For a screw `diameter` is its root's and `outer`
    the thread's, by which K_D is found.
    """
    moment = bending * diameter**3 / 6.0
    shear = double_shear if double else single_shear
    modes = shear(fe_side, side, fe_main, main, diameter, moment, factors=(1.0, 1.0))
    planes = 2.0 if double else 1.0
    return planes * modes.least / thin_reduction(outer or diameter), modes


def movement(width: float, coefficient: float, moisture: float) -> float:
    """Change of width, mm, for a change of moisture in % (Wood Handbook, eq. 13-2): W C dM."""
    return width * coefficient * moisture
