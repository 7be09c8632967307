"""The linear programme over cutting patterns: choose patterns so that every demand is met.

    least  sum of cost * times        over patterns
    with   sum of count * times >= demand     for each demand row
           sum of times <= available          for each limited stock row

HiGHS solves it.  Rows carry a dearly priced slack each, so that the programme has a solution
whatever patterns are in it; a slack left over says that the stock is too little.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Any, NamedTuple


class Solved(NamedTuple):
    """Optimum of the relaxation: its value, the times of each pattern, the price of each row."""

    value: float
    times: tuple[float, ...]
    duals: tuple[float, ...]
    short: float


def quiet_solver() -> Any:
    """A HiGHS object that prints nothing and uses one thread, so that runs repeat."""
    solver = _quiet_class()()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    return solver


@cache
def _quiet_class() -> Any:
    """The library's solver, silenced before it prints its banner, which it does when made."""
    import highspy

    solver: Any = highspy.Highs

    def enable(self: Any) -> None:
        self.setOptionValue("output_flag", False)
        solver.enableCallbacks(self)

    return type("Quiet", (solver,), {"enableCallbacks": enable})


class Master:
    """Restricted master programme: patterns are added as they are found."""

    def __init__(self, demand: Sequence[int], limits: Sequence[int], dear: Sequence[float]) -> None:
        """Rows for `demand` first, then for `limits`; `dear` prices a demand left unmet."""
        self._solver = quiet_solver()
        self._solver.setOptionValue("presolve", "off")
        self._inf = self._solver.getInfinity()
        self._rows = len(demand)
        self._slacks = len(demand)
        self.patterns = 0
        for need in demand:
            self._solver.addRow(float(need), self._inf, 0, [], [])
        for limit in limits:
            self._solver.addRow(-self._inf, float(limit), 0, [], [])
        for row, price in enumerate(dear):
            self._solver.addCol(price, 0.0, self._inf, 1, [row], [1.0])

    def add(self, cost: float, entries: Mapping[int, float]) -> int:
        """Add a pattern that takes part in the given rows; returns its number."""
        rows = list(entries)
        self._solver.addCol(
            cost, 0.0, self._inf, len(rows), rows, [float(entries[r]) for r in rows]
        )
        self.patterns += 1
        return self.patterns - 1

    def need(self, row: int, amount: float) -> None:
        """Change the demand of a row."""
        self._solver.changeRowBounds(row, float(amount), self._inf)

    def limit(self, row: int, amount: float) -> None:
        """Change the stock that is left for limit row `row` (counted from 0)."""
        self._solver.changeRowBounds(self._rows + row, -self._inf, float(amount))

    def allow(self, pattern: int, most: float | None) -> None:
        """Bound the times that a pattern may be used; None = freely."""
        top = self._inf if most is None else float(most)
        self._solver.changeColBounds(self._slacks + pattern, 0.0, top)

    def solve(self) -> Solved:
        """Solve the relaxation with the patterns so far."""
        self._solver.run()
        solution = self._solver.getSolution()
        values = solution.col_value
        return Solved(
            self._solver.getInfo().objective_function_value,
            tuple(values[self._slacks :]),
            tuple(solution.row_dual),
            sum(values[: self._slacks]),
        )
