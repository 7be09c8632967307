"""The piece in greys: the darker a part or joint, the more of its strength is used.

parts:  every face of a part in its grey; dashed edges where some check of it isn't done
joints: the piece in outline, a dot for each joint where its first fastener's head is
scale
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple

from flatpack.drawings.book.balloons import Patch, Target, balloons
from flatpack.drawings.book.picture import Ordered, ordered
from flatpack.drawings.book.sight import cover_view, paintable
from flatpack.drawings.boxes import Box
from flatpack.drawings.lettering import text_width
from flatpack.drawings.plain import shape_box
from flatpack.drawings.projection import View, view_box
from flatpack.drawings.shapes import Circle, Closed, Cross, Dimension, Drawing, Line, Stroke, Text
from flatpack.drawings.strength.greys import scale, tone
from flatpack.drawings.strength.table import percent
from flatpack.geometry import Outline, Point, Segment
from flatpack.geometry.shapes import disc
from flatpack.model import Assembly
from flatpack.strength import Report
from flatpack.wording import english_strength as words

NAME = "use-of-capacity"
WORST = 6
"""Parts and joints that are named in the pictures."""
_WIDE, _HIGH = 150.0, 95.0
_MARGIN, _APART = 6.0, 22.0
_DOT, _FOUND, _SPOT = 1.1, 1.7, 0.7


class _Paper(NamedTuple):
    """How the piece's picture lies on the sheet: its box in model mm, scale, lower left corner.

    `most` is how many parts or joints are named.
    """

    box: Box
    scale: float
    corner: Point
    most: int = 0

    def at(self, place: Point) -> Point:
        """A place of the view on the sheet, to a hundredth of a mm."""
        x = self.corner.x + (place.x - self.box[0]) * self.scale
        y = self.corner.y + (place.y - self.box[1]) * self.scale
        return Point(round(x, 2), round(y, 2))

    @property
    def room(self) -> Box:
        """What the piece takes up on the sheet."""
        (x, y), (x0, y0, x1, y1) = self.corner, self.box
        return x, y, x + (x1 - x0) * self.scale, y + (y1 - y0) * self.scale


def use_picture(
    assembly: Assembly, report: Report, code: str, *, named: bool = True, small: float = 1.0
) -> Drawing:
    """Both pictures and their scale on one sheet, mm.

    `named` names the worst parts and joints beside them; `small` is a share of the usual size.
    """
    view = cover_view(assembly)
    seen = ordered(paintable(assembly), view)
    box = _box(seen, view)
    share = small * min(_WIDE / (box[2] - box[0]), _HIGH / (box[3] - box[1]))
    most = WORST if named else 0
    paper = _Paper(box, share, Point(0.0, 0.0), most)
    joints, low, top = _joints(assembly, report, seen, view, paper)
    parts, _, _ = _parts(report, seen, _Paper(box, share, Point(0.0, top + _APART), most))
    x0, _, x1, y1 = reach_of((*parts, *joints))
    floor = low - 20.0
    legend = tuple(_legend(x0, floor))
    right = max(x1, reach_of(legend)[2])
    bounds = (x0 - _MARGIN, floor - _MARGIN, right + _MARGIN, y1 + _MARGIN)
    notes = (("piece", report.name), ("code", code), ("edition", report.edition))
    strokes = (*parts, *joints, *legend)
    return Drawing(NAME, f"{words.USE_TITLE}: {report.name}", bounds, strokes, notes, share)


def reach_of(strokes: Iterable[Stroke]) -> Box:
    """The box round all strokes."""
    boxes = [shape_box(s.shape) for s in strokes if not isinstance(s.shape, Dimension | Cross)]
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return min(x0), min(y0), max(x1), max(y1)


def _box(seen: Iterable[Ordered], view: View) -> Box:
    x0, y0, x1, y1 = zip(*(view_box(body, view) for body, _ in seen), strict=True)
    return min(x0), min(y0), max(x1), max(y1)


_Made = tuple[tuple[Stroke, ...], float, float]
"""Strokes, and the lowest and highest y that they take."""


def _parts(report: Report, seen: tuple[Ordered, ...], paper: _Paper) -> _Made:
    uses = {key: report.use(key) for key in report.parts}
    dashed = frozenset(report.open_parts)
    patches = tuple(_patches(seen, paper, uses, dashed))
    faces = (Stroke(p.layer, Closed(p.outline, True, p.tone)) for p in patches)
    labels, low, top = _labels(uses, patches, paper)
    return (*faces, *labels, _title(words.PARTS_TITLE, top)), low, top + 10.0


def _title(text: str, top: float) -> Stroke:
    return Stroke("text", Text(Point(0.0, top + 6.0), text, 3.5, bold=True))


def _patches(
    seen: tuple[Ordered, ...],
    paper: _Paper,
    uses: Mapping[str, float | None],
    dashed: frozenset[str] = frozenset(),
) -> Iterator[Patch]:
    for body, faces in seen:
        layer = "hidden-edge" if body.key in dashed else "visible-edge"
        for outline in faces:
            yield Patch(body.key, layer, tone(uses.get(body.key)), _reduced(outline, paper))


def _reduced(outline: Outline, paper: _Paper) -> Outline:
    points = [paper.at(p) for p in outline.points]
    ends = (*points[1:], points[0])
    bulges = (s.bulge for s in outline.segments)
    return Outline(tuple(map(Segment, points, ends, bulges)))


def _labels(
    uses: Mapping[str, float | None], patches: tuple[Patch, ...], paper: _Paper,
    other: Mapping[str, float] = MappingProxyType({}),
) -> _Made:  # fmt: skip
    """The worst, those of one use under one label; a white spot ends each leader.

    `other` are uses by another method, told as such where they are over and the code tells less.
    """
    here = {p.key for p in patches}
    rows = [(max(use or 0.0, other.get(key, 0.0)), key) for key, use in uses.items() if key in here]
    groups: dict[tuple[str, bool], list[str]] = {}
    for use, key in sorted(rows, key=lambda row: (-row[0], row[1])):
        if use:
            by_other = use > (uses[key] or 0.0)
            groups.setdefault((percent(use), by_other), []).append(key)
    wanted = (
        Target(words.label(keys[0], len(keys) - 1, use, by_other), tuple(keys))
        for (use, by_other), keys in list(groups.items())[: paper.most]
    )
    labels, low, top = balloons(wanted, patches, paper.room)
    spots = (s.shape.centre for s in labels if isinstance(s.shape, Circle))
    white = (Stroke("thin-line", Closed(disc(_SPOT, *at), True)) for at in spots)
    return (*labels, *white), low, top


def _joints(
    assembly: Assembly, report: Report, seen: tuple[Ordered, ...], view: View, paper: _Paper
) -> _Made:
    """The piece white, dots over it; the worst are named."""
    places = _places(assembly, view, paper)
    uses = {key: report.use(key) for key in report.joints}
    other: dict[str, float] = {}
    for c in report.checks:
        if c.kind == "joint" and c.second is not None and c.second.use > 1.0:
            other[c.subject] = max(other.get(c.subject, 0.0), c.second.use)
    open_ = frozenset(report.open_joints)
    faces = [Stroke("thin-line", Closed(p.outline, True)) for p in _patches(seen, paper, {})]
    dots = [
        stroke
        for key, at in sorted(places.items(), key=lambda row: (uses.get(row[0]) or 0.0, row[0]))
        for stroke in _dot(at, uses.get(key), key in open_, key in other)
    ]
    spots = tuple(Patch(key, "outline", 0.0, disc(_FOUND, *at)) for key, at in places.items())
    labels, low, top = _labels(uses, spots, paper, other)
    return (*faces, *dots, *labels, _title(words.JOINTS_TITLE, top)), low, top + 10.0


def _places(assembly: Assembly, view: View, paper: _Paper) -> dict[str, Point]:
    """Where each joint's first fastener has its head; glued joints have none."""
    found: dict[str, Point] = {}
    for fastener in assembly.fasteners:
        if fastener.joint:
            found.setdefault(fastener.joint, paper.at(view.at(fastener.start)))
    return found


def _dot(at: Point, use: float | None, open_: bool, other: bool) -> Iterator[Stroke]:
    """Filled by its use; a ring about it where something isn't judged, thick where that is bad."""
    if use is not None:
        yield Stroke("visible-edge", Closed(disc(_DOT, *at), True, tone(use)))
    if open_:
        yield Stroke("datum-edge" if other else "thin-line", Circle(at, _FOUND))


def _legend(x: float, y: float) -> Iterator[Stroke]:
    yield from scale(x, y + 8.0)
    line = Line(Point(x, y + 3.0), Point(x + 8.0, y + 3.0))
    yield Stroke("hidden-edge", line)
    at = x + 9.2
    yield Stroke("text", Text(Point(at, y + 3.0), words.PART_OPEN, 2.5, up="middle"))
    at += text_width(words.PART_OPEN, 2.5) + 4.0
    for layer, text in (("thin-line", words.JOINT_OPEN), ("datum-edge", words.JOINT_OTHER)):
        yield Stroke(layer, Circle(Point(at, y + 3.0), _FOUND))
        yield Stroke("text", Text(Point(at + 3.0, y + 3.0), text, 2.5, up="middle"))
        at += text_width(text, 2.5) + 8.0
