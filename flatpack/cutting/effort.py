"""Effort of a search: counted in steps, so that the same input gives the same plan.

A clock or a hand on the keyboard may stop a search early; the plan found so far is then kept and
marked as not repeatable.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable

Stop = Callable[[], bool]
Progress = Callable[[int, float, float], None]


def never() -> bool:
    """Never stop before the steps are used up."""
    return False


class Effort:
    """Steps used so far, the most allowed, and whether the clock or a hand cut them short."""

    def __init__(
        self,
        most: int,
        seconds: float | None = None,
        stop: Stop = never,
        progress: Progress | None = None,
    ) -> None:
        """Allow `most` steps and, as a guard, `seconds`; ask `stop` at each step.

        `progress` is told steps, best cost and bound whenever a better plan is found.
        """
        self.most, self.steps, self.cut_short = most, 0, False
        #: The clock ended a part of the search, though the rest went on.
        self.clocked = False
        self._end = math.inf if seconds is None else time.monotonic() + seconds
        self._stop, self._progress = stop, progress

    def spend(self, steps: int = 1) -> None:
        """Count steps, and look whether to stop."""
        self.steps += steps
        self.cut_short = self.cut_short or self.seconds_left <= 0.0 or self._stop()

    def tell(self, best: float, bound: float) -> None:
        """Report the best cost so far and the bound."""
        if self._progress is not None:
            self._progress(self.steps, best, bound)

    @property
    def seconds_left(self) -> float:
        """Seconds until the guard stops the search; infinite without one."""
        return self._end - time.monotonic() if self._end < math.inf else math.inf

    @property
    def repeats(self) -> bool:
        """True when neither a clock nor a hand had a part in the result."""
        return not (self.cut_short or self.clocked)

    @property
    def spent(self) -> bool:
        """True when no steps are left, or the search was stopped."""
        return self.cut_short or self.steps >= self.most
