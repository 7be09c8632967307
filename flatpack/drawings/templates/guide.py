"""How to use the sheets and what the lines mean: the first thing on the first page."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.shapes import Closed, Line, Path, Stroke, Text
from flatpack.drawings.templates.break_lines import zigzag
from flatpack.drawings.templates.view import steel_tape_line
from flatpack.drawings.templates.wrapping import block, block_height
from flatpack.frozen import frozen
from flatpack.geometry import Point
from flatpack.geometry.shapes import rectangle
from flatpack.model import Bearing
from flatpack.wording import english_guide as words

_INSET = 2.0
_ROW = 5.0
_SAMPLE = 16.0
_HEIGHT = 2.5
_KEY = 76.0
"""Least width of a column of the key to the lines, mm."""


@frozen
class Guide:
    """The guide as wide as the page's content; `bearing` says how somebody uses the piece."""

    width: float
    bearing: Bearing

    @property
    def size(self) -> tuple[float, float]:
        """Width and height on the page, mm."""
        rows = -(-len(words.LINE_KEY) // self._columns)
        return self.width, block_height(self._texts(), self._room) + rows * _ROW + 2.0 * _INSET

    @property
    def _room(self) -> float:
        return self.width - 2.0 * _INSET

    @property
    def _columns(self) -> int:
        return max(int(self._room / _KEY), 1)

    def _texts(self) -> list[tuple[str, float, bool]]:
        use = words.GUIDE_USE[self.bearing]
        said = [(text.replace("{use}", use), _HEIGHT, False) for text in words.GUIDE]
        return [(words.GUIDE_TITLE, 3.5, True), *said]

    def strokes(self, x: float, y: float) -> Iterator[Stroke]:
        """The guide with its lower left at x, y of the page."""
        width, height = self.size
        yield Stroke("thin-line", Closed(rectangle(width, height, x, y)))
        corner = Point(x + _INSET, y + height - _INSET)
        yield from block(self._texts(), corner, self._room)
        top = corner.y - block_height(self._texts(), self._room)
        for i, (kind, said) in enumerate(words.LINE_KEY):
            row, column = divmod(i, self._columns)
            left = corner.x + column * self._room / self._columns
            middle = top - (row + 0.5) * _ROW
            yield from _sample(kind, left, middle)
            at = Point(left + _SAMPLE + 3.0, middle)
            yield Stroke("text", Text(at, said, _HEIGHT, 0.0, "left", "middle"))


def _sample(kind: str, x: float, y: float) -> Iterator[Stroke]:
    """A short piece of the line."""
    a, b = Point(x, y), Point(x + _SAMPLE, y)
    if kind == "break":
        yield Stroke("thin-line", Path(zigzag(Point(x + 2.0, y), Point(x + _SAMPLE - 2.0, y))))
    elif kind == "tape":
        yield from (Stroke(s.layer, _lying(s.shape, a)) for s in steel_tape_line(0.0, 0.0, _SAMPLE))
    else:
        yield Stroke(kind, Line(a, b))


def _lying(shape: object, corner: Point) -> Line | Closed:
    """An upright line or dart laid down to the right."""
    if isinstance(shape, Line):
        return Line(*(Point(corner.x + p.y, corner.y - p.x) for p in (shape.start, shape.end)))
    if isinstance(shape, Closed):
        return Closed(shape.outline.turned(-90.0).moved(*corner))
    raise TypeError(f"no {type(shape).__name__} in a steel-tape line")
