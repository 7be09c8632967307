"""A table drawn on a sheet: a header, rows, and thin rules between them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from flatpack.drawings.lettering import text_width
from flatpack.drawings.shapes import Line, Stroke, Text
from flatpack.geometry import Point

_HEIGHT = 2.5
ROW = 5.0
"""From one row to the next, mm."""


def ruled_table(
    header: Sequence[str],
    rows: Sequence[Sequence[str]],
    columns: Sequence[float],
    corner: Point,
    row_high: float = ROW,
) -> Iterator[Stroke]:
    """Strokes of a table whose upper left is `corner`; `columns` are widths in mm.

    A text too long for its column is cut off with a dot-dot-dot: the list has it whole.
    """
    right, y = corner.x + sum(columns), corner.y
    yield _rule(corner.x, right, y)
    for number, row in enumerate((header, *rows)):
        x = corner.x
        for text, width in zip(row, columns, strict=True):
            if text:
                at = Point(x + 1.0, y - row_high / 2.0)
                shown = fitted(text, width - 1.5)
                yield Stroke("text", Text(at, shown, _HEIGHT, 0.0, "left", "middle", number == 0))
            x += width
        y -= row_high
        yield _rule(corner.x, right, y)


def column_widths(rows: Sequence[Sequence[str]], most: float = 170.0) -> tuple[float, ...]:
    """Widths in mm that hold the longest text of each column, none above `most`."""
    return tuple(
        min(max(text_width(text, _HEIGHT) for text in column) + 4.0, most)
        for column in zip(*rows, strict=True)
    )


def _rule(left: float, right: float, y: float) -> Stroke:
    return Stroke("thin-line", Line(Point(left, y), Point(right, y)))


def fitted(text: str, room: float, height: float = _HEIGHT) -> str:
    """The text, cut off so that it fits the room."""
    if text_width(text, height) <= room:
        return text
    while text and text_width(f"{text}...", height) > room:
        text = text[:-1]
    return f"{text.rstrip()}..."
