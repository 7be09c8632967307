"""A painted picture as one small SVG element, to stand in a page or by itself.

Faces that follow one another with the same tone stand in one group.  Places are written as steps
from one to the next: in a small picture these are short, which saves half the letters.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby, pairwise

from flatpack.drawings.shapes import Closed, Drawing
from flatpack.geometry import Point
from flatpack.writers.numerals import short as n
from flatpack.writers.svg_shapes import escaped

_LINE = 0.12
"""Width of all lines, mm."""


def render(drawing: Drawing) -> bytes:
    """The picture as SVG in UTF-8; only its closed, filled shapes are drawn.

    Raises:
        ValueError: a number isn't finite.
    """
    x0, y0, x1, y1 = drawing.bounds
    size = f'width="{n(x1 - x0)}mm" height="{n(y1 - y0)}mm"'
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {n(x1 - x0)} {n(y1 - y0)}"'
        f' role="img"><title>{escaped(drawing.title)}</title>'
        f'<g stroke="#000" stroke-width="{n(_LINE)}" stroke-linejoin="round">'
    )
    return f"{head}{''.join(_paths(drawing, Point(x0, y1)))}</g></svg>\n".encode()


def _paths(drawing: Drawing, corner: Point) -> Iterator[str]:
    # A path each: later faces hide earlier ones.
    closed = (s.shape for s in drawing.strokes if isinstance(s.shape, Closed) and s.shape.filled)
    for tone, run in groupby(closed, key=lambda shape: shape.tone):
        grey = f"#{round(tone * 255.0) * 0x10101:06x}"
        yield f'<g fill="{grey}">'
        yield from (f'<path d="{_steps(shape, corner)}"/>' for shape in run)
        yield "</g>"


def _steps(shape: Closed, corner: Point) -> str:
    points = [(p.x - corner.x, corner.y - p.y) for p in shape.outline.points]
    steps = [f"M{n(points[0][0])} {n(points[0][1])}l"]
    for before, after in pairwise(points):
        dx, dy = n(after[0] - before[0]), n(after[1] - before[1])
        steps.append(f"{dx} {dy} ")
    return "".join(steps).rstrip() + "z"
