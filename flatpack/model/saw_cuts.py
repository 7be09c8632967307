"""Cuts of a part that aren't square: what the saw is set to and where they are.

long point
   *------------------+       table: the line's turn from square across
  /                   |       blade: its tilt through the thickness, if any
 *--------------------+
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any, Literal, NamedTuple

from flatpack.geometry import Point, Vec
from flatpack.geometry.compound import SawSetting, setting_of
from flatpack.model.part import Face, Part
from flatpack.model.passage import is_shaped

Where = Literal["start", "end", "low", "high"]
_LEAST = 25.0
"""A shorter straight piece of a curved outline is shaped with the rest, mm."""
_ROUNDING = 20.0
"""Arcs up to this radius are corners rounded after sawing, mm."""
_SQUARE = 1e-6
"""A side this near to a part's own axis, as a sine, is square."""
_NEAR = 1e-6
"""Places this near to a line lie on it, mm."""


class SawCut(NamedTuple):
    """One cut; `long` is the face that stays longer, "" for a cut square to the faces."""

    start: Point
    end: Point
    setting: SawSetting
    long: Face | Literal[""]

    @property
    def middle(self) -> Point:
        """Middle of its line."""
        return Point((self.start.x + self.end.x) / 2.0, (self.start.y + self.end.y) / 2.0)

    @property
    def where(self) -> Where:
        """The end or edge that it makes."""
        dx, dy = self.end.x - self.start.x, self.end.y - self.start.y
        if abs(dy) >= abs(dx):
            return "end" if dy > 0.0 else "start"
        return "low" if dx > 0.0 else "high"

    @property
    def long_point(self) -> Where | Literal[""]:
        """The edge or end at which its line reaches further out; "" where it is square across."""
        dx, dy = self.end.x - self.start.x, self.end.y - self.start.y
        if min(abs(dx), abs(dy)) < _SQUARE * (abs(dx) + abs(dy)):
            return ""
        if abs(dy) >= abs(dx):
            return "high" if dx > 0.0 else "low"
        return "start" if dy > 0.0 else "end"


def saw_cuts(part: Part) -> tuple[SawCut, ...]:
    """Bevels and mitres.

    Of a part with rounded ends or corners the straight cuts count, a level foot for one; other
    curved outlines are shaped, not sawn.
    """
    bevels: list[Any] = [f for f in part.features if f.operation == "bevel"]
    found = [SawCut(b.start, b.end, b.setting, b.face) for b in bevels]
    taken = {(b.start, b.end) for b in bevels}
    whole = is_shaped(part)
    found += [
        cut
        for cut in _mitres(part)
        if (cut.start, cut.end) not in taken and (whole or _sawn_off(part, cut))
    ]
    return tuple(sorted(found, key=lambda cut: ("start", "end", "low", "high").index(cut.where)))


def _mitres(part: Part) -> Iterator[SawCut]:
    for segment in part.outline:
        if segment.bulge:
            continue
        x, y = segment.direction(0.0)
        if min(abs(x), abs(y)) > _SQUARE:
            yield SawCut(segment.start, segment.end, setting_of(Vec(y, -x, 0.0)), "")


def _sawn_off(part: Part, cut: SawCut) -> bool:
    """Whether a part without hollows is sawn there from corner to corner."""
    if math.dist(cut.start, cut.end) < _LEAST or not _without_hollows(part):
        return False
    segments = part.outline.segments
    number = next(i for i, s in enumerate(segments) if (s.start, s.end) == (cut.start, cut.end))
    beside = segments[number - 1], segments[(number + 1) % len(segments)]
    return all(s.bulge == 0.0 or s.radius <= _ROUNDING for s in beside)


def _without_hollows(part: Part) -> bool:
    """Whether arcs bulge outwards and all of the part lies to one side of each straight piece."""
    points = part.outline.points
    for (x0, y0), (x1, y1), bulge in part.outline:
        run = math.dist((x0, y0), (x1, y1))
        x, y = (x1 - x0) / run, (y1 - y0) / run
        if bulge < 0.0:
            return False
        if not bulge and any(x * (p.y - y0) - y * (p.x - x0) < -_NEAR for p in points):
            return False
    return True
