"""The content of one PDF page: plain shapes as path and text operators, in the drawing's mm.

One matrix at the head of the page brings mm to points (1/72 inch), so the numbers in the file
are those of the drawing.  Arcs become cubic curves, none over 30 degrees: such a curve leaves
its circle by less than a two-millionth of the radius (control arms 4/3 tan(sweep/4)).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import groupby

from flatpack.drawings.ellipses import is_whole, sweep_of
from flatpack.drawings.layers import LINES, Layer, LayerSet
from flatpack.drawings.lettering import text_base
from flatpack.drawings.plain import Plain, PlainStroke, plain_strokes
from flatpack.drawings.shapes import Circle, Closed, Drawing, Ellipse, Line, Path, Text
from flatpack.geometry import Point, Segment, cosine_sine
from flatpack.writers.numerals import short as n
from flatpack.writers.palette import web_colour
from flatpack.writers.pdf_font import CAPITAL, glyphs, width

POINTS = 72.0 / 25.4
"""Points in a millimetre."""
_STEP = math.radians(30.0)
_ACROSS = {"left": 0.0, "middle": 0.5, "right": 1.0}
Used = Mapping[bool, set[int]]
"""Glyphs in use, of the regular (False) and the bold font."""


def content(drawing: Drawing, layers: LayerSet, size: tuple[float, float], used: Used) -> bytes:
    """The page's operators; notes the glyphs that its text needs in `used`.

    `size` is the paper in mm: the drawing's bounds are stretched to it.

    Raises:
        ValueError: text on a layer that may not carry it, or a number that isn't finite.
        KeyError: a layer that the table doesn't have.
    """
    painted = any(isinstance(s.shape, Closed) and s.shape.filled for s in drawing.strokes)
    strokes = plain_strokes(drawing, layers, once=not painted)
    if not painted:
        order = {layer.key: i for i, layer in enumerate(layers)}
        strokes = tuple(sorted(strokes, key=lambda s: order[s.layer]))
    lines = (_matrix(drawing, size), "1 j", *_groups(strokes, layers, used))
    return "\n".join(lines).encode("ascii")


def _matrix(drawing: Drawing, size: tuple[float, float]) -> str:
    x0, y0, x1, y1 = drawing.bounds
    across, up = size[0] * POINTS / (x1 - x0), size[1] * POINTS / (y1 - y0)
    return f"{across:.9f} 0 0 {up:.9f} {n(-x0 * across)} {n(-y0 * up)} cm"


def _groups(strokes: Iterable[PlainStroke], layers: LayerSet, used: Used) -> Iterator[str]:
    for key, run in groupby(strokes, key=lambda s: s.layer):
        yield from _pen(layers[key])
        for _, shape in run:
            yield _text(shape, used) if isinstance(shape, Text) else PATHS[type(shape)](shape)


def _pen(layer: Layer) -> Iterator[str]:
    colour = web_colour(layer.colour)
    red, green, blue = (n(int(colour[i : i + 2], 16) / 255.0) for i in (1, 3, 5))
    yield f"{red} {green} {blue} RG {red} {green} {blue} rg {n(layer.weight)} w"
    dashes = [n(k * layer.weight) for k in LINES[layer.line]]
    # Round ends make a dot of half a line's width wide enough to print.
    yield f"[{' '.join(dashes)}] 0 d {int(bool(dashes))} J"


def _curve(start: Point, end: Point, leave: Point, reach: Point) -> str:
    """A cubic curve to `end`; `leave` and `reach` are its control arms as vectors."""
    first = f"{n(start.x + leave.x)} {n(start.y + leave.y)}"
    return f"{first} {n(end.x - reach.x)} {n(end.y - reach.y)} {n(end.x)} {n(end.y)} c"


def _ellipse_steps(
    centre: Point, a: Point, b: Point, start: float, sweep: float, end: Point | None = None
) -> Iterator[str]:
    """Curves along centre + a cos t + b sin t, from t = start through sweep (radians)."""
    count = max(1, math.ceil(abs(sweep) / _STEP - 1e-9))
    step = sweep / count
    arm = 4.0 / 3.0 * math.tan(step / 4.0)

    def spot(t: float, x: float = centre.x, y: float = centre.y) -> Point:
        c, s = math.cos(t), math.sin(t)
        return Point(x + a.x * c + b.x * s, y + a.y * c + b.y * s)

    for i in range(count):
        t, u = start + i * step, start + (i + 1) * step
        leave, reach = spot(t + math.pi / 2, 0.0, 0.0), spot(u + math.pi / 2, 0.0, 0.0)
        last = end if end is not None and i == count - 1 else spot(u)
        yield _curve(
            spot(t), last, Point(leave.x * arm, leave.y * arm), Point(reach.x * arm, reach.y * arm)
        )


def _steps(segments: Iterable[Segment]) -> Iterator[str]:
    for segment in segments:
        if segment.bulge == 0.0:
            yield f"{n(segment.end.x)} {n(segment.end.y)} l"
            continue
        at = segment.centre
        a = Point(segment.start.x - at.x, segment.start.y - at.y)
        yield from _ellipse_steps(at, a, Point(-a.y, a.x), 0.0, segment.sweep, segment.end)


def _move(point: Point) -> str:
    return f"{n(point.x)} {n(point.y)} m"


def _path(shape: Path) -> str:
    return " ".join((_move(shape.segments[0].start), *_steps(shape.segments), "S"))


def _closed(shape: Closed) -> str:
    segments = shape.outline.segments
    # "h" draws the last straight side itself: the corner isn't visited twice.
    last = -1 if segments[-1].bulge == 0.0 else None
    path = " ".join((_move(segments[0].start), *_steps(segments[:last]), "h"))
    return f"q {n(shape.tone)} g {path} B Q" if shape.filled else f"{path} S"


def _line(shape: Line) -> str:
    return f"{_move(shape.start)} {n(shape.end.x)} {n(shape.end.y)} l S"


def _circle(shape: Circle) -> str:
    r, at = shape.radius, shape.centre
    steps = _ellipse_steps(at, Point(r, 0.0), Point(0.0, r), 0.0, math.tau)
    return " ".join((_move(Point(at.x + r, at.y)), *steps, "h S"))


def _ellipse(shape: Ellipse) -> str:
    a = shape.major
    b = Point(-a.y * shape.ratio, a.x * shape.ratio)
    t, sweep = math.radians(shape.start), math.radians(sweep_of(shape))
    c, s = math.cos(t), math.sin(t)
    at = shape.centre
    first = Point(at.x + a.x * c + b.x * s, at.y + a.y * c + b.y * s)
    end = "h S" if is_whole(shape) else "S"
    return " ".join((_move(first), *_ellipse_steps(at, a, b, t, sweep), end))


PATHS: Mapping[type[Plain], Callable[..., str]] = {
    Closed: _closed,
    Path: _path,
    Line: _line,
    Circle: _circle,
    Ellipse: _ellipse,
}


def _text(shape: Text, used: Used) -> str:
    """A line of text on its base line; its width is the font's own, so that anchors hold."""
    size = shape.height / CAPITAL
    base, (c, s) = text_base(shape), cosine_sine(shape.turn)
    back = width(shape.text, shape.bold) * size * _ACROSS[shape.across]
    numbers = glyphs(shape.text)
    used[shape.bold].update(numbers)
    shown = "".join(f"{g:04X}" for g in numbers)
    place = " ".join(map(n, (c, s, -s, c, base.x - c * back, base.y - s * back)))
    return f"BT /F{int(shape.bold)} {n(size)} Tf {place} Tm <{shown}> Tj ET"
