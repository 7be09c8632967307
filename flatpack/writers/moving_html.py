"""A moving back as one HTML file that needs nothing else: pictures in SVG, a small script.

Each body's outline stands once in the file; every picture uses it with its own turns.  The hinge
axis is the pictures' origin, mm; y runs downwards in SVG, so turns are the other way round.
Without scripting the strip of stops and the table tell all; the control then stays hidden.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

from flatpack.drawings.moving import MovingPage
from flatpack.wording import english_moving as words
from flatpack.writers.moving_svg import defined, picture, shown_moment
from flatpack.writers.moving_travel import travel
from flatpack.writers.page_html import facts_list, titled_table
from flatpack.writers.svg_shapes import escaped

_TEMPLATES = Path(__file__).with_name("templates")


def render(page: MovingPage, language: str = "en") -> bytes:
    """The page as HTML in UTF-8.

    Raises:
        ValueError: a number isn't finite.
    """
    return ("\n".join(_document(page, language)) + "\n").encode()


def _document(page: MovingPage, language: str) -> Iterator[str]:
    yield f'<!DOCTYPE html>\n<html lang="{escaped(language)}">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{escaped(page.title)}</title>\n<style>\n{_template('moving.css')}</style>"
    yield f"</head>\n<body>\n<main>\n<h1>{escaped(page.title)}</h1>"
    if page.warning:
        yield f'<p class="warning">{escaped(page.warning)}</p>'
    yield from facts_list(page.facts)
    yield defined(page)
    yield from _control(page)
    yield from _strip(page)
    yield from titled_table(page.table)
    yield "\n".join(
        f"<p>{escaped(line)}</p>" for line in (*page.notes, *_told(words.CAUTIONS, page))
    )
    yield f'<script type="application/json" id="travel">{travel(page)}</script>'
    yield f"<script>\n{_template('moving.js')}</script>\n</main>\n</body>\n</html>"


def _told(texts: Iterable[str], page: MovingPage) -> Iterator[str]:
    return (words.told(text, page) for text in texts)


def _control(page: MovingPage) -> Iterator[str]:
    """Picture, slider, buttons and clearances; the script shows them."""
    yield '<section id="move" aria-labelledby="moving" hidden><h2 id="moving">'
    yield f"{escaped(words.told(words.MOVE, page))}</h2>"
    yield '<div class="stage"><div>'
    yield f"<figure>{shown_moment(page)}<figcaption>{escaped(words.PICTURE)}</figcaption></figure>"
    last = len(page.moments) - 1
    yield f'<label for="position">{escaped(words.SLIDER)}</label>'
    yield (
        f'<input type="range" id="position" min="0" max="{last}" step="1" value="0"'
        ' autocomplete="off" aria-describedby="keys">'
    )
    yield f'<p class="help" id="keys">{escaped(words.told(words.SLIDER_HELP, page))}</p>'
    yield f'<div class="controls" role="group" aria-label="{escaped(words.GO_TO)}">'
    for stop in page.stops:
        yield (
            f'<button type="button" value="{stop.moment}" aria-pressed="false">'
            f"{escaped(stop.name)}</button>"
        )
    yield "</div></div><div>"
    yield from _readings(page)
    yield "</div></div></section>"


def _readings(page: MovingPage) -> Iterator[str]:
    labels = (
        (words.told(words.BACK_ANGLE, page), "angle"),
        (words.ROD_STATE, "rod-state"),
        (words.NEAREST, "nearest"),
    )
    yield "<dl>"
    yield from (f'<dt>{escaped(t)}</dt><dd id="{key}"></dd>' for t, key in labels)
    yield "</dl>"
    if not page.pairs:
        return
    heads = "".join(f'<th scope="col">{escaped(t)}</th>' for t in words.CLEARANCE_HEADER)
    yield (
        '<div class="scroll" role="region" tabindex="0" aria-labelledby="clear">'
        f'<table class="gaps"><caption id="clear">{escaped(words.CLEARANCES)}</caption>'
    )
    yield f"<thead><tr>{heads}</tr></thead>\n<tbody>"
    for pair in page.pairs:
        yield (
            f'<tr><th scope="row">{escaped(pair.title)}</th><td class="number here"></td>'
            f'<td class="number">{pair.least + 0.0:.1f}</td><td>{escaped(pair.at)}</td></tr>'
        )
    yield "</tbody></table></div>"


def _strip(page: MovingPage) -> Iterator[str]:
    yield f'<section aria-labelledby="all"><h2 id="all">{escaped(words.STRIP)}</h2>'
    yield '<ol class="strip">'
    for stop in page.stops:
        lines = "".join(f"<span>{escaped(line)}</span>" for line in stop.lines)
        yield (
            f"<li><figure>{picture(page, stop)}"
            f"<figcaption><strong>{escaped(stop.name)}</strong>{lines}</figcaption></figure></li>"
        )
    yield "</ol></section>"


@cache
def _template(name: str) -> str:
    return (_TEMPLATES / name).read_text(encoding="utf-8")
