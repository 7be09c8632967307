r"""Rod and notch at each stop at 1:1: contact points, the arm's thrust, the cone of normals.

\    .'  reaction D -> P, along the arm
n1 ---\ .'
\    o--- n2       held while the reaction lies between the outermost normals n1 and n2
\  /D\
   ____\/___|           margin: from the reaction to the nearer of them
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal, NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.drawings.moving.facts import StopFacts
from flatpack.drawings.moving.reduced import Paper
from flatpack.drawings.moving.stops_table import degrees
from flatpack.drawings.shapes import Circle, Cross, Drawing, Line, Path, Stroke, Text
from flatpack.drawings.templates.clipping import clipped
from flatpack.drawings.title_block import BLOCK_HIGH, FRAME, HEIGHT, WIDTH, Heading, sheet_frame
from flatpack.geometry import Point, Segment, bulge_of
from flatpack.mechanism.nearest import nearest_on
from flatpack.mechanism.study import Study
from flatpack.model import Assembly
from flatpack.wording import english_moving as words

_COLUMNS, _ROWS = 4, 2
_TITLE = 20.0
"""Room for the words over each close-up, mm."""
_CONE, _FORCE, _MARGIN = 30.0, 38.0, 22.0
"""Lengths of the normals and of the thrust, and the radius of the margin's arc, mm."""
_WIDE = 20.0
"""An angle between reaction and normal with room for its number, degrees."""


class Touch(NamedTuple):
    """Where the rod touches a face (hinge frame), and the force square to it there, N."""

    face: int
    place: Point
    force: float


def touches(made: Study, f: StopFacts) -> tuple[Touch, ...]:
    """The points at which the loaded rod touches its notch, hinge's end first."""
    forces = {force.face: force.square for force in f.hold.faces}
    faces = f.stop.loaded.faces
    contour = made.rack.contour
    return tuple(Touch(k, nearest_on(contour[k], f.stop.rod), forces.get(k, 0.0)) for k in faces)


def cone(f: StopFacts) -> tuple[float, float]:
    """Directions of the outermost normals from the rod's centre, degrees, anticlockwise."""
    hollow = f.stop.loaded.hollow
    first = math.degrees(hollow.heading) + 90.0
    return first, first + math.degrees(hollow.turn)


def close_up_sheets(
    assembly: Assembly, made: Study, facts: tuple[StopFacts, ...], code: str
) -> Iterator[Drawing]:
    """A3 sheets at full size, eight stops on each."""
    each = _COLUMNS * _ROWS
    runs = [facts[i : i + each] for i in range(0, len(facts), each)]
    for number, run in enumerate(runs, 1):
        place = words.sheet_place(number, len(runs))
        title = f"{assembly.name}, {words.told(words.TITLE, made.motion).lower()}"
        heading = Heading(title, code, assembly.date, place, words.CLOSE_TYPE, "1:1")
        cells = (s for k, f in enumerate(run) for s in _cell(made, f, _box(k)))
        strokes = (*cells, *_notes(), *sheet_frame(heading))
        notes = (("piece", assembly.name), ("code", code), ("scale", "1:1"))
        name = "close-ups" if len(runs) == 1 else f"close-ups-{number}"
        whole = f"{words.CLOSE_TYPE}: {assembly.name}"
        yield Drawing(name, whole, (0.0, 0.0, WIDTH, HEIGHT), strokes, notes)


def _box(number: int) -> Box:
    """The room of a close-up on the sheet."""
    x0, y0, x1, y1 = FRAME
    row, column = divmod(number, _COLUMNS)
    wide, high = (x1 - x0) / _COLUMNS, (y1 - y0 - BLOCK_HIGH - 3.0) / _ROWS
    left, top = x0 + column * wide, y1 - row * high
    return left, top - high, left + wide, top


def _notes() -> Iterator[Stroke]:
    for row, line in enumerate(words.CLOSE_NOTES):
        at = Point(FRAME[0] + 5.0, FRAME[1] + BLOCK_HIGH - 6.0 - 4.5 * row)
        yield Stroke("text", Text(at, line, 2.5))


def _cell(made: Study, f: StopFacts, box: Box) -> Iterator[Stroke]:
    x0, y0, x1, y1 = box
    rod = f.stop.rod
    window = (x0 + 5.0, y0 + 4.0, x1 - 5.0, y1 - _TITLE)
    on_paper = Point((x0 + x1) / 2.0, y0 + 0.36 * (window[3] - window[1]))
    paper = Paper(Point(on_paper.x - rod.x, on_paper.y - rod.y), 1.0, window)
    drawn = (
        *_contour(made, paper),
        *_rod(made, f, paper),
        *_normals(f, on_paper),
        *_thrust(f, on_paper),
        *_touches(made, f, paper),
    )
    yield from clipped(drawn, window)
    yield from _words(f, made, Point(x0 + 5.0, y1 - 7.0))


def _contour(made: Study, paper: Paper) -> Iterator[Stroke]:
    yield Stroke("outline", Path(paper.segments(made.rack.contour)))


def _rod(made: Study, f: StopFacts, paper: Paper) -> Iterator[Stroke]:
    """The loaded rod, and where it rests without load if that's elsewhere."""
    radius, rod = made.rack.rod / 2.0, f.stop.rod
    yield Stroke("outline", Circle(paper.at(*rod), radius))
    yield Stroke("centre-line", Cross(paper.at(*rod), made.rack.rod * 0.4))
    seat = next(s for s in made.rack.seats if s.number == f.stop.seat)
    ends = dict.fromkeys((seat.low, seat.high))
    for place in ends:
        if math.dist(place, rod) > 0.05:
            yield Stroke("hidden-edge", Circle(paper.at(*place), radius))


def _normals(f: StopFacts, centre: Point) -> Iterator[Stroke]:
    """The two outermost normals, and the arc of the margin from the reaction to the nearer."""
    edges = cone(f)
    for turn in edges:
        yield Stroke("centre-line", Line(centre, _away(centre, turn, _CONE)))
    u = f.stop.loaded.thrust
    back = math.degrees(math.atan2(-u.y, -u.x))
    offs = [math.remainder(edge - back, 360.0) for edge in edges]
    off = min(offs, key=abs)
    if abs(off) < 0.05:
        return
    start, end = (_away(centre, back + turn, _MARGIN) for turn in (0.0, off))
    yield Stroke("thin-line", Path((Segment(start, end, bulge_of(off)),)))
    yield _margin_label(centre, back, off)


def _margin_label(centre: Point, back: float, off: float) -> Stroke:
    """Between reaction and normal where there is room, else past the normal."""
    inside = abs(off) >= _WIDE
    turn = back + off / 2.0 if inside else back + off + math.copysign(4.0, off)
    at = _away(centre, turn, 0.8 * _MARGIN if inside else _MARGIN)
    past = math.cos(math.radians(turn)) >= 0.0
    across: Literal["left", "middle", "right"] = "middle" if inside else "left" if past else "right"
    return Stroke("text", Text(at, f"{degrees(abs(off))}°", 2.5, across=across, up="middle"))


def _thrust(f: StopFacts, centre: Point) -> Iterator[Stroke]:
    """An arrow along the arm down to the rod's centre."""
    u = f.stop.loaded.thrust
    turn = math.degrees(math.atan2(u.y, u.x))
    tail = _away(centre, turn + 180.0, _FORCE)
    yield Stroke("text", Line(tail, centre))
    for side in (165.0, -165.0):
        yield Stroke("text", Line(centre, _away(centre, turn + side, 4.0)))


def _touches(made: Study, f: StopFacts, paper: Paper) -> Iterator[Stroke]:
    """A dot at each contact point, numbered inside the wood."""
    for number, touch in enumerate(touches(made, f), 1):
        at = paper.at(*touch.place)
        for radius in (0.4, 0.9):
            yield Stroke("text", Circle(at, radius))
        turn = math.degrees(math.atan2(touch.place.y - f.stop.rod.y, touch.place.x - f.stop.rod.x))
        spot = _away(at, turn, 4.0)
        yield Stroke("text", Text(spot, str(number), 2.5, across="middle", up="middle", bold=True))


def _words(f: StopFacts, made: Study, at: Point) -> Iterator[Stroke]:
    title = words.close_title(f.number, f.notch, degrees(f.stop.angle))
    yield Stroke("text", Text(at, title, 3.0, bold=True))
    found = touches(made, f)
    forces = (words.face_force(k, f"{t.force:.0f}") for k, t in enumerate(found, 1))
    lines = (
        f"{words.thrust(f'{f.hold.arm:.0f}')}; "
        f"{words.margin(degrees(abs(f.hold.margin)), f.hold.held)}",
        f"{words.faces_touched(len(found))}: {', '.join(forces)}",
    )
    for row, line in enumerate(lines, 1):
        yield Stroke("text", Text(Point(at.x, at.y - 4.5 * row), line, 2.2))


def _away(start: Point, turn: float, length: float) -> Point:
    radians = math.radians(turn)
    return Point(start.x + length * math.cos(radians), start.y + length * math.sin(radians))
