"""An outline moved outwards or inwards by a distance, exactly: lines stay lines, arcs arcs.

                       ,-----------------------.
    by > 0: outwards   |  +-----------------+  |     outer corners stay sharp up to a right angle
                       |  |     outline     |  |     (a beam turns there beside the part), beyond
                       |  +-----------------+  |     that they are rounded about the corner
                       `-----------------------'

Every side is moved along its normal; outer corners are joined; what then lies nearer to the
outline than the distance is cut away where the moved sides meet.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from flatpack.geometry.meeting import distance, meetings, part_of
from flatpack.geometry.outline import Outline, Point, Segment

_NEAR = 1e-6
"""Places this close are one place, mm."""
_SHARPEST = math.radians(100.0)


def offset(outline: Outline, by: float) -> tuple[Outline, ...]:
    """The outline moved outwards by `by` mm (inwards when negative); anticlockwise.

    Inwards it may fall apart into several outlines, or vanish: then there is none.
    """
    if by == 0.0:
        return (outline,)
    source = outline if outline.area > 0.0 else outline.reversed()
    raw = list(_raw(source, by))
    kept = [
        piece for piece in _split(raw) if _clear(piece, source, abs(by)) and piece.chord > _NEAR
    ]
    return tuple(merged(made) for made in _loops(kept) if made.area > _NEAR)


def _raw(outline: Outline, by: float) -> Iterator[Segment]:
    """Moved sides and what joins them, a closed chain that may cross itself."""
    segments = outline.segments
    moved = [(s, m) for s in segments if (m := _moved(s, by)) is not None]
    for (side, here), (after, there) in pairwise((*moved, moved[0]) if moved else ()):
        yield here
        if math.dist(here.end, there.start) > 1e-12:
            yield from _join(side, after, here.end, there.start, by)


def _moved(segment: Segment, by: float) -> Segment | None:
    """A side moved to the right of travel; None when an arc shrinks to nothing."""
    a, b = segment.direction(0.0), segment.direction(1.0)
    start = Point(segment.start.x + a.y * by, segment.start.y - a.x * by)
    end = Point(segment.end.x + b.y * by, segment.end.y - b.x * by)
    if segment.bulge == 0.0:
        return Segment(start, end)
    # An arc that turns left has its centre on the left: it grows when moved to the right.
    grows = segment.radius + (by if segment.bulge > 0.0 else -by)
    return Segment(start, end, segment.bulge) if grows > 1e-9 else None


def _join(side: Segment, after: Segment, start: Point, end: Point, by: float) -> Iterator[Segment]:
    """From one moved side to the next: an outer corner, or a chord that is cut away later."""
    a, b = side.direction(1.0), after.direction(0.0)
    turn = math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y)
    outer = side.end == after.start and turn * by > 0.0
    if not outer:
        yield Segment(start, end)
    elif side.bulge == 0.0 and after.bulge == 0.0 and abs(turn) <= _SHARPEST:
        reach = abs(by) * math.tan(abs(turn) / 2.0)
        tip = Point(start.x + a.x * reach, start.y + a.y * reach)
        yield Segment(start, tip)
        yield Segment(tip, end)
    else:
        yield Segment(start, end, math.tan(turn / 4.0))


def _split(raw: Sequence[Segment]) -> Iterator[Segment]:
    """Every piece cut where it meets another."""
    cuts: list[list[float]] = [[0.0, 1.0] for _ in raw]
    boxes = [s.bounds() for s in raw]
    for i, one in enumerate(raw):
        for j in range(i + 1, len(raw)):
            if _apart(boxes[i], boxes[j]):
                continue
            for here, there in meetings(one, raw[j]):
                cuts[i].append(here)
                cuts[j].append(there)
    for segment, shares in zip(raw, cuts, strict=True):
        size = max(segment.length, _NEAR)
        places = [0.0]
        for share in sorted(shares):
            if (share - places[-1]) * size > _NEAR and (1.0 - share) * size > _NEAR:
                places.append(share)
        places.append(1.0)
        yield from (part_of(segment, low, high) for low, high in pairwise(places))


def _apart(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    return a[0] > b[2] + _NEAR or b[0] > a[2] + _NEAR or a[1] > b[3] + _NEAR or b[1] > a[3] + _NEAR


def _clear(piece: Segment, outline: Outline, by: float) -> bool:
    """True when no part of the outline is nearer than the distance, at three places of it."""
    if piece.chord <= _NEAR:
        return False
    return all(
        distance(side, piece.at(share)) >= by - 10.0 * _NEAR
        for share in (0.25, 0.5, 0.75)
        for side in outline
    )


def _loops(pieces: Sequence[Segment]) -> Iterator[Outline]:
    """Closed chains of pieces; ends within a micrometre are made one."""
    left = list(pieces)
    while left:
        chain = [left.pop(0)]
        while math.dist(chain[-1].end, chain[0].start) > 5.0 * _NEAR:
            end = chain[-1].end
            near = min(range(len(left)), key=lambda i: math.dist(left[i].start, end), default=None)
            if near is None or math.dist(left[near].start, end) > 100.0 * _NEAR:
                break
            chain.append(left.pop(near))
        else:
            if len(chain) > 1:
                yield _closed(chain)


def _closed(chain: Sequence[Segment]) -> Outline:
    starts = [s.start for s in chain]
    return Outline(
        tuple(Segment(s.start, starts[(i + 1) % len(chain)], s.bulge) for i, s in enumerate(chain))
    )


def merged(outline: Outline) -> Outline:
    """The outline without corners in the middle of straight sides."""
    made = list(outline.segments)
    i = 0
    while i < len(made) and len(made) > 2:
        a, b = made[i - 1], made[i]
        if a.bulge == 0.0 and b.bulge == 0.0 and _straight(a, b):
            made[i - 1] = Segment(a.start, b.end)
            del made[i]
        else:
            i += 1
    return Outline(tuple(made))


def _straight(a: Segment, b: Segment) -> bool:
    u, v = a.direction(1.0), b.direction(0.0)
    return abs(u.x * v.y - u.y * v.x) < 1e-9 and u.x * v.x + u.y * v.y > 0.0
