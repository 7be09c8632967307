"""Running dimensions to the rods' centres on a rack: all from the datum end (ISO 129-1).

0    85    173.6      the figure stands at the end of its projection line
o----/------/-----    origin at the datum end
|    |      |
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.figures import mm
from flatpack.drawings.shapes import Circle, Line, Stroke, Text
from flatpack.drawings.turned import Seen
from flatpack.geometry import Point
from flatpack.model import Feature, Part
from flatpack.wording import english as words

_HEIGHT = 2.5
_LIFT = 6.0
"""From what is drawn up to the dimension line, mm."""
_ORIGIN = 1.0


def top_of(part: Part) -> float:
    """Height above the datum edge of the part, and of the rods that lie in it, mm."""
    low = part.outline.bounds[1]
    return max((part.width, *(_top(f) - low for f in _rods(part))))


def running(part: Part, seen: Seen) -> tuple[Stroke, ...]:
    """Dimensions above the part from its datum end; none where no rod lies in it."""
    rods = sorted(_rods(part), key=lambda f: f.at.x)
    if not rods:
        return ()
    x0, low, _, _ = part.outline.bounds
    line = seen.point(Point(x0, low)).y + top_of(part) + _LIFT
    origin = Point(seen.point(Point(x0, low)).x, line)
    return tuple(_drawn(part, rods, seen, origin))


def _drawn(part: Part, rods: list[Feature], seen: Seen, origin: Point) -> Iterator[Stroke]:
    x0 = part.outline.bounds[0]
    last = seen.point(rods[-1].at).x
    yield Stroke("dimension", Circle(origin, _ORIGIN))
    yield Stroke("dimension", Line(origin, Point(last, origin.y)))
    for rod in rods:
        x = seen.point(rod.at).x
        yield from _figure(Point(x, seen.point(Point(0.0, _top(rod))).y + 1.0), origin.y,
                           mm(rod.at.x - x0))  # fmt: skip
        yield Stroke(
            "dimension", Line(Point(x - 1.0, origin.y - 1.0), Point(x + 1.0, origin.y + 1.0))
        )
    inward = -1.0 if seen.mirrored else 1.0
    yield Stroke("text", Text(Point(origin.x + 3.0 * inward, origin.y + 2.0), words.ROD_CENTRES,
                              _HEIGHT, across="right" if seen.mirrored else "left"))  # fmt: skip


def _figure(foot: Point, line: float, figure: str) -> Iterator[Stroke]:
    """A projection line up past the dimension line, and its figure, read from the right."""
    yield Stroke("dimension", Line(foot, Point(foot.x, line + 1.5)))
    at = Point(foot.x, line + 2.5)
    yield Stroke("dimension", Text(at, figure, _HEIGHT, 90.0, "left", "middle"))


def _rods(part: Part) -> tuple[Feature, ...]:
    """Notches that say where a rod lies when seated."""
    return tuple(f for f in part.features if f.operation == "thin-line" and hasattr(f, "number"))


def _top(rod: Feature) -> float:
    return rod.at.y + float(getattr(rod, "diameter", 0.0)) / 2.0
