"""Bounded knapsack over whole lengths: the most valuable pattern for every board length at once.

    best[c] = greatest value of parts whose lengths (kerf included) add up to at most c

One table serves all stock lengths.  Counts are split into powers of two, so that a part wanted
13 times costs four passes.  With whole-number values the table is exact, which is what makes a
bound a proof.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


class Bundle(NamedTuple):
    """`times` copies of one part taken or left together."""

    part: int
    times: int
    size: int


def bundles(sizes: Sequence[int], counts: Sequence[int], room: int) -> list[Bundle]:
    """The parts as bundles of 1, 2, 4 ... copies that make up every count from 0 to the demand."""
    made = []
    for part, (size, count) in enumerate(zip(sizes, counts, strict=True)):
        left, times = min(count, room // size), 1
        while left > 0:
            took = min(times, left)
            made.append(Bundle(part, took, took * size))
            left, times = left - took, times * 2
    return made


class Table:
    """Values for every length up to `room`, with the way back to the patterns."""

    def __init__(
        self, sizes: Sequence[int], values: Sequence[Any], counts: Sequence[int], room: int
    ) -> None:
        """Fill the table; `values` are floats or whole numbers (then the table is exact)."""
        import numpy as np

        whole = all(isinstance(v, int) for v in values)
        self._bundles = [b for b in bundles(sizes, counts, room) if values[b.part] > 0]
        self.best: NDArray[Any] = np.zeros(room + 1, dtype=np.int64 if whole else np.float64)
        self._took: NDArray[np.bool_] = np.zeros((len(self._bundles), room + 1), dtype=bool)
        for row, bundle in enumerate(self._bundles):
            self._take(row, bundle, values[bundle.part] * bundle.times)

    def _take(self, row: int, bundle: Bundle, value: Any) -> None:
        with_it = self.best[: len(self.best) - bundle.size] + value
        rest = self.best[bundle.size :]
        self._took[row, bundle.size :] = with_it > rest
        self.best[bundle.size :] = self._largest(with_it, rest)

    @staticmethod
    def _largest(one: Any, other: Any) -> Any:
        import numpy as np

        return np.maximum(one, other)

    def pattern(self, room: int) -> dict[int, int]:
        """Counts by part of a most valuable pattern in `room`."""
        counts: dict[int, int] = {}
        for row in range(len(self._bundles) - 1, -1, -1):
            if self._took[row, room]:
                bundle = self._bundles[row]
                counts[bundle.part] = counts.get(bundle.part, 0) + bundle.times
                room -= bundle.size
        return counts
