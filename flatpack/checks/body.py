"""Bodies that take up room: parts, bars, and the solids of fasteners, ready for comparing.

A body is a prism: its outline between two heights of its frame, less its openings and cuts and
what lies beyond the planes of slanting cuts.  To allow for a tolerance it is asked for shrunk by r
all round: outline r inwards, heights r inwards, cuts r larger.  A ball of radius r fits into the
room that two bodies share just when the two shrunk bodies meet, so one number governs every check
of shared room.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import lru_cache
from itertools import pairwise
from typing import Any, NamedTuple

from flatpack.checks.bored import Bored
from flatpack.frozen import field, frozen, replace
from flatpack.geometry import Frame, Outline, Plane
from flatpack.geometry.outline import is_rectangle
from flatpack.geometry.polygon import grown, polygon, shrunk, without
from flatpack.geometry.shapes import disc
from flatpack.model import Assembly, Bar, Cut, Fastener, Part, Solid

SHRINKINGS_KEPT = 4


class Slab(NamedTuple):
    """Polygon in the body's x, y between two heights."""

    low: float
    high: float
    shape: Any


@frozen(kw_only=False, eq=False)
class Body:
    """One body; `owner` is the part, bar or fastener, `inside` the owners in which it may lie.

    `planes` are its slanting cuts in its own axes; `whole` and `slabs` don't know them.
    """

    owner: str
    name: str
    frame: Frame
    outline: Outline
    low: float
    high: float
    openings: tuple[Outline, ...] = ()
    cuts: tuple[Cut, ...] = ()
    tunnels: tuple[Bored, ...] = ()
    inside: frozenset[str] = frozenset()
    planes: tuple[Plane, ...] = ()
    _kept: dict[tuple[str, float], tuple[Slab, ...]] = field(default_factory=dict)

    @property
    def box(self) -> bool:
        """True when its outline is a rectangle square to its frame."""
        return is_rectangle(self.outline)

    @property
    def pierced(self) -> bool:
        """True when anything is taken out of it."""
        return bool(self.cuts or self.openings or self.tunnels or self.planes)

    @property
    def disc_radius(self) -> float | None:
        """Radius of a round body about its frame's z axis, None for any other."""
        segments = self.outline.segments
        if len(segments) != 2 or {s.bulge for s in segments} != {1.0}:
            return None
        (x0, y0), (x1, y1) = segments[0].start, segments[0].end
        return abs(x1 - x0) / 2.0 if x0 == -x1 and y0 == y1 == 0.0 else None

    def whole(self, r: float) -> tuple[Slab, ...]:
        """The body shrunk by r, its cuts not yet taken out; empty when nothing is left."""
        return self._remembered(("whole", r), self._whole, r)

    def slabs(self, r: float) -> tuple[Slab, ...]:
        """The body shrunk by r in layers, cuts and openings taken out."""
        return self._remembered(("slabs", r), self._layers, r)

    def _remembered(
        self, key: tuple[str, float], make: Callable[[float], Iterator[Slab]], r: float
    ) -> tuple[Slab, ...]:
        if key not in self._kept:
            if len(self._kept) > SHRINKINGS_KEPT:
                self._kept.clear()
            self._kept[key] = tuple(make(r))
        return self._kept[key]

    def _whole(self, r: float) -> Iterator[Slab]:
        radius = self.disc_radius
        if radius is None:
            shape = shrunk(_polygon(self.outline), r)
        else:
            shape = round_shape(max(radius - r, 1e-9))
        low, high = self.low + r, self.high - r
        if not shape.is_empty and low <= high:
            yield Slab(low, high, shape)

    def _layers(self, r: float) -> Iterator[Slab]:
        for low, high, shape in self.whole(r):
            solid = without(shape, [grown(_polygon(o), r) for o in self.openings])
            cuts = [(c.low - r, c.high + r, grown(_polygon(c.outline), r)) for c in self.cuts]
            levels = {low, high, *(z for c in cuts for z in c[:2] if low < z < high)}
            heights = sorted(levels)
            for z0, z1 in pairwise(heights):
                middle = (z0 + z1) / 2.0
                left = without(solid, [c[2] for c in cuts if c[0] < middle < c[1]])
                if not left.is_empty:
                    yield Slab(z0, z1, left)

    def sawn(self, r: float) -> tuple[Plane, ...]:
        """Its slanting cuts in the piece's axes, moved r into the wood."""
        return tuple(plane.placed(self.frame).set_in(r) for plane in self.planes)

    def cut_short(self, low: float, high: float) -> Body:
        """The same body between other heights."""
        return replace(self, low=low, high=high, _kept={})


@lru_cache(maxsize=256)
def round_shape(radius: float) -> Any:
    """Polygon of a disc about the origin; a piece has few sizes of screw and bolt."""
    return polygon(disc(radius))


@lru_cache(maxsize=512)
def _polygon(outline: Outline) -> Any:
    """The outline's polygon, kept while the depth of an overlap is sought."""
    return polygon(outline)


def part_body(part: Part, tunnels: tuple[Bored, ...] = ()) -> Body:
    """A part with everything worked on it."""
    t = part.thickness
    cuts = tuple(cut for feature in part.features for cut in feature.cuts(t))
    return Body(
        part.key,
        part.title,
        part.frame,
        part.outline,
        0.0,
        t,
        part.openings,
        cuts,
        tunnels,
        planes=part.planes,
    )


def bar_body(bar: Bar) -> Body:
    """A round bar."""
    return Body(bar.key, bar.name, bar.frame, disc(bar.stock.diameter / 2.0), 0.0, bar.length)


def solid_body(fastener: Fastener, solid: Solid) -> Body:
    """One solid of a fastener."""
    return Body(
        fastener.key, solid.name, solid.frame, solid.outline, solid.low, solid.high,
        inside=frozenset(fastener.inside),
    )  # fmt: skip


def bodies(assembly: Assembly, bored: dict[str, tuple[Bored, ...]]) -> tuple[Body, ...]:
    """Everything that takes up room, parts first, in the order of the piece."""
    tunnels = {key: tuple(b for b in holes if b.kind == "edge") for key, holes in bored.items()}
    return (
        *(part_body(part, tunnels.get(key, ())) for key, part in assembly.parts.items()),
        *(bar_body(bar) for bar in assembly.bars.values()),
        *(solid_body(f, solid) for f in assembly.fasteners for solid in f.solids),
    )
