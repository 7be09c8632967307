"""A bar with the time left, on a terminal only."""

from __future__ import annotations

import time

from flatpack.batch.variants import Variants
from flatpack.command_line.terminal import Terminal

_WIDTH = 24


class Bar:
    """How far a batch has come; the time left is reckoned from those that had to be made."""

    def __init__(self, variants: Variants, terminal: Terminal) -> None:
        """Count the variants, where somebody looks on."""
        self.done = 0
        self._terminal = terminal
        self._total = variants.count() if terminal.watched else 0
        self._begun = time.monotonic()
        self._shown = 0.0

    def show(self, done: int, kept: int) -> None:
        """Draw it, at most ten times a second."""
        self.done = done
        now = time.monotonic()
        if self._total and (now - self._shown >= 0.1 or done == self._total):
            self._shown = now
            left = _left(done, kept, self._total, now - self._begun)
            self._terminal.progress(f"{_bar(done, self._total)} {done} of {self._total}{left}")


def _bar(done: int, total: int) -> str:
    full = _WIDTH * min(done, total) // total
    return f"[{'#' * full}{'.' * (_WIDTH - full)}]"


def _left(done: int, kept: int, total: int, took: float) -> str:
    made = done - kept
    if made < 2 or done >= total:
        return ""
    return f", {_told(took / made * (total - done))} left"


def _told(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    if hours:
        return f"about {hours} h {minutes:02d} min"
    return f"about {minutes} min {rest:02d} s" if minutes else f"about {rest} s"
