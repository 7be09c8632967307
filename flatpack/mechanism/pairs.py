"""Which bodies can meet, and the gap between two of them at a position and on the way."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import cached_property

from flatpack.frozen import frozen, replace
from flatpack.geometry import Outline, Point
from flatpack.mechanism.bodies import Body, Carrier, share_a_lane
from flatpack.mechanism.clearance import furthest_way
from flatpack.mechanism.convex import HOME, Convex, Gap, Pose, signed_gap, witness
from flatpack.mechanism.nearest import contains, nearest_on
from flatpack.mechanism.track import Stand, Stretch

_RANK = {
    Carrier.FRAME: 0,
    Carrier.GROUND: 0,
    Carrier.BACK: 1,
    Carrier.ARM: 2,
    Carrier.ROD: 2,
}


@frozen(kw_only=False)
class Pair:
    """Two bodies that share a lane and move against one another; `still` moves least.

    The shapes are convex pieces in their carriers' axes, a rod's in the arm's axes.
    """

    still: Body
    moving: Body
    still_shapes: tuple[Convex, ...]
    moving_shapes: tuple[Convex, ...]

    @property
    def names(self) -> frozenset[str]:
        """Both names."""
        return frozenset((self.still.name, self.moving.name))

    @property
    def carriers(self) -> tuple[Carrier, Carrier]:
        """What each is fixed to."""
        return self.still.carrier, self.moving.carrier

    def narrowed(self, still: Convex, moving: Convex) -> Pair:
        """The pair with one piece of each body only."""
        return replace(self, still_shapes=(still,), moving_shapes=(moving,))

    @cached_property
    def rod_radius(self) -> float | None:
        """The radius when the moving body is a plain round rod past a fixed body, else None."""
        shapes = self.moving.shapes
        if self.moving.carrier is not Carrier.ROD or not self.still.fixed or len(shapes) != 1:
            return None
        (first, *rest) = shapes[0].carriers
        return None if rest or abs(first[0]) + abs(first[1]) > 1e-9 else first[2]


def on_arm(body: Body, arm: float) -> tuple[Convex, ...]:
    """A body's pieces; those of a rod shifted into the arm's axes."""
    if body.carrier is not Carrier.ROD:
        return body.shapes
    return tuple(shape.moved(arm, 0.0) for shape in body.shapes)


def pairs(
    bodies: Sequence[Body], arm: float, joined: frozenset[frozenset[str]] = frozenset()
) -> Iterator[Pair]:
    """Every pair that shares a lane and moves against one another, in order of the bodies.

    Arms and rod are one thing; `joined` names further pairs that are made one inside the other
    (a bolt in its hole).
    """
    ranked = [(_RANK[body.carrier], body) for body in bodies]
    shapes: dict[int, tuple[Convex, ...]] = {}
    for i, (rank, first) in enumerate(ranked):
        for other, second in ranked[i + 1 :]:
            if rank == other or not share_a_lane(first, second):
                continue
            if frozenset((first.name, second.name)) in joined:
                continue
            still, moving = (first, second) if rank < other else (second, first)
            for body in (still, moving):
                if id(body) not in shapes:
                    shapes[id(body)] = on_arm(body, arm)
            yield Pair(still, moving, shapes[id(still)], shapes[id(moving)])


def looks(bodies: Sequence[Body]) -> dict[int, int]:
    """Body's id -> a number shared by all bodies of one side view (outlines are slow to hash)."""
    known: dict[tuple[Outline, ...], int] = {}
    return {id(body): known.setdefault(body.outlines, len(known)) for body in bodies}


def placing(body: Body, stand: Stand) -> Pose:
    """Where a body's carrier stands (a rod's: the arm's)."""
    if body.fixed:
        return HOME
    return stand.back if body.carrier is Carrier.BACK else stand.arm


def gap_at(pair: Pair, stand: Stand) -> float:
    """Signed gap of a pair at a position, mm."""
    if pair.rod_radius is not None:
        return min(signed_distance(o, stand.rod) for o in pair.still.outlines) - pair.rod_radius
    at_a, at_b = placing(pair.still, stand), placing(pair.moving, stand)
    if len(pair.still_shapes) == 1 == len(pair.moving_shapes):
        return signed_gap(pair.still_shapes[0], at_a, pair.moving_shapes[0], at_b).value
    return min(
        signed_gap(a, at_a, b, at_b).value for a in pair.still_shapes for b in pair.moving_shapes
    )


def gaps_at(
    bodies: Sequence[Body],
    arm: float,
    stand: Stand,
    joined: frozenset[frozenset[str]] = frozenset(),
) -> tuple[tuple[str, str, float], ...]:
    """Every pair's names and signed gap (mm) at one position, in order of the bodies."""
    return tuple(
        (pair.still.name, pair.moving.name, gap_at(pair, stand))
        for pair in pairs(bodies, arm, joined)
    )


def place_at(pair: Pair, stand: Stand) -> Point:
    """A place in the hinge frame where a pair is nearest or deepest."""
    if pair.rod_radius is not None:
        sides = (s for o in pair.still.outlines for s in o.segments)
        return min((nearest_on(s, stand.rod) for s in sides), key=lambda p: math.dist(p, stand.rod))
    gap, a, b = nearest_shapes(pair, stand)
    return witness(a, placing(pair.still, stand), b, placing(pair.moving, stand), gap)


def nearest_shapes(pair: Pair, stand: Stand) -> tuple[Gap, Convex, Convex]:
    """The least gap over all pieces of a pair, and the two pieces."""
    at_a, at_b = placing(pair.still, stand), placing(pair.moving, stand)
    found = (
        (signed_gap(a, at_a, b, at_b), a, b) for a in pair.still_shapes for b in pair.moving_shapes
    )
    return min(found, key=lambda f: f[0].value)


def signed_distance(outline: Outline, place: Point) -> float:
    """Distance from a place to an outline's border, negative inside; exact for arcs."""
    away = min(math.dist(place, nearest_on(side, place)) for side in outline.segments)
    x0, y0, x1, y1 = outline.bounds
    inside = x0 <= place.x <= x1 and y0 <= place.y <= y1 and contains(outline, place)
    return -away if inside else away


def relative_way(pair: Pair, stretch: Stretch, low: Stand, high: Stand) -> float:
    """No two points of a pair approach by more than this between two positions, mm."""
    if pair.moving.carrier is Carrier.BACK:
        reach = max(shape.reach for shape in pair.moving_shapes)
        return reach * stretch.way(low, high).back
    if pair.still.fixed:
        return max(furthest_way(shape, stretch, low, high) for shape in pair.moving_shapes)
    way = stretch.way(low, high)
    turn = way.back + (way.pivot + way.rod) / stretch.prop.arm
    return max(shape.reach for shape in pair.moving_shapes) * turn


def first_below(
    pair: Pair, stretches: Sequence[Stretch], level: float
) -> tuple[Stretch, Stand] | None:
    """The first position of the travel at which a pair's gap is no more than `level` mm.

    Conservative advancement: each step is so short that the gap can't be used up within it.
    """
    for stretch in stretches:
        share = 0.0
        while True:
            stand = stretch.at(share)
            spare = gap_at(pair, stand) - level
            if spare <= 1e-6:
                return stretch, stand
            if share == 1.0:
                break
            share = _safe_step(pair, stretch, share, spare)
    return None


def _safe_step(pair: Pair, stretch: Stretch, share: float, spare: float) -> float:
    """The next share: no two points of the pair approach by more than `spare` up to there."""
    low, following = stretch.at(share), 1.0
    while following - share > 1e-12:
        way = relative_way(pair, stretch, low, stretch.at(following))
        if way <= spare:
            return following
        following = share + (following - share) * min(max(0.95 * spare / way, 0.02), 0.9)
    return min(share + 1e-12, 1.0)
