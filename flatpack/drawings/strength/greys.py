"""Use of capacity as greys: five bands, far enough apart to be told on a copy.

Lightness falls in even steps, so that the scale reads the same in print, in grey and on a screen.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator

from flatpack.drawings.shapes import Closed, Stroke, Text
from flatpack.geometry import Point
from flatpack.geometry.shapes import rectangle
from flatpack.wording import english_strength as words

LIMITS = (0.25, 0.5, 0.75, 1.0)
"""Upper ends of the bands; the last has none."""
TONES = (0.93, 0.74, 0.55, 0.36, 0.08)
UNKNOWN = 1.0
_BOX, _STEP = 8.0, 27.0


def tone(use: float | None) -> float:
    """The grey of a use of capacity, 0 black to 1 white; white where nothing was judged."""
    return UNKNOWN if use is None else TONES[bisect_left(LIMITS, use)]


def scale(x: float, y: float) -> Iterator[Stroke]:
    """The bands side by side, their lower left at (x, y), each with its range beside it."""
    for number, (grey, text) in enumerate(zip(TONES, words.BANDS, strict=True)):
        left = x + number * _STEP
        yield Stroke("visible-edge", Closed(rectangle(_BOX, 5.0, left, y), True, grey))
        at = Point(left + _BOX + 1.2, y + 2.5)
        yield Stroke("text", Text(at, text, 2.5, up="middle"))
