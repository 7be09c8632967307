"""The stretch of a part that a window shows, at full size, with its distances and labels."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from flatpack.drawings.boxes import Box
from flatpack.drawings.figures import mm
from flatpack.drawings.holes import Spot
from flatpack.drawings.lettering import text_width
from flatpack.drawings.notch_bores import without_rods
from flatpack.drawings.part_strokes import second_face, worked
from flatpack.drawings.shapes import Circle, Closed, Cross, Line, Stroke, Text
from flatpack.drawings.templates.break_lines import breaks
from flatpack.drawings.templates.clipping import clipped, within
from flatpack.drawings.templates.ordinates import below, beside
from flatpack.drawings.templates.tiles import Mark, Tile
from flatpack.drawings.templates.view_labels import (
    pocket_label,
    put_labels,
    radii,
    spot_label,
    tag,
)
from flatpack.drawings.templates.windows import Window, corners, tape_line
from flatpack.drawings.templates.wrapping import BOLDER
from flatpack.drawings.turned import Seen
from flatpack.geometry import Outline, Point, closed
from flatpack.wording import english_templates as words

LEFT, RIGHT, ABOVE = 18.0, 5.0, 8.5
"""Room about the drawn stretch for its distances and words, mm."""
_LEAST = 44.0
_DROP = 5.0
_SMALL = 1.8
_OFF = 1.5
"""Distance of the datum lines from the outline, mm."""


def cell_width(box: Box) -> float:
    """Width of a stretch with its distances, mm."""
    return max(LEFT + box[2] - box[0] + RIGHT, _LEAST)


def below_room(window: Window, box: Box) -> float:
    """Room under a stretch for its distances, which stand upright, mm."""
    farthest = max(window.from_datum(box[0]), window.from_datum(box[2]))
    own = 4.0 if box[1] > 0.0 else 0.0
    return _OFF + 0.8 + _DROP + text_width(f"{int(farthest)}.0", 2.5) + 2.0 + own


def whole(window: Window) -> tuple[Stroke, ...]:
    """The window's face of the whole part as seen, lower left at 0, 0.

    A rod's own cross is left out where its seat is bored: nobody is to prick the wrong one.
    """
    make = worked if window.first else second_face
    drawn = make(window.part, window.face, window.seen)
    return without_rods(drawn, window.part, window.seen)


def view(
    window: Window, tile: Tile, top_left: Point, face: tuple[Stroke, ...], marks: str
) -> tuple[Stroke, ...]:
    """Strokes of a tile of a window, its cell's upper left at `top_left` of the page.

    `face` is what `whole` draws, so that all windows of a face share it; `marks` are those of the
    parts.
    """
    box = tile.box
    spare = (cell_width(box) - LEFT - RIGHT - (box[2] - box[0])) / 2.0
    corner = Point(top_left.x + LEFT + spare, top_left.y - ABOVE - (box[3] - box[1]))
    page = (corner.x, corner.y, corner.x + box[2] - box[0], corner.y + box[3] - box[1])
    moved = Seen(False, corner.x - box[0], corner.y - box[1])
    shown = tuple(Stroke(s.layer, moved.shape(s.shape)) for s in clipped(face, box))
    outline = moved.outline(window.seen.outline(window.part.outline))
    around = (
        *breaks(outline, page, window, box),
        *_datum_lines(window, box, page),
        *_tape(window, box, page, marks),
        *_register(tile.marks, corner.x - box[0], corner.y - box[1]),
    )
    said = words.tag(marks, window.number, window.of, window.face)
    inside = _inside(window, box, page, outline, (*shown, *around), said)
    return (*shown, *around, *_distances(window, box, page), *inside)


def marks_below(window: Window, box: Box) -> tuple[Spot, ...]:
    """The spots whose centre lies in a tile's box."""
    return tuple(s for s in window.spots if within(_place(window, s), box))


def _place(window: Window, spot: Spot) -> Point:
    """Centre of a spot in the part as seen, lower left of its bounds at 0, 0."""
    return Point(spot.x if window.left else window.part.length - spot.x, spot.y)


def _moved(at: Point, dx: float, dy: float) -> Point:
    return Point(at.x + dx, at.y + dy)


def _datum_lines(window: Window, box: Box, page: Box) -> Iterator[Stroke]:
    """Heavy lines off the datum edge and the datum end, where the box has them."""
    x0, y0, x1, y1 = page
    if box[1] <= 0.0:
        yield Stroke("datum-edge", Line(Point(x0, y0 - _OFF), Point(x1, y0 - _OFF)))
        at = Point(x0 - 1.0, y0 - _OFF)
        yield Stroke("text", Text(at, words.DATUM_EDGE, _SMALL, 0.0, "right", "middle", True))
    else:
        said = words.edge_away(mm(box[1]))
        yield Stroke("text", Text(Point(x0, y0 - below_room(window, box) + 1.0), said, _SMALL))
    for there, x, side in (
        (box[0] <= 0.0, x0, -1.0),
        (box[2] >= window.part.length, x1, 1.0),
    ):
        if there and (side < 0.0) == window.left:
            end = x + side * _OFF
            yield Stroke("datum-edge", Line(Point(end, y0), Point(end, y1)))


def _tape(window: Window, box: Box, page: Box, marks: str) -> Iterator[Stroke]:
    """What ties the paper to the nearest end: the end itself, or a line past both edges."""
    ends = sorted((window.from_datum(box[0]), window.from_datum(box[2])))
    said = words.stretch(marks, window.number, window.of, *map(mm, ends))
    yield _above(said, page, 6.0, (page[0] + page[2]) / 2.0, True)
    at = tape_line(window, box)
    if at is None:
        yield from _end_words(window, box, page)
        return
    from_datum, length = window.from_datum(at), window.part.length
    near = min(from_datum, length - from_datum)
    end = words.DATUM_END if near == from_datum else words.OTHER_END
    x = page[0] + at - box[0]
    yield from steel_tape_line(x, page[1] - 1.0, page[3] + 2.0)
    taken = [_place(window, s).y for s in (*window.spots, *window.pockets)
             if abs(_place(window, s).x - at) < 12.0]  # fmt: skip
    yield from _on_line(mm(near), Point(x - 0.7, page[1]), page[3] - page[1], taken)
    yield _above(words.tape_line(mm(near), end), page, 2.6, x)


def steel_tape_line(x: float, low: float, high: float) -> Iterator[Stroke]:
    """A plain line with a dart at each end, as no other line has."""
    yield Stroke("visible-edge", Line(Point(x, low), Point(x, high)))
    for tip, way in ((low, 1.0), (high, -1.0)):
        dart = closed(((x, tip, 0.0), (x + 0.9 * way, tip + 2.0 * way, 0.0),
                       (x - 0.9 * way, tip + 2.0 * way, 0.0)))  # fmt: skip
        yield Stroke("visible-edge", Closed(dart))


def _on_line(near: str, foot: Point, high: float, taken: Sequence[float]) -> Iterator[Stroke]:
    """Words along the line where they cover no mark; none where there is no room."""
    said = words.ON_TAPE_LINE.format(near)
    long = text_width(said, _SMALL) + 4.0
    for share in (0.62, 0.78, 0.4, 0.5, 0.25, 0.7, 0.85):
        middle = share * high
        clear = all(abs(middle - y) > long / 2.0 + 7.0 for y in taken)
        if clear and long / 2.0 < middle < high - long / 2.0:
            at = Point(foot.x, foot.y + middle)
            yield Stroke("text", Text(at, said, _SMALL, 90.0, "middle"))
            return


def _end_words(window: Window, box: Box, page: Box) -> Iterator[Stroke]:
    for there, x, side in (
        (box[0] <= 0.0, page[0], -1.0),
        (box[2] >= window.part.length, page[2], 1.0),
    ):
        if there:
            datum = (side < 0.0) == window.left
            yield _above(words.DATUM_END if datum else words.OTHER_END, page, 2.6, x, datum)


def _above(said: str, page: Box, up: float, x: float, bold: bool = False) -> Stroke:
    """Words above a stretch as near to x as its cell allows."""
    half = text_width(said, _SMALL) * (BOLDER if bold else 1.0) / 2.0
    spare = max((_LEAST - LEFT - RIGHT - (page[2] - page[0])) / 2.0, 0.0)
    low, high = page[0] - LEFT - spare + half, page[2] + RIGHT + spare - half
    at = Point(min(max(x, low), max(high, low)), page[3] + up)
    return Stroke("text", Text(at, said, _SMALL, 0.0, "middle", bold=bold))


def _register(marks: Iterable[Mark], dx: float, dy: float) -> Iterator[Stroke]:
    for mark in marks:
        at = Point(mark.at.x + dx, mark.at.y + dy)
        yield Stroke("thin-line", Circle(at, 2.5))
        yield Stroke("thin-line", Cross(at, 9.0))
        yield Stroke("text", Text(Point(at.x + 2.4, at.y + 2.4), mark.name, 1.8))


def _distances(window: Window, box: Box, page: Box) -> tuple[Stroke, ...]:
    """Tape distances: from the datum end under the stretch, from the datum edge at its left."""
    dx, dy = page[0] - box[0], page[1] - box[1]
    points = [_place(window, s) for s in marks_below(window, box)]
    points += corners(window, box)
    tie = tape_line(window, box)
    xs = {round(p.x, 3) for p in points} | ({tie} if tie is not None else set())
    xs |= {x for x in (0.0, window.part.length) if box[0] <= x <= box[2]}
    ys = {round(p.y, 3) for p in points}
    ys |= {y for y in (window.part.width,) if box[1] <= y <= box[3]}
    level = [(x + dx, window.from_datum(x)) for x in sorted(_distinct(xs))]
    upright = [(y + dy, y) for y in sorted(_distinct(ys)) if y > 0.05]
    return (
        *below(level, page[1] - _OFF - 0.8, _DROP),
        *beside(upright, page[0] - _OFF - 0.8),
    )


def _distinct(values: Iterable[float]) -> Iterator[float]:
    """The values, those that read the same to 0.1 mm only once."""
    seen: set[str] = set()
    for value in sorted(values):
        if mm(value) not in seen:
            seen.add(mm(value))
            yield value


def _inside(
    window: Window, box: Box, page: Box, outline: Outline, drawn: Sequence[Stroke], said: str
) -> tuple[Stroke, ...]:
    """Labels of holes and radii, and the tag."""
    dx, dy = page[0] - box[0], page[1] - box[1]
    here = [(s, _moved(_place(window, s), dx, dy)) for s in marks_below(window, box)]
    crosses, arcs = radii(outline, page, [at for _, at in here])
    wanted = [spot_label(s, at, window.part) for s, at in here]
    beside = (s for s in window.pockets if within(_place(window, s), box))
    wanted += [pocket_label(s, _moved(_place(window, s), dx, dy)) for s in beside]
    taken = (*drawn, *crosses)
    put = put_labels((*wanted, *arcs), outline, page, taken)
    return (*crosses, *put, *tag(said, outline, page, (*taken, *put)))
