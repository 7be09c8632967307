"""A folding piece from its side, open and folded flat, with the measures that make it fold.

|  open view, dimensions  |  table of the mechanism  |
|  folded view            |        title block       |
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.drawings.figures import mm
from flatpack.drawings.ga_measure import Room, room_of
from flatpack.drawings.hiding import painted
from flatpack.drawings.projection import LENGTHWISE, Body, bodies, faces
from flatpack.drawings.ruled import ruled_table
from flatpack.drawings.shapes import (
    Closed,
    Cross,
    Dimension,
    Drawing,
    Line,
    Path,
    Shape,
    Stroke,
    Text,
)
from flatpack.drawings.title_block import A2, A3, Heading, Paper, sheet_frame
from flatpack.geometry import Outline, Point, Segment, Vec
from flatpack.mechanism.scissor import (
    bar_gap,
    hold,
    opening,
    pinches,
    pull,
    reach,
    scissor_of,
)
from flatpack.model import Assembly, Folding
from flatpack.wording import english_folding as words

PERSON = 110.0
"""Mass of the person in the table, kg: scope of EN 1022."""
GRAVITY = 10.0
"""N for each kg, rounded up."""
_TRIED = ((A3, 2.0), (A2, 2.0), (A3, 5.0), (A3, 10.0))
"""Paper and reduction (ISO 5455), first that fits."""
_LEFT, _TOP, _BETWEEN, _BELOW = 46.0, 20.0, 30.0, 16.0
_COLUMNS, _ROW = (104.0, 26.0), 4.6
_SIDE = LENGTHWISE[0]


class _Picture(NamedTuple):
    """A pose on the paper: paper of model place (0, 0) and mm of paper for one of model."""

    found: tuple[Body, ...]
    room: Room
    origin: Point
    scale: float

    def at(self, place: Vec) -> Point:
        """A place of the piece on the paper."""
        seen = _SIDE.at(place)
        return Point(self.origin.x + seen.x * self.scale, self.origin.y + seen.y * self.scale)

    @property
    def box(self) -> Box:
        """Its room on the paper."""
        a, b = self.at(self.room.low), self.at(self.room.high)
        return a.x, a.y, b.x, b.y


def folding_sheet(assembly: Assembly, folded_flat: Assembly, code: str) -> Drawing:
    """The sheet of a piece in its two poses.

    Raises:
        ValueError: the piece doesn't fold.
    """
    f = assembly.folding
    if f is None:
        raise ValueError("this piece doesn't fold")
    paper, reduction, first, second = _placed(bodies(assembly), bodies(folded_flat))
    strokes = (
        *_seen(first, words.VIEWS[words.OPEN]),
        *_seen(second, words.VIEWS[words.FOLDED]),
        *_open_dimensions(f, first),
        *_folded_dimensions(second),
        *_table(f, paper),
        *sheet_frame(_heading(assembly, code, reduction, paper), paper),
    )
    notes = (("piece", assembly.name), ("code", code), ("scale", f"1:{mm(reduction)}"))
    size = (0.0, 0.0, paper.width, paper.height)
    title = f"{words.TITLE}: {assembly.name}"
    return Drawing("open-and-folded", title, size, strokes, notes, 1.0 / reduction)


def _heading(assembly: Assembly, code: str, reduction: float, paper: Paper) -> Heading:
    scale = f"1:{mm(reduction)}, {paper.name}"
    return Heading(assembly.name, code, assembly.date, "1/1", words.TITLE, scale)


def _placed(
    opened: tuple[Body, ...], flat: tuple[Body, ...]
) -> tuple[Paper, float, _Picture, _Picture]:
    """The first paper and reduction that both views fit on, one above the other."""
    rooms = room_of(opened), room_of(flat)
    sizes = [r.high.minus(r.low) for r in rooms]
    for paper, reduction in _TRIED:
        x0, y0, x1, y1 = paper.frame
        high = sum(s.z for s in sizes) / reduction + _TOP + _BETWEEN + _BELOW
        wide = max(s.x for s in sizes) / reduction + _LEFT + sum(_COLUMNS) + 34.0
        if high <= y1 - y0 and wide <= x1 - x0:
            break
    scale = 1.0 / reduction
    top = y1 - _TOP - sizes[0].z * scale
    under = top - _BETWEEN - sizes[1].z * scale
    first, second = (
        _picture(found, room, Point(x0 + _LEFT, base), scale)
        for found, room, base in ((opened, rooms[0], top), (flat, rooms[1], under))
    )
    return paper, reduction, first, second


def _picture(found: tuple[Body, ...], room: Room, corner: Point, scale: float) -> _Picture:
    low = _SIDE.at(room.low)
    origin = Point(corner.x - low.x * scale, corner.y - low.y * scale)
    return _Picture(found, room, origin, scale)


def _seen(picture: _Picture, title: str) -> Iterator[Stroke]:
    """The view with hidden parts covered, its title, and the ground."""
    for body in painted(picture.found, _SIDE):
        for outline in faces(body, _SIDE):
            yield Stroke("visible-edge", Closed(_reduced(outline, picture), filled=True))
    x0, y0, x1, y1 = picture.box
    yield Stroke("text", Text(Point(x0, y1 + 10.0), title, 3.5, bold=True))
    yield Stroke("centre-line", Line(Point(x0 - 4.0, y0), Point(x1 + 4.0, y0)))


def _reduced(outline: Outline, picture: _Picture) -> Outline:
    (ox, oy), k = picture.origin, picture.scale
    points = [Point(ox + s.start.x * k, oy + s.start.y * k) for s in outline.segments]
    ends = (*points[1:], points[0])
    return Outline(tuple(map(Segment, points, ends, (s.bulge for s in outline.segments))))


def _open_dimensions(f: Folding, picture: _Picture) -> Iterator[Stroke]:
    """Heights left and right, feet below, bars above, the legs' own lengths, and their angle."""
    lean = math.radians(f.angle / 2.0)
    c, s = math.cos(lean), math.sin(lean)
    p = f.pivot

    def leg(along: float, way: float) -> Vec:
        return Vec(p.x + way * along * s, 0.0, p.z + along * c)

    x0, y0, x1, y1 = picture.box
    at = picture.at
    rear, front, foot = at(leg(f.long, 1.0)), at(leg(f.short, -1.0)), at(leg(-f.low, 1.0))
    other, pivot = at(leg(-f.low, -1.0)), at(p)
    height = mm(picture.room.high.z - picture.room.low.z)
    yield from _dimension(Point(x0, y0), Point(x0, y1), 14.0, height)
    yield from _dimension(Point(x0, y0), Point(x0, pivot.y), 7.0, mm(p.z))
    yield from _dimension(Point(x1, y0), Point(x1, rear.y), -7.0, mm(p.z + f.long * c))
    yield from _dimension(Point(foot.x, y0), Point(other.x, y0), -8.0, mm(2.0 * f.low * s))
    yield from _dimension(Point(front.x, y1), Point(rear.x, y1), 4.0, mm(f.apart))
    yield from _dimension(pivot, rear, -9.0, mm(f.long))
    yield from _dimension(front, pivot, -9.0, mm(f.short))
    yield from _dimension(foot, pivot, 9.0, mm(f.low))
    for place in (pivot, rear, front):
        yield Stroke("centre-line", Cross(place, 6.0))
    yield from _angle(pivot, f.angle)


def _dimension(a: Point, b: Point, offset: float, text: str) -> Iterator[Stroke]:
    yield Stroke("dimension", Dimension(a, b, offset, text, 2.5))


def _angle(pivot: Point, angle: float) -> Iterator[Stroke]:
    """An arc between the legs' axes above the pivot, with the angle."""
    radius, half = 16.0, math.radians(angle / 2.0)
    dx, dy = radius * math.sin(half), radius * math.cos(half)
    start, end = Point(pivot.x + dx, pivot.y + dy), Point(pivot.x - dx, pivot.y + dy)
    arc = Segment(start, end, math.tan(2.0 * half / 4.0))
    shapes: tuple[Shape, ...] = (Path((arc,)), Line(pivot, start), Line(pivot, end))
    for shape in shapes:
        yield Stroke("thin-line", shape)
    text = Text(Point(pivot.x, pivot.y + radius + 1.5), words.degrees(angle), 2.5, across="middle")
    yield Stroke("text", text)


def _folded_dimensions(picture: _Picture) -> Iterator[Stroke]:
    x0, y0, x1, y1 = picture.box
    size = picture.room.high.minus(picture.room.low)
    yield from _dimension(Point(x0, y0), Point(x0, y1), 7.0, mm(size.z))
    yield from _dimension(Point(x0, y0), Point(x1, y0), -8.0, mm(size.x))


def _table(f: Folding, paper: Paper) -> Iterator[Stroke]:
    """What the mechanism's formulas give, above the title block."""
    rows = list(_rows(f))
    x = paper.frame[2] - sum(_COLUMNS) - 4.0
    corner = Point(x, paper.frame[3] - 12.0)
    yield from ruled_table(words.HEADER, rows, _COLUMNS, corner, _ROW)


def _rows(f: Folding) -> Iterator[tuple[str, str]]:
    s = scissor_of(f)
    held = reach(s.legs)
    stop, more = opening(s.legs, held), opening(s.legs, held + 1.0)
    if stop is not None:
        yield words.ANGLE, words.degrees(stop)
    if stop is not None and more is not None:
        yield words.PER_MM, f"{more - stop:.2f}°"
    load = pull(s.legs, PERSON * GRAVITY, 0.5)
    yield words.PULL.format(mass=PERSON), words.newtons(load.tie)
    yield words.HELD, words.degrees(hold(s, load))
    yield words.PASS, f"{mm(bar_gap(s, 0.0))} mm"
    for one in pinches(s):
        what = words.PINCH.format(first=one.first, second=one.second)
        yield what, words.between(one.start, one.end)
