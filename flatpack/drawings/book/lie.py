"""How one part lies on another that is square to it, in the other's own axes."""

from __future__ import annotations

from typing import Any

from flatpack.geometry import Vec
from flatpack.model import Part, placed_corners

_SAME = 0.05
"""Places closer than this are flush, mm."""
_SQUARE = 1e-6
_HAIR = 1e-6
_FAR = 150.0
"""A part that stands out on both sides by more than this, mm, isn't placed by how far."""


def lie(part: Part, base: Part) -> tuple[Any, ...]:
    """`along` of one part, then the fields of `Place` from `across` to `out`."""
    bx0, by0, _, by1 = base.outline.bounds
    xs, ys, zs = _reach(part, base)
    across, flush, other = _across(ys[0] - by0, ys[1] - by0, by1 - by0)
    face, past = _to_face(*zs, base.thickness)
    start, up = base.frame.x.negated(), base.frame.y
    edge = up if other else up.negated()
    out = base.frame.z.negated() if face.endswith("back") else base.frame.z
    sides = (side_of(part, direction) for direction in (start, edge, out))
    ways = (way(start), way(edge), way(edge.negated()))
    return xs[0] - bx0, across, flush, face, past, *ways, *sides


def side_of(part: Part, direction: Vec) -> str:
    """What of a part looks that way: an "end", an "edge", its "show" or its "back" face."""
    x, y, z = (direction.dot(axis) for axis in (part.frame.x, part.frame.y, part.frame.z))
    if abs(z) > max(abs(x), abs(y)):
        return "show" if z > 0.0 else "back"
    return "end" if abs(x) > abs(y) else "edge"


def rounded(length: float) -> float:
    """To 0.1 mm; halves go up, whichever way a hand's frame has come to them."""
    return round(length + _HAIR, 1) + 0.0


def _across(low: float, high: float, width: float) -> tuple[float | None, str, bool]:
    """Distance from an edge, what it is flush with ("low", "high", "both", "on ..."), which edge.

    The edge is the other one than the datum edge where the part reaches beyond that, and not as
    far beyond the other.
    """
    if low >= width - _SAME:
        return None, "on high", False
    if high <= _SAME:
        return None, "on low", False
    flush_low, flush_high = abs(low) <= _SAME, abs(high - width) <= _SAME
    if flush_low or flush_high:
        return None, "both" if flush_low and flush_high else "low" if flush_low else "high", False
    if low < 0.0 and abs(width - high) < -low:
        return rounded(width - high), "", True
    return rounded(low), "", False


def _to_face(low: float, high: float, thickness: float) -> tuple[str, float]:
    """How a part lies to the base's faces; of two that it stands out past the nearer one's."""
    if low >= thickness - _SAME:
        return "on show", 0.0
    if high <= _SAME:
        return "on back", 0.0
    past, name = min((high - thickness, "show"), (-low, "back"))
    if abs(past) <= _SAME:
        return f"level {name}", 0.0
    placed = 0.0 < past < _FAR
    return (f"past {name}", rounded(past)) if placed else ("", 0.0)


def _reach(part: Part, base: Part) -> tuple[tuple[float, float], ...]:
    """Stretch of a part along, across and through the base's own axes."""
    corners = [base.frame.local(corner) for corner in placed_corners(part)]
    return tuple((min(axis), max(axis)) for axis in zip(*corners, strict=True))


def parallel(part: Part, base: Part) -> bool:
    """True when all axes of one run along axes of the other."""
    ways = (base.frame.local_direction(v) for v in (part.frame.x, part.frame.y))
    return all(abs(abs(c) - 1.0) < _SQUARE or abs(c) < _SQUARE for v in ways for c in v)


def way(direction: Vec) -> str:
    """The nearest of the piece's own six directions: "x-", "x+", "y-" ..."""
    sizes = [abs(c) for c in direction]
    axis = sizes.index(max(sizes))
    return f"{'xyz'[axis]}{'+' if direction[axis] > 0.0 else '-'}"
