"""A build book's blocks as slabs: stretches of a column that a page break never cuts.

Widths are those of the font that the file carries, so lines are broken where they will end.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

from flatpack.drawings.book.content import (
    Block,
    Caution,
    Figure,
    Items,
    Para,
    Rows,
    Subtitle,
)
from flatpack.drawings.shapes import Circle, Closed, Line, Stroke, Text
from flatpack.frozen import replace
from flatpack.geometry import Point
from flatpack.geometry.shapes import rectangle
from flatpack.writers.pdf_font import CAPITAL, width

WIDE = 180.0
"""Width of the column, mm: A4 less 15 on each side."""
BODY, SMALL = 2.3, 2.0
"""Capital heights of text and of tables, mm."""
_LEAD = 1.8
"""From one base line to the next, in capital heights."""
_INSET, _MARK = 4.0, 7.0
_WHOLE = 14
"""Tables of so few rows are kept on one page."""


class Slab(NamedTuple):
    """Strokes with the column's left edge at x = 0 and the slab's top at y = 0, going down.

    `keep` ties it to the next one; `head` is put above it when it comes first on a page; `page`
    begins a page.  `shift` is added to every place of the strokes.
    """

    height: float
    strokes: tuple[Stroke, ...]
    keep: bool = False
    head: tuple[Slab, ...] = ()
    page: bool = False
    shift: tuple[float, float] = (0.0, 0.0)


def slabs(block: Block) -> Iterator[Slab]:
    """A block as slabs."""
    return BLOCKS[type(block)](block)


def heading(text: str, size: float, page: bool = False) -> Iterator[Slab]:
    """A heading over the whole column, tied to what follows."""
    lines = broken(text, WIDE, size, True)
    yield Slab(size * 1.6, (), keep=True, page=page)
    yield from (_line(line, size, bold=True)._replace(keep=True) for line in lines)
    yield Slab(size * 0.5, (), keep=True)


def _line(text: str, size: float, x: float = 0.0, bold: bool = False) -> Slab:
    at = Point(x, -size * 1.3)
    return Slab(size * _LEAD, (Stroke("text", Text(at, text, size, bold=bold)),))


def broken(text: str, room: float, size: float, bold: bool = False) -> list[str]:
    """The text in lines no wider than `room`; a word that is wider is cut.

    Widths add up, as the font's letters are set without kerning.
    """
    lines: list[list[str]] = []
    left, space = 0.0, _wide(" ", size, bold)
    for word in (p for w in text.split() for p in _cut(w, room, size, bold)):
        wide = _wide(word, size, bold)
        if lines and wide + space <= left:
            lines[-1].append(word)
            left -= wide + space
        else:
            lines.append([word])
            left = room - wide
    return [" ".join(line) for line in lines] or [""]


def _cut(word: str, room: float, size: float, bold: bool) -> Iterator[str]:
    while len(word) > 1 and _wide(word, size, bold) > room:
        count = next(
            n for n in range(len(word) - 1, 0, -1) if n == 1 or _wide(word[:n], size, bold) <= room
        )
        yield word[:count]
        word = word[count:]
    yield word


@lru_cache(maxsize=4096)
def _wide(text: str, size: float, bold: bool = False) -> float:
    return width(text, bold) * size / CAPITAL


def _para(block: Para) -> Iterator[Slab]:
    yield from (_line(line, BODY) for line in broken(block.text, WIDE, BODY))
    yield Slab(BODY, ())


def _caution(block: Caution) -> Iterator[Slab]:
    """A heavy bar at the left; the whole of it on one page."""
    lines = [_line(t, BODY, _INSET) for t in broken(block.text, WIDE - _INSET, BODY)]
    height = sum(line.height for line in lines)
    bar = Closed(rectangle(1.2, height, 0.0, -height), True, 0.0)
    yield Slab(height + BODY, (Stroke("opening", bar), *_stacked(lines)))


def _items(block: Items) -> Iterator[Slab]:
    for number, text in enumerate(block.items, 1):
        mark = f"{number}." if block.numbered else "-"
        lines = [_line(t, BODY, _MARK) for t in broken(text, WIDE - _MARK, BODY)]
        first = lines[0]
        lines[0] = first._replace(strokes=(*_line(mark, BODY).strokes, *first.strokes))
        yield Slab(sum(line.height for line in lines) + BODY * 0.4, _stacked(lines))
    yield Slab(BODY, ())


def _stacked(lines: Iterable[Slab]) -> tuple[Stroke, ...]:
    y, found = 0.0, []
    for line in lines:
        found += [moved(stroke, 0.0, y) for stroke in line.strokes]
        y -= line.height
    return tuple(found)


def _figure(block: Figure) -> Iterator[Slab]:
    x0, y0, x1, y1 = block.drawing.bounds
    dx = (WIDE - (x1 - x0)) / 2.0 - x0
    yield Slab(y1 - y0, block.drawing.strokes, keep=True, shift=(dx, -y1))
    yield from _para(Para(block.caption))


def _rows(block: Rows) -> Iterator[Slab]:
    columns = _columns(block)
    title = tuple(s._replace(keep=True) for s in (_line(block.caption, BODY, bold=True),))
    head = _row(block.header, columns, frozenset(), bold=True)._replace(keep=True)
    yield from title
    yield head
    for left, row in enumerate(block.rows, 1 - len(block.rows)):
        tied = left < 0 and len(block.rows) <= _WHOLE
        yield _row(row, columns, block.numbers)._replace(head=(*title, head), keep=tied)
    yield Slab(BODY * 1.5, ())


def _columns(block: Rows) -> list[float]:
    """Widths by the longest text, narrowed towards the longest word on a page too narrow."""
    cells = list(zip(block.header, *block.rows, strict=True))
    pad = 2.4
    wish = [max(_wide(t, SMALL, True) for t in column) + pad for column in cells]
    least = [max(_wide(w, SMALL, True) for t in column for w in (t.split() or [""])) + pad
             for column in cells]  # fmt: skip
    over = sum(wish) - WIDE
    if over <= 0.0:
        return wish
    give = [a - b for a, b in zip(wish, least, strict=True)]
    share = min(over / sum(give), 1.0) if sum(give) else 0.0
    return capped([a - g * share for a, g in zip(wish, give, strict=True)], WIDE)


def capped(widths: Sequence[float], room: float) -> list[float]:
    """Widths that fill no more than the room: the widest give way, down to one width for them.

    Words in columns that are narrow anyway stay whole.
    """
    left, cap = room, max(widths)
    for number, own in enumerate(sorted(widths)):
        cap = left / (len(widths) - number)
        if own > cap:
            break
        left -= own
    else:
        return list(widths)
    return [min(w, cap) for w in widths]


def _row(
    row: tuple[str, ...], columns: list[float], numbers: frozenset[int], bold: bool = False
) -> Slab:
    rooms = [w - 2.0 for w in columns]
    texts = [broken(t, rooms[i], SMALL, bold or not i) for i, t in enumerate(row)]
    height = max(map(len, texts)) * SMALL * 1.7 + 1.4
    strokes: list[Stroke] = []
    x = 0.0
    for column, (lines, room) in enumerate(zip(texts, columns, strict=True)):
        tone = 0.9 if bold else 1.0
        strokes.append(Stroke("thin-line", Closed(rectangle(room, height, x, -height), True, tone)))
        for number, line in enumerate(lines):
            right = column in numbers
            at = Point(x + (room - 1.0 if right else 1.0), -0.7 - SMALL * (1.25 + 1.7 * number))
            side: Literal["left", "right"] = "right" if right else "left"
            strokes.append(
                Stroke("text", Text(at, line, SMALL, across=side, bold=bold or not column))
            )
        x += room
    return Slab(height, tuple(strokes))


def _subtitle(block: Subtitle) -> Iterator[Slab]:
    return heading(block.text, 3.2, block.page)


def moved(stroke: Stroke, dx: float, dy: float) -> Stroke:
    """A stroke shifted; pictures and text know no other shapes than these."""
    shape = stroke.shape
    if isinstance(shape, Closed):
        return Stroke(stroke.layer, replace(shape, outline=shape.outline.moved(dx, dy)))
    if isinstance(shape, Line):
        a, b = (Point(p.x + dx, p.y + dy) for p in (shape.start, shape.end))
        return Stroke(stroke.layer, Line(a, b))
    if isinstance(shape, Circle):
        return Stroke(stroke.layer, Circle(Point(shape.centre.x + dx, shape.centre.y + dy),
                                           shape.radius))  # fmt: skip
    if isinstance(shape, Text):
        return Stroke(stroke.layer, replace(shape, at=Point(shape.at.x + dx, shape.at.y + dy)))
    raise TypeError(f"a book's page has no {type(shape).__name__}")


BLOCKS: Mapping[type[Block], Callable[..., Iterator[Slab]]] = {
    Para: _para,
    Caution: _caution,
    Items: _items,
    Figure: _figure,
    Rows: _rows,
    Subtitle: _subtitle,
}
