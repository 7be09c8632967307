"""Least squares within bounds for a handful of unknowns (Levenberg and Marquardt, projected).

Unknowns that press against a bound are held there; the rest take the damped Gauss-Newton step.
No randomness, and effort is counted in steps: the same input gives the same numbers.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

Residuals = Callable[[Sequence[float]], "list[float] | None"]
Bounds = Sequence[tuple[float, float]]

_STEP = 1e-5  # of central differences: errors of about 1e-9 against lengths of hundreds of mm


def fitted(
    residuals: Residuals, start: Sequence[float], bounds: Bounds, steps: int = 40
) -> tuple[list[float], float] | None:
    """Unknowns and sum of squares at the best place found; None if `start` has no residuals.

    `residuals` gives None where the model has no answer; such steps are refused.
    """
    here = [min(max(x, low), high) for x, (low, high) in zip(start, bounds, strict=True)]
    errors = residuals(here)
    if errors is None:
        return None
    total, damping = _squares(errors), 1e-3
    for _ in range(steps):
        slopes = _slopes(residuals, here, bounds, errors)
        better = None
        while better is None and damping < 1e8:
            better = _tried(residuals, here, bounds, errors, slopes, damping, total)
            damping = damping * 10.0 if better is None else max(damping / 10.0, 1e-12)
        if better is None:
            break
        gain = total - better[2]
        here, errors, total = better
        if gain <= 1e-12 * total or total < 1e-20:
            break
    return here, total


_Step = tuple[list[float], list[float], float]


def _tried(
    residuals: Residuals,
    here: list[float],
    bounds: Bounds,
    errors: list[float],
    slopes: list[list[float]],
    damping: float,
    total: float,
) -> _Step | None:
    """The damped step's place, residuals and sum of squares if it betters `total`."""
    pull = [sum(s * e for s, e in zip(column, errors, strict=True)) for column in slopes]
    free = [
        k
        for k, (low, high) in enumerate(bounds)
        if low < high
        and not (here[k] <= low and pull[k] > 0.0)
        and not (here[k] >= high and pull[k] < 0.0)
    ]
    step = _solved(slopes, pull, free, damping)
    place = list(here)
    for k, move in zip(free, step, strict=True):
        place[k] = min(max(here[k] - move, bounds[k][0]), bounds[k][1])
    found = residuals(place)
    if found is None or _squares(found) >= total:
        return None
    return place, found, _squares(found)


def _slopes(
    residuals: Residuals, here: list[float], bounds: Bounds, errors: list[float]
) -> list[list[float]]:
    """A column of derivatives for each unknown; one-sided where the model ends."""
    columns = []
    for k, (low, high) in enumerate(bounds):
        if low >= high:
            columns.append([0.0] * len(errors))
            continue
        up, down = (residuals([*here[:k], here[k] + h, *here[k + 1 :]]) for h in (_STEP, -_STEP))
        span = _STEP * ((up is not None) + (down is not None)) or math.inf
        columns.append([(a - b) / span for a, b in zip(up or errors, down or errors, strict=True)])
    return columns


def _solved(
    slopes: list[list[float]], pull: list[float], free: list[int], damping: float
) -> list[float]:
    """The normal equations with damped diagonal, by elimination with pivoting."""
    rows = [
        [sum(a * b for a, b in zip(slopes[i], slopes[j], strict=True)) for j in free] + [pull[i]]
        for i in free
    ]
    size = len(rows)
    for i in range(size):
        rows[i][i] = rows[i][i] * (1.0 + damping) + 1e-15
    for i in range(size):
        best = max(range(i, size), key=lambda r: abs(rows[r][i]))
        rows[i], rows[best] = rows[best], rows[i]
        for r in range(i + 1, size):
            k = rows[r][i] / rows[i][i]
            rows[r] = [a - k * b for a, b in zip(rows[r], rows[i], strict=True)]
    found = [0.0] * size
    for i in reversed(range(size)):
        known = sum(rows[i][j] * found[j] for j in range(i + 1, size))
        found[i] = (rows[i][size] - known) / rows[i][i]
    return found


def _squares(errors: Sequence[float]) -> float:
    return sum(e * e for e in errors)
