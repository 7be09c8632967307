r"""Parts that lean: from place to place in space, with ends sawn to lie in given planes.

       ______ end plane (level, or a neighbour's face)
       \     \          The long way runs from `start` to `end` through one line of the section,
        \  +  \         its middle unless told.  The show face looks towards `facing`.  Each end
         \__+__\        is a line across the face (the saw's table) and a slant through the
          start          thickness (the saw's blade), both worked out from the planes alone.

All places in the piece's axes, mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from flatpack.features import Slant, bevels
from flatpack.frozen import replace
from flatpack.geometry import Frame, Outline, Plane, Point, Vec, Z
from flatpack.geometry.outline import closed
from flatpack.model import Face, Hand, Part
from flatpack.profiles import Board

SQUARE = 1e-9
"""Slants below this are square, as a sine."""
FACES: dict[str, tuple[float, float]] = {"show": (1.0, 1.0), "back": (0.0, -1.0)}
"""Height share and outward direction of each face."""


class Way(NamedTuple):
    """Where a part runs: from `start` to `end`, its show face towards `facing`.

    `holds` is a direction that lies in the faces (e.g. level across the piece); without one the
    show face looks as nearly as can be towards `facing`.  `line` says where in the section the
    way runs, in shares of width and thickness: (0.5, 0.5) is the middle, (0, 0) the arris of back
    face and lower edge.
    """

    start: Vec
    end: Vec
    facing: Vec
    holds: Vec | None = None
    line: tuple[float, float] = (0.5, 0.5)


def level(height: float) -> Plane:
    """The level plane at a height above the ground."""
    return Plane(Vec(0.0, 0.0, height), Z)


def face_of(part: Part, face: Face) -> Plane:
    """The plane of a part's face in the piece, looking out of it."""
    share, way = FACES[face]
    z = part.frame.z
    return Plane(part.frame.place(0.0, 0.0, share * part.thickness), Vec(*(way * v for v in z)))


def edge_of(part: Part, number: int) -> Plane:
    """The plane of the part's straight outline segment `number`, before it is sawn at a slant.

    Raises:
        ValueError: the segment is an arc.
    """
    segment = part.outline.segments[number]
    if segment.bulge:
        raise ValueError("an arc lies in no plane square to the face")
    x, y = segment.direction(0.0)
    return Plane(part.frame.place(*segment.start), part.frame.turn(Vec(y, -x, 0.0)))


def leaning(
    key: str,
    name: str,
    board: Board,
    width: float,
    way: Way,
    ends: tuple[Plane, Plane],
    edges: tuple[Plane | None, Plane | None] = (None, None),
    hand: Hand = "",
) -> Part:
    """The part along `way` whose ends lie in the two planes.

    `edges`, where given, are planes in which its lower and upper edge lie instead of square and
    `width` apart: under a level top, say, or along a taper.

    Raises:
        ValueError: start and end are one place, `facing` runs along the way, or a plane runs along
            the part where it should bound it (a family's conflicts keep such values out).
    """
    t = board.thickness
    frame = _frame(way, width, t)
    low = Plane(Vec(0.0, 0.0, 0.0), Vec(0.0, -1.0, 0.0))
    high = Plane(Vec(0.0, width, 0.0), Vec(0.0, 1.0, 0.0))
    cuts = [
        low if edges[0] is None else _local(edges[0], frame, Vec(0.0, -1.0, 0.0)),
        _local(ends[1], frame, Vec(1.0, 0.0, 0.0)),
        high if edges[1] is None else _local(edges[1], frame, Vec(0.0, 1.0, 0.0)),
        _local(ends[0], frame, Vec(-1.0, 0.0, 0.0)),
    ]
    corners = _corners([cut.line(_long_height(cut, t)) for cut in cuts])
    first = min(x for x, _ in corners)
    outline = closed([(x - first, y, 0.0) for x, y in corners])
    frame = replace(frame, origin=frame.place(first, 0.0))
    part = Part(key=key, name=name, board=board, outline=outline, frame=frame, hand=hand)
    return part.with_features(bevels(outline, t, list(_slants(outline, cuts))))


def leg(key: str, name: str, board: Board, width: float, way: Way, hand: Hand = "") -> Part:
    """A leg whose ends lie level at the heights of its two places."""
    ends = level(way.start.z), level(way.end.z)
    return leaning(key, name, board, width, way, ends, hand=hand)


def _frame(way: Way, width: float, thickness: float) -> Frame:
    """X along the way, z towards `facing` and square to `holds`, y to match."""
    run = way.end.minus(way.start)
    if run.length < SQUARE:
        raise ValueError("a part needs two places")
    x = run.unit()
    z = way.facing.plus(x, -way.facing.dot(x)) if way.holds is None else x.cross(way.holds)
    if z.length < SQUARE:
        raise ValueError("the face can't look along the part")
    z = z.unit() if z.dot(way.facing) >= 0.0 else z.unit().negated()
    y = z.cross(x)
    across, deep = way.line
    return Frame(way.start.plus(y, -across * width).plus(z, -deep * thickness), x, y, z)


def _local(plane: Plane, frame: Frame, way: Vec) -> Plane:
    """A plane in the part's axes, looking out of the part where that is roughly `way`."""
    out = frame.local_direction(plane.out)
    if abs(out.dot(way)) < SQUARE:
        raise ValueError("a plane runs along the part that it should bound")
    return Plane(frame.local(plane.at), out if out.dot(way) > 0.0 else out.negated())


def _long_height(cut: Plane, thickness: float) -> float:
    """Height of the face that a cut leaves longer."""
    return thickness if cut.out.z < 0.0 else 0.0


def _corners(lines: list[tuple[Point, Point]]) -> list[tuple[float, float]]:
    """Where the four lines round the outline, lower edge first, cross their neighbours before."""
    found = []
    for (p, n), (q, m) in zip((lines[-1], *lines[:-1]), lines, strict=True):
        c, d = p.x * n.x + p.y * n.y, q.x * m.x + q.y * m.y
        size = n.x * m.y - n.y * m.x
        if abs(size) < SQUARE:
            raise ValueError("two neighbouring planes run along each other")
        found.append(((c * m.y - d * n.y) / size, (d * n.x - c * m.x) / size))
    return found


def _slants(outline: Outline, cuts: list[Plane]) -> Iterator[Slant]:
    """What isn't square through the thickness; the cuts stand in the order of the outline."""
    for segment, cut in zip(outline, cuts, strict=True):
        if abs(cut.out.z) > SQUARE:
            flat = math.hypot(cut.out.x, cut.out.y)
            slant = math.degrees(math.atan2(abs(cut.out.z), flat))
            face: Face = "show" if cut.out.z < 0.0 else "back"
            yield Slant(segment.start, segment.end, slant, face)
