"""A build book as PDF: A4 pages of vectors and text, the same words and pictures as the HTML."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import zip_longest

from flatpack.drawings.book.content import Book, Para, Rows
from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.shapes import Drawing, Line, Stroke, Text
from flatpack.geometry import Point
from flatpack.wording import book_english as words
from flatpack.writers.book_slabs import BODY, WIDE, Slab, heading, moved, slabs
from flatpack.writers.pdf import PdfPage
from flatpack.writers.pdf import render as pdf

_PAPER = (210.0, 297.0)
_LEFT, _TOP, _BOTTOM = 15.0, 280.0, 20.0
_ROOMY = 0.75
"""A step begins a page unless so much of the last one is still free."""
_FOOT, _WARNING = 2.0, 3.2


def render(book: Book) -> bytes:
    """The book as PDF.

    Raises:
        ValueError: a number in a picture isn't finite.
    """
    pages = laid(tuple(_slabs(book)), _TOP - _BOTTOM)
    drawn = (_page(book, page, n, len(pages)) for n, page in enumerate(pages, 1))
    return pdf([PdfPage(d) for d in drawn], DEFAULT_LAYERS, book.title, book.foot, book.language)


def _slabs(book: Book) -> Iterator[Slab]:
    yield from heading(book.title, 5.0)
    for label, value in book.facts:
        value_text = Text(Point(38.0, -3.2), value, BODY)
        label_text = Text(Point(0.0, -3.2), label, BODY, bold=True)
        yield Slab(BODY * 2.0, (Stroke("text", label_text), Stroke("text", value_text)))
    for chapter in book.chapters:
        first, *rest = heading(chapter.title, 4.0)
        rule = Stroke("outline", Line(Point(0.0, 0.0), Point(WIDE, 0.0)))
        yield first
        yield from rest[:-1]
        yield Slab(4.0, (rule,), keep=True)
        for block, after in zip_longest(chapter.blocks, chapter.blocks[1:]):
            tied = isinstance(block, Para) and isinstance(after, Rows)
            yield from (s._replace(keep=True) if tied else s for s in slabs(block))


def laid(column: Sequence[Slab], room: float) -> list[list[Slab]]:
    """Slabs shared out over pages `room` high; tied ones stay together where a page holds them."""
    pages: list[list[Slab]] = [[]]
    left = room
    for run in _tied(column):
        need = sum(slab.height for slab in run)
        if need > left and not any(slab.strokes for slab in run):
            continue  # room after a block is of no use at the foot of a page
        if pages[-1] and ((run[0].page and left < room * _ROOMY) or need > left):
            pages.append([])
            left = room
        for slab in run:
            if slab.height > left and pages[-1]:
                pages.append([])
                left = room
            above = slab.head if not pages[-1] else ()
            pages[-1] += (*above, slab)
            left -= slab.height + sum(s.height for s in above)
    return pages


def _tied(column: Iterable[Slab]) -> Iterator[list[Slab]]:
    run: list[Slab] = []
    for slab in column:
        run.append(slab)
        if not slab.keep:
            yield run
            run = []
    if run:
        yield run


def _page(book: Book, page: Sequence[Slab], number: int, count: int) -> Drawing:
    strokes: list[Stroke] = []
    y = _TOP
    for slab in page:
        dx, dy = _LEFT + slab.shift[0], y + slab.shift[1]
        strokes += (moved(stroke, dx, dy) for stroke in slab.strokes)
        y -= slab.height
    strokes += _edges(book, number, count)
    bounds = (0.0, 0.0, *_PAPER)
    return Drawing(f"{book.name}-{number:02}", book.title, bounds, tuple(strokes))


def _edges(book: Book, number: int, count: int) -> Iterator[Stroke]:
    yield Stroke("text", Text(Point(_LEFT, 11.0), book.foot, _FOOT))
    place = words.page_of(number, count)
    yield Stroke("text", Text(Point(_LEFT + WIDE, 11.0), place, _FOOT, across="right"))
    if book.warning:
        at = Point(_LEFT, _TOP + 6.0)
        yield Stroke("text", Text(at, book.warning, _WARNING, bold=True))
