"""Entities of DXF version R12, as text: no owners, no subclass marks, no LWPOLYLINE, no ELLIPSE.

A polyline is a POLYLINE entity followed by one VERTEX each (bulge 42) and a SEQEND.  An ellipse
is a polyline of chords, none further than ELLIPSE_TOLERANCE inside the true curve.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from flatpack.drawings.ellipses import is_whole, sampled
from flatpack.drawings.plain import Plain
from flatpack.drawings.shapes import Circle, Closed, Ellipse, Line, Path, Text
from flatpack.writers.dxf_entities import Pen, text_tags, vertices
from flatpack.writers.numerals import decimal as n

#: Greatest distance of an ellipse's chords from the true curve, mm.
ELLIPSE_TOLERANCE = 0.01


def _head(pen: Pen, kind: str) -> str:
    return f"  0\n{kind}\n  5\n{pen.handle()}\n  8\n{pen.layer}\n"


def _polyline(pen: Pen, rows: Sequence[tuple[str, str, str]], is_closed: bool) -> str:
    """66: vertices follow; 70 bit 1: closed."""
    parts = [
        f"{_head(pen, 'POLYLINE')} 66\n1\n 10\n0.0\n 20\n0.0\n 30\n0.0\n 70\n{int(is_closed)}\n"
    ]
    for x, y, bulge in rows:
        arc = f" 42\n{bulge}\n" if bulge != "0.0" else ""
        parts.append(f"{_head(pen, 'VERTEX')} 10\n{x}\n 20\n{y}\n 30\n0.0\n{arc}")
    return "".join(parts) + _head(pen, "SEQEND")


def closed(pen: Pen, shape: Closed) -> str:
    """A closed polyline with bulges."""
    return _polyline(pen, vertices(shape.outline.segments, True), True)


def path(pen: Pen, shape: Path) -> str:
    """An open polyline with bulges."""
    return _polyline(pen, vertices(shape.segments, False), False)


def ellipse(pen: Pen, shape: Ellipse) -> str:
    """A polyline of chords within ELLIPSE_TOLERANCE."""
    rows = [(n(x), n(y), "0.0") for x, y in sampled(shape, ELLIPSE_TOLERANCE)]
    return _polyline(pen, rows, is_whole(shape))


def line(pen: Pen, shape: Line) -> str:
    """A straight line."""
    (x0, y0), (x1, y1) = shape.start, shape.end
    return (
        f"{_head(pen, 'LINE')} 10\n{n(x0)}\n 20\n{n(y0)}\n 30\n0.0\n"
        f" 11\n{n(x1)}\n 21\n{n(y1)}\n 31\n0.0\n"
    )


def circle(pen: Pen, shape: Circle) -> str:
    """A circle."""
    x, y = shape.centre
    return f"{_head(pen, 'CIRCLE')} 10\n{n(x)}\n 20\n{n(y)}\n 30\n0.0\n 40\n{n(shape.radius)}\n"


def text(pen: Pen, shape: Text) -> str:
    """One line of text."""
    return _head(pen, "TEXT") + "".join(text_tags(shape, pen.encoding))


EMIT: Mapping[type[Plain], Callable[..., str]] = {
    Closed: closed,
    Path: path,
    Line: line,
    Circle: circle,
    Ellipse: ellipse,
    Text: text,
}
