"""The words across a drawing of a design that has faults."""

from __future__ import annotations

from flatpack.drawings.lettering import text_width
from flatpack.drawings.shapes import Drawing, Stroke, Text
from flatpack.frozen import replace
from flatpack.geometry import Point
from flatpack.wording import english as words

_LARGEST = 40.0


def across(drawing: Drawing, said: str = words.NOT_FOR_CUTTING) -> Drawing:
    """The drawing with the words as large as fit across it."""
    x0, y0, x1, y1 = drawing.bounds
    share = text_width(said, 1.0)
    height = min(0.95 * (x1 - x0) / share, 0.5 * (y1 - y0), _LARGEST)
    middle = Point((x0 + x1) / 2.0, (y0 + y1) / 2.0)
    text = Text(middle, said, height, 0.0, "middle", "middle", True)
    return replace(drawing, strokes=(*drawing.strokes, Stroke("not-for-cutting", text)))
