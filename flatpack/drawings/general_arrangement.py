"""General arrangement: side, front and plan in first-angle projection, hidden parts removed.

+-------------------+   +-------+
|       main        |   |  end  |     (end: seen from the main view's left)
+-------------------+   +-------+
+-------------------+   parts list
|       plan        |   +--------------+
+-------------------+   | title block  |
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from flatpack.drawings.boxes import box_of, meet
from flatpack.drawings.figures import mm
from flatpack.drawings.ga_dimensions import measures, room_of
from flatpack.drawings.ga_layout import Layout, layout_for
from flatpack.drawings.ga_marks import placed_marks
from flatpack.drawings.hiding import painted
from flatpack.drawings.marks import PartGroup, bar_groups, groups
from flatpack.drawings.projection import Body, View, bodies, faces
from flatpack.drawings.ruled import ruled_table
from flatpack.drawings.shapes import Closed, Drawing, Line, Stroke, Text
from flatpack.drawings.title_block import BLOCK_HIGH, FRAME, HEIGHT, WIDTH, Heading, sheet_frame
from flatpack.geometry import Outline, Point, Segment
from flatpack.model import Assembly
from flatpack.wording import english as words

_LIST = (14.0, 52.0, 10.0)
"""Columns of the parts list, mm."""


class _Item(NamedTuple):
    """A row of the parts list, and the keys of the parts that it stands for."""

    mark: str
    name: str
    keys: tuple[str, ...]


def general_arrangement(
    assembly: Assembly,
    poses: Mapping[str, Assembly],
    code: str = "",
    found: tuple[PartGroup, ...] | None = None,
) -> tuple[Drawing, ...]:
    """One A3 sheet per pose, all at one scale; without poses one sheet of the piece as it is.

    `found` are the distinct parts, where the caller has them already.
    """
    items = _items(assembly, groups(assembly) if found is None else found)
    shown = dict(poses) or {"": assembly}
    drawn = {title: bodies(pose) for title, pose in shown.items()}
    layout = layout_for(room_of(b for some in drawn.values() for b in some))
    return tuple(
        _sheet(pose, drawn[title], layout, items, _heading(pose, title, layout, place, code))
        for place, (title, pose) in _numbered(shown)
    )


def _numbered(shown: Mapping[str, Assembly]) -> Iterator[tuple[str, tuple[str, Assembly]]]:
    for number, pair in enumerate(shown.items(), 1):
        yield f"{number}/{len(shown)}", pair


def _items(assembly: Assembly, found: tuple[PartGroup, ...]) -> tuple[_Item, ...]:
    parts = (_Item(g.mark, g.part.title, g.keys) for g in found)
    bars = (_Item(g.mark, g.bar.name, g.keys) for g in bar_groups(assembly))
    return (*parts, *bars)


def _heading(assembly: Assembly, title: str, layout: Layout, place: str, code: str) -> Heading:
    name = f"{assembly.name}, {title}" if title else assembly.name
    scale = f"1:{mm(1.0 / layout.scale)}"
    return Heading(name, code, assembly.date, place, words.GENERAL_ARRANGEMENT, scale)


def _sheet(
    assembly: Assembly,
    found: tuple[Body, ...],
    layout: Layout,
    items: tuple[_Item, ...],
    heading: Heading,
) -> Drawing:
    ordered = [(view, painted(found, view)) for view in layout.views]
    views = [s for view, some in ordered for s in _view(some, view, layout)]
    marks = placed_marks({i.mark: i.keys for i in items}, ordered, layout.at)
    dims = [
        Stroke("dimension", layout.dimension(m)) for m in measures(assembly, found, layout.views)
    ]
    labels = (*marks, *dims, *_titles(layout))
    every = (*views, *labels, *_parts_list(items, layout, dims), *sheet_frame(heading))
    pose = heading.title.removeprefix(assembly.name).strip(", ").lower()
    stem = "-".join(("general-arrangement", *pose.split()))
    notes = (("piece", assembly.name), ("code", heading.number), ("scale", heading.scale))
    title = f"{words.GENERAL_ARRANGEMENT}: {heading.title}"
    return Drawing(stem, title, (0.0, 0.0, WIDTH, HEIGHT), every, notes, layout.scale)


def _view(found: tuple[Body, ...], view: View, layout: Layout) -> Iterator[Stroke]:
    """Bodies painted furthest first; what is drawn again nearer by is left out further off."""
    shapes = [_reduced(face, view, layout) for body in found for face in faces(body, view)]
    last = {outline: number for number, outline in enumerate(shapes)}
    for number, outline in enumerate(shapes):
        if last[outline] == number:
            yield Stroke("thin-line", Closed(outline, filled=True))


def _reduced(outline: Outline, view: View, layout: Layout) -> Outline:
    (ox, oy), k = layout.origins[view.name], layout.scale
    points = [Point(ox + s.start.x * k, oy + s.start.y * k) for s in outline.segments]
    ends = (*points[1:], points[0])
    return Outline(tuple(map(Segment, points, ends, (s.bulge for s in outline.segments))))


def _titles(layout: Layout) -> Iterator[Stroke]:
    """Each view's name above it, and the ground under the two upright ones."""
    for view in layout.views:
        x0, y0, x1, y1 = layout.boxes[view.name]
        upright = view is not layout.views.plan
        at = Point(x0, y1 + (15.0 if upright else 4.0))
        yield Stroke("text", Text(at, words.VIEWS[view.name], 3.5, bold=True))
        if upright:
            yield Stroke("centre-line", Line(Point(x0 - 4.0, y0), Point(x1 + 4.0, y0)))


def _parts_list(items: tuple[_Item, ...], layout: Layout, dims: list[Stroke]) -> tuple[Stroke, ...]:
    """Marks, names and counts above the title block, as many rows as there is room for."""
    _, y0, x1, _ = FRAME
    left, bottom = x1 - sum(_LIST) - 3.0, y0 + BLOCK_HIGH + 5.0
    taken = [*layout.boxes.values(), *(box_of(s.shape) for s in dims)]
    size = len(items)
    while size > 1 and any(meet(b, (left, bottom, x1, bottom + (size + 2) * 5.0)) for b in taken):
        size -= 1
    if size <= 1:
        return ()
    rows = [(i.mark, i.name, str(len(i.keys))) for i in items]
    if size < len(rows):
        rows = [*rows[: size - 1], ("", words.MORE_PARTS, "")]
    top = bottom + (len(rows) + 1) * 5.0
    return tuple(ruled_table(words.PARTS_HEADER, rows, _LIST, Point(left, top)))
