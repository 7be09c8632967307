"""The neutral drawing: what a writer is given.  Data only; knows no file format.

A `Drawing` is a frozen tuple of (layer, shape) strokes plus its size and texts for the sheet.
y runs upwards, mm at full size.  The set of shapes is closed: a new shape touches every writer.
"""

from __future__ import annotations

from typing import Literal

from flatpack.frozen import frozen
from flatpack.geometry import Outline, Point, Segment


@frozen(kw_only=False)
class Closed:
    """A closed outline, e.g. an edge to cut.

    `filled` fills it on sheets that paint back to front (general arrangement, book); it never
    fills a cut drawing.  `tone` is the grey that fills it, 0 black to 1 white.
    """

    outline: Outline
    filled: bool = False
    tone: float = 1.0


@frozen(kw_only=False)
class Path:
    """An open chain of line and arc segments, each starting where the one before ends."""

    segments: tuple[Segment, ...]


@frozen(kw_only=False)
class Line:
    """A straight line."""

    start: Point
    end: Point


@frozen(kw_only=False)
class Circle:
    """A full circle."""

    centre: Point
    radius: float


@frozen(kw_only=False)
class Ellipse:
    """A full or part ellipse; `major` is the vector of the half long axis, `ratio` short/long.

    `start` and `end` are parameters in degrees (0 to 360: whole), anticlockwise.
    """

    centre: Point
    major: Point
    ratio: float
    start: float = 0.0
    end: float = 360.0


@frozen(kw_only=False)
class Text:
    """A line of text; `height` is the capital height in mm; `at` is the anchor point.

    `across` anchors left, middle or right; `up` anchors the base line, middle or top.
    """

    at: Point
    text: str
    height: float = 3.5
    turn: float = 0.0
    across: Literal["left", "middle", "right"] = "left"
    up: Literal["base", "middle", "top"] = "base"
    bold: bool = False


@frozen(kw_only=False)
class Dimension:
    """A linear dimension from `start` to `end`, its line shifted by `offset` to the left of travel.

    `text` replaces the measured value when given.  Writers draw it as plain lines, slashes at
    the ends (ISO 129-1 permits oblique strokes), and text; `height` is the text height, mm.
    """

    start: Point
    end: Point
    offset: float
    text: str = ""
    height: float = 2.5


@frozen(kw_only=False)
class Cross:
    """A centre mark: two lines crossing at `centre`, each `size` long from end to end."""

    centre: Point
    size: float


Shape = Closed | Path | Line | Circle | Ellipse | Text | Dimension | Cross


@frozen(kw_only=False)
class Stroke:
    """One shape on one layer; `layer` is a key of the layer table, not a file's layer name."""

    layer: str
    shape: Shape


@frozen(kw_only=False)
class Drawing:
    """A named drawing at full size.

    `name` is the file's stem, `title` what a reader sees, `bounds` (x0, y0, x1, y1) the paper or
    drawing area in mm, `notes` the (label, value) pairs of its title block or metadata.
    `scale` is paper mm per model mm for sheets drawn reduced (their shapes are already reduced).
    """

    name: str
    title: str
    bounds: tuple[float, float, float, float]
    strokes: tuple[Stroke, ...]
    notes: tuple[tuple[str, str], ...] = ()
    scale: float = 1.0
