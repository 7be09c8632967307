"""What to change where two bodies clash or come too near: a number, found, applied and tried.

Each change is made to one body, as little as keeps the wanted clearance over the whole travel,
and comes with the changed body, so that the caller can sweep everything again with it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from enum import StrEnum

from flatpack.frozen import frozen, replace
from flatpack.geometry import Point
from flatpack.mechanism.bodies import Body, Carrier, arm_outline
from flatpack.mechanism.convex import Pose
from flatpack.mechanism.fold import fold_range
from flatpack.mechanism.pairs import Pair, nearest_shapes, on_arm, placing
from flatpack.mechanism.path import Path, at_angle
from flatpack.mechanism.sweep import REACH, Clash, Clearance, examine
from flatpack.mechanism.track import Stand
from flatpack.mechanism.trimming import Side, trimmed

STEP = 0.005  # mm: a change is found this closely, on the safe side
FACING = 0.35  # a side is worth cutting when its normal leans this much (cosine) to the other body


class How(StrEnum):
    """Kinds of change."""

    CUT_BACK = "cut back"
    MOVE = "move"
    ROUND_END = "round the arm's end"
    NARROWER_ARM = "narrower arm"


@frozen
class Change:
    """One change to one body.

    `by` is how much is cut off (`side`) or moved (along `side`), or for an arm its new end
    radius, mm; `clears` the least gap that the pair then has over the travel, mm.
    """

    body: str
    how: How
    side: Side | None
    by: float
    clears: float
    changed: Body


def changes(
    found: Clash | Clearance, bodies: Sequence[Body], path: Path, wanted: float
) -> tuple[Change, ...]:
    """Changes that each alone give a pair the wanted clearance, smallest first.

    The rod is never changed and the ground never moved.
    """
    pair = pair_of(found, bodies, path)
    facing = _facing(pair, _stand(found, path))
    tried = [
        change
        for body, towards in zip((pair.still, pair.moving), facing, strict=True)
        for change in _for_body(pair, body, towards, path, wanted)
    ]
    return tuple(sorted(tried, key=lambda c: (c.how is How.NARROWER_ARM, c.by, c.body, c.how)))


def applied(change: Change, bodies: Sequence[Body]) -> tuple[Body, ...]:
    """The bodies with the changed one in place of the old."""
    return tuple(change.changed if b.name == change.body else b for b in bodies)


def pair_of(found: Clash | Clearance, bodies: Sequence[Body], path: Path) -> Pair:
    """The pair that a result of the sweep is about."""
    named = {b.name: b for b in bodies}
    return _paired(named[found.first], named[found.second], path)


def _paired(still: Body, moving: Body, path: Path) -> Pair:
    return Pair(still, moving, on_arm(still, path.prop.arm), on_arm(moving, path.prop.arm))


def _stand(found: Clash | Clearance, path: Path) -> Stand:
    """The position where the result was found: of those at its angle, the one nearest its place."""
    place = found.place or Point(0.0, 0.0)
    here = [s.at(k) for s in path.stretches for k in (0.0, 1.0)]
    here.append(at_angle(path, found.degrees))
    return min(
        here, key=lambda s: (round(abs(s.degrees - found.degrees), 3), math.dist(s.rod, place))
    )


def _facing(pair: Pair, stand: Stand) -> tuple[Point, Point]:
    """Directions from each body to the other, in each one's own axes."""
    gap, _, _ = nearest_shapes(pair, stand)
    return (
        _inward(placing(pair.still, stand), gap.ux, gap.uy),
        _inward(placing(pair.moving, stand), -gap.ux, -gap.uy),
    )


def _inward(at: Pose, x: float, y: float) -> Point:
    return Point(at.c * x + at.s * y, at.c * y - at.s * x)


def _for_body(
    pair: Pair, body: Body, towards: Point, path: Path, wanted: float
) -> Iterator[Change]:
    if body.carrier in (Carrier.ROD, Carrier.GROUND):
        return
    if body.carrier is Carrier.ARM:
        yield from _arm_changes(pair, body, path, wanted)
        return
    for side in Side:
        lean = side.outward.x * towards.x + side.outward.y * towards.y
        if lean > FACING:
            yield from _side_changes(pair, body, side, path, wanted)


def _side_changes(
    pair: Pair, body: Body, side: Side, path: Path, wanted: float
) -> Iterator[Change]:
    x0, y0, x1, y1 = body.outlines[0].bounds
    most = (x1 - x0) if side in (Side.LEFT, Side.RIGHT) else (y1 - y0)

    def cut(by: float) -> Body | None:
        outlines = tuple(trimmed(o, side, by) for o in body.outlines)
        kept = tuple(o for o in outlines if o is not None)
        return replace(body, outlines=kept) if len(kept) == len(outlines) else None

    def moved(by: float) -> Body | None:
        dx, dy = -side.outward.x * by, -side.outward.y * by
        return replace(body, outlines=tuple(o.moved(dx, dy) for o in body.outlines))

    if len(body.outlines) == 1:
        yield from _found(pair, body, cut, most * 0.9, path, wanted, How.CUT_BACK, side)
    yield from _found(pair, body, moved, 200.0, path, wanted, How.MOVE, side)


def _arm_changes(pair: Pair, body: Body, path: Path, wanted: float) -> Iterator[Change]:
    _, y0, _, y1 = body.outlines[0].bounds
    width, arm = y1 - y0, path.prop.arm
    whole = replace(body, outlines=(arm_outline(arm, width),))
    least = _tried(pair, body, whole, path, wanted, REACH)
    square = len(body.shapes[0].carriers) > 2
    if square and least >= wanted:
        yield Change(
            body=body.name,
            how=How.ROUND_END,
            side=None,
            by=width / 2.0,
            clears=least,
            changed=whole,
        )
        return

    def narrower(by: float) -> Body | None:
        return replace(body, outlines=(arm_outline(arm, width - 2.0 * by),))

    smallest = path.prop.rod / 2.0
    for change in _found(
        pair, body, narrower, width / 2.0 - smallest, path, wanted, How.NARROWER_ARM, None
    ):
        yield replace(change, by=width / 2.0 - change.by)


def _found(
    pair: Pair,
    body: Body,
    made: Callable[[float], Body | None],
    most: float,
    path: Path,
    wanted: float,
    how: How,
    side: Side | None,
) -> Iterator[Change]:
    """The least change that keeps the clearance; nothing when even the most doesn't."""
    low, high = 0.0, _first_enough(pair, body, made, most, path, wanted)
    if high is None:
        return
    while high - low > STEP:
        middle = (low + high) / 2.0
        changed = made(middle)
        if changed is not None and _tried(pair, body, changed, path, wanted) >= wanted:
            high = middle
        else:
            low = middle
    changed = made(high)
    if changed is not None:
        clears = _tried(pair, body, changed, path, wanted, REACH)
        yield Change(body=body.name, how=how, side=side, by=high, clears=clears, changed=changed)


def _first_enough(
    pair: Pair,
    body: Body,
    made: Callable[[float], Body | None],
    most: float,
    path: Path,
    wanted: float,
) -> float | None:
    """A change that is enough, found by doubling from a small one."""
    by = min(1.0, most)
    while True:
        changed = made(by)
        if changed is not None and _tried(pair, body, changed, path, wanted) >= wanted:
            return by
        if by >= most:
            return None
        by = min(2.0 * by, most)


def _tried(
    pair: Pair, body: Body, changed: Body, path: Path, wanted: float, reach: float = 1.0
) -> float:
    """The pair's least gap over the travel with one body changed; negative when it overlaps.

    A gap more than `reach` mm above the wanted one isn't measured: that bound is given.
    """
    still, moving = (changed if b is body else b for b in (pair.still, pair.moving))
    altered = _paired(still, moving, path)
    result = examine(altered, path, fold_range(path), wanted, reach=wanted + reach)
    return -result.depth if isinstance(result, Clash) else result.least


__all__ = ["Change", "How", "Side", "applied", "changes", "pair_of"]
