"""Parts of a planter box: side boards, corner posts or battens, bearers, bottom, cap.

Front and rear, and left and right, are alike turned half round; so each is made once and turned.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.geometry.shapes import rectangle
from flatpack.model import Part
from flatpack.pieces.planter.bottom import slats
from flatpack.pieces.planter.cap import cap
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.setting_out import BEARER_ROOM, SettingOut, inner_ends


def parts(p: Planter, out: SettingOut) -> Iterator[Part]:
    """Every part, in the order of making."""
    yield from (replace(part, arris=p.sides.edge_round) for part in _parts(p, out))


def _parts(p: Planter, out: SettingOut) -> Iterator[Part]:
    yield from _corners(p, out)
    yield from _ends(p, out)
    yield from _battens(p, out)
    yield from _bearers(p, out)
    yield from _long_sides(p, out)
    yield from slats(p, out)
    if p.cap.use:
        yield from cap(p, out)


def turned(p: Planter, part: Part, key: str) -> Part:
    """The same part at the opposite side: the piece turned half round on the ground."""

    def round_(v: Vec) -> Vec:
        return Vec(-v.x, -v.y, v.z)

    f = part.frame
    o = Vec(p.size.depth - f.origin.x, p.size.length - f.origin.y, f.origin.z)
    return replace(part, key=key, frame=Frame(o, round_(f.x), round_(f.y), round_(f.z)))


def _corners(p: Planter, out: SettingOut) -> Iterator[Part]:
    """Left hand at front left and rear right; the right hand is the mirror image."""
    t, flat = out.stock.sides.thickness, p.corners.kind == "posts"
    low = 0.0 if p.ground.kind == "feet" else out.levels.low
    at = Vec(t, t + out.corner.y, low) if flat else Vec(t, t, low)
    frame = Frame(at, Z, Y.negated(), X) if flat else Frame(at, Z, X, Y)
    first = Part(
        key="post-front-left",
        name="Corner post" if flat else "Corner batten",
        board=out.stock.posts,
        outline=rectangle(out.levels.high - low, out.widths.post),
        frame=frame,
        hand="left",
    )
    middle = p.size.length / 2.0
    opposite = turned(p, first, "post-rear-right")
    yield first
    yield first.other_hand("post-front-right", middle)
    yield opposite.other_hand("post-rear-left", middle)
    yield opposite


def _ends(p: Planter, out: SettingOut) -> Iterator[Part]:
    t = out.stock.sides.thickness
    for number, row in enumerate(out.rows, 1):
        left = Part(
            key=f"left-board-{number}",
            name="End board",
            board=out.stock.sides,
            outline=rectangle(p.size.depth - 2.0 * t, row.width),
            frame=Frame(Vec(t, t, row.low), X, Z, Y.negated()),
        )
        yield left
        yield turned(p, left, f"right-board-{number}")


def _long_sides(p: Planter, out: SettingOut) -> Iterator[Part]:
    t = out.stock.sides.thickness
    for number, row in enumerate(out.rows, 1):
        front = Part(
            key=f"front-board-{number}",
            name="Side board",
            board=out.stock.sides,
            outline=rectangle(p.size.length, row.width),
            frame=Frame(Vec(t, p.size.length, row.low), Y.negated(), Z, X.negated()),
        )
        yield front
        yield turned(p, front, f"rear-board-{number}")


def _battens(p: Planter, out: SettingOut) -> Iterator[Part]:
    """Face to the long sides; the bearer is screwed to one edge, so front and rear are hands."""
    t, low, half = out.stock.sides.thickness, out.levels.low, out.widths.post / 2.0
    for number, middle in enumerate(out.battens, 1):
        front = Part(
            key=f"batten-front-{number}",
            name="Middle batten",
            board=out.stock.posts,
            outline=rectangle(out.levels.high - low, out.widths.post),
            frame=Frame(Vec(t, middle + half, low), Z, Y.negated(), X),
            hand="left",
        )
        yield front
        across = Vec(p.size.depth - t, middle + half, low)
        mirrored = Frame(across, Z, Y.negated(), X.negated())
        yield replace(front, key=f"batten-rear-{number}", hand="right", frame=mirrored)


def bearer_places(p: Planter, out: SettingOut) -> tuple[tuple[str, float, Vec], ...]:
    """Each bearer: its key, the plane where it meets posts or battens, and the way its screws run.

    The last one lies on the other side of its posts, so that all screws are driven from inside.
    """
    low, high = inner_ends(p, out.stock, out.corner)
    half = out.widths.post / 2.0
    way = Y.negated()
    middle = [
        (f"bearer-middle-{number}", at + half, way) for number, at in enumerate(out.battens, 1)
    ]
    return (("bearer-left", low, way), *middle, ("bearer-right", high, Y))


def _bearers(p: Planter, out: SettingOut) -> Iterator[Part]:
    t, low = out.stock.sides.thickness, out.levels.bearer_low
    start, end = t + BEARER_ROOM, p.size.depth - t - BEARER_ROOM
    for key, plane, way in bearer_places(p, out):
        left = way.y < 0.0
        frame = (
            Frame(Vec(end, plane, low), X.negated(), Z, Y)
            if left
            else Frame(Vec(start, plane, low), X, Z, Y.negated())
        )
        yield Part(
            key=key,
            name="Skid" if p.ground.kind == "skids" else "Bearer",
            board=out.stock.posts,
            outline=rectangle(end - start, out.widths.bearer),
            frame=frame,
        )
