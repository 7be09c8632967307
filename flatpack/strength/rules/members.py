"""Members: stresses, use of capacity, buckling, bearing (EC5 section 6)."""

from __future__ import annotations

import math

BETA_C = 0.2
"""Straightness of solid timber (EC5 6.3.2, eq. 6.29); glued members have 0.1."""
K_M = 0.7
"""Redistribution of bending stress in a rectangle (EC5 6.1.6(2)); 1.0 for other sections."""


def bending_stress(moment: float, modulus: float) -> float:
    """Greatest bending stress M/W, N/mm2 (mechanics)."""
    return abs(moment) / modulus


def shear_stress(force: float, area: float, form: float = 1.5, k_cr: float = 1.0) -> float:
    """Greatest shear stress, N/mm2: form V / (k_cr A) (mechanics; k_cr EC5 6.1.7(2))."""
    return form * abs(force) / (k_cr * area)


def bending_use(sy: float, fy: float, sz: float, fz: float, k_m: float = K_M) -> float:
    """Use in two-way bending: the larger of eq. 6.11 and 6.12 (EC5 6.1.6)."""
    return max(sy / fy + k_m * sz / fz, k_m * sy / fy + sz / fz)


def tension_use(st: float, ft: float, sy: float, fy: float, sz: float, fz: float) -> float:
    """Use in bending with tension: the larger of eq. 6.17 and 6.18 (EC5 6.2.3)."""
    return st / ft + bending_use(sy, fy, sz, fz)


def compression_use(
    sc: float, fc: float, bent: tuple[float, float, float, float], kc: tuple[float, float]
) -> float:
    """Use in bending with compression: the larger of eq. 6.23 and 6.24 (EC5 6.3.2).

    `bent` is (sigma_y, f_y, sigma_z, f_z), `kc` the instability factors about y and z; where both
    are 1 the axial share counts squared (eq. 6.19, 6.20).
    """
    sy, fy, sz, fz = bent
    if min(kc) >= 1.0:
        return (sc / fc) ** 2 + bending_use(sy, fy, sz, fz)
    return max(
        sc / (kc[0] * fc) + sy / fy + K_M * sz / fz, sc / (kc[1] * fc) + K_M * sy / fy + sz / fz
    )


def slenderness(length: float, gyration: float) -> float:
    """Slenderness lambda = l_ef / i (mechanics)."""
    return length / gyration


def relative_slenderness(slender: float, strength: float, stiffness: float) -> float:
    """lambda_rel = lambda/pi sqrt(f_c,0,k / E_0,05) (EC5 6.3.2, eq. 6.21)."""
    return slender / math.pi * math.sqrt(strength / stiffness)


def k_c(relative: float, beta: float = BETA_C) -> float:
    """Instability factor of a column (EC5 6.3.2, eq. 6.25 to 6.28); 1 up to lambda_rel 0.3."""
    if relative <= 0.3:
        return 1.0
    k = 0.5 * (1.0 + beta * (relative - 0.3) + relative**2)
    return 1.0 / (k + math.sqrt(k**2 - relative**2))


def critical_bending_stress(width: float, depth: float, length: float, stiffness: float) -> float:
    """sigma_m,crit = 0.78 b^2 E_0,05 / (h l_ef), N/mm2: softwood rectangle (EC5 eq. 6.32)."""
    return 0.78 * width**2 * stiffness / (depth * length)


def k_crit(relative: float) -> float:
    """Factor of lateral buckling from lambda_rel,m = sqrt(f_m,k/sigma_m,crit) (EC5 eq. 6.34)."""
    if relative <= 0.75:
        return 1.0
    if relative <= 1.4:
        return 1.56 - 0.75 * relative
    return 1.0 / relative**2


def bearing_length(contact: float, before: float, behind: float, clear: float = math.inf) -> float:
    """Effective contact along the grain, mm (EC5 6.1.5(1), A1:2008).

    The contact is longer by up to 30 mm on each side, no more than the wood that is there, the
    contact itself, or half the clear distance to the next contact.
    """
    return contact + sum(min(30.0, side, contact, clear / 2.0) for side in (before, behind))


def bearing_stress(force: float, width: float, length: float) -> float:
    """sigma_c,90 = F / A_ef, N/mm2 (EC5 6.1.5, eq. 6.4)."""
    return abs(force) / (width * length)


def strength_at_angle(along: float, across: float, degrees: float, k_c90: float = 1.0) -> float:
    """Compression strength at an angle to the grain, N/mm2 (EC5 6.2.2, eq. 6.16; Hankinson)."""
    s, c = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    return along / (along / (k_c90 * across) * s * s + c * c)


def k_v(depth: float, left: float, from_support: float) -> float:
    """Factor of shear at a notch that leaves a share `left` of the depth, 1 at most.

    EC5 6.5.2, eq. 6.62 for solid timber (k_n 5) and a square notch:
    k_n / (sqrt(h) (sqrt(a (1 - a)) + 0.8 x/h sqrt(1/a - a^2))), x from the support to the corner.
    """
    a = min(max(left, 1e-3), 1.0)
    under = math.sqrt(a * (1.0 - a)) + 0.8 * from_support / depth * math.sqrt(1.0 / a - a * a)
    return min(5.0 / (math.sqrt(depth) * under), 1.0) if under > 0.0 else 1.0


def k_shape(width: float, depth: float) -> float:
    """Factor of the shear strength in twist of a rectangle (EC5 6.1.8, eq. 6.15): up to 2."""
    a, b = max(width, depth), min(width, depth)
    return min(1.0 + 0.15 * a / b, 2.0)
