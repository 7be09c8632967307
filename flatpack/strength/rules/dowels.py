"""Bolts, nails and screws across the grain: embedment, yield moment, slip (EC5 section 8)."""

from __future__ import annotations

import math
from itertools import pairwise


def embedment_drilled(diameter: float, density: float) -> float:
    """f_h,0,k = 0.082 (1 - 0.01 d) rho_k, N/mm2: bolts up to 30 mm, drilled nails.

    EC5 eq. 8.16 and 8.32; a textbook's example has 23.42 for d = 16 and rho_k = 340.
    """
    return 0.082 * (1.0 - 0.01 * diameter) * density


def embedment_undrilled(diameter: float, density: float) -> float:
    """f_h,k = 0.082 rho_k d^-0.3, N/mm2: nails without holes, at any angle (EC5 eq. 8.15)."""
    return float(0.082 * density * diameter**-0.3)


def embedment_plywood_nail(diameter: float, density: float) -> float:
    """f_h,k = 0.11 rho_k d^-0.3, N/mm2: nails in plywood, head at least 2 d (EC5 eq. 8.20)."""
    return float(0.11 * density * diameter**-0.3)


def embedment_plywood_bolt(diameter: float, density: float) -> float:
    """f_h,k = 0.11 (1 - 0.01 d) rho_k, N/mm2: bolts in plywood, any angle (EC5 eq. 8.36)."""
    return 0.11 * (1.0 - 0.01 * diameter) * density


def k_90(diameter: float, kind: str = "softwood") -> float:
    """Factor of embedment across the grain (EC5 eq. 8.33).

    Raises:
        KeyError: the kind is neither softwood, hardwood nor lvl.
    """
    return {"softwood": 1.35, "lvl": 1.30, "hardwood": 0.90}[kind] + 0.015 * diameter


def embedment_at(along: float, k90: float, degrees: float) -> float:
    """f_h,alpha,k = f_h,0,k / (k_90 sin^2 a + cos^2 a), N/mm2 (EC5 eq. 8.31)."""
    s, c = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    return along / (k90 * s * s + c * c)


def yield_moment(diameter: float, tensile: float, square: bool = False) -> float:
    """M_y,Rk = 0.3 f_u d^2.6, N mm (0.45 for square nails).  EC5 eq. 8.14 and 8.30."""
    return float((0.45 if square else 0.3) * tensile * diameter**2.6)


def effective_diameter(outer: float, root: float, shank_in: float, shank: float) -> float:
    """Diameter of a screw for lateral load, mm (EC5 8.7.1(2), (3)).

    The smooth shank's where it reaches 4 d into the point's part, else 1.1 times the root's.
    """
    return shank if shank > 0.0 and shank_in >= 4.0 * outer else 1.1 * root


def slip_modulus(diameter: float, density: float) -> float:
    """K_ser = rho_m^1.5 d / 23, N/mm a shear plane: bolts, screws, drilled nails.

    EC5 table 7.1; rho_m is the geometric mean of two densities (eq. 7.1).
    """
    return float(density**1.5 * diameter / 23.0)


def n_ef_bolts(count: int, spacing: float, diameter: float) -> float:
    """Effective number in a row along the grain: min(n, n^0.9 (a1/13d)^0.25) (EC5 eq. 8.34)."""
    return float(min(count, count**0.9 * (spacing / (13.0 * diameter)) ** 0.25))


def n_ef_nails(count: int, spacing: float, diameter: float, drilled: bool) -> float:
    """Effective number of nails or thin screws in a row, n^k_ef (EC5 8.3.1.1(8), table 8.1).

    k_ef is 1 at 14 d, 0.85 at 10 d, 0.7 at 7 d and, drilled only, 0.5 at 4 d; between by lines.

    Raises:
        ValueError: the spacing lies below the table.
    """
    points = [(7.0, 0.7), (10.0, 0.85), (14.0, 1.0)]
    points = [(4.0, 0.5), *points] if drilled else points
    share = spacing / diameter
    if share < points[0][0]:
        raise ValueError(f"spacing of {share:.1f} d lies below table 8.1")
    for (low, k_low), (high, k_high) in pairwise(points):
        if share <= high:
            return float(count ** (k_low + (k_high - k_low) * (share - low) / (high - low)))
    return float(count)


def splitting(width: float, depth: float, loaded: float) -> float:
    """F_90,Rk = 14 b sqrt(h_e / (1 - h_e/h)), N: softwood, no plates (EC5 8.1.4, eq. 8.4).

    `loaded` is h_e, from the loaded edge to the farthest fastener.
    """
    return 14.0 * width * math.sqrt(loaded / (1.0 - loaded / depth))
