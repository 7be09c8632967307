"""Solids of the referee library sawn at a slant, from the words of `Bevel` alone."""

from __future__ import annotations

import math

import manifold3d
import numpy as np

from flatpack.features import Bevel
from flatpack.model import Part


def trimmed(made: manifold3d.Manifold, part: Part) -> manifold3d.Manifold:
    """A part's solid in its own axes less what its slanting cuts take off."""
    for bevel in part.features:
        if isinstance(bevel, Bevel):
            made = made.trim_by_plane(*_inward(bevel, part.thickness))
    return made


def _inward(bevel: Bevel, t: float) -> tuple[tuple[float, float, float], float]:
    """Normal into the wood and its distance from the origin.

    The line lies on the long face; going down to the other face the cut comes in by tan(slant).
    """
    (x0, y0), (x1, y1) = bevel.start, bevel.end
    along = np.array((x1 - x0, y1 - y0, 0.0))
    inward = np.array((y0 - y1, x1 - x0, 0.0)) / np.hypot(x1 - x0, y1 - y0)
    show = bevel.face == "show"
    top = np.array((x0, y0, t if show else 0.0))
    bottom = np.array((x0, y0, 0.0 if show else t)) + inward * t * math.tan(
        math.radians(bevel.slant)
    )
    normal = np.cross(along, bottom - top)
    normal /= np.linalg.norm(normal)
    if normal @ inward < 0.0:
        normal = -normal
    return tuple(normal), float(normal @ top)
