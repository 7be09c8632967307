"""What of a piece is sat on, laid, filled or leaned against, by where its parts lie.

level parts whose tops lie side by side are a surface; the highest large one is the top, the
lowest the floor; parts that lean above the top are a back, level ones above it arm rests
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from flatpack.frozen import frozen
from flatpack.geometry import Vec, X, Y, Z
from flatpack.model import Assembly, Part
from flatpack.strength.layout import middle, reach

LEVEL = 0.85
"""Cosine from which a part's face counts as looking up: a raked seat still does."""
BESIDE = 40.0
"""Parts of a surface lie no further apart than this in plan, mm."""
STEP = 30.0
"""Neighbours of a surface differ by no more than this in height, mm."""
COVER = 50.0
"""A part that close under another, mm, is borne on, not sat on."""
LARGE = 0.4
"""Share of the largest surface from which another counts as large."""
ARM_ABOVE = 80.0
"""An arm rest lies at least this high above the seat, mm (common practice, no source)."""
BACK_ABOVE = 60.0
"""The middle of a back's parts lies at least this high above the seat, mm (as above)."""


@frozen
class Surface:
    """Parts whose faces make one surface; a rectangle in plan, mm, and the height of its top."""

    parts: tuple[Part, ...]
    x: tuple[float, float]
    y: tuple[float, float]
    top: float

    @property
    def area(self) -> float:
        """Area of its parts, mm2."""
        return sum(abs(p.outline.area) for p in self.parts)

    @property
    def middle(self) -> Vec:
        """The middle of its rectangle, at its top."""
        return Vec(sum(self.x) / 2.0, sum(self.y) / 2.0, self.top)


def surface(parts: Sequence[Part]) -> Surface:
    """The surface that some parts make."""
    xs, ys = [reach(p, X) for p in parts], [reach(p, Y) for p in parts]
    return Surface(
        parts=tuple(parts),
        x=(min(x[0] for x in xs), max(x[1] for x in xs)),
        y=(min(y[0] for y in ys), max(y[1] for y in ys)),
        top=max(reach(p, Z)[1] for p in parts),
    )


def level_surfaces(assembly: Assembly) -> tuple[Surface, ...]:
    """All surfaces, lowest first."""
    level = [p for p in assembly.parts.values() if abs(p.frame.z.z) >= LEVEL]
    open_ = [p for p in level if not _covered(p, level)]
    group = {p.key: p.key for p in open_}
    for a, b in combinations(open_, 2):
        if group[a.key] != group[b.key] and _neighbours(a, b):
            old, new = group[b.key], group[a.key]
            group = {k: (new if g == old else g) for k, g in group.items()}
    found = [
        surface([p for p in open_ if group[p.key] == name])
        for name in dict.fromkeys(group.values())
    ]
    return tuple(sorted(found, key=lambda s: (s.top, s.x, s.y)))


def top_of(assembly: Assembly) -> Surface | None:
    """The highest of the large surfaces: a seat, a table's top, a lid."""
    large = _large(assembly)
    return large[-1] if large else None


def floor_of(assembly: Assembly) -> Surface | None:
    """The lowest of the large surfaces: a planter's or a box's floor."""
    large = _large(assembly)
    return large[0] if large else None


def shelves_of(assembly: Assembly) -> tuple[Surface, ...]:
    """All large surfaces, lowest first: the shelves of a stand."""
    return tuple(_large(assembly))


def _large(assembly: Assembly) -> list[Surface]:
    """Large surfaces that lie on the middle of the piece's width, as arm rests don't."""
    y = surface(tuple(assembly.parts.values())).middle.y
    every = [s for s in level_surfaces(assembly) if s.y[0] <= y <= s.y[1]]
    most = max((s.area for s in every), default=0.0)
    return [s for s in every if s.area >= LARGE * most]


def _covered(part: Part, level: Sequence[Part]) -> bool:
    """Whether another level part lies close above most of it."""
    top = reach(part, Z)[1]
    x0, y0, x1, y1 = part.outline.bounds
    spots = [
        part.frame.place(x0 + (x1 - x0) * s, (y0 + y1) / 2.0, part.thickness / 2.0)
        for s in (0.1, 0.3, 0.5, 0.7, 0.9)
    ]
    over = [p for p in level if p is not part and -1.0 <= reach(p, Z)[0] - top <= COVER]
    return sum(any(_above(p, spot) for p in over) for spot in spots) >= 3


def _above(part: Part, spot: Vec) -> bool:
    (x0, x1), (y0, y1) = reach(part, X), reach(part, Y)
    return x0 <= spot.x <= x1 and y0 <= spot.y <= y1


def _neighbours(a: Part, b: Part) -> bool:
    if abs(reach(a, Z)[1] - reach(b, Z)[1]) > STEP:
        return False
    return all(_gap(reach(a, way), reach(b, way)) <= BESIDE for way in (X, Y))


def _gap(a: tuple[float, float], b: tuple[float, float]) -> float:
    return max(a[0], b[0]) - min(a[1], b[1])


def back_parts(assembly: Assembly, seat: Surface) -> tuple[Part, ...]:
    """Boards that lean above the seat and look along the piece, on the side where most are."""
    found = [
        p
        for p in assembly.parts.values()
        if p.group == "frame"
        and abs(p.frame.z.x) > 0.3
        and abs(p.frame.z.z) < LEVEL
        and middle(p).z > seat.top + BACK_ABOVE
    ]
    side = sum(abs(p.outline.area) * (middle(p).x - seat.middle.x) for p in found)
    return tuple(p for p in found if (middle(p).x - seat.middle.x) * side > 0.0)


def arm_parts(assembly: Assembly, seat: Surface) -> tuple[Part, ...]:
    """Level boards well above the seat, on one side of its middle."""
    y = seat.middle.y
    return tuple(
        p
        for s in level_surfaces(assembly)
        if s.top > seat.top + ARM_ABOVE and not s.y[0] <= y <= s.y[1]
        for p in s.parts
    )


def walls(assembly: Assembly) -> Iterator[tuple[Part, Vec]]:
    """Upright boards about the middle of the piece, each with the way out."""
    parts = assembly.parts.values()
    centre = surface(tuple(parts)).middle
    for part in parts:
        wide = part.thickness < 0.5 * min(part.length, part.width)
        if part.group == "frame" and abs(part.frame.z.z) < 1.0 - LEVEL and wide:
            out = part.frame.z
            way = out if middle(part).minus(centre).dot(out) > 0.0 else out.negated()
            yield part, way
