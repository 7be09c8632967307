"""A build book as one HTML file that needs nothing else: no network, no script, no font file.

Pictures are inline SVG with a title and a description; each scrolls nowhere and shrinks with the
page.  On paper (A4) a step begins a page, and table heads repeat.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import count, groupby

from flatpack.drawings.book.content import (
    Block,
    Book,
    Caution,
    Chapter,
    Figure,
    Items,
    Para,
    Rows,
    Subtitle,
)
from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.plain import plain_strokes
from flatpack.writers.numerals import short as n
from flatpack.writers.palette import web_colour
from flatpack.writers.svg_shapes import ELEMENT, Page, escaped

# Cautions and the warning are told by frame and words, so that they survive a black-and-white
# print.  All text is black or dark grey on white: contrast well over 7 : 1.
_STYLE = """\
:root { color-scheme: light; }
body { font: 1rem/1.5 Helvetica, Arial, "Liberation Sans", sans-serif; margin: 0 auto;
  padding: 0 1rem 3rem; max-width: 52rem; color: #000; background: #fff; }
h1 { font-size: 1.8rem; line-height: 1.2; margin: 1rem 0 .5rem; }
h2 { font-size: 1.4rem; border-bottom: .15rem solid #000; margin: 2.5rem 0 .8rem; }
h3 { font-size: 1.15rem; margin: 2rem 0 .5rem; }
p, li { max-width: 42rem; } li { margin: .35rem 0; }
a { color: #00408a; } a:focus-visible, [tabindex]:focus-visible { outline: .2rem solid #00408a; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .15rem 1rem; margin: 0; }
dt { font-weight: bold; } dd { margin: 0; }
.warning { border: .25rem solid #000; padding: .5rem; font-size: 1.3rem; font-weight: bold; }
.caution { border-left: .4rem solid #000; background: #f1f1f1; padding: .4rem .8rem; }
figure { margin: 1rem 0; } figcaption { font-style: italic; }
svg { display: block; width: 100%; max-width: 46rem; height: auto; max-height: 36rem; }
.table { overflow-x: auto; margin: .8rem 0; }
table { border-collapse: collapse; font-size: .9rem; }
caption { text-align: left; font-weight: bold; padding: .2rem 0; }
th, td { border: 1px solid #555; padding: .2rem .5rem; text-align: left; vertical-align: top; }
.short { white-space: nowrap; }
thead th { background: #eee; } tbody th { font-weight: bold; } .number { text-align: right; }
.foot { border-top: 1px solid #555; margin-top: 3rem; font-size: .85rem; }
@media (max-width: 30rem) { dl { grid-template-columns: 1fr; } dd { margin-bottom: .4rem; } }
@media print {
  @page { size: A4; margin: 15mm 15mm 18mm; }
  body { max-width: none; padding: 0; font-size: 9.5pt; line-height: 1.35; }
  nav ul { columns: 2; } li { margin: .15rem 0; } td, th { padding: .1rem .4rem; }
  a { color: #000; text-decoration: none; }
  h2, h3, caption { break-after: avoid; } .page { break-before: page; }
  figure, tr, li, .caution, .whole { break-inside: avoid; } .table { overflow: visible; }
  thead { display: table-header-group; } svg { max-height: 84mm; max-width: 150mm; }
}
"""
_WHOLE = 14
"""Tables of so few rows are kept on one page."""
_SHORT = 12
"""Cells of so few letters are never broken over lines."""


def render(book: Book) -> bytes:
    """The book as HTML in UTF-8.

    Raises:
        ValueError: a number in a picture isn't finite.
    """
    return ("\n".join(_document(book)) + "\n").encode()


def _document(book: Book) -> Iterator[str]:
    title = escaped(book.title)
    yield f'<!DOCTYPE html>\n<html lang="{escaped(book.language)}">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{title}</title>\n<style>\n{_STYLE}</style>\n</head>\n<body>"
    warning = f'<p class="warning">{escaped(book.warning)}</p>' if book.warning else ""
    yield f"<header>\n<h1>{title}</h1>\n{warning}\n<dl>"
    yield from (f"<dt>{escaped(a)}</dt><dd>{escaped(b)}</dd>" for a, b in book.facts)
    yield "</dl>\n</header>"
    yield from _contents(book)
    yield "<main>"
    numbers = count(1)
    for chapter in book.chapters:
        yield from _chapter(chapter, numbers, warning)
    yield f'</main>\n<footer class="foot">{warning}<p>{escaped(book.foot)}</p></footer>'
    yield "</body>\n</html>"


def _contents(book: Book) -> Iterator[str]:
    yield f'<nav aria-labelledby="contents">\n<h2 id="contents">{escaped(book.contents)}</h2>\n<ol>'
    for chapter in book.chapters:
        steps = [b for b in chapter.blocks if isinstance(b, Subtitle)]
        below = "".join(
            f'<li><a href="#{chapter.key}-{i}">{escaped(s.text)}</a></li>'
            for i, s in enumerate(steps, 1)
        )
        nested = f"\n<ul>{below}</ul>" if below else ""
        yield f'<li><a href="#{chapter.key}">{escaped(chapter.title)}</a>{nested}</li>'
    yield "</ol>\n</nav>"


def _chapter(chapter: Chapter, numbers: Iterator[int], warning: str) -> Iterator[str]:
    key = chapter.key
    yield f'<section aria-labelledby="{key}">\n<h2 id="{key}">{escaped(chapter.title)}</h2>'
    if warning:
        yield warning
    subtitles = count(1)
    for block in chapter.blocks:
        if isinstance(block, Subtitle):
            page = ' class="page"' if block.page else ""
            yield f'<h3 id="{key}-{next(subtitles)}"{page}>{escaped(block.text)}</h3>'
        else:
            yield from BLOCKS[type(block)](block, f"{key}-b{next(numbers)}")
    yield "</section>"


def _para(block: Para, key: str) -> Iterator[str]:
    yield f"<p>{escaped(block.text)}</p>"


def _caution(block: Caution, key: str) -> Iterator[str]:
    yield f'<p class="caution">{escaped(block.text)}</p>'


def _items(block: Items, key: str) -> Iterator[str]:
    tag = "ol" if block.numbered else "ul"
    yield f"<{tag}>"
    yield from (f"<li>{escaped(text)}</li>" for text in block.items)
    yield f"</{tag}>"


def _rows(block: Rows, key: str) -> Iterator[str]:
    """A wide table scrolls by itself on a phone; such a region must take the keyboard's focus."""
    kept = " whole" if len(block.rows) <= _WHOLE else ""
    yield f'<div class="table{kept}" role="region" aria-labelledby="{key}" tabindex="0"><table>'
    yield f'<caption id="{key}">{escaped(block.caption)}</caption>'
    heads = "".join(f'<th scope="col">{escaped(name)}</th>' for name in block.header)
    yield f"<thead><tr>{heads}</tr></thead>\n<tbody>"
    for row in block.rows:
        short = ' class="short"' if len(row[0]) <= _SHORT else ""
        first = f'<th scope="row"{short}>{escaped(row[0])}</th>'
        yield f"<tr>{first}{''.join(_cells(row[1:], block.numbers))}</tr>"
    yield "</tbody></table></div>"


def _cells(row: Iterable[str], numbers: frozenset[int]) -> Iterator[str]:
    for column, text in enumerate(row, 1):
        kinds = (
            *(["number"] if column in numbers else []),
            *(["short"] if len(text) <= _SHORT else []),
        )
        css = f' class="{" ".join(kinds)}"' if kinds else ""
        yield f"<td{css}>{escaped(text)}</td>"


def _figure(block: Figure, key: str) -> Iterator[str]:
    drawing = block.drawing
    x0, y0, x1, y1 = drawing.bounds
    yield (
        f'<figure>\n<svg viewBox="0 0 {n(x1 - x0)} {n(y1 - y0)}" role="img" '
        f'aria-labelledby="{key}-t {key}-d" font-family="Helvetica, Arial, sans-serif">'
        f'<title id="{key}-t">{escaped(drawing.title)}</title>'
        f'<desc id="{key}-d">{escaped(block.alt)}</desc>'
    )
    for layer, run in groupby(
        plain_strokes(drawing, DEFAULT_LAYERS, once=False), lambda s: s.layer
    ):
        style = DEFAULT_LAYERS[layer]
        colour = web_colour(style.colour)
        yield (
            f'<g fill="none" stroke="{colour}" stroke-width="{n(style.weight)}" '
            'stroke-linejoin="round">'
        )
        page = Page(x0, y1, "#000000")
        yield from (ELEMENT[type(shape)](page, shape) for _, shape in run)
        yield "</g>"
    yield f"</svg>\n<figcaption>{escaped(block.caption)}</figcaption>\n</figure>"


BLOCKS: Mapping[type[Block], Callable[..., Iterator[str]]] = {
    Para: _para,
    Caution: _caution,
    Items: _items,
    Rows: _rows,
    Figure: _figure,
}
