"""General arrangement: side, front and plan in first-angle projection, hidden parts removed.

+-------------------+   +-------+
|       main        |   |  end  |     (end: seen from the main view's left)
+-------------------+   +-------+
+-------------------+   parts list
|       plan        |   +-------------+
+-------------------+   | title block |
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from flatpack.drawings.figures import mm
from flatpack.drawings.ga_dimensions import measures
from flatpack.drawings.ga_layout import TITLE, Layout, layout_for, rows_of, views_for
from flatpack.drawings.ga_marks import placed_marks
from flatpack.drawings.ga_measure import room_of
from flatpack.drawings.ga_rake import falls, rakes
from flatpack.drawings.ga_setting_out import unseen
from flatpack.drawings.hiding import painted
from flatpack.drawings.lettering import text_width
from flatpack.drawings.marks import PartGroup, bar_groups, groups
from flatpack.drawings.parting import parted
from flatpack.drawings.projection import Body, View, bodies, faces
from flatpack.drawings.ruled import ruled_table
from flatpack.drawings.shapes import Closed, Drawing, Line, Stroke, Text
from flatpack.drawings.title_block import Heading, sheet_frame
from flatpack.geometry import Outline, Point, Segment
from flatpack.model import Assembly, Bar, Part
from flatpack.wording import english as words

_LIST = (12.0, 46.0, 46.0, 9.0)
"""Columns of the parts list, mm; that of the names is as wide as they want where there is room."""
_NAME, _LETTERS = 1, 2.5
_ROW = 4.4
"""Rows of the parts list: 1.7 times its lettering (ISO 3098-1), mm."""


class _Item(NamedTuple):
    """A row of the parts list, and the keys of the parts that it stands for."""

    mark: str
    name: str
    size: str
    keys: tuple[str, ...]


def general_arrangement(
    assembly: Assembly,
    poses: Mapping[str, Assembly],
    code: str = "",
    found: tuple[PartGroup, ...] | None = None,
) -> tuple[Drawing, ...]:
    """One sheet per pose, all at one scale; without poses one sheet of the piece as it is.

    `found` are the distinct parts, where the caller has them already.
    """
    items = _items(assembly, groups(assembly) if found is None else found)
    shown = dict(poses) or {"": assembly}
    drawn = {title: bodies(pose) for title, pose in shown.items()}
    layout, columns = _layout(shown, drawn, items)
    return tuple(
        _sheet(
            pose,
            drawn[title],
            layout,
            _heading(pose, title, layout, place, code),
            {item.mark: item.keys for item in items},
            tuple(_parts_list(items, layout, columns)),
        )
        for place, (title, pose) in _numbered(shown)
    )


def _layout(
    shown: Mapping[str, Assembly], drawn: Mapping[str, tuple[Body, ...]], items: tuple[_Item, ...]
) -> tuple[Layout, tuple[float, ...]]:
    """One for all poses, and the columns of its list: whole names unless they cost scale."""
    room = room_of(b for some in drawn.values() for b in some)
    bearing = next(iter(shown.values())).bearing
    views = views_for(room, bearing)
    every = (m for title, pose in shown.items() for m in measures(pose, drawn[title], views))
    rows, high = rows_of(every), (len(items) + 1) * _ROW
    plain = layout_for(room, rows, (sum(_LIST), high), bearing)
    wanted = max(text_width(item.name, _LETTERS) for item in items) + 2.0
    columns = (*_LIST[:_NAME], max(wanted, _LIST[_NAME]), *_LIST[_NAME + 1 :])
    wide = layout_for(room, rows, (sum(columns), high), bearing)
    same = (wide.paper, wide.scale, len(wide.table)) == (
        plain.paper, plain.scale, len(plain.table)
    )  # fmt: skip
    return (wide, columns) if same else (plain, _LIST)


def _numbered(shown: Mapping[str, Assembly]) -> Iterator[tuple[str, tuple[str, Assembly]]]:
    for number, pair in enumerate(shown.items(), 1):
        yield f"{number}/{len(shown)}", pair


def _items(assembly: Assembly, found: tuple[PartGroup, ...]) -> tuple[_Item, ...]:
    parts = (_Item(g.mark, g.part.title, _size(g.part), g.keys) for g in found)
    bars = (_Item(g.mark, g.bar.name, _bar_size(g.bar), g.keys) for g in bar_groups(assembly))
    return (*parts, *bars)


def _size(part: Part) -> str:
    return " x ".join(map(mm, (part.length, part.width, part.thickness)))


def _bar_size(bar: Bar) -> str:
    return words.size_of_bar(mm(bar.stock.diameter), mm(bar.length))


def _heading(assembly: Assembly, title: str, layout: Layout, place: str, code: str) -> Heading:
    name = f"{assembly.name}, {title}" if title else assembly.name
    scale = f"1:{mm(1.0 / layout.scale)}, {layout.paper.name}"
    return Heading(name, code, assembly.date, place, words.GENERAL_ARRANGEMENT, scale)


def _sheet(
    assembly: Assembly,
    found: tuple[Body, ...],
    layout: Layout,
    heading: Heading,
    keys_of: Mapping[str, tuple[str, ...]],
    listed: tuple[Stroke, ...],
) -> Drawing:
    apart = tuple(piece for body in found for piece in parted(body, assembly))
    ordered = [(view, painted(apart, view)) for view in layout.views]
    views = [s for view, some in ordered for s in _view(some, view, layout)]
    marks = placed_marks(keys_of, ordered, layout.at)
    dims = (
        Stroke("dimension", layout.dimension(m)) for m in measures(assembly, found, layout.views)
    )
    lines = (*_hidden(assembly, found, layout), *rakes(assembly, layout), *falls(assembly, layout))
    labels = (*marks, *dims, *_titles(layout))
    frame = sheet_frame(heading, layout.paper)
    every = (*views, *lines, *labels, *listed, *frame)
    pose = heading.title.removeprefix(assembly.name).strip(", ").lower()
    stem = "-".join(("general-arrangement", *pose.split()))
    notes = (("piece", assembly.name), ("code", heading.number), ("scale", heading.scale))
    title = f"{words.GENERAL_ARRANGEMENT}: {heading.title}"
    size = (0.0, 0.0, layout.paper.width, layout.paper.height)
    return Drawing(stem, title, size, every, notes, layout.scale)


def _hidden(assembly: Assembly, found: tuple[Body, ...], layout: Layout) -> Iterator[Stroke]:
    """Boards under the slats that plan dimensions run to."""
    plan = layout.views.plan
    for body in unseen(assembly, {b.key: b for b in found}, layout.views):
        for outline in faces(body, plan):
            yield Stroke("hidden-edge", Closed(_reduced(outline, plan, layout)))


def _view(found: tuple[Body, ...], view: View, layout: Layout) -> Iterator[Stroke]:
    """Bodies painted furthest first; what is drawn again nearer by is left out further off."""
    shapes = [_reduced(face, view, layout) for body in found for face in faces(body, view)]
    last = {outline: number for number, outline in enumerate(shapes)}
    for number, outline in enumerate(shapes):
        if last[outline] == number:
            yield Stroke("visible-edge", Closed(outline, filled=True))


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
        at = Point(x0, y1 + TITLE)
        yield Stroke("text", Text(at, words.VIEWS[view.name], 3.5, bold=True))
        if upright:
            yield Stroke("centre-line", Line(Point(x0 - 4.0, y0), Point(x1 + 4.0, y0)))


def _parts_list(
    items: tuple[_Item, ...], layout: Layout, columns: tuple[float, ...]
) -> Iterator[Stroke]:
    """Marks, names, finished sizes and counts, in the blocks that the layout has room for."""
    rows = [(i.mark, i.name, i.size, str(len(i.keys))) for i in items]
    size = math.ceil(len(rows) / max(len(layout.table), 1))
    for number, corner in enumerate(layout.table):
        some = rows[number * size : (number + 1) * size]
        yield from ruled_table(words.PARTS_HEADER, some, columns, corner, _ROW)
