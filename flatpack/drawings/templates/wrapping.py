"""Lines of words broken to fit a width."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from flatpack.drawings.lettering import text_width
from flatpack.drawings.ruled import fitted
from flatpack.drawings.shapes import Stroke, Text
from flatpack.geometry import Point

BOLDER = 1.15
"""Bold lettering is wider than regular by about this much."""


def wrapped(text: str, room: float, height: float) -> list[str]:
    """The text as lines no wider than `room`; a word that is wider is cut off with dots."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, height) <= room:
            lines[-1] = longer
        else:
            lines.append(fitted(word, room, height))
    return lines


def block(texts: Iterable[tuple[str, float, bool]], corner: Point, room: float) -> Iterator[Stroke]:
    """Strokes of wrapped texts (words, height, bold) under one another from an upper left."""
    y = corner.y
    for text, height, bold in texts:
        for line in wrapped(text, _room(room, bold), height):
            yield Stroke("text", Text(Point(corner.x, y), line, height, up="top", bold=bold))
            y -= 1.5 * height


def block_height(texts: Iterable[tuple[str, float, bool]], room: float) -> float:
    """Height that `block` takes, mm."""
    return sum(
        1.5 * height * len(wrapped(text, _room(room, bold), height)) for text, height, bold in texts
    )


def _room(room: float, bold: bool) -> float:
    return room / BOLDER if bold else room
