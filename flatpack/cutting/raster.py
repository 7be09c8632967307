"""Places for true shapes on a grid of square cells, all places at once by Fourier transform.

A part and the ground that is taken are sets of touched cells; the count of cells that both touch,
for every shift of the part, is a convolution.  A shift with count nought is free.  Cells that are
touched at all count as full, so a free place really is free; openings in parts stay free ground.
"""

from __future__ import annotations

import math
from typing import Any, NamedTuple

from flatpack.geometry.outline import Outline
from flatpack.geometry.polygon import grown, polygon, touched


class Mask(NamedTuple):
    """Touched cells of a part turned about its own origin, and the low corner of cell (0, 0)."""

    cells: Any
    x: float
    y: float


def part_mask(
    outline: Outline, openings: tuple[Outline, ...], turn: float, cell: float, space: float
) -> Mask:
    """Cells that a turned part touches, grown by `space` on all sides, openings shrunk alike."""
    about = outline.turned(turn)
    shape = polygon(about, 0.05, [o.turned(turn) for o in openings])
    if space > 0.0:
        shape = grown(shape, space)
    low_x, low_y, high_x, high_y = about.bounds
    margin = math.ceil(space / cell - 1e-9) * cell
    origin = low_x - margin, low_y - margin
    columns = math.ceil((high_x - low_x + 2 * margin) / cell - 1e-9)
    rows = math.ceil((high_y - low_y + 2 * margin) / cell - 1e-9)
    return Mask(touched(shape, origin, cell, columns, rows), *origin)


class Ground:
    """The grid of one sheet: cells taken so far."""

    def __init__(self, taken: Any, origin: tuple[float, float], cell: float) -> None:
        """Start from the cells that can't be used at all."""
        self.taken, self.origin, self.cell = taken.copy(), origin, cell
        self._spectrum: Any = None
        self._shape = tuple(_fast(n) for n in taken.shape)
        self.kernels: dict[Any, Any] = {}

    def free(self, key: Any, mask: Mask) -> Any:
        """For every shift in cells whether the part is free there: an array of booleans."""
        import numpy as np

        wide, high = mask.cells.shape
        if wide > self.taken.shape[0] or high > self.taken.shape[1]:
            return np.zeros((0, 0), dtype=bool)
        if self._spectrum is None:
            self._spectrum = np.fft.rfft2(self.taken.astype(np.float32), self._shape)
        if key not in self.kernels:
            self.kernels[key] = np.conj(np.fft.rfft2(mask.cells.astype(np.float32), self._shape))
        count = np.fft.irfft2(self._spectrum * self.kernels[key], self._shape)
        return count[: self.taken.shape[0] - wide + 1, : self.taken.shape[1] - high + 1] < 0.5

    def place(self, column: int, row: int, grown_mask: Mask, margin: int) -> None:
        """Take the ground of a part placed at a shift; `margin` cells stand round its mask."""
        cells = grown_mask.cells
        x, y = column - margin, row - margin
        x0, y0 = max(x, 0), max(y, 0)
        x1 = min(x + cells.shape[0], self.taken.shape[0])
        y1 = min(y + cells.shape[1], self.taken.shape[1])
        self.taken[x0:x1, y0:y1] |= cells[x0 - x : x1 - x, y0 - y : y1 - y]
        self._spectrum = None


def _fast(n: int) -> int:
    """The next length that transforms quickly (factors 2, 3 and 5 only)."""
    while True:
        rest = n
        for prime in (2, 3, 5):
            while rest % prime == 0:
                rest //= prime
        if rest == 1:
            return n
        n += 1
