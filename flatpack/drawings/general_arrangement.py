"""General arrangement: side, front and plan in first-angle projection, hidden parts removed.

+-------------------+   +-------+
|       side        |   | front |     (front: seen from the side view's left)
+-------------------+   +-------+
+-------------------+   parts list
|       plan        |   +--------------+
+-------------------+   | title block  |
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from flatpack.drawings.figures import mm
from flatpack.drawings.ga_dimensions import Measure, Room, measures, room_of
from flatpack.drawings.ga_marks import placed_marks
from flatpack.drawings.hiding import painted
from flatpack.drawings.marks import bar_groups, groups
from flatpack.drawings.projection import FRONT, PLAN, SIDE, Body, View, bodies, faces
from flatpack.drawings.ruled import ruled_table
from flatpack.drawings.shapes import Closed, Dimension, Drawing, Line, Stroke, Text
from flatpack.drawings.title_block import (
    BLOCK_HIGH,
    FRAME,
    HEIGHT,
    WIDTH,
    Heading,
    sheet_frame,
)
from flatpack.geometry import Outline, Point, Segment
from flatpack.model import Assembly
from flatpack.wording import english as words

SCALES = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
"""Reductions of ISO 5455."""
_GAP = 28.0
"""Room between views, and between a view and the frame, for dimensions, mm."""
_LIST = (14.0, 56.0, 12.0)


class _Layout(NamedTuple):
    """Reduction, and where the piece's least corner of each view comes to lie, mm."""

    scale: float
    origins: tuple[tuple[View, Point], ...]
    low: Room

    def at(self, view: View, place: Point) -> Point:
        """A place of a view, model mm, on the paper."""
        corner = dict(self.origins)[view]
        return Point(corner.x + place.x * self.scale, corner.y + place.y * self.scale)


def general_arrangement(
    assembly: Assembly, poses: Mapping[str, Assembly], code: str = ""
) -> tuple[Drawing, ...]:
    """One A3 sheet per pose, all at one scale; without poses one sheet of the piece as it is."""
    shown = dict(poses) or {"": assembly}
    found = {title: bodies(pose) for title, pose in shown.items()}
    layout = _layout(room_of(b for some in found.values() for b in some))
    total = len(shown)
    return tuple(
        _sheet(pose, title, found[title], layout, (number, total), code)
        for number, (title, pose) in enumerate(shown.items(), 1)
    )


def _layout(room: Room) -> _Layout:
    """The largest scale at which three views with their dimensions fit the sheet."""
    long, wide, high = room.high.minus(room.low)
    x0, y0, x1, y1 = FRAME
    free_x, free_y = x1 - x0 - 3.0 * _GAP, y1 - y0 - 3.0 * _GAP - BLOCK_HIGH
    fitting = (s for s in SCALES if (long + wide) / s <= free_x and (high + wide) / s <= free_y)
    scale = 1.0 / next(fitting, SCALES[-1])
    left, base = x0 + _GAP, y1 - _GAP - high * scale + 6.0
    lows = (
        (SIDE, Point(left, base), Point(room.low.x, room.low.z)),
        (FRONT, Point(left + long * scale + _GAP, base), Point(-room.high.y, room.low.z)),
        (PLAN, Point(left, base - _GAP - wide * scale), Point(room.low.x, room.low.y)),
    )
    origins = tuple(
        (view, Point(at.x - low.x * scale, at.y - low.y * scale)) for view, at, low in lows
    )
    return _Layout(scale, origins, room)


def _sheet(
    assembly: Assembly,
    title: str,
    found: tuple[Body, ...],
    layout: _Layout,
    sheet: tuple[int, int],
    code: str,
) -> Drawing:
    ordered = [(view, painted(found, view)) for view, _ in layout.origins]
    views = [s for view, some in ordered for s in _view(some, view, layout)]
    marks = placed_marks(assembly, ordered, layout.at)
    dims = [s for m in measures(assembly, found) for s in _dimension(m, layout)]
    name = f"{assembly.name}, {title}" if title else assembly.name
    heading = Heading(
        name, code, assembly.date, f"{sheet[0]}/{sheet[1]}", words.GENERAL_ARRANGEMENT,
        f"1:{mm(1.0 / layout.scale)}",
    )  # fmt: skip
    every = (
        *views,
        *marks,
        *dims,
        *_titles(layout),
        *_parts_list(assembly, layout),
        *sheet_frame(heading),
    )
    stem = "-".join(("general-arrangement", *title.lower().split()))
    notes = (("piece", assembly.name), ("code", code), ("scale", heading.scale))
    return Drawing(stem, f"{words.GENERAL_ARRANGEMENT}: {name}", (0.0, 0.0, WIDTH, HEIGHT), every,
                   notes, layout.scale)  # fmt: skip


def _view(found: tuple[Body, ...], view: View, layout: _Layout) -> Iterator[Stroke]:
    """Bodies painted furthest first; what is drawn again nearer by is left out further off."""
    shapes = [_reduced(face, view, layout) for body in found for face in faces(body, view)]
    last = {outline: number for number, outline in enumerate(shapes)}
    for number, outline in enumerate(shapes):
        if last[outline] == number:
            yield Stroke("thin-line", Closed(outline, filled=True))


def _reduced(outline: Outline, view: View, layout: _Layout) -> Outline:
    places = {p: layout.at(view, p) for p in outline.points}
    return Outline(tuple(Segment(places[s.start], places[s.end], s.bulge) for s in outline))


def _dimension(measure: Measure, layout: _Layout) -> Iterator[Stroke]:
    a = layout.at(measure.view, measure.view.at(measure.a))
    b = layout.at(measure.view, measure.view.at(measure.b))
    yield Stroke("dimension", Dimension(a, b, measure.offset, measure.text, 2.5))


def _titles(layout: _Layout) -> Iterator[Stroke]:
    names = {SIDE: words.SIDE, FRONT: words.FRONT, PLAN: words.PLAN}
    room = layout.low
    for view, _ in layout.origins:
        corners = (view.at(room.low), view.at(room.high))
        at = layout.at(view, Point(min(c.x for c in corners), max(c.y for c in corners)))
        above = 7.0 if view is PLAN else 16.0
        yield Stroke("text", Text(Point(at.x, at.y + above), names[view], 3.5, bold=True))
    ground = room.low.z
    for view in (SIDE, FRONT):
        ends = sorted((view.at(room.low).x, view.at(room.high).x))
        a, b = (layout.at(view, Point(x, ground)) for x in ends)
        yield Stroke("centre-line", Line(Point(a.x - 4.0, a.y), Point(b.x + 4.0, b.y)))


def _parts_list(assembly: Assembly, layout: _Layout) -> Iterator[Stroke]:
    """Marks, names and counts above the title block, where there is room for them."""
    rows = [(g.mark, g.part.title, str(g.count)) for g in groups(assembly)]
    rows += [(g.mark, g.bar.name, str(g.count)) for g in bar_groups(assembly)]
    _, y0, x1, _ = FRAME
    front = layout.at(FRONT, FRONT.at(layout.low.low))
    left, bottom = x1 - sum(_LIST) - 4.0, y0 + BLOCK_HIGH + 6.0
    plan_right = layout.at(PLAN, PLAN.at(layout.low.high)).x
    size = int((front.y - _GAP - bottom) / 5.0) - 1
    if size < 1 or left < plan_right + 4.0:
        return
    if len(rows) > size:
        rows = [*rows[: size - 1], ("", words.MORE_PARTS, "")]
    top = bottom + (len(rows) + 1) * 5.0
    yield from ruled_table(words.PARTS_HEADER, rows, _LIST, Point(left, top))
