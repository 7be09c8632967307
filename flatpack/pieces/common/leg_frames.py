"""Leg frames that stand across a piece: rails between two legs, stretchers from frame to frame.

Each frame stands in one plane; x runs from its front leg to its rear leg, y from frame to frame.
What carries the slats, a cleat or bearer, lies against the inner face of the frame's rail.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise

from flatpack.geometry import ORIGIN, Segment, Vec, X, Y
from flatpack.joinery import BarrelNutBolt, FaceScrews, InsertBolt
from flatpack.joinery.axis import extent, kept_clear
from flatpack.model import Joint, Part
from flatpack.pieces.common.fixings import (
    CLEAR_OF_POCKETS,
    EDGE_IN_BOLTS,
    END_IN_BOLTS,
    WOOD_BETWEEN,
    Kit,
    pocket_reach,
    pockets,
)

FIXING_HEIGHT = 14.0
"""Least height of a cleat's screws or bolts above its lower edge, mm, under the pockets."""
NUT_DEPTH = 32.0
"""From the end of a stretcher to its barrel nut's middle, mm (common practice, no source)."""
SQUARE = 1.0 - 1e-12
"""A way counts as square across the piece when its cosine is above this."""
Ways = tuple[Vec, Vec]
FRONT_AND_REAR: Ways = (X.negated(), X)
LEFT_AND_RIGHT: Ways = (Y.negated(), Y)
Avoid = tuple[tuple[Vec, float], ...]
"""Places and how far to keep from each, mm."""
BOLT_SHARES = (0.3, 0.7)
"""Where a stretcher's two bolts stand, in shares of its width."""


def named_frames(frames: tuple[float, ...]) -> tuple[tuple[str, float], ...]:
    """Each leg frame's name and place; the first is the left one, the last the right one."""
    last = len(frames) - 1
    return tuple(
        ("left" if i == 0 else "right" if i == last else f"middle-{i}", y)
        for i, y in enumerate(frames)
    )


def inner(name: str) -> Vec:
    """The way the inner face of a leg frame's parts looks."""
    return Y.negated() if name == "right" else Y


def rail_joints(
    kit: Kit,
    name: str,
    rails: tuple[str, ...],
    *,
    ways: Ways = FRONT_AND_REAR,
    inside: Vec | None = None,
    avoid: Callable[[str, Vec], Avoid] = lambda _, __: (),
    count: Callable[[str], int] = lambda _: 2,
) -> Iterator[Joint]:
    """Rails between the legs of one frame.

    Where the frame leans, `ways` are the directions square to the rails' ends, front and rear, and
    `inside` the way the frame's inner face looks.  `avoid` says what the screws that leave a rail
    along a way keep clear of, `count` how many there are in each of its ends.
    """
    for rail in rails:
        for where, way in zip(("front", "rear"), ways, strict=True):
            yield pockets(
                kit,
                key=f"{rail}-{name}-to-{where}-leg",
                step="leg frames",
                through=f"{rail}-{name}",
                into=f"leg-{where}-{name}",
                outward=way,
                pocket_face=inner(name) if inside is None else inside,
                count=count(f"{rail}-{name}"),
                avoid=avoid(f"{rail}-{name}", way),
            )


def stretcher_joints(
    kit: Kit,
    frames: tuple[float, ...],
    parts: Mapping[str, Part],
    *,
    loose: bool,
    ways: Ways = LEFT_AND_RIGHT,
    avoid: Callable[[str, Vec], Avoid] = lambda _, __: (),
) -> Iterator[Joint]:
    """Stretchers between neighbouring frames: pocket screws, or barrel nuts where loose.

    `ways` are the directions square to a stretcher's left and right end, `avoid` as for rails.
    """
    for i, (left, right) in enumerate(pairwise(named_frames(frames)), 1):
        for (name, at), way in ((left, ways[0]), (right, ways[1])):
            if loose:
                yield from _stretcher_bolts(kit, parts[f"stretcher-{i}"], name, at, way)
            else:
                yield pockets(
                    kit,
                    key=f"stretcher-{i}-to-{name}",
                    step="stretcher",
                    through=f"stretcher-{i}",
                    into=f"low-rail-{name}",
                    outward=way,
                    pocket_face=X,
                    count=2,
                    avoid=avoid(f"stretcher-{i}", way),
                )


def _stretcher_bolts(kit: Kit, part: Part, name: str, at: float, way: Vec) -> Iterator[Joint]:
    for bolt, share in enumerate(BOLT_SHARES, 1):
        yield BarrelNutBolt(
            key=f"{part.key}-to-{name}-bolt-{bolt}",
            step="stretcher",
            through=f"low-rail-{name}",
            into=part.key,
            place=_in_end(part, at, way, share),
            direction=way.negated(),
            nut_face=X,
            depth=NUT_DEPTH,
            bolt=kit.undoing,
            nut=kit.barrel_nut,
            use="stretcher",
        )


def _in_end(part: Part, at: float, way: Vec, share: float) -> Vec:
    """A place on a bolt's axis, at a share of the end that looks along `way`."""
    middle = part.frame.place(0.0, 0.0, part.thickness / 2.0)
    if abs(way.y) > SQUARE:
        return Vec(middle.x, at, middle.z + part.width * share)
    end = end_towards(part, way)
    x, y = (a + (b - a) * share for a, b in zip(*sorted(end[:2], key=lambda p: p.y), strict=True))
    return part.frame.place(x, y, part.thickness / 2.0)


def end_towards(part: Part, way: Vec) -> Segment:
    """The straight piece of a part's outline that looks along a direction."""
    local = part.frame.local_direction(way)

    def looks(s: Segment) -> float:
        ux, uy = s.direction(0.0)
        return uy * local.x - ux * local.y

    return max((s for s in part.outline if s.bulge == 0.0), key=looks)


def cleat_joints(
    kit: Kit,
    cleat: Part,
    rail: Part,
    name: str,
    step: str,
    *,
    loose: bool,
    use: str = "seat",
    pockets_at: tuple[float, ...] | None = None,
) -> Iterator[Joint]:
    """A cleat on its frame's rail: glued and screwed from inside, or bolted from outside.

    With `pockets_at`, the x of the slats' pockets in the cleat, the two fixings stand between
    them; without it, below them, as far as the cleat is wide enough.
    """
    y = cleat.frame.origin.y
    z = cleat.frame.origin.z + _fixing_height(kit, cleat.width, loose, pockets_at is None)
    places = tuple(Vec(x, y, z) for x in _fixing_places(kit, cleat, rail, loose, pockets_at))
    if not loose:
        yield FaceScrews(
            key=f"{cleat.key}-on-rail",
            step=step,
            through=cleat.key,
            into=rail.key,
            places=places,
            direction=inner(name).negated(),
            screw=kit.wood_screw,
            tip_cover=kit.tip_cover,
            glue=True,
        )
        return
    for number, place in enumerate(places, 1):
        yield InsertBolt(
            key=f"{cleat.key}-bolt-{number}",
            step=step,
            through=rail.key,
            into=cleat.key,
            place=place,
            direction=inner(name),
            bolt=kit.undoing,
            insert=kit.insert,
            use=use,
        )


def _fixing_places(
    kit: Kit, cleat: Part, rail: Part, loose: bool, pockets_at: tuple[float, ...] | None
) -> tuple[float, ...]:
    """As far apart as pockets in the rail's ends let them stand, clear of those in the cleat.

    Between pockets one will do, in the middle, where there is no room for two.
    """
    a0, a1 = extent(cleat, X, ORIGIN)
    b0, b1 = extent(rail, X, ORIGIN)
    inset = pocket_reach(kit) + CLEAR_OF_POCKETS
    low, high = max(a0, b0 + inset), min(a1, b1 - inset)
    if pockets_at is None:
        return low, high
    head = _head(kit, loose)
    room = (head + kit.jig.drill) / 2.0 + WOOD_BETWEEN
    blocked = [(x - room, x + room) for x in pockets_at]
    size = kit.undoing.diameter if loose else kit.wood_screw.diameter
    apart = max(head + WOOD_BETWEEN, END_IN_BOLTS * size)
    two = kept_clear((low, high), low, high, blocked, apart, None)
    return two or kept_clear(((low + high) / 2.0,), low, high, blocked, apart)


def _head(kit: Kit, loose: bool) -> float:
    return kit.insert.outer if loose else kit.wood_screw.head_diameter


def _fixing_height(kit: Kit, width: float, loose: bool, below: bool) -> float:
    """Edge distance of a cleat's fixings, as far as the pockets above leave room for it."""
    size = kit.undoing.diameter if loose else kit.wood_screw.diameter
    room = width - pocket_reach(kit) - _head(kit, loose) / 2.0 - WOOD_BETWEEN
    wanted = EDGE_IN_BOLTS * size
    return max(min(wanted, room) if below else wanted, FIXING_HEIGHT)
