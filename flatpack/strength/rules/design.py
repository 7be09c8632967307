"""From characteristic to design values: duration, moisture, safety, size, creep."""

from __future__ import annotations

from typing import Literal

Duration = Literal["permanent", "long", "medium", "short", "instantaneous"]
DURATIONS: tuple[Duration, ...] = ("permanent", "long", "medium", "short", "instantaneous")
K_CR = 0.67
"""Share of the width that cracks leave for shear in solid timber (EC5 6.1.7(2), A1:2008)."""
GAMMA_JOINT = 1.3
"""Partial factor of connections (EC5 table 2.3, recommended; LVL Handbook Europe, ex. 9.6)."""


def design_value(characteristic: float, k_mod: float, gamma: float) -> float:
    """X_d = k_mod X_k / gamma_M, in the unit of X (EC5 2.4.1, eq. 2.14; resistances 2.17)."""
    return k_mod * characteristic / gamma


def k_mod(
    dry: tuple[float, ...], wet: tuple[float, ...], service_class: int, duration: Duration
) -> float:
    """Factor for duration and moisture, from the material's rows (EC5 table 3.1).

    Raises:
        ValueError: no such service class.
    """
    if service_class not in (1, 2, 3):
        raise ValueError(f"no service class {service_class}")
    return (wet if service_class == 3 else dry)[DURATIONS.index(duration)]


def k_h(depth: float, density: float = 0.0) -> float:
    """Size factor for bending and tension of solid timber: min((150/h)^0.2, 1.3), 1 from 150 on.

    Only up to a characteristic density of 700 kg/m3.  EC5 3.2(3), eq. 3.1.
    """
    if depth >= 150.0 or density > 700.0:
        return 1.0
    return float(min((150.0 / depth) ** 0.2, 1.3))


def final_deflection(instant: float, k_def: float, lasting_share: float) -> float:
    """w_fin = w_inst (1 + psi_2 k_def), mm (EC5 2.2.3, eq. 2.3 to 2.5; psi_2 = `lasting_share`)."""
    return instant * (1.0 + lasting_share * k_def)
