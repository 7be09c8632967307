"""How much room a line of lettering takes, near enough to place it; both writers use it.

The true width depends on the reader's font, so these are safe sizes (a wide sans serif), not
measurements.  Heights are capital heights in mm, as in ISO 3098.
"""

from __future__ import annotations

import math
from functools import lru_cache

from flatpack.drawings.shapes import Text
from flatpack.geometry import Point, cosine_sine

#: Font size per capital height: common sans serifs have capitals of 0.72 of the size.
SIZE_PER_HEIGHT = 1.0 / 0.72

_NARROW = frozenset("iljtfrI.,:;|!'()[] /-")
_WIDE = frozenset("mwMWOQ@%ØÆŒ—")
_UP = {"base": 0.0, "middle": 0.5, "top": 1.0}
_ACROSS = {"left": 0.0, "middle": 0.5, "right": 1.0}


@lru_cache(maxsize=8192)
def text_width(text: str, height: float) -> float:
    """Safe width in mm of a line of text with capitals `height` mm high."""
    narrow = sum(c in _NARROW for c in text)
    wide = sum(c in _WIDE for c in text)
    return height * (0.52 * narrow + 1.3 * wide + 0.9 * (len(text) - narrow - wide))


def text_base(text: Text) -> Point:
    """Where the base line starts its run at the anchor's share of the width, mm."""
    down = _UP[text.up] * text.height
    c, s = cosine_sine(text.turn)
    return Point(text.at.x + s * down, text.at.y - c * down)


def text_box(text: Text) -> tuple[float, float, float, float]:
    """Smallest x, y and largest x, y of the box round a text, descenders included."""
    width = text_width(text.text, text.height)
    if text.turn == 0.0:
        x, y = text.at.x - _ACROSS[text.across] * width, text.at.y - _UP[text.up] * text.height
        return x, y - 0.3 * text.height, x + width, y + text.height
    base = text_base(text)
    c, s = cosine_sine(text.turn)
    left = -_ACROSS[text.across] * width
    corners = [
        (base.x + u * c - v * s, base.y + u * s + v * c)
        for u in (left, left + width)
        for v in (-0.3 * text.height, text.height)
    ]
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def readable_turn(dx: float, dy: float) -> float:
    """Turn in degrees of a text along (dx, dy), read from below or from the right (ISO 129-1)."""
    turn = math.degrees(math.atan2(dy, dx))
    if turn > 90.0 + 1e-9:
        return turn - 180.0
    if turn <= -90.0 + 1e-9:
        return turn + 180.0
    return turn
