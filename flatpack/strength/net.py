"""What is left of a part's section between two places: its outline, openings and holes.

____________      depth left at a place: where a line across meets the outline
|     __    |     I = sum of t (y1^3 - y0^3)/3 about the middle of the whole width
|____|  |___|
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from flatpack.geometry import Outline
from flatpack.model import Part
from flatpack.strength.holes import left_over, weakest

END = 10.0
"""Stretch at a part's ends, mm, where rounding and the last holes don't count (moments end)."""
STEP = 0.5
"""Beside a corner, mm, where the depth is taken."""


class Net(NamedTuple):
    """Shares left of a whole section: of its depth, its modulus flat and its modulus on edge."""

    depth: float
    flat: float
    edge: float


WHOLE = Net(1.0, 1.0, 1.0)


class Sections:
    """The sections left of a part, by places along its longer side."""

    def __init__(self, part: Part) -> None:
        """Look at the part's outline once."""
        x0, y0, x1, y1 = part.outline.bounds
        self.turned = part.length < part.width
        self.low, self.high = (y0, y1) if self.turned else (x0, x1)
        self.wide = (x0, x1) if self.turned else (y0, y1)
        self.holes = () if self.turned else left_over(part)
        self.plain = len(part.outline.segments) == 4 and not part.openings
        rings = () if self.plain else (part.outline, *part.openings)
        self.chords = [c for ring in rings for c in _chords(ring, self.turned)]
        self.corners = sorted({round(c[0] - self.low, 3) for c in self.chords})
        self._known: dict[float, Net] = {}

    def least(self, start: float, end: float) -> Net:
        """The least left between two places from the low end, mm."""
        a, b = max(start, END), min(end, self.high - self.low - END)
        if a > b:
            return WHOLE
        net = WHOLE
        if not self.plain:
            at = {a, b, (a + b) / 2.0}
            at |= {c + s for c in self.corners for s in (-STEP, STEP) if a < c + s < b}
            some = [self.at(place) for place in sorted(at)]
            net = Net(*(min(values) for values in zip(*some, strict=True)))
        return net._replace(edge=net.edge * weakest(self.holes, start, end))

    def at(self, place: float) -> Net:
        """What is left at one place."""
        found = self._known.get(place)
        if found is None:
            found = self._known[place] = self._at(place)
        return found

    def _at(self, place: float) -> Net:
        y0, y1 = self.wide
        middle, half, x = (y0 + y1) / 2.0, (y1 - y0) / 2.0, self.low + place
        cuts = sorted(
            ya + (yb - ya) * (x - a) / (b - a)
            for a, ya, b, yb in self.chords
            if (a <= x) != (b <= x)
        )
        spans = [(a - middle, b - middle) for a, b in zip(cuts[::2], cuts[1::2], strict=False)]
        if not spans:
            return Net(0.01, 0.01, 0.01)
        depth = sum(b - a for a, b in spans)
        if len(spans) == 1:
            edge = (depth / (2.0 * half)) ** 2
        else:
            second = sum(b**3 - a**3 for a, b in spans) / 3.0
            edge = second / (2.0 * half**3 / 3.0)
        share = depth / (2.0 * half)
        return Net(max(share, 0.01), max(share, 0.01), max(edge, 0.01))


def _chords(ring: Outline, turned: bool) -> Iterator[tuple[float, float, float, float]]:
    """A ring's lines (along, across) from and to; an arc is four chords."""
    for segment in ring.segments:
        points = [segment.start, segment.end]
        if segment.bulge:
            points[1:1] = [segment.at(i / 4.0) for i in (1, 2, 3)]
        for one, two in pairwise(points):
            yield (one.y, one.x, two.y, two.x) if turned else (*one, *two)
