"""Which stretches of a part need paper: rounded ends, notches, openings and groups of holes.

      window 1                                window 2
    +-----------+ - - - - - - - - - - - - +-------------+
    | o   o     |     no paper here       |    o  o      )
    +-----------+ - - - - - - - - - - - - +-------------+

Pocket holes along a long edge stand on the story stick; those at an end get a window.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from flatpack.drawings.boxes import Box, box_of, grown, meet, union
from flatpack.drawings.faces import datum_on_left, seen_on, worked_faces
from flatpack.drawings.holes import Spot, on_face, spots
from flatpack.drawings.marks import PartGroup
from flatpack.drawings.templates.window_spots import along_edge, on_paper, spot_box
from flatpack.drawings.turned import Seen
from flatpack.geometry import Outline, Point, Segment
from flatpack.model import Face, Part

_PAD = 8.0
"""Paper kept about what is marked, mm."""
_JOINED = 35.0
"""Marks nearer than this share a window: paper between them costs no more than another window."""
_TO_END = 30.0
"""A window this near to an end or edge reaches over it, mm."""
_CLEAR = 5.5
"""A steel-tape line nearer to a mark than this moves to half a centimetre, mm."""
_NARROW = 160.0
"""Parts up to this width are shown over their whole width, mm."""


class Window(NamedTuple):
    """A stretch of one face of a part; `box` is in the part as seen, lower left at 0, 0.

    `left` says that the datum end is at the left; `spots` are what is marked in it, `pockets`
    the pocket holes in it whose places the story stick has.
    """

    group: PartGroup
    face: Face
    first: bool
    left: bool
    box: Box
    spots: tuple[Spot, ...]
    pockets: tuple[Spot, ...] = ()
    number: int = 1
    of: int = 1

    @property
    def part(self) -> Part:
        """The part of which it shows a stretch."""
        return self.group.part

    @property
    def seen(self) -> Seen:
        """How the part's own axes come to the window's."""
        return seen_on(self.part, self.face)

    def from_datum(self, x: float) -> float:
        """Distance from the datum end of a place across the window, mm."""
        return x if self.left else self.part.length - x


def windows(group: PartGroup, widest: float) -> tuple[Window, ...]:
    """Windows of a part, from its datum end; none wider than `widest` mm if that can be helped."""
    found: list[Window] = []
    numbered = spots(group.part)
    for order, face in enumerate(worked_faces(group.part)):
        found += _on(group, face, order == 0, on_face(numbered, face, order == 0), widest)
    return tuple(w._replace(number=i, of=len(found)) for i, w in enumerate(found, 1))


def _on(
    group: PartGroup, face: Face, first: bool, here: tuple[Spot, ...], widest: float
) -> Iterator[Window]:
    part = group.part
    seen, left = seen_on(part, face), datum_on_left(part, face)
    papered = (on_paper(spot) for spot in here)
    marked = [(s, spot_box(s, seen)) for s in papered if s]
    edge = [s for s in here if all(map(along_edge, s.features))]
    pockets = [(s, spot_box(s, seen)) for s in edge]
    boxes = [box for _, box in marked]
    if first:
        boxes += _shaped(seen.outline(part.outline), part)
        boxes += _sawn(part, seen)
        boxes += [seen.outline(opening).bounds for opening in part.openings]
    stretches = _stretches(boxes, part, widest)
    if stretches:
        wider = [_round(box, [own for _, own in pockets]) for box in stretches]
        stretches = _apart([_even(box, part, left) for box in wider])
    for box in stretches if left else reversed(stretches):
        inside, beside = (tuple(s for s, own in every if box[0] <= own[0] and own[2] <= box[2])
                          for every in (marked, pockets))  # fmt: skip
        yield Window(group, face, first, left, box, inside, beside)


def _round(box: Box, pockets: Iterable[Box]) -> Box:
    """The box, wide enough for every pocket that it would cut through."""
    cut = [own for own in pockets if meet(own, box)]
    x0, _, x1, _ = union((box, *(grown(own, 2.0) for own in cut)))
    return x0, box[1], x1, box[3]


def _even(box: Box, part: Part, left: bool) -> Box:
    """The box out to whole mm from the datum end, alike on both hands."""
    long = part.length
    low, high = (box[0], box[2]) if left else (long - box[2], long - box[0])
    low = max(math.floor(low + 1e-6) + 0.0, 0.0)
    high = min(math.ceil(high - 1e-6) + 0.0, long)
    x0, x1 = (low, high) if left else (long - high, long - low)
    return x0, box[1], x1, box[3]


def _sawn(part: Part, seen: Seen) -> Iterator[Box]:
    """Boxes of bevels across the part; one along it would paper the whole length."""
    for feature in part.features:
        if feature.operation == "bevel":
            box = union(box_of(seen.shape(shape)) for _, shape in feature.shapes())
            if box[3] - box[1] > box[2] - box[0]:
                yield box


def _shaped(outline: Outline, part: Part) -> Iterator[Box]:
    """Boxes of what isn't a plain side of the rectangle: arcs, and both ends of slants."""
    for segment in outline.segments:
        if segment.bulge:
            yield segment.bounds()
        elif not _plain_side(segment, part):
            ends = (segment.start, segment.end)
            if segment.chord <= _JOINED:
                yield union((*p, *p) for p in ends)
            else:
                yield from ((*p, *p) for p in ends)


def _plain_side(segment: Segment, part: Part) -> bool:
    (x0, y0), (x1, y1) = segment.start, segment.end
    ends, edges = (0.0, part.length), (0.0, part.width)
    return _on_one(x0, x1, ends) or _on_one(y0, y1, edges)


def _on_one(a: float, b: float, sides: tuple[float, float]) -> bool:
    return any(math.isclose(a, s, abs_tol=1e-6) and math.isclose(b, s, abs_tol=1e-6) for s in sides)


def _stretches(boxes: Iterable[Box], part: Part, widest: float) -> list[Box]:
    """Boxes of the windows from left to right."""
    groups: list[Box] = []
    for box in sorted(boxes):
        if groups and _together(groups[-1], box, widest - 2.0 * _PAD):
            groups[-1] = union((groups[-1], box))
        else:
            groups.append(box)
    return _apart([_whole(group, part) for group in groups])


def _together(group: Box, box: Box, widest: float) -> bool:
    gap = box[0] - group[2]
    width = max(box[2], group[2]) - group[0]
    return gap <= 2.0 * _PAD or (gap <= _JOINED and width <= widest)


def _whole(group: Box, part: Part) -> Box:
    """The group with paper about it, out to ends and edges that are near."""
    x0, y0, x1, y1 = grown(group, _PAD)
    if part.width <= _NARROW:
        y0, y1 = 0.0, part.width
    return (
        0.0 if x0 < _TO_END else x0,
        0.0 if y0 < _NARROW / 2.0 else y0,
        part.length if x1 > part.length - _TO_END else x1,
        part.width if y1 > part.width - _TO_END else y1,
    )


def _apart(boxes: list[Box]) -> list[Box]:
    kept: list[Box] = []
    for box in boxes:
        if kept and box[0] < kept[-1][2]:
            kept[-1] = union((kept[-1], box))
        else:
            kept.append(box)
    return kept


def tape_line(window: Window, box: Box) -> float | None:
    """Where a line across the paper ties it to the nearest end; None where an end is in the box.

    It stands a whole number of centimetres from that end (half ones where marks are close), clear
    of the box's sides and as far from the marks as may be, so that it isn't taken for one.
    """
    length = window.part.length
    if box[0] <= 0.0 or box[2] >= length:
        return None
    from_left = box[0] <= length - box[2]
    low, high = (box[0], box[2]) if from_left else (length - box[2], length - box[0])
    known = (*window.spots, *window.pockets)
    marks = [s.x if from_left == window.left else length - s.x for s in known]

    def clear(place: float) -> float:
        return min((abs(place - m) for m in marks), default=0.0)

    best = (low + high) / 2.0
    for step in (5.0, 10.0):
        first, last = math.ceil((low + 4.0) / step), math.floor((high - 4.0) / step)
        places = [step * n for n in range(first, last + 1)] or [best]
        place = max(places, key=lambda p: (clear(p), -p))
        if step == 5.0 or clear(place) >= min(_CLEAR, clear(best)):
            best = place
    return best if from_left else length - best


def corners(window: Window, box: Box) -> tuple[Point, ...]:
    """Corners and arc ends of the outline in the box that the rectangle doesn't have."""
    part = window.part
    found: dict[tuple[float, float], Point] = {}
    for segment in window.seen.outline(part.outline).segments:
        if segment.bulge or not _plain_side(segment, part):
            for p in (segment.start, segment.end):
                if box[0] <= p.x <= box[2] and box[1] <= p.y <= box[3]:
                    found[round(p.x, 2), round(p.y, 2)] = p
    return tuple(found.values())
