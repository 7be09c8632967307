"""Side view with every stop: the frame solid, back and arm at each stop in thin line."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.drawings.figures import mm
from flatpack.drawings.moving.facts import StopFacts, alike, datum_racks
from flatpack.drawings.moving.reduced import Paper
from flatpack.drawings.moving.stops_layout import ROW, Extent, extent, paper_for
from flatpack.drawings.moving.stops_table import SHORT_COLUMNS, degrees, short_rows, table_notes
from flatpack.drawings.moving.views import Seen, placed, seen_bodies, stands
from flatpack.drawings.ruled import ruled_table
from flatpack.drawings.shapes import Circle, Cross, Dimension, Drawing, Line, Path, Stroke, Text
from flatpack.drawings.title_block import FRAME, HEIGHT, WIDTH, Heading, sheet_frame
from flatpack.geometry import Point, Segment, bulge_of
from flatpack.mechanism.bodies import Carrier
from flatpack.mechanism.study import Study
from flatpack.mechanism.track import Stand
from flatpack.model import Assembly
from flatpack.wording import english_moving as words

NAME = "stops"
_TABLE_ROW = 5.0
_NOTE = 2.5
"""Letter height of notes and labels, paper mm."""


def stops_sheet(
    assembly: Assembly, made: Study, facts: tuple[StopFacts, ...], code: str, place: str = "1/1"
) -> Drawing:
    """One A3 sheet with the side view, dimensions to the notches, and the table of stops."""
    bodies, positions = seen_bodies(made), stands(made)
    room = extent(bodies, positions)
    table = _TABLE_ROW * (len(facts) + 2) + 13.0
    dims = len(facts) if alike_all(facts) else 2 * len(facts)
    paper = paper_for(room, dims, table)
    scale = f"1:{mm(1.0 / paper.scale)}"
    title = f"{assembly.name}, {words.told(words.TITLE, made.motion).lower()}"
    kind = words.told(words.STOPS_TYPE, made.motion)
    heading = Heading(title, code, assembly.date, place, kind, scale)
    strokes = (
        *_frame(bodies, paper),
        *_breaks(room, bodies, paper),
        *_moving(bodies, positions, paper),
        *_axis_and_ground(made, paper),
        *_labels(bodies, positions, words.told(words.FLAT, made.motion), paper),
        *_rods(made, facts, paper),
        *_datums(assembly, facts, room, paper),
        *_table(made, facts, paper, table),
        *sheet_frame(heading),
    )
    notes = (("piece", assembly.name), ("code", code), ("scale", scale))
    whole = f"{kind}: {assembly.name}"
    return Drawing(NAME, whole, (0.0, 0.0, WIDTH, HEIGHT), strokes, notes, paper.scale)


def alike_all(facts: tuple[StopFacts, ...]) -> bool:
    """Whether one row of dimensions does for both hands."""
    return all(alike(f.places) for f in facts)


def _frame(bodies: tuple[Seen, ...], paper: Paper) -> Iterator[Stroke]:
    """What stands still, painted furthest first; the near side dashed over it."""
    for seen in bodies:
        if seen.look in ("frame", "rack"):
            yield from paper.closed("outline", seen.outline, filled=True)
    for seen in bodies:
        if seen.look == "near":
            yield from paper.closed("hidden-edge", seen.outline)


def _breaks(room: Extent, bodies: tuple[Seen, ...], paper: Paper) -> Iterator[Stroke]:
    """A thin line with a zigzag where the frame is broken off (ISO 128-2)."""
    for side, edge in ((0, room.whole[0]), (2, room.whole[2])):
        x = room.shown[side]
        cut = [b for b in bodies if b.outline.bounds[0] < x < b.outline.bounds[2]]
        if abs(x - edge) < 1e-6 or not cut:
            continue
        low = min(b.outline.bounds[1] for b in cut if b.carrier is Carrier.FRAME)
        high = max(b.outline.bounds[3] for b in cut if b.carrier is Carrier.FRAME)
        (px, y0), (_, y1) = paper.at(x, low), paper.at(x, high)
        half = (y0 + y1) / 2.0
        corners = (
            (px, y0 - 3.0), (px, half - 2.0), (px - 1.5, half - 0.7),
            (px + 1.5, half + 0.7), (px, half + 2.0), (px, y1 + 3.0),
        )  # fmt: skip
        points = [Point(*c) for c in corners]
        yield Stroke("thin-line", Path(tuple(map(Segment, points[:-1], points[1:]))))


def _moving(
    bodies: tuple[Seen, ...], positions: tuple[Stand, ...], paper: Paper
) -> Iterator[Stroke]:
    for stand in positions:
        for seen in bodies:
            if seen.look in ("back", "arm", "rod"):
                yield from paper.closed("thin-line", placed(seen, stand))
        yield Stroke("centre-line", Cross(paper.at(*stand.pivot), 3.0))


def _axis_and_ground(made: Study, paper: Paper) -> Iterator[Stroke]:
    x, y = paper.origin
    yield Stroke("centre-line", Cross(paper.origin, 14.0))
    yield Stroke("thin-line", Line(Point(x - 1.0, y + 1.0), Point(x - 14.0, y + 20.0)))
    label = Text(Point(x - 15.0, y + 21.0), words.HINGE, _NOTE, across="right", up="middle")
    yield Stroke("text", label)
    level = paper.at(0.0, -made.motion.axis.z).y
    ends = Point(paper.box[0] - 4.0, level), Point(paper.box[2] + 4.0, level)
    yield Stroke("centre-line", Line(*ends))


def _labels(
    bodies: tuple[Seen, ...], positions: tuple[Stand, ...], flat: str, paper: Paper
) -> Iterator[Stroke]:
    """Each back's angle beyond its free end, on the arc that the end's middle runs along."""
    backs = [b.outline.bounds for b in bodies if b.look == "back"]
    tip = max(b[2] for b in backs) + 3.0 / paper.scale
    for number, stand in enumerate(positions):
        turn = math.radians(stand.degrees)
        at = paper.at(tip * math.cos(turn), tip * math.sin(turn))
        angle = degrees(stand.degrees)
        text = words.stop_label(number, angle) if number else f"{flat}: {angle}°"
        yield Stroke("text", Text(at, text, 3.0, up="middle", bold=number > 0))
    ends = [math.radians(stand.degrees) for stand in (positions[0], positions[-1])]
    r = tip - 1.5 / paper.scale
    start, end = (paper.at(r * math.cos(a), r * math.sin(a)) for a in ends)
    if ends[1] > ends[0]:
        bulge = bulge_of(positions[-1].degrees - positions[0].degrees)
        yield Stroke("centre-line", Path((Segment(start, end, bulge),)))


def _rods(made: Study, facts: tuple[StopFacts, ...], paper: Paper) -> Iterator[Stroke]:
    """The rod at each stop with the stop's number, over the thin lines."""
    radius = made.rack.rod / 2.0 * paper.scale
    for f in facts:
        at = paper.at(*f.stop.rod)
        yield Stroke("thin-line", Circle(at, radius))
        up = Point(at.x, at.y + radius + 1.0)
        yield Stroke("text", Text(up, str(f.number), 2.5, across="middle", bold=True))
        yield Stroke("centre-line", Cross(at, 1.2 * radius))


def _datums(
    assembly: Assembly, facts: tuple[StopFacts, ...], room: Extent, paper: Paper
) -> Iterator[Stroke]:
    """Dimensions from the datum end of the racks to each rod's centre, below the rack."""
    racks = datum_racks(assembly)
    if not racks or assembly.motion is None:
        return
    end = racks[0].frame.origin.x - assembly.motion.axis.x
    same = alike_all(facts)
    row = 0
    for f in sorted(facts, key=lambda f: abs(f.stop.rod.x - end)):
        for place in f.places[:1] if same else f.places:
            row += 1
            hand = "" if same else f"{words.hand_letter(place.hand)} "
            low, high = sorted((f.stop.rod.x, end))
            start, stop = paper.at(low, room.rack[1]), paper.at(high, room.rack[1])
            text = f"{hand}{mm(place.x)}"
            yield Stroke("dimension", Dimension(start, stop, -ROW * row, text, _NOTE))


def _table(
    made: Study, facts: tuple[StopFacts, ...], paper: Paper, high: float
) -> Iterator[Stroke]:
    x0, y0, _, y1 = FRAME
    motion = made.motion
    head, units = words.SHORT_HEADER
    corner = Point(x0 + 4.0, y0 + high - 6.0)
    yield from ruled_table(head, (units, *short_rows(facts)), SHORT_COLUMNS, corner)
    title = words.stops_title(mm(motion.push), mm(motion.push_along), motion.panel)
    yield Stroke("text", Text(Point(corner.x, corner.y + 2.0), title, 3.0, bold=True))
    below = Point(corner.x, corner.y - _TABLE_ROW * (len(facts) + 2) - 3.6)
    first, *others = table_notes(made)
    yield Stroke("text", Text(below, first, 2.2))
    at = Point(x0 + 12.0, y1 - 10.0)
    yield Stroke("text", Text(at, words.SIDE, 3.5, bold=True))
    notes = (words.DASHED, words.hands_alike(alike_all(facts)), *others)
    for row, line in enumerate(notes, 1):
        yield Stroke("text", Text(Point(at.x, at.y - 5.0 * row), line, _NOTE))
