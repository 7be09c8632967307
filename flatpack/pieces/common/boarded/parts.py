"""Parts of a boarded box: side boards, corner posts or battens, bearers, bottom.

The two long sides are alike turned half round, and so are left and right: made once and turned.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.geometry.shapes import rectangle
from flatpack.model import Part
from flatpack.pieces.common.boarded.bottom import slats
from flatpack.pieces.common.boarded.carcass import BEARER_ROOM, Carcass, inner_ends


def parts(out: Carcass) -> Iterator[Part]:
    """Every part, in the order of making."""
    yield from (replace(part, arris=out.wish.edge_round) for part in _parts(out))


def _parts(out: Carcass) -> Iterator[Part]:
    yield from _corners(out)
    yield from _ends(out)
    yield from _battens(out)
    yield from _bearers(out)
    yield from _long_sides(out)
    yield from slats(out)


def turned(out: Carcass, part: Part, key: str) -> Part:
    """The same part at the opposite side: the piece turned half round on the ground."""

    def round_(v: Vec) -> Vec:
        return Vec(-v.x, -v.y, v.z)

    f = part.frame
    o = Vec(out.wish.depth - f.origin.x, out.wish.length - f.origin.y, f.origin.z)
    return replace(part, key=key, frame=Frame(o, round_(f.x), round_(f.y), round_(f.z)))


def _corners(out: Carcass) -> Iterator[Part]:
    """Left hand at the low side's left and the high side's right; the right hand mirrors it."""
    t, flat = out.timber.sides.thickness, out.wish.flat
    low, middle = (0.0 if out.wish.feet else out.levels.low), out.wish.length / 2.0
    at = Vec(t, t + out.corner.y, low) if flat else Vec(t, t, low)
    frame = Frame(at, Z, Y.negated(), X) if flat else Frame(at, Z, X, Y)
    near, far = out.sides
    first = Part(
        key=f"post-{near}-left",
        name="Corner post" if flat else "Corner batten",
        board=out.timber.posts,
        outline=rectangle(out.levels.high + out.wish.posts_over - low, out.widths.post),
        frame=frame,
        hand="left",
    )
    opposite = turned(out, first, f"post-{far}-right")
    yield first
    yield first.other_hand(f"post-{near}-right", middle)
    yield opposite.other_hand(f"post-{far}-left", middle)
    yield opposite


def _ends(out: Carcass) -> Iterator[Part]:
    t = out.timber.sides.thickness
    for number, row in enumerate(out.rows, 1):
        left = Part(
            key=f"left-board-{number}",
            name="End board",
            board=out.timber.sides,
            outline=rectangle(out.wish.depth - 2.0 * t, row.width),
            frame=Frame(Vec(t, t, row.low), X, Z, Y.negated()),
        )
        yield left
        yield turned(out, left, f"right-board-{number}")


def _long_sides(out: Carcass) -> Iterator[Part]:
    t, (low, high) = out.timber.sides.thickness, out.sides
    for number, row in enumerate(out.rows, 1):
        near = Part(
            key=f"{low}-board-{number}",
            name="Side board",
            board=out.timber.sides,
            outline=rectangle(out.wish.length, row.width),
            frame=Frame(Vec(t, out.wish.length, row.low), Y.negated(), Z, X.negated()),
        )
        yield near
        yield turned(out, near, f"{high}-board-{number}")


def _battens(out: Carcass) -> Iterator[Part]:
    """Face to the long sides; the bearer is screwed to one edge, so the two sides are hands."""
    t, level, half = out.timber.sides.thickness, out.levels.low, out.widths.post / 2.0
    low, high = out.sides
    for number, middle in enumerate(out.battens, 1):
        near = Part(
            key=f"batten-{low}-{number}",
            name="Middle batten",
            board=out.timber.posts,
            outline=rectangle(out.levels.high - level, out.widths.post),
            frame=Frame(Vec(t, middle + half, level), Z, Y.negated(), X),
            hand="left",
        )
        yield near
        across = Vec(out.wish.depth - t, middle + half, level)
        mirrored = Frame(across, Z, Y.negated(), X.negated())
        yield replace(near, key=f"batten-{high}-{number}", hand="right", frame=mirrored)


def bearer_places(out: Carcass) -> tuple[tuple[str, float, Vec], ...]:
    """Each bearer: its key, the plane where it meets posts or battens, and the way its screws run.

    The last one lies on the other side of its posts, so that all screws are driven from inside.
    """
    low, high = inner_ends(out.wish, out.timber, out.corner)
    half = out.widths.post / 2.0
    way = Y.negated()
    middle = [
        (f"sleeper-middle-{number}", at + half, way) for number, at in enumerate(out.battens, 1)
    ]
    return (("sleeper-left", low, way), *middle, ("sleeper-right", high, Y))


def _bearers(out: Carcass) -> Iterator[Part]:
    t, low = out.timber.sides.thickness, out.levels.bearer_low
    start, end = t + BEARER_ROOM, out.wish.depth - t - BEARER_ROOM
    for key, plane, way in bearer_places(out):
        left = way.y < 0.0
        frame = (
            Frame(Vec(end, plane, low), X.negated(), Z, Y)
            if left
            else Frame(Vec(start, plane, low), X, Z, Y.negated())
        )
        yield Part(
            key=key,
            name="Skid" if not out.wish.feet else "Bearer",
            board=out.timber.posts,
            outline=rectangle(end - start, out.widths.bearer),
            frame=frame,
        )
