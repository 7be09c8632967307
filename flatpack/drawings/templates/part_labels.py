"""Labels to stick on parts as they come off the saw: one for each part and bar.

+---------------------------+
| A-L   Side rail, left hand|
|       1960 x 130 x 17.9   |
| 1 of 1, left side         |
| mark out on the back face |
| meets B, C, E, F, G-L     |
| Garden lounger 7K3M-9QXA  |
+---------------------------+
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.faces import worked_faces
from flatpack.drawings.figures import mm
from flatpack.drawings.lettering import text_width
from flatpack.drawings.marks import BarGroup, PartGroup, marks_by_key
from flatpack.drawings.ruled import fitted
from flatpack.drawings.shapes import Closed, Stroke, Text
from flatpack.drawings.templates.wrapping import BOLDER, wrapped
from flatpack.geometry import Point
from flatpack.geometry.shapes import rectangle
from flatpack.model import Assembly, Bar, Part, placed_corners
from flatpack.wording import english as part_words
from flatpack.wording import english_templates as words

WIDE, HIGH = 58.0, 32.0
"""Least size of a label, mm."""
_INSET = 2.0


class Label(NamedTuple):
    """What a label says: the mark, the heading, and lines below."""

    mark: str
    heading: str
    size: str
    lines: tuple[str, ...]


def labels(
    assembly: Assembly, found: tuple[PartGroup, ...], bars: tuple[BarGroup, ...], tail: str
) -> tuple[Label, ...]:
    """One label a part, in the order of the marks; `tail` is the piece with its code."""
    known = _Known(assembly, marks_by_key(found), _sides(assembly), tail)
    made = [_part_label(known, group, number) for group in found for number in range(group.count)]
    made += [_bar_label(g, number, tail) for g in bars for number in range(g.count)]
    return tuple(made)


class _Known(NamedTuple):
    assembly: Assembly
    marks: dict[str, str]
    sides: dict[str, str]
    tail: str


def _part_label(known: _Known, group: PartGroup, number: int) -> Label:
    assembly, marks, sides, tail = known
    part = assembly.parts[group.keys[number]]
    hand = part_words.HANDS[part.hand]
    heading = ", ".join(t for t in (part.name, hand) if t)
    of = words.number_of(number + 1, group.count)
    lines = [", ".join((of, words.side_of(sides[part.key])))]
    lines.append(words.worked_on(worked_faces(part)[0]) if part.features else words.UNWORKED)
    met = sorted({marks[k] for pair in assembly.mates if part.key in pair
                  for k in pair if k != part.key and k in marks})  # fmt: skip
    step = _step(assembly, part.key)
    lines.append("; ".join(t for t in (step, words.goes_with(", ".join(met)) if met else "") if t))
    size = words.size(mm(part.length), mm(part.width), mm(part.thickness))
    return Label(group.mark, heading, size, (*filter(None, lines), tail))


def _bar_label(group: BarGroup, number: int, tail: str) -> Label:
    bar: Bar = group.bar
    of = words.number_of(number + 1, group.count)
    lines = (of, bar.fit, bar.stock.name, tail)
    size = words.bar_size(mm(bar.stock.diameter), mm(bar.length))
    return Label(group.mark, bar.name, size, tuple(filter(None, lines)))


def _step(assembly: Assembly, key: str) -> str:
    """Title of the first step at which the part is joined."""
    titles = {step.key: step.title for step in assembly.steps}
    return next((titles.get(j.step, "") for j in assembly.joints if key in j.parts), "")


def _sides(assembly: Assembly) -> dict[str, str]:
    """Left or right third of the piece's width, or neither, for every part."""
    spans = {key: _across(part) for key, part in assembly.parts.items()}
    low, high = min(a for a, _ in spans.values()), max(b for _, b in spans.values())
    shares = {key: (sum(own) / 2.0 - low) / (high - low) for key, own in spans.items()}
    return {k: "left" if m < 1 / 3 else "right" if m > 2 / 3 else "" for k, m in shares.items()}


def _across(part: Part) -> tuple[float, float]:
    places = [corner.y for corner in placed_corners(part)]
    return min(places), max(places)


def grid(room: tuple[float, float]) -> tuple[int, int]:
    """Columns and rows of labels on a content."""
    return max(int(room[0] / WIDE), 1), max(int(room[1] / HIGH), 1)


def label_strokes(
    label: Label, x: float, y: float, width: float, height: float
) -> Iterator[Stroke]:
    """A label with its lower left at x, y."""
    yield Stroke("thin-line", Closed(rectangle(width, height, x, y)))
    top, room = y + height - _INSET, width - 2.0 * _INSET
    yield Stroke("text", Text(Point(x + _INSET, top), label.mark, 7.0, up="top", bold=True))
    taken = text_width(label.mark, 7.0) * BOLDER + 2.0
    narrow = (room - taken) / BOLDER
    right = Point(x + _INSET + taken, top)
    beside = (*wrapped(label.heading, narrow, 2.5)[:2], label.size)
    for i, line in enumerate(beside):
        at = Point(right.x, right.y - i * 3.6)
        yield Stroke("text", Text(at, fitted(line, narrow, 2.5), 2.5, up="top", bold=True))
    below = top - 11.5
    for line in [part for whole in label.lines for part in wrapped(whole, room, 1.8)][:6]:
        yield Stroke("text", Text(Point(x + _INSET, below), line, 1.8, up="top"))
        below -= 2.9
