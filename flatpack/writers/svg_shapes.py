"""SVG elements of plain shapes, as text.

y runs downwards in SVG: the writer turns coordinates over, not the picture, so that lettering
stays upright.  An arc that turns left in the drawing (bulge above 0) then has sweep flag 0.

    drawing  y ^            svg  +--> x
               +--> x            v y
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from flatpack.drawings.ellipses import at_parameter, is_whole, sweep_of
from flatpack.drawings.lettering import SIZE_PER_HEIGHT, text_base
from flatpack.drawings.plain import Plain
from flatpack.drawings.shapes import Circle, Closed, Ellipse, Line, Path, Text
from flatpack.geometry import Point, Segment
from flatpack.writers.numerals import short as n


class Page(NamedTuple):
    """The drawing's left and top edge, mm, and the colour that its lettering has."""

    left: float
    top: float
    colour: str


_CONTROL = dict.fromkeys((*range(32), 127, 65534, 65535), " ")
_ESCAPES = {ord("&"): "&amp;", ord("<"): "&lt;", ord(">"): "&gt;", ord('"'): "&quot;"}


def escaped(text: str) -> str:
    """Text for XML content or an attribute; characters that XML doesn't allow become spaces."""
    return text.translate(_CONTROL | _ESCAPES)


def _arc(page: Page, rx: float, ry: float, turn: float, flags: str, end: Point) -> str:
    return f"A{n(rx)} {n(ry)} {n(turn)} {flags} {n(end[0] - page.left)} {n(page.top - end[1])}"


def _start(page: Page, point: Point) -> str:
    return f"M{n(point[0] - page.left)} {n(page.top - point[1])}"


def _steps(page: Page, segments: Iterable[Segment]) -> str:
    left, top, parts = page.left, page.top, []
    for segment in segments:
        x, y = segment.end
        if segment.bulge == 0.0:
            parts.append(f"L{n(x - left)} {n(top - y)}")
        else:
            flags = f"{int(abs(segment.bulge) > 1.0)} {int(segment.bulge < 0.0)}"
            parts.append(_arc(page, segment.radius, segment.radius, 0.0, flags, segment.end))
    return "".join(parts)


def closed(page: Page, shape: Closed) -> str:
    """A closed path; its tone of grey inside when the shape is filled."""
    segments = shape.outline.segments
    # "Z" draws the last straight side itself: the corner isn't visited twice.
    last = -1 if segments[-1].bulge == 0.0 else None
    fill = f' fill="#{round(shape.tone * 255.0) * 0x10101:06x}"' if shape.filled else ""
    return f'<path{fill} d="{_start(page, segments[0].start)}{_steps(page, segments[:last])}Z"/>'


def path(page: Page, shape: Path) -> str:
    """An open path."""
    return f'<path d="{_start(page, shape.segments[0].start)}{_steps(page, shape.segments)}"/>'


def line(page: Page, shape: Line) -> str:
    """A straight line."""
    (x0, y0), (x1, y1) = shape.start, shape.end
    left, top = page.left, page.top
    return f'<line x1="{n(x0 - left)}" y1="{n(top - y0)}" x2="{n(x1 - left)}" y2="{n(top - y1)}"/>'


def circle(page: Page, shape: Circle) -> str:
    """A circle."""
    x, y = shape.centre
    return f'<circle cx="{n(x - page.left)}" cy="{n(page.top - y)}" r="{n(shape.radius)}"/>'


def ellipse(page: Page, shape: Ellipse) -> str:
    """A path of elliptical arcs; a whole ellipse in two halves, as an arc can't close on itself."""
    ax, ay = shape.major
    long = math.hypot(ax, ay)
    turn = -math.degrees(math.atan2(ay, ax))
    radii = (long, long * shape.ratio, turn)
    start = _start(page, at_parameter(shape, shape.start))
    if is_whole(shape):
        ends = (at_parameter(shape, shape.start + half) for half in (180.0, 360.0))
        arcs = "".join(_arc(page, *radii, "0 0", end) for end in ends)
        return f'<path d="{start}{arcs}Z"/>'
    flags = f"{int(sweep_of(shape) > 180.0)} 0"
    return f'<path d="{start}{_arc(page, *radii, flags, at_parameter(shape, shape.end))}"/>'


_ANCHORS = {"left": "", "middle": ' text-anchor="middle"', "right": ' text-anchor="end"'}


def text(page: Page, shape: Text) -> str:
    """A line of text on its base line, which is worked out here: readers disagree on the rest."""
    base = text_base(shape)
    x, y = n(base.x - page.left), n(page.top - base.y)
    turned = f' transform="rotate({n(-shape.turn)} {x} {y})"' if shape.turn else ""
    weight = ' font-weight="bold"' if shape.bold else ""
    return (
        f'<text x="{x}" y="{y}" font-size="{n(shape.height * SIZE_PER_HEIGHT)}"'
        f'{_ANCHORS[shape.across]}{weight}{turned} fill="{page.colour}" stroke="none">'
        f"{escaped(shape.text)}</text>"
    )


ELEMENT: Mapping[type[Plain], Callable[..., str]] = {
    Closed: closed,
    Path: path,
    Line: line,
    Circle: circle,
    Ellipse: ellipse,
    Text: text,
}
