"""Nest of fixed effort: parts placed one by one at the free place nearest the sheet's end.

Orders of the parts are tried as many times as there are steps; random numbers come from a fixed
seed, so the same input gives the same layout.  Sheets may have any outline, clamps and several
sizes; small parts find their way into the openings of large ones.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Sequence
from typing import Any, NamedTuple

from flatpack.cutting.effort import Effort
from flatpack.cutting.nest_records import TURNS, Blank, Placed, Shape, Spaces
from flatpack.cutting.raster import Ground, Mask, part_mask
from flatpack.geometry.polygon import grown, polygon, shrunk, touched, without

_SLACK = 0.02
_CELLS = 640
_OVERLAP = 40.0


class Filled(NamedTuple):
    """A sheet being filled: number of its blank, the parts on it, how far it is used along x."""

    blank: int
    parts: tuple[Placed, ...]
    reach: float


class Grid:
    """Masks of all parts and blanks of a job at one size of cell."""

    def __init__(self, shapes: Sequence[Shape], blanks: Sequence[Blank], spaces: Spaces) -> None:
        """Choose the cell: a whole share of the spacing, coarse enough for the largest blank."""
        self.shapes, self.blanks, self.spaces = shapes, blanks, spaces
        largest = max(max(b.outline.bounds[2:]) - min(b.outline.bounds[:2]) for b in blanks)
        wish = largest / _CELLS
        space = spaces.between
        self.cell = space / math.floor(space / wish) if space > wish else wish
        self.margin = math.ceil((space + _SLACK) / self.cell - 1e-9)
        self._masks: dict[tuple[int, float], tuple[Mask, Mask]] = {}
        self._grounds = [self._ground(b) for b in blanks]
        self.kernels: list[dict[Any, Any]] = [{} for _ in blanks]

    def masks(self, number: int, turn: float) -> tuple[Mask, Mask]:
        """A part's mask at a turn, bare and grown by the spacing."""
        key = number, turn
        if key not in self._masks:
            s, space = self.shapes[number], self.spaces.between + _SLACK
            self._masks[key] = (
                part_mask(s.outline, s.openings, turn, self.cell, 0.0),
                part_mask(s.outline, s.openings, turn, self.cell, space),
            )
        return self._masks[key]

    def _ground(self, blank: Blank) -> Ground:
        """Cells of a blank that reach over its edge margin or a clamp's are taken."""
        low_x, low_y, high_x, high_y = blank.outline.bounds
        edge = self.spaces.edge
        origin = low_x + edge, low_y + edge
        columns = max(1, math.floor((high_x - low_x - 2 * edge) / self.cell + 1e-9))
        rows = max(1, math.floor((high_y - low_y - 2 * edge) / self.cell + 1e-9))
        sheet = polygon(blank.outline, 0.01)
        space = self.spaces.between + _SLACK
        clamps = [grown(polygon(c, 0.01), space) for c in blank.clamps]
        usable = without(shrunk(sheet, edge), clamps)
        frame = grown(sheet.envelope, 10.0 * self.cell)
        outside = without(frame, [usable])
        return Ground(touched(outside, origin, self.cell, columns, rows), origin, self.cell)

    def ground(self, number: int) -> Ground:
        """A fresh ground of a blank; what is worked out for its parts is kept."""
        base = self._grounds[number]
        fresh = Ground(base.taken, base.origin, base.cell)
        fresh.kernels = self.kernels[number]
        return fresh


def fill(grid: Grid, blank: int, order: Sequence[int], effort: Effort, lean: float) -> Filled:
    """Fill one blank from the parts in `order`, each once; parts that don't fit are passed over.

    `lean` weighs the place across the sheet against the place along it.
    """
    ground = grid.ground(blank)
    placed: list[Placed] = []
    hopeless: set[int] = set()
    reach = 0.0
    for number in order:
        if number in hopeless or effort.cut_short:
            continue
        effort.spend()
        best = _best_place(grid, ground, number, lean)
        if best is None:
            hopeless.add(number)
            continue
        _, turn, column, row = best
        bare, space = grid.masks(number, turn)
        ground.place(column, row, space, grid.margin)
        reach = max(reach, (column + bare.cells.shape[0]) * grid.cell)
        x = ground.origin[0] + column * grid.cell - bare.x
        y = ground.origin[1] + row * grid.cell - bare.y
        placed.append(
            Placed(mark=grid.shapes[number].mark, turn=turn, x=round(x, 4), y=round(y, 4))
        )
    return Filled(blank, tuple(placed), reach)


def _best_place(
    grid: Grid, ground: Ground, number: int, lean: float
) -> tuple[float, float, int, int] | None:
    import numpy as np

    found = []
    for turn in TURNS[grid.shapes[number].grain]:
        bare = grid.masks(number, turn)[0]
        free = ground.free((number, turn), bare)
        columns = free.any(axis=1)
        if not columns.any():
            continue
        wide, high = bare.cells.shape
        firsts = np.argmax(free, axis=1)
        score = (np.arange(len(firsts)) + wide) + lean * (firsts + high)
        score = np.where(columns, score, np.inf)
        column = int(score.argmin())
        found.append((float(score[column]), turn, column, int(firsts[column])))
    return min(found) if found else None


def nest_once(
    grid: Grid, order: Sequence[int], blanks: Sequence[int], effort: Effort, lean: float
) -> tuple[list[Filled], list[int]]:
    """Fill blanks in turn until the parts are placed; returns the sheets and the parts left."""
    left = list(order)
    sheets: list[Filled] = []
    for blank in blanks:
        if not left or effort.cut_short:
            break
        sheet = fill(grid, blank, left, effort, lean)
        if not sheet.parts:
            continue
        sheets.append(sheet)
        marks = Counter(p.mark for p in sheet.parts)
        rest = []
        for number in left:
            if marks[grid.shapes[number].mark] > 0:
                marks[grid.shapes[number].mark] -= 1
            else:
                rest.append(number)
        left = rest
    return sheets, left


def orders(shapes: Sequence[Shape], tries: int, seed: int) -> list[list[int]]:
    """Orders to place the parts in: by area, by length, then shaken; priority first always."""
    rng = random.Random(seed)
    copies = [n for n, s in enumerate(shapes) for _ in range(s.count)]
    area = [polygon(s.outline, 0.1, s.openings).area for s in shapes]
    box = [s.outline.bounds for s in shapes]
    long = [max(b[2] - b[0], b[3] - b[1]) for b in box]
    made = []
    for number in range(tries):
        base = area if number % 2 == 0 else long
        shake = 0.0 if number < 2 else 0.35
        weight = [v * (1.0 + shake * (rng.random() - 0.5)) for v in base]
        made.append(sorted(copies, key=lambda n: (shapes[n].priority, -weight[n], n)))
    return made
