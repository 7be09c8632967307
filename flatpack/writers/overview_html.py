"""The overview of many variants as HTML that needs nothing else, written row by row.

Without a script it is a plain table; the script turns the heads into buttons that sort.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from urllib.parse import quote

from flatpack.drawings.page import Cell
from flatpack.frozen import frozen
from flatpack.writers.numerals import short
from flatpack.writers.svg_shapes import escaped

_TEMPLATES = Path(__file__).with_name("templates")
_LONG = 30
"""Texts of more letters get a wide column."""


@frozen
class Overview:
    """What stands above the rows; `pages` are (label, file) of all pages when there are several."""

    title: str
    lines: tuple[str, ...]
    header: tuple[str, ...]
    sort: str
    pages: tuple[tuple[str, str], ...] = ()


@frozen
class Line:
    """A variant: `link` is its folder, `picture` an SVG element; either may be empty."""

    name: str
    link: str
    state: str
    bad: bool
    cells: tuple[Cell, ...]
    problem: str
    picture: str


def head(page: Overview, language: str = "en") -> bytes:
    """All that stands before the rows."""
    return ("\n".join(_head(page, language)) + "\n").encode()


def _head(page: Overview, language: str) -> Iterator[str]:
    title = escaped(page.title)
    yield f'<!DOCTYPE html>\n<html lang="{escaped(language)}">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{title}</title>\n<style>\n{_template('overview.css')}</style>\n</head>"
    yield f"<body>\n<main>\n<h1>{title}</h1>"
    yield from (f"<p>{escaped(text)}</p>" for text in page.lines)
    yield f'<p class="script" hidden>{escaped(page.sort)}</p>'
    if page.pages:
        links = (f'<li><a href="{quote(f)}">{escaped(label)}</a></li>' for label, f in page.pages)
        yield f"<nav><ul>{''.join(links)}</ul></nav>"
    yield f'<div class="table" role="region" aria-label="{title}" tabindex="0"><table>'
    heads = "".join(f'<th scope="col">{escaped(name)}</th>' for name in page.header)
    yield f"<thead><tr>{heads}</tr></thead>\n<tbody>"


def line(row: Line) -> bytes:
    """One variant.

    Raises:
        ValueError: a number isn't finite.
    """
    name = escaped(row.name)
    # A name such as "a:b" is refused elsewhere; "./" keeps any from being read as a scheme.
    linked = f'<a href="./{quote(row.link)}">{name}</a>' if row.link else name
    css = ' class="bad"' if row.bad else ""
    state = f"<td{css}>{escaped(row.state)}</td>"
    cells = "".join(map(_cell, row.cells))
    problem = f'<td class="long">{escaped_lines(row.problem)}</td>'
    picture = row.picture.strip()
    named = f'<th scope="row">{linked}</th>'
    return f"<tr><td>{picture}</td>{named}{state}{cells}{problem}</tr>\n".encode()


def tail() -> bytes:
    """All that stands after the rows."""
    script = f"<script>\n{_template('overview.js')}</script>"
    return f"</tbody></table></div>\n{script}\n</main>\n</body>\n</html>\n".encode()


def escaped_lines(text: str) -> str:
    """Text of several lines, which the page shows as such."""
    return "\n".join(map(escaped, text.splitlines()))


def _cell(value: Cell) -> str:
    if isinstance(value, str):
        css = ' class="long"' if len(value) > _LONG else ""
        return f"<td{css}>{escaped(value)}</td>"
    return f'<td class="number">{short(value)}</td>'


@cache
def _template(name: str) -> str:
    return (_TEMPLATES / name).read_text(encoding="utf-8")
