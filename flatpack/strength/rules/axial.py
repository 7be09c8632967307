"""Screws, nails and bolts pulled along their axis: EC5 8.3.2, 8.5.2, 8.7.2."""

from __future__ import annotations

import math


def screw_parameter(diameter: float, length: float, density: float) -> float:
    """f_ax,k = 0.52 d^-0.5 l_ef^-0.1 rho_k^0.8, N/mm2 (EC5 8.7.2, eq. 8.39, A1:2008).

    Only for outer diameters of 6 to 12 mm and root over outer of 0.6 to 0.75 (8.7.2(4)).
    """
    return float(0.52 * diameter**-0.5 * length**-0.1 * density**0.8)


def screw_withdrawal(
    count: int, parameter: float, diameter: float, length: float, degrees: float = 90.0
) -> float:
    """F_ax,k = n_ef f_ax d l_ef k_d / (1.2 cos^2 a + sin^2 a), N (EC5 eq. 8.38, A1:2008).

    n_ef = n^0.9 (eq. 8.41), k_d = min(d/8, 1); `degrees` between axis and grain, 30 or more.
    """
    s, c = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    k_d = min(diameter / 8.0, 1.0)
    return float(count**0.9) * parameter * diameter * length * k_d / (1.2 * c * c + s * s)


def declared_withdrawal(
    count: int, parameter: float, diameter: float, length: float, density: float = 1.0,
    tested: float = 1.0,
) -> float:  # fmt: skip
    """F_ax,k = n^0.9 f_ax,k d l_ef (rho_k/rho_a)^0.8, N: f_ax,k from a test (EC5 eq. 8.40a)."""
    return float(count**0.9 * parameter * diameter * length * (density / tested) ** 0.8)


def head_pull_through(count: int, parameter: float, head: float, density: float = 1.0,
                      tested: float = 1.0) -> float:  # fmt: skip
    """F_ax,k = n^0.9 f_head,k d_h^2 (rho_k/rho_a)^0.8, N (EC5 8.7.2(6), eq. 8.40b)."""
    return float(count**0.9 * parameter * head**2 * (density / tested) ** 0.8)


def nail_withdrawal(density: float) -> float:
    """f_ax,k = 20e-6 rho_k^2, N/mm2: smooth nails, point in 12 d (EC5 8.3.2(6), eq. 8.25)."""
    return 20e-6 * density**2


def nail_head(density: float) -> float:
    """f_head,k = 70e-6 rho_k^2, N/mm2: smooth nails' heads (EC5 8.3.2(6), eq. 8.26)."""
    return 70e-6 * density**2


def nail_axial(point: float, head: float, diameter: float, length: float, thickness: float,
               head_diameter: float) -> float:  # fmt: skip
    """F_ax,Rk of a smooth nail, N: min(f_ax d t_pen, f_ax d t + f_head d_h^2) (EC5 eq. 8.24)."""
    return min(point * diameter * length, point * diameter * thickness + head * head_diameter**2)


def washer_bearing(outer: float, hole: float, strength: float) -> float:
    """3 f_c,90,k over the washer's ring, N (EC5 8.5.2(2))."""
    return 3.0 * strength * math.pi / 4.0 * (outer**2 - hole**2)


def bolt_tension(stress_area: float, tensile: float) -> float:
    """A_s f_u, N: a bolt's breaking force without the factor 0.9 of EN 1993-1-8 table 3.4."""
    return stress_area * tensile


def stress_area(diameter: float, pitch: float) -> float:
    """Tensile stress area of a metric thread, mm2: pi/4 (d - 0.9382 p)^2 (ISO 898-1)."""
    return math.pi / 4.0 * (diameter - 0.9382 * pitch) ** 2


def combined(axial: float, axial_capacity: float, lateral: float, lateral_capacity: float,
             power: float = 2.0) -> float:  # fmt: skip
    """Use under pull and shear together: 1 for smooth nails (eq. 8.27), 2 for screws (eq. 8.28).

    EC5 8.3.3 and 8.7.3.
    """
    return float((axial / axial_capacity) ** power + (lateral / lateral_capacity) ** power)
