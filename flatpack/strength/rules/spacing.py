"""Least spacings, end and edge distances of fasteners, mm (EC5 tables 8.2, 8.4, 8.6)."""

from __future__ import annotations

import math
from typing import NamedTuple


class Distances(NamedTuple):
    """Least distances, mm: along and across the grain, loaded and free ends and edges."""

    along: float
    across: float
    loaded_end: float
    free_end: float
    loaded_edge: float
    free_edge: float


def bolts(diameter: float, degrees: float = 0.0) -> Distances:
    """Bolts at `degrees` between force and grain (EC5 table 8.4).

    a1 (4+|cos a|)d, a2 4d, a3,t max(7d, 80), a3,c 4d for 0 to 30 degrees off the end, else
    max((1+6 sin a)d, 4d), a4,t max((2+2 sin a)d, 3d), a4,c 3d.
    """
    d = diameter
    s, c = abs(math.sin(math.radians(degrees))), abs(math.cos(math.radians(degrees)))
    free = 4.0 * d if degrees <= 30.0 else max((1.0 + 6.0 * s) * d, 4.0 * d)
    return Distances(
        (4.0 + c) * d, 4.0 * d, max(7.0 * d, 80.0), free, max((2.0 + 2.0 * s) * d, 3.0 * d), 3.0 * d
    )


def dowels(diameter: float, degrees: float = 0.0) -> Distances:
    """Fitted dowels (EC5 table 8.5)."""
    d = diameter
    s, c = abs(math.sin(math.radians(degrees))), abs(math.cos(math.radians(degrees)))
    end = max(7.0 * d, 80.0)
    free = 4.0 * d if degrees <= 30.0 else max(end * s, 3.0 * d)
    return Distances(
        (3.0 + 2.0 * c) * d, 3.0 * d, end, free, max((2.0 + 2.0 * s) * d, 3.0 * d), 3.0 * d
    )


def nails(
    diameter: float, degrees: float = 0.0, *, drilled: bool, dense: bool = False
) -> Distances:
    """Nails and screws up to 6 mm across the grain (EC5 table 8.2; screws by 8.7.1).

    `dense` is a characteristic density over 420 up to 500 kg/m3 (undrilled only).
    """
    d = diameter
    s, c = abs(math.sin(math.radians(degrees))), abs(math.cos(math.radians(degrees)))
    if drilled:
        edge = (3.0 + 2.0 * s) if d < 5.0 else (3.0 + 4.0 * s)
        shares = (4.0 + c, 3.0 + s, 7.0 + 5.0 * c, 7.0, edge, 3.0)
    elif dense:
        edge = (7.0 + 2.0 * s) if d < 5.0 else (7.0 + 5.0 * s)
        shares = (7.0 + 8.0 * c, 7.0, 15.0 + 5.0 * c, 15.0, edge, 7.0)
    else:
        edge = (5.0 + 2.0 * s) if d < 5.0 else (5.0 + 5.0 * s)
        shares = (5.0 + (5.0 if d < 5.0 else 7.0) * c, 5.0, 10.0 + 5.0 * c, 10.0, edge, 5.0)
    return Distances(*(share * d for share in shares))


def pulled_screws(diameter: float) -> Distances:
    """Screws along their axis, in wood at least 12 d thick (EC5 table 8.6, A1:2008).

    a1 7d, a2 5d, end 10d, edge 4d, to the middle of the thread.
    """
    d = diameter
    return Distances(7.0 * d, 5.0 * d, 10.0 * d, 10.0 * d, 4.0 * d, 4.0 * d)
