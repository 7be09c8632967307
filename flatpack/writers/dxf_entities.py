"""Entities of DXF versions R2000 and later, as text.

Every entity starts with type, handle (5), owner (330) and layer (8); each class it is made of is
announced by a subclass mark (100).  Group codes after the published DXF reference.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from flatpack.drawings.ellipses import is_whole
from flatpack.drawings.lettering import text_base
from flatpack.drawings.plain import Plain
from flatpack.drawings.shapes import Circle, Closed, Ellipse, Line, Path, Text
from flatpack.geometry import Segment
from flatpack.writers.dxf_text import written_text
from flatpack.writers.numerals import decimal as n


class Pen(NamedTuple):
    """What an entity needs from its file: `handle` gives the next one; `layer` is escaped."""

    handle: Callable[[], str]
    owner: str
    layer: str
    encoding: str


def head(pen: Pen, kind: str, subclass: str) -> str:
    """The tags that every entity starts with."""
    return (
        f"  0\n{kind}\n  5\n{pen.handle()}\n330\n{pen.owner}\n100\nAcDbEntity\n"
        f"  8\n{pen.layer}\n100\n{subclass}\n"
    )


def vertices(segments: Sequence[Segment], is_closed: bool) -> list[tuple[str, str, str]]:
    """x, y and bulge of every corner; an open chain ends in its last point."""
    rows = [(n(s.start[0]), n(s.start[1]), n(s.bulge)) for s in segments]
    if not is_closed:
        x, y = segments[-1].end
        rows.append((n(x), n(y), "0.0"))
    return rows


def _polyline(pen: Pen, segments: Sequence[Segment], is_closed: bool) -> str:
    rows = vertices(segments, is_closed)
    body = "".join(
        f" 10\n{x}\n 20\n{y}\n 42\n{b}\n" if b != "0.0" else f" 10\n{x}\n 20\n{y}\n"
        for x, y, b in rows
    )
    opening = head(pen, "LWPOLYLINE", "AcDbPolyline")
    return f"{opening} 90\n{len(rows)}\n 70\n{int(is_closed)}\n{body}"


def closed(pen: Pen, shape: Closed) -> str:
    """A closed polyline (70 bit 1); arcs as bulges (42)."""
    return _polyline(pen, shape.outline.segments, True)


def path(pen: Pen, shape: Path) -> str:
    """An open polyline."""
    return _polyline(pen, shape.segments, False)


def line(pen: Pen, shape: Line) -> str:
    """A straight line from (10, 20) to (11, 21)."""
    (x0, y0), (x1, y1) = shape.start, shape.end
    opening = head(pen, "LINE", "AcDbLine")
    return f"{opening} 10\n{n(x0)}\n 20\n{n(y0)}\n 30\n0.0\n 11\n{n(x1)}\n 21\n{n(y1)}\n 31\n0.0\n"


def circle(pen: Pen, shape: Circle) -> str:
    """A circle of radius (40)."""
    x, y = shape.centre
    opening = head(pen, "CIRCLE", "AcDbCircle")
    return f"{opening} 10\n{n(x)}\n 20\n{n(y)}\n 30\n0.0\n 40\n{n(shape.radius)}\n"


def ellipse(pen: Pen, shape: Ellipse) -> str:
    """An ellipse: half long axis as a vector (11, 21), ratio (40), parameters in radians."""
    (x, y), (ax, ay) = shape.centre, shape.major
    start, end = (
        (0.0, math.tau) if is_whole(shape) else (math.radians(shape.start), math.radians(shape.end))
    )
    opening = head(pen, "ELLIPSE", "AcDbEllipse")
    return (
        f"{opening} 10\n{n(x)}\n 20\n{n(y)}\n 30\n0.0\n 11\n{n(ax)}\n 21\n{n(ay)}\n 31\n0.0\n"
        f" 40\n{n(shape.ratio)}\n 41\n{n(start)}\n 42\n{n(end)}\n"
    )


ACROSS: Mapping[str, int] = {"left": 0, "middle": 1, "right": 2}
UP: Mapping[str, int] = {"base": 0, "middle": 2, "top": 3}


def text_tags(shape: Text, encoding: str) -> tuple[str, str]:
    """Tags up to and after the place where later versions repeat the subclass mark.

    With any alignment but left and base line (72, 73 above 0) the second point (11, 21) is the
    anchor and the first one is left to the reader; it gets the base line's place under it.
    """
    across, up = ACROSS[shape.across], UP[shape.up]
    (x, y) = text_base(shape) if up else shape.at
    first = (
        f" 10\n{n(x)}\n 20\n{n(y)}\n 30\n0.0\n 40\n{n(shape.height)}\n"
        f"  1\n{written_text(shape.text, encoding)}\n"
    )
    if shape.turn:
        first += f" 50\n{n(shape.turn)}\n"
    first += f"  7\n{'TEXT_BOLD' if shape.bold else 'TEXT'}\n"
    if not (across or up):
        return first, ""
    (x, y) = shape.at
    first += f" 72\n{across}\n 11\n{n(x)}\n 21\n{n(y)}\n 31\n0.0\n"
    return first, f" 73\n{up}\n" if up else ""


def text(pen: Pen, shape: Text) -> str:
    """One line of text."""
    first, last = text_tags(shape, pen.encoding)
    return f"{head(pen, 'TEXT', 'AcDbText')}{first}100\nAcDbText\n{last}"


EMIT: Mapping[type[Plain], Callable[..., str]] = {
    Closed: closed,
    Path: path,
    Line: line,
    Circle: circle,
    Ellipse: ellipse,
    Text: text,
}
