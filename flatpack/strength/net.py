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
        self.rings = [part.outline, *part.openings]
        corners = (p[1 if self.turned else 0] for ring in self.rings for p in _points(ring))
        self.corners = sorted({round(c - self.low, 3) for c in corners})
        self.holes = () if self.turned else left_over(part)
        self.plain = len(part.outline.segments) == 4 and not part.openings

    def least(self, start: float, end: float) -> Net:
        """The least left between two places from the low end, mm."""
        a, b = max(start, END), min(end, self.high - self.low - END)
        if a > b:
            return WHOLE
        net = WHOLE
        if not self.plain:
            at = {a, b, (a + b) / 2.0}
            at |= {c + s for c in self.corners for s in (-STEP, STEP) if a < c + s < b}
            some = [self._at(place) for place in sorted(at)]
            net = Net(*(min(values) for values in zip(*some, strict=True)))
        return net._replace(edge=net.edge * weakest(self.holes, start, end))

    def _at(self, place: float) -> Net:
        y0, y1 = self.wide
        middle, half = (y0 + y1) / 2.0, (y1 - y0) / 2.0
        cuts = sorted(y for ring in self.rings for y in _crossed(ring, self.low + place,
                                                                 self.turned))  # fmt: skip
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


def _points(ring: Outline) -> Iterator[tuple[float, float]]:
    for segment in ring.segments:
        yield segment.start
        if segment.bulge:
            yield segment.middle


def _crossed(ring: Outline, at: float, turned: bool) -> Iterator[float]:
    """Where a line square to the part's longer side meets a ring; arcs as four chords."""
    for segment in ring.segments:
        points = [segment.start, segment.end]
        if segment.bulge:
            points[1:1] = [segment.at(i / 4.0) for i in (1, 2, 3)]
        for one, two in pairwise(points):
            (a, ya), (b, yb) = (one[::-1], two[::-1]) if turned else (one, two)
            if (a <= at) != (b <= at):
                yield ya + (yb - ya) * (at - a) / (b - a)
