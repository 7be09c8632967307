r"""A stool made by hand, all slanting: legs splayed two ways, rails bevelled along and across.

              seat                     front view: legs lean by 8 degrees
        =================              side view:  legs lean by 6 degrees
         /|           |\
        / |---end-----| \              A side rail lies on the inner faces of two legs, under the
       /                 \             seat, its upper edge ripped at 8 degrees; end rails run
                                       from side rail to side rail, their ends sawn at 8 degrees.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from flatpack.geometry import Frame, Plane, Vec, X, Y, Z
from flatpack.geometry.shapes import rectangle
from flatpack.joinery import FaceScrews, machine
from flatpack.model import Assembly, Joint, Part, Step
from flatpack.pieces.common.splay import Way, face_of, leaning, leg, level
from flatpack.profiles import Board, Profiles

HEIGHT, LONG, DEEP = 420.0, 440.0, 300.0
FRONT, SIDE = 8.0, 6.0
TAN_FRONT, TAN_SIDE = (math.tan(math.radians(a)) for a in (FRONT, SIDE))
HALF_LONG, HALF_DEEP = 170.0, 95.0
"""From the middle to the legs' outer faces and middles under the seat."""
LEG, RAIL = 60.0, 70.0


def _leg(board: Board, x: float, y: float) -> Part:
    """A leg on the side x (-1 left, 1 right), y (-1 front, 1 rear); wide face to the side."""
    under = HEIGHT - board.thickness
    head = Vec(x * HALF_LONG, y * HALF_DEEP, under)
    foot = Vec(head.x + x * under * TAN_FRONT, head.y + y * under * TAN_SIDE, 0.0)
    way = Way(foot, head, Vec(x, 0.0, 0.0), holds=Y, line=(0.5, 1.0))
    names = {-1.0: "front", 1.0: "rear"}
    return leg(f"leg-{names[y]}-left", f"{names[y].capitalize()} leg", board, LEG, way, "left")


def _side_rail(board: Board, front: Part) -> Part:
    """On the inner faces of the left legs, from a little before to a little behind them."""
    inner = face_of(front, "back")
    under, t = HEIGHT - board.thickness, board.thickness
    height = under - RAIL / 2.0
    x = inner.at.x - (height - inner.at.z) * inner.out.z / inner.out.x
    ends = tuple(Vec(x, y * (HALF_DEEP + 45.0), height) for y in (-1.0, 1.0))
    way = Way(ends[0], ends[1], X, holds=front.frame.y.cross(front.frame.z), line=(0.5, 0.0))
    return leaning(
        "side-rail-left", "Side rail", board, RAIL, way,
        (Plane(ends[0], Y), Plane(ends[1], Y)), (None, level(HEIGHT - t)), hand="left",
    )  # fmt: skip


def _end_rail(board: Board, left: Part, right: Part, y: float) -> Part:
    """Between the side rails' inner faces, upright, below the seat's screws."""
    z = HEIGHT - board.thickness - RAIL + 22.0
    planes = face_of(left, "show"), face_of(right, "show")
    ends = [
        Vec(p.at.x - (z - p.at.z) * p.out.z / p.out.x, y * (HALF_DEEP - 50.0), z) for p in planes
    ]
    way = Way(ends[0], ends[1], Y.negated(), holds=Z)
    name = "front" if y < 0.0 else "rear"
    return leaning(f"end-rail-{name}", "End rail", board, 44.0, way, planes)


def _parts(board: Board) -> Iterator[Part]:
    yield Part(
        key="seat", name="Seat", board=board, outline=rectangle(LONG, DEEP), arris=3.0,
        frame=Frame(Vec(-LONG / 2.0, -DEEP / 2.0, HEIGHT - board.thickness), X, Y, Z),
    )  # fmt: skip
    legs = [_leg(board, -1.0, y) for y in (-1.0, 1.0)]
    rail = _side_rail(board, legs[0])
    lefts = [*legs, rail]
    rights = [_other_hand(part) for part in lefts]
    yield from lefts
    yield from rights
    for y in (-1.0, 1.0):
        yield _end_rail(board, rail, rights[2], y)


def _other_hand(part: Part) -> Part:
    """The mirror image across the plane x = 0."""
    f = part.frame
    flip = [Vec(-v.x, v.y, v.z) for v in (f.origin, f.x, f.y, f.z)]
    key = part.key.replace("left", "right")
    return replace(part, key=key, hand="right", frame=Frame(*flip))


def _joints(parts: dict[str, Part], profiles: Profiles) -> Iterator[Joint]:
    screw = profiles.screw("wood-4")
    for side, x in (("left", -1.0), ("right", 1.0)):
        rail = parts[f"side-rail-{side}"]
        for where, y in (("front", -1.0), ("rear", 1.0)):
            leg_ = parts[f"leg-{where}-{side}"]
            places = tuple(
                _on(leg_, rail, y, up, aside) for up, aside in ((18.0, 14.0), (46.0, -14.0))
            )
            yield FaceScrews(
                key=f"{leg_.key}-on-rail", step="sides", through=rail.key, into=leg_.key,
                places=places, direction=rail.frame.z.negated(), screw=screw, glue=True,
            )  # fmt: skip
            end = parts[f"end-rail-{where}"]
            middle = end.frame.place(end.length if x > 0.0 else 0.0, 22.0, end.thickness / 2.0)
            places = tuple(
                rail.frame.place(*rail.frame.local(middle)[:2]).plus(rail.frame.y, dz)
                for dz in (-11.0, 11.0)
            )
            yield FaceScrews(
                key=f"{rail.key}-to-{end.key}", step="frame", through=rail.key, into=end.key,
                places=places, direction=rail.frame.z, screw=screw, glue=True,
            )  # fmt: skip
        yield FaceScrews(
            key=f"seat-{side}", step="seat", through="seat", into=rail.key, screw=screw,
            direction=Z.negated(),
            places=tuple(Vec(_top_middle(rail), y, HEIGHT) for y in (-100.0, 0.0, 100.0)),
        )  # fmt: skip


def _top_middle(rail: Part) -> float:
    """x of the middle of the rail's upper edge."""
    at = rail.frame.place(0.0, 0.0, rail.thickness / 2.0)
    top = HEIGHT - rail.thickness
    up = rail.frame.y
    return at.x + up.x / up.z * (top - at.z)


def _on(leg_: Part, rail: Part, y: float, up: float, aside: float) -> Vec:
    """A place on the rail's inner face, before the leg's middle, `up` above its lower edge."""
    here = rail.frame.place(0.0, up)
    along = HALF_DEEP + (HEIGHT - rail.thickness - here.z) * TAN_SIDE
    return Vec(here.x, y * along + aside, here.z)


def build(profiles: Profiles) -> Assembly:
    """The whole stool, joints made."""
    board = profiles.board("ply-18")
    parts = {p.key: p for p in _parts(board)}
    return machine(
        Assembly(
            family="stool", name="Splayed stool", date="2031-04-05", parts=parts,
            joints=tuple(_joints(parts, profiles)),
            steps=(Step("sides", "Two sides"), Step("frame", "Frame"), Step("seat", "Seat")),
            bearing="standing",
        )
    )  # fmt: skip
