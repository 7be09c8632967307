"""The drawing of one distinct part as seen on its working face, with its words outside.

  |<------------- length ------------->|
  +------------------------------------+  ---
  |   B-L     o       o        (====)  |  width
  +------------------------------------+  ---
| ======= datum edge
datum end          mark, name, hand, face, board, code; grain arrow
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.boxes import bounds_of, box_of
from flatpack.drawings.faces import datum_on_left, one_sided, seen_on, worked_faces
from flatpack.drawings.facing import facing
from flatpack.drawings.figures import mm
from flatpack.drawings.labels import Wanted, labelled
from flatpack.drawings.marks import PartGroup
from flatpack.drawings.part_strokes import mark_strokes, second_face, worked
from flatpack.drawings.running import running
from flatpack.drawings.saw_cuts import said, told
from flatpack.drawings.settings import Settings
from flatpack.drawings.shapes import Dimension, Drawing, Line, Stroke, Text
from flatpack.drawings.turned import Seen
from flatpack.geometry import Point
from flatpack.model import Assembly, Face, Part, saw_cuts
from flatpack.wording import english as words
from flatpack.wording import english_saw as saw

_OFF = 3.0
"""Distance of the datum lines from the outline, so that no line lies on another."""
_ROW = 6.0


def part_drawing(assembly: Assembly, group: PartGroup, settings: Settings) -> Drawing:
    """The part on its working face: what the machine cuts."""
    face = worked_faces(group.part)[0]
    return _drawing(assembly, group, settings, face, first=True)


def second_drawing(assembly: Assembly, group: PartGroup, settings: Settings) -> Drawing | None:
    """The other face, where there is one-sided work on it too; None when there isn't."""
    faces = worked_faces(group.part)
    if len(faces) == 1:
        return None
    return _drawing(assembly, group, settings, faces[1], first=False)


def part_strokes(
    group: PartGroup, settings: Settings, x: float = 0.0, y: float = 0.0
) -> tuple[Stroke, ...]:
    """Outline, features and mark on the working face, lower left of the bounds at x, y."""
    part = group.part
    face = worked_faces(part)[0]
    seen = seen_on(part, face, x, y)
    strokes = worked(part, face, seen)
    engraved = face == "back" or settings.mark_show_face
    layer = "part-mark" if engraved else "thin-line"
    return (*strokes, *mark_strokes(part, group.mark, seen, strokes, layer))


def _drawing(
    assembly: Assembly, group: PartGroup, settings: Settings, face: Face, first: bool
) -> Drawing:
    part, seen = group.part, seen_on(group.part, face)
    strokes = part_strokes(group, settings) if first else second_face(part, face, seen)
    lines = _lines(assembly, group, settings, face, first)
    every = (
        *strokes,
        *around(part, face, seen),
        *slanting(part, face, seen, strokes),
        *_grain(part),
        *_words(lines),
    )
    heading = words.part_heading(group.mark, part.name, part.hand)
    name = file_stem(group) if first else f"{file_stem(group)}-{face}-face"
    notes = (("piece", assembly.name), ("code", settings.code), ("mark", group.mark))
    return Drawing(name, heading, bounds_of(every), every, notes)


def file_stem(group: PartGroup) -> str:
    """E.g. B-L-side-rail-left: the mark as it is, the rest in small letters with hyphens."""
    words_of = f"{group.part.name} {group.part.hand}".lower()
    plain = "".join(c if c.isascii() and c.isalnum() else " " for c in words_of)
    return "-".join((group.mark, *plain.split()))


def _lines(
    assembly: Assembly, group: PartGroup, settings: Settings, face: Face, first: bool
) -> Iterator[str]:
    part = group.part
    yield words.part_heading(group.mark, part.name, part.hand)
    yield words.seen_on(face, datum_on_left(part, face), facing(assembly, group, face))
    yield words.board_line(part.board.name, mm(part.thickness), group.count)
    yield from slanting_lines(part)
    hidden = hidden_count(part, face)
    if not first:
        yield words.SECOND_FACE
    elif hidden:
        yield words.other_face(hidden, "back" if face == "show" else "show")
    yield words.sheet_line(assembly.name, settings.code, assembly.date)


def slanting_lines(part: Part) -> Iterator[str]:
    """What a part with cuts that aren't square is measured from, and how the saw is set."""
    cuts = told(part)
    if cuts:
        yield cuts
        yield saw.FROM_LONG_POINT
    if part.planes:
        yield saw.BOTH_ARRISES


def slanting(part: Part, face: Face, seen: Seen, strokes: tuple[Stroke, ...]) -> tuple[Stroke, ...]:
    """Beside every cut that isn't square how the saw is set, clear of what is drawn."""
    wanted = [
        Wanted(seen.point(cut.middle), 4.0, saw.on_drawing(said(cut), cut.long, face), said(cut))
        for cut in saw_cuts(part)
    ]
    if not wanted:
        return ()
    taken = [s.shape for s in (*strokes[1:], *around(part, face, seen))]
    return labelled(wanted, taken, [seen.outline(part.outline).sampled(0.2)])


def hidden_count(part: Part, face: Face) -> int:
    """How many features are worked from the face that isn't seen."""
    return len({f.key() for f in part.features if one_sided(f) and f.face != face})


def _words(lines: Iterator[str]) -> Iterator[Stroke]:
    y = -26.0
    for number, line in enumerate(lines):
        height = 5.0 if number == 0 else 3.5
        yield Stroke("text", Text(Point(0.0, y), line, height, 0.0, "left", "top", number == 0))
        y -= height + _ROW / 2.0


def datum_strokes(length: float, width: float, left: bool) -> tuple[Stroke, ...]:
    """Datum edge and datum end as heavy lines just off the outline, each named."""
    end = -_OFF if left else length + _OFF
    far = length if left else 0.0
    side = -1.0 if left else 1.0
    edge_words = Text(
        Point(0.0 if left else length, -_OFF - 2.0), words.DATUM_EDGE, 2.5, 0.0,
        "left" if left else "right", "top",
    )  # fmt: skip
    end_words = Text(
        Point(end + side * 2.0, width / 2.0), words.DATUM_END, 2.5, 90.0, "middle",
        "base" if left else "top",
    )  # fmt: skip
    return (
        Stroke("datum-edge", Line(Point(end, -_OFF), Point(far, -_OFF))),
        Stroke("datum-edge", Line(Point(end, -_OFF), Point(end, width))),
        Stroke("text", edge_words),
        Stroke("text", end_words),
    )


def around(part: Part, face: Face, seen: Seen) -> tuple[Stroke, ...]:
    """Datum edge and end, running dimensions to rods, overall sizes: all outside the part."""
    left = datum_on_left(part, face)
    rods = running(part, seen)
    high = max((box_of(s.shape)[3] for s in rods), default=part.width)
    datum = datum_strokes(part.length, part.width, left)
    return (*datum, *rods, *overall(part.length, part.width, left, high))


def overall(length: float, width: float, left: bool, high: float) -> tuple[Stroke, ...]:
    """Length above the part and all that reaches up to `high`, width at the far end."""
    along = Dimension(
        Point(0.0, width), Point(length, width), _clear(high - width), mm(length), 3.5
    )
    x, offset = (length, -12.0) if left else (0.0, 12.0)
    across = Dimension(Point(x, 0.0), Point(x, width), offset, mm(width), 3.5)
    return (Stroke("dimension", along), Stroke("dimension", across))


def _clear(over: float) -> float:
    return max(12.0, over + 3.0)


def _grain(part: Part) -> tuple[Stroke, ...]:
    """A double-headed arrow along the grain, below the part on the right."""
    if not part.board.grain:
        return ()
    return grain_arrow(part.length / 2.0 - 20.0, -16.0)


def grain_arrow(x: float, y: float) -> tuple[Stroke, ...]:
    """A double-headed arrow 40 long from x, y, with its word."""
    a, b = Point(x, y), Point(x + 40.0, y)
    heads = ((a, 4.0, 1.5), (a, 4.0, -1.5), (b, -4.0, 1.5), (b, -4.0, -1.5))
    word = Text(Point(x + 43.0, y), words.GRAIN, 2.5, 0.0, "left", "middle")
    return (
        Stroke("grain", Line(a, b)),
        *(Stroke("grain", Line(p, Point(p.x + dx, p.y + dy))) for p, dx, dy in heads),
        Stroke("text", word),
    )
