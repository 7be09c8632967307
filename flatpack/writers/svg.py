"""SVG at full size: width and height in mm and one user unit to the mm, so that it prints 1 : 1.

Strokes stand in one group a layer.  A sheet painted back to front (it has filled shapes) keeps
the order of its strokes instead, and a layer then has as many groups as it takes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from itertools import groupby
from pathlib import Path

from flatpack.drawings.layers import LINES, Layer, LayerSet
from flatpack.drawings.plain import PlainStroke, plain_strokes
from flatpack.drawings.shapes import Closed, Drawing
from flatpack.frozen import frozen
from flatpack.writers.numerals import short as n
from flatpack.writers.palette import web_colour
from flatpack.writers.svg_shapes import ELEMENT, Page, escaped

_SHELL = Path(__file__).with_name("templates") / "shell.svg.txt"


@frozen
class Style:
    """How an SVG looks: font families in order of choice, and whether to draw all in black.

    `weight` multiplies every line's weight, for a printer that draws too thin or too thick.
    """

    fonts: str = "Helvetica, Arial, Liberation Sans, DejaVu Sans, sans-serif"
    black: bool = False
    weight: float = 1.0


PLAIN = Style()


def render(drawing: Drawing, layers: LayerSet, style: Style = PLAIN) -> bytes:
    """The drawing as an SVG document in UTF-8.

    Raises:
        ValueError: text on a layer that may not carry it, or a number that isn't finite.
        KeyError: a layer that the table doesn't have.
    """
    painted = any(isinstance(s.shape, Closed) and s.shape.filled for s in drawing.strokes)
    strokes = plain_strokes(drawing, layers, once=not painted)
    if not painted:
        order = {layer.key: i for i, layer in enumerate(layers)}
        strokes = tuple(sorted(strokes, key=lambda s: order[s.layer]))
    x0, y0, x1, y1 = drawing.bounds
    notes = "; ".join(f"{label}: {value}" for label, value in drawing.notes)
    values = {
        "width": n(x1 - x0),
        "height": n(y1 - y0),
        "title": escaped(drawing.title),
        "desc": escaped(notes),
        "fonts": escaped(style.fonts),
        "body": "".join(_groups(strokes, layers, style, (x0, y1))),
    }
    return (_shell() % values).encode("utf-8")


@cache
def _shell() -> str:
    """The empty document, read once: data of this package, as its code is."""
    return _SHELL.read_text(encoding="ascii")


def _groups(
    strokes: Sequence[PlainStroke], layers: LayerSet, style: Style, corner: tuple[float, float]
) -> Iterator[str]:
    times: dict[str, int] = {}
    for key, run in groupby(strokes, key=lambda s: s.layer):
        times[key] = times.get(key, 0) + 1
        name = key if times[key] == 1 else f"{key}-{times[key]}"
        colour = "#000000" if style.black else web_colour(layers[key].colour)
        yield _opening(layers[key], name, colour, style)
        yield from _elements(run, Page(*corner, colour))
        yield "</g>\n"


def _elements(run: Iterable[PlainStroke], page: Page) -> Iterator[str]:
    for _, shape in run:
        yield ELEMENT[type(shape)](page, shape) + "\n"


def _opening(layer: Layer, name: str, colour: str, style: Style) -> str:
    attributes: Mapping[str, str] = {
        "id": name,
        "data-layer": layer.key,
        "data-name": escaped(layer.name),
        "fill": "none",
        "stroke": colour,
        "stroke-width": n(layer.weight * style.weight),
        "stroke-linejoin": "round",
    }
    written = "".join(f' {key}="{value}"' for key, value in attributes.items())
    dashes = " ".join(n(k * layer.weight * style.weight) for k in LINES[layer.line])
    # Round ends make a dot of half a line's width wide enough to print.
    dashed = f' stroke-dasharray="{dashes}" stroke-linecap="round"' if dashes else ""
    return f"<g{written}{dashed}>\n"
