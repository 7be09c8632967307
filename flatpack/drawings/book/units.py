"""Lengths as the reader's tape shows them: millimetres, or inches to the nearest sixteenth."""

from __future__ import annotations

from math import gcd
from typing import Literal

from flatpack.drawings.figures import mm

System = Literal["mm", "inches"]
INCH = 25.4
"""Millimetres in an inch, exact since 1959 (ISO 31-1 annex; NIST SP 811 appendix B)."""
_TELLS = 0.1
"""A sixteenth that is off by more than this, mm, gets the exact decimal beside it."""


def size(value: float, system: System) -> str:
    """A length for a table: 12.5, or 2 13/16 and its exact decimal where the fraction is off."""
    if system == "mm":
        return mm(value)
    fraction = sixteenths(value)
    off = abs(round(value / INCH * 16.0) / 16.0 * INCH - value)
    return f"{fraction} ({value / INCH:.3f})" if off > _TELLS else fraction


def said(value: float, system: System) -> str:
    """A length for a sentence, with its unit."""
    return f"{size(value, system)} {'mm' if system == 'mm' else 'in'}"


def sixteenths(value: float) -> str:
    """Inches to the nearest sixteenth, in lowest terms: 0, 3/16, 2 13/16, 5."""
    count = round(abs(value) / INCH * 16.0)
    whole, rest = divmod(count, 16)
    sign = "-" if value < 0.0 and count else ""
    if not rest:
        return f"{sign}{whole}"
    share = gcd(rest, 16)
    fraction = f"{rest // share}/{16 // share}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"
