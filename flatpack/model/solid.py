"""Bodies that take up room: a plane outline between two heights in a frame."""

from __future__ import annotations

from typing import Literal

from flatpack.frozen import frozen
from flatpack.geometry import Frame, Outline, Vec, X, Z
from flatpack.geometry.shapes import disc


@frozen(kw_only=False)
class Solid:
    """An upright prism: `outline` in the frame's x, y, from `low` to `high` along its z.

    `group` says what it moves with when that isn't its fastener's own (a hinge's other leaf).
    """

    name: str
    frame: Frame
    outline: Outline
    low: float
    high: float
    group: Literal["", "frame", "back", "arm", "rod"] = ""


def axis_frame(start: Vec, direction: Vec) -> Frame:
    """Right-handed frame at `start` whose z runs along `direction` (a unit vector)."""
    side = Z if abs(direction.z) < 0.9 else X
    across = side.cross(direction).unit()
    return Frame(start, across, direction.cross(across), direction)


def cylinder(name: str, start: Vec, direction: Vec, radius: float, length: float) -> Solid:
    """Round body from `start`, `length` along the unit vector `direction`."""
    return Solid(name, axis_frame(start, direction), disc(radius), 0.0, length)
