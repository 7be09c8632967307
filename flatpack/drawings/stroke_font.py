"""Letters of single strokes, for marks that a cutter engraves: geometry, never file text.

Own drawing of capitals, figures and a few signs on a field 6 high; lines and true arcs, no stroke
drawn twice.  A glyph is its width and its strokes; a corner "x,y" or "x,y,B" gives where the run
to the next corner starts and how it bends: Q and H a quarter and half circle turning left, q and
h turning right, nothing for straight.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from flatpack.drawings.shapes import Path
from flatpack.geometry import Point, Segment

_FIELD = 6.0
_GAP = 1.4
_QUARTER = math.tan(math.pi / 8.0)
_BENDS = {"Q": _QUARTER, "q": -_QUARTER, "H": 1.0, "h": -1.0}

_GLYPHS: Mapping[str, tuple[float, tuple[str, ...]]] = {
    "A": (4, ("0,0 2,6 4,0", "0.6666666667,2 3.3333333333,2")),
    "B": (4, ("0,0 0,6 2.5,6,h 2.5,3 0,3", "2.5,3,h 2.5,0 0,0")),
    "C": (4, ("4,4.5,Q 2.5,6 1.5,6,Q 0,4.5 0,1.5,Q 1.5,0 2.5,0,Q 4,1.5",)),
    "D": (4, ("0,0 0,6 2,6,q 4,4 4,2,q 2,0 0,0",)),
    "E": (4, ("4,6 0,6 0,0 4,0", "0,3 3,3")),
    "F": (4, ("4,6 0,6 0,0", "0,3 3,3")),
    "G": (4, ("4,4.5,Q 2.5,6 1.5,6,Q 0,4.5 0,1.5,Q 1.5,0 2.5,0,Q 4,1.5 4,3 2.5,3",)),
    "H": (4, ("0,0 0,6", "4,0 4,6", "0,3 4,3")),
    "I": (0, ("0,0 0,6",)),
    "J": (3, ("3,6 3,1.5,h 0,1.5",)),
    "K": (4, ("0,0 0,6", "4,6 0,2", "1.3333333333,3.3333333333 4,0")),
    "L": (4, ("0,6 0,0 4,0",)),
    "M": (5, ("0,0 0,6 2.5,2 5,6 5,0",)),
    "N": (4, ("0,0 0,6 4,0 4,6",)),
    "O": (4, ("1.5,6,Q 0,4.5 0,1.5,Q 1.5,0 2.5,0,Q 4,1.5 4,4.5,Q 2.5,6 1.5,6",)),
    "P": (4, ("0,0 0,6 2.5,6,h 2.5,3 0,3",)),
    "Q": (4, ("1.5,6,Q 0,4.5 0,1.5,Q 1.5,0 2.5,0,Q 4,1.5 4,4.5,Q 2.5,6 1.5,6", "2.5,1.5 4,0")),
    "R": (4, ("0,0 0,6 2.5,6,h 2.5,3 0,3", "2,3 4,0")),
    "S": (4, ("4,4.5,Q 2.5,6 1.5,6,H 1.5,3 2.5,3,h 2.5,0 1.5,0,q 0,1.5",)),
    "T": (4, ("0,6 4,6", "2,6 2,0")),
    "U": (4, ("0,6 0,2,H 4,2 4,6",)),
    "V": (4, ("0,6 2,0 4,6",)),
    "W": (5, ("0,6 1.25,0 2.5,4 3.75,0 5,6",)),
    "X": (4, ("0,0 4,6", "0,6 4,0")),
    "Y": (4, ("0,6 2,3 4,6", "2,3 2,0")),
    "Z": (4, ("0,6 4,6 0,0 4,0",)),
    "0": (3.2, ("3.2,4.4,H 0,4.4 0,1.6,H 3.2,1.6 3.2,4.4",)),
    "1": (1.5, ("0,4.5 1.5,6 1.5,0",)),
    "2": (4, ("0,4.5,q 1.5,6 2.5,6,q 4,4.5 0,0 4,0",)),
    "3": (4, ("0,6 4,6 1.75,3.5 2.25,3.5,q 4,1.75,q 2.25,0 1.5,0,q 0,1.5",)),
    "4": (4, ("3,0 3,6 0,1.5 4,1.5",)),
    "5": (4, ("3.5,6 0.3,6 0,3.5 2.25,3.5,q 4,1.75,q 2.25,0 1.5,0,q 0,1.5",)),
    "6": (4, ("4,2,H 0,2,H 4,2", "0,2 0,4,q 2,6 3.5,6")),
    "7": (4, ("0,6 4,6 1.5,0",)),
    "8": (4, ("3.4,4.6,H 0.6,4.6,H 3.4,4.6", "3.6,1.6,H 0.4,1.6,H 3.6,1.6")),
    "9": (4, ("4,4,H 0,4,H 4,4", "4,4 4,2,q 2,0 0.5,0")),
    "-": (3, ("0.3,3 2.7,3",)),
    "/": (3, ("0,0 3,6",)),
    ".": (0, ("0,0 0,0.4",)),
    " ": (2, ()),
}


def strokes(text: str, at: Point, height: float) -> tuple[Path, ...]:
    """The text as open chains; `at` is the left end of its base line, `height` in mm.

    Small letters become capitals.

    Raises:
        ValueError: a character that has no strokes here.
    """
    scale = height / _FIELD
    paths: list[Path] = []
    x = at.x
    for width, glyph in map(_glyph, text.upper()):
        paths += [_path(corners, x, at.y, scale) for corners in glyph]
        x += (width + _GAP) * scale
    return tuple(paths)


def stroke_width(text: str, height: float) -> float:
    """Width of the text in mm, from the first stroke to the last."""
    widths = [_glyph(character)[0] for character in text.upper()]
    return (sum(widths) + _GAP * max(len(widths) - 1, 0)) * height / _FIELD


def _glyph(character: str) -> tuple[float, tuple[str, ...]]:
    if character not in _GLYPHS:
        raise ValueError(f"no strokes for {character!r}; there are {' '.join(_GLYPHS)}")
    return _GLYPHS[character]


def _path(corners: str, x: float, y: float, scale: float) -> Path:
    points, bends = zip(*_corners(corners, x, y, scale), strict=True)
    return Path(tuple(map(Segment, points[:-1], points[1:], bends[:-1])))


def _corners(corners: str, x: float, y: float, scale: float) -> Iterator[tuple[Point, float]]:
    for corner in corners.split():
        across, up, bend = (corner + ",").split(",")[:3]
        yield Point(x + float(across) * scale, y + float(up) * scale), _BENDS.get(bend, 0.0)
