"""Drilling sheets: each distinct hole pattern at 1:1, with its hole table."""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from typing import NamedTuple

from flatpack.drawings.boxes import bounds_of, grown, union
from flatpack.drawings.faces import datum_on_left, mirrored_view, one_sided, seen_on, worked_faces
from flatpack.drawings.facing import facing
from flatpack.drawings.figures import mm
from flatpack.drawings.holes import Spot, on_face, short, size_of, spots, table
from flatpack.drawings.labels import Wanted, labelled
from flatpack.drawings.marks import PartGroup
from flatpack.drawings.notch_bores import bore_crosses, without_rods
from flatpack.drawings.part_strokes import second_face, worked
from flatpack.drawings.part_view import around, file_stem, slanting_lines
from flatpack.drawings.ruled import column_widths, ruled_table
from flatpack.drawings.settings import Settings
from flatpack.drawings.shapes import Dimension, Drawing, Stroke, Text
from flatpack.drawings.turned import Seen
from flatpack.geometry import Point
from flatpack.model import Assembly, Face
from flatpack.wording import english as words

_CHECK = 100.0
_GAP = 12.0


class Pattern(NamedTuple):
    """Holes to drill from one face, and the groups of parts that have just these."""

    groups: tuple[PartGroup, ...]
    face: Face
    first: bool
    spots: tuple[Spot, ...]


def patterns(found: tuple[PartGroup, ...]) -> tuple[Pattern, ...]:
    """Every distinct pattern once; the two hands of a pair are two patterns."""
    alike: dict[Hashable, list[Pattern]] = {}
    for group in found:
        numbered = spots(group.part)
        for order, face in enumerate(worked_faces(group.part)):
            here = on_face(numbered, face, order == 0)
            if here:
                pattern = Pattern((group,), face, order == 0, here)
                alike.setdefault(_key(pattern), []).append(pattern)
    return tuple(
        same[0]._replace(groups=tuple(p.groups[0] for p in same)) for same in alike.values()
    )


def _key(pattern: Pattern) -> Hashable:
    part = pattern.groups[0].part
    holes = tuple((s.number, s.x, s.y, *(f.callout() for f in s.features)) for s in pattern.spots)
    size = (round(part.length, 3), round(part.width, 3), round(part.thickness, 3))
    return pattern.face, mirrored_view(part, pattern.face), size, holes


def drilling_sheets(
    assembly: Assembly, found: tuple[PartGroup, ...], settings: Settings
) -> tuple[Drawing, ...]:
    """One drawing per pattern, all at 1:1."""
    return tuple(_sheet(assembly, pattern, settings) for pattern in patterns(found))


def _sheet(assembly: Assembly, pattern: Pattern, settings: Settings) -> Drawing:
    part, face = pattern.groups[0].part, pattern.face
    seen = seen_on(part, face)
    drawn = (worked if pattern.first else second_face)(part, face, seen)
    shown = (*without_rods(drawn, part, seen), *bore_crosses(part, seen))
    frame = around(part, face, seen)
    body = (*shown, *frame, *_labels(pattern, seen, shown, frame))
    marks = ", ".join(group.mark for group in pattern.groups)
    room = bounds_of(body, 0.0)
    outside = (*_check_line(room[3]), *_below(assembly, pattern, settings))
    face_name = "" if pattern.first else f"-{face}-face"
    notes = (("piece", assembly.name), ("code", settings.code), ("marks", marks))
    return Drawing(
        f"{file_stem(pattern.groups[0])}{face_name}", words.drilling_title(marks),
        grown(union((room, bounds_of(outside, 0.0))), 8.0), (*body, *outside), notes,
    )  # fmt: skip


def _labels(
    pattern: Pattern, seen: Seen, shown: tuple[Stroke, ...], frame: tuple[Stroke, ...]
) -> tuple[Stroke, ...]:
    part = pattern.groups[0].part
    x0, y0, _, _ = part.outline.bounds
    wanted = [
        Wanted(seen.point(Point(s.x + x0, s.y + y0)), _reach(s), _label(s), str(s.number))
        for s in pattern.spots
    ]
    taken = [s.shape for s in (*shown[1 + len(part.openings) :], *frame)]
    outlines = (part.outline, *part.openings)
    return labelled(wanted, taken, [seen.outline(o).sampled(0.2) for o in outlines])


def _reach(spot: Spot) -> float:
    """Half the centre cross of the largest hole here, mm."""
    sizes = [size_of(f) or 0.0 for f in spot.features]
    return max(sizes) / 2.0 + 3.0 if spot.features else 0.0


def _label(spot: Spot) -> str:
    return f"{spot.number}: " + " + ".join(t for t in map(short, spot.features) if t)


def _check_line(top: float) -> tuple[Stroke, ...]:
    """A line to lay a rule on: printers scale, so the print is measured first."""
    y = top + 9.0
    line = Dimension(Point(0.0, y), Point(_CHECK, y), 0.0, mm(_CHECK), 2.5)
    text = words.CHECK_LINE.format(mm(_CHECK))
    return (
        Stroke("dimension", line),
        Stroke("text", Text(Point(_CHECK + 6.0, y), text, 2.5, up="middle")),
    )


def _below(assembly: Assembly, pattern: Pattern, settings: Settings) -> Iterator[Stroke]:
    y = -16.0
    for number, line in enumerate(_lines(assembly, pattern, settings)):
        height = 5.0 if number == 0 else 3.5
        yield Stroke("text", Text(Point(0.0, y), line, height, up="top", bold=number == 0))
        y -= height + 3.0
    yield from _tables(pattern, y - 3.0)


def _lines(assembly: Assembly, pattern: Pattern, settings: Settings) -> Iterator[str]:
    for group in pattern.groups:
        yield words.part_heading(group.mark, group.part.name, group.part.hand)
    part = pattern.groups[0].part
    count = sum(group.count for group in pattern.groups)
    said = {g.mark: facing(assembly, g, pattern.face) for g in pattern.groups}
    looks = next(iter(said.values())) if len(set(said.values())) == 1 else ""
    yield words.seen_on(pattern.face, datum_on_left(part, pattern.face), looks)
    if not looks:
        yield from (words.looks_of(mark, way) for mark, way in said.items() if way)
    yield words.board_line(part.board.name, mm(part.thickness), count)
    yield from slanting_lines(part)
    hidden = {f.key() for f in part.features if one_sided(f) and f.face != pattern.face}
    if hidden and pattern.first:
        yield words.other_face(len(hidden), "back" if pattern.face == "show" else "show")
    yield words.TAPE_GOVERNS
    yield words.DRILL_SAFELY
    yield words.sheet_line(assembly.name, settings.code, assembly.date)


def _tables(pattern: Pattern, top: float) -> Iterator[Stroke]:
    """The hole table, in as many blocks side by side as the part is long enough for."""
    rows = table(pattern.spots)
    columns = column_widths((words.HOLE_HEADER, *rows))
    wide = sum(columns) + _GAP
    blocks = max(1, min(int((pattern.groups[0].part.length + _GAP) / wide), -(-len(rows) // 8)))
    size = -(-len(rows) // blocks)
    for block in range(blocks):
        some = rows[block * size : (block + 1) * size]
        if some:
            yield from ruled_table(words.HOLE_HEADER, some, columns, Point(block * wide, top))
