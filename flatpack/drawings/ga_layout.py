"""Where the three views stand on the sheet, and at what reduction.

|<- LEFT ->|   main   |<- BETWEEN ->|  end  |
|          |   plan   |
"""

from __future__ import annotations

from typing import NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.drawings.ga_dimensions import Measure, Room
from flatpack.drawings.projection import CROSSWISE, LENGTHWISE, View, Views
from flatpack.drawings.shapes import Dimension
from flatpack.drawings.title_block import BLOCK_HIGH, BLOCK_WIDE, FRAME
from flatpack.geometry import Point, Vec

SCALES = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
"""Reductions of ISO 5455."""
_LEFT, _BETWEEN, _RIGHT, _TOP, _MIDDLE, _BOTTOM = 26.0, 32.0, 16.0, 22.0, 28.0, 14.0
"""Room for dimensions and titles, mm."""
_ROW = 7.5
"""From one dimension line to the next, mm."""


class Layout(NamedTuple):
    """The views, the reduction, and each view's place: paper of its origin, and its box, mm."""

    views: Views
    scale: float
    origins: dict[str, Point]
    boxes: dict[str, Box]

    def at(self, view: View, place: Point) -> Point:
        """A place of a view, model mm, on the paper."""
        corner = self.origins[view.name]
        return Point(corner.x + place.x * self.scale, corner.y + place.y * self.scale)

    def on_paper(self, view: View, place: Vec) -> Point:
        """A place of the piece on the paper."""
        return self.at(view, view.at(place))

    def dimension(self, measure: Measure) -> Dimension:
        """The dimension on the paper, beside its view's box."""
        a, b = (self.on_paper(measure.view, v) for v in (measure.a, measure.b))
        x0, y0, x1, _ = self.boxes[measure.view.name]
        away = 1.5 + _ROW * measure.row
        if measure.where == "along":
            a, b = sorted((a, b))
            return Dimension(a, b, away, measure.text, 2.5)
        if measure.where == "below":
            low, high = sorted((a.x, b.x))
            return Dimension(Point(low, y0), Point(high, y0), -away, measure.text, 2.5)
        x, away = (x0, away) if measure.where == "left" else (x1, -away)
        low, high = sorted((a.y, b.y))
        return Dimension(Point(x, low), Point(x, high), away, measure.text, 2.5)


def layout_for(room: Room) -> Layout:
    """The largest scale at which the views of a piece that fills `room` fit with dimensions."""
    size = room.high.minus(room.low)
    views = LENGTHWISE if size.x >= size.y else CROSSWISE
    scale = 1.0 / next((s for s in SCALES if _fits(size, s)), SCALES[-1])
    wide, deep = max(size.x, size.y) * scale, min(size.x, size.y) * scale
    x0, _, _, y1 = FRAME
    left, base = x0 + _LEFT, y1 - _TOP - size.z * scale
    corners = (
        Point(left, base),
        Point(left + wide + _BETWEEN, base),
        Point(left, base - _MIDDLE - deep),
    )
    origins, boxes = {}, {}
    for view, corner in zip(views, corners, strict=True):
        u0, v0, u1, v1 = _extent(view, room)
        origins[view.name] = Point(corner.x - u0 * scale, corner.y - v0 * scale)
        boxes[view.name] = (*corner, corner.x + (u1 - u0) * scale, corner.y + (v1 - v0) * scale)
    return Layout(views, scale, origins, boxes)


def _extent(view: View, room: Room) -> Box:
    a, b = view.at(room.low), view.at(room.high)
    return min(a.x, b.x), min(a.y, b.y), max(a.x, b.x), max(a.y, b.y)


def _fits(size: Vec, scale: float) -> bool:
    """The plan may stand beside the title block if it is short enough, else it must clear it."""
    x0, y0, x1, y1 = FRAME
    wide, deep = max(size.x, size.y) / scale, min(size.x, size.y) / scale
    beside = x0 + _LEFT + wide + 12.0 <= x1 - BLOCK_WIDE
    high = y1 - y0 - (0.0 if beside else BLOCK_HIGH)
    return (
        _LEFT + wide + _BETWEEN + deep + _RIGHT <= x1 - x0
        and _TOP + size.z / scale + _MIDDLE + deep + _BOTTOM <= high
    )
