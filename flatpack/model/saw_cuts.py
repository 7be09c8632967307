"""Cuts of a part that aren't square: what the saw is set to and where they are.

long point
   *------------------+       table: the line's turn from square across
  /                   |       blade: its tilt through the thickness, if any
 *--------------------+
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Literal, NamedTuple

from flatpack.geometry import Point, Vec
from flatpack.geometry.compound import SawSetting, setting_of
from flatpack.model.part import Face, Part
from flatpack.model.passage import is_shaped

Where = Literal["start", "end", "low", "high"]
_SQUARE = 1e-6
"""A side this near to a part's own axis, as a sine, is square."""


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
    """Bevels, and mitres of a part of straight lines; rounded outlines are shaped, not sawn."""
    bevels: list[Any] = [f for f in part.features if f.operation == "bevel"]
    found = [SawCut(b.start, b.end, b.setting, b.face) for b in bevels]
    if is_shaped(part):
        taken = {(b.start, b.end) for b in bevels}
        found += [cut for cut in _mitres(part) if (cut.start, cut.end) not in taken]
    return tuple(sorted(found, key=lambda cut: ("start", "end", "low", "high").index(cut.where)))


def _mitres(part: Part) -> Iterator[SawCut]:
    for segment in part.outline:
        x, y = segment.direction(0.0)
        if min(abs(x), abs(y)) > _SQUARE:
            yield SawCut(segment.start, segment.end, setting_of(Vec(y, -x, 0.0)), "")
