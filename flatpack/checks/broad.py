"""Which bodies may share room: bounding boxes first, then boxes in any position, all in numpy."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np

from flatpack.checks.body import Body
from flatpack.checks.convex import axes_of

Array = Any


class Boxes(NamedTuple):
    """Each body's own box: middle (n, 3), axes (n, 3, 3; rows) and half sizes (n, 3)."""

    middle: Array
    axes: Array
    half: Array


def boxes(some: Sequence[Body], r: float) -> Boxes:
    """Boxes of bodies shrunk by r."""
    bounds = np.array([b.outline.bounds for b in some]).reshape(-1, 4)
    low = np.column_stack((bounds[:, :2], [b.low for b in some]))
    high = np.column_stack((bounds[:, 2:], [b.high for b in some]))
    axes = np.array([axes_of(b.frame) for b in some]).reshape(-1, 3, 3)
    origin = np.array([b.frame.origin for b in some]).reshape(-1, 3)
    middle = origin + np.einsum("ni,nij->nj", (low + high) / 2.0, axes)
    return Boxes(middle, axes, np.maximum((high - low) / 2.0 - r, 0.0))


def meeting(a: Boxes, b: Boxes) -> Array:
    """Pairs (k, 2) of indices, one into each, whose boxes meet."""
    reach_a = np.einsum("ni,nij->nj", a.half, abs(a.axes))
    reach_b = np.einsum("ni,nij->nj", b.half, abs(b.axes))
    low_a, high_a, low_b, high_b = (
        a.middle - reach_a, a.middle + reach_a, b.middle - reach_b, b.middle + reach_b
    )  # fmt: skip
    near = (low_a[:, None, 0] <= high_b[None, :, 0]) & (low_b[None, :, 0] <= high_a[:, None, 0])
    i, j = np.nonzero(near)
    for axis in (1, 2):
        meet = (low_a[i, axis] <= high_b[j, axis]) & (low_b[j, axis] <= high_a[i, axis])
        i, j = i[meet], j[meet]
    pairs = np.column_stack((i, j))
    return pairs[_turned_boxes_meet(a, b, pairs)]


def _turned_boxes_meet(a: Boxes, b: Boxes, pairs: Array) -> Array:
    """Separating axes of boxes in any position: 3 + 3 faces and 9 pairs of edges."""
    i, j = pairs[:, 0], pairs[:, 1]
    turn = np.einsum("nij,nkj->nik", a.axes[i], b.axes[j])
    size = abs(turn) + 1e-9
    shift = np.einsum("nij,nj->ni", a.axes[i], b.middle[j] - a.middle[i])
    ha, hb = a.half[i], b.half[j]
    meet = (abs(shift) <= ha + np.einsum("nik,nk->ni", size, hb)).all(axis=1)
    back = np.einsum("nik,ni->nk", turn, shift)
    meet &= (abs(back) <= hb + np.einsum("nik,ni->nk", size, ha)).all(axis=1)
    for m in range(3):
        p, q = (m + 1) % 3, (m + 2) % 3
        for n in range(3):
            s, t = (n + 1) % 3, (n + 2) % 3
            apart = abs(shift[:, q] * turn[:, p, n] - shift[:, p] * turn[:, q, n])
            reach = ha[:, p] * size[:, q, n] + ha[:, q] * size[:, p, n]
            reach += hb[:, s] * size[:, m, t] + hb[:, t] * size[:, m, s]
            meet &= apart <= reach
    return meet
