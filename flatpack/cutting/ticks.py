"""Lengths as whole numbers, so that a plan is exact and a proof of its bound is too.

A saw plan adds up dozens of lengths and kerfs; in binary fractions 3.2 mm is not 3.2 mm.  Here
every length becomes a count of hundredths of a millimetre: parts and kerf are rounded up, stock
is rounded down, so that what fits in ticks fits in millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

PER_MM = 100
_NOISE = 1e-6


def up(mm: float) -> int:
    """Ticks that hold a length of `mm`, rounded up."""
    return math.ceil(mm * PER_MM - _NOISE)


def down(mm: float) -> int:
    """Ticks that lie within a length of `mm`, rounded down."""
    return math.floor(mm * PER_MM + _NOISE)


def mm(ticks: int) -> float:
    """Millimetres of a count of ticks."""
    return ticks / PER_MM


def common(values: Iterable[int]) -> int:
    """Greatest common measure of whole numbers; 1 when there are none."""
    return math.gcd(*values) or 1
