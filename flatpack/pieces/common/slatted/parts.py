"""Parts of a slatted top on two leg frames: legs, rails, aprons, bearers, stretcher, slats."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Frame, Plane, Vec, X, Y, Z
from flatpack.geometry.shapes import rectangle
from flatpack.model import Hand, Part
from flatpack.pieces.common.slatted.plan import Plan
from flatpack.pieces.common.slatted.setting_out import SettingOut
from flatpack.pieces.common.splay import Way, edge_of, leaning, leg

INNER_EDGE = 2
"""Number of a leg's segment that looks to the other leg; its y runs in from its outer edge."""


def parts(p: Plan, out: SettingOut) -> Iterator[Part]:
    """Every part: the left leg frame, the right one, then what runs between them."""
    yield from (replace(part, arris=p.top.edge_round) for part in _parts(p, out))


def _parts(p: Plan, out: SettingOut) -> Iterator[Part]:
    for part in _left(p, out):
        yield part
        yield turned(part, p)
    yield from _aprons(out)
    yield from _bearers(out)
    if p.rails.low:
        yield _stretcher(p, out)
    yield from _slats(p, out)


def turned(part: Part, p: Plan) -> Part:
    """The same part on the other end, turned half round about the middle of the piece."""
    f = part.frame
    origin = Vec(p.sizes.depth - f.origin.x, p.sizes.length - f.origin.y, f.origin.z)
    axes = (Vec(-v.x + 0.0, -v.y + 0.0, v.z) for v in (f.x, f.y, f.z))
    return replace(part, key=other_end(part.key), frame=Frame(origin, *axes))


def other_end(key: str) -> str:
    """What a part of the left leg frame is called when it is turned half round."""
    for a, b in (("-front-", "-rear-"), ("-rear-", "-front-")):
        if a in key:
            key = key.replace(a, b)
            break
    return key.removesuffix("left") + "right"


def _left(p: Plan, out: SettingOut) -> Iterator[Part]:
    """Legs and rails of the left leg frame."""
    front, rear = _front_leg(out), _rear_leg(p, out)
    yield front
    yield rear
    ends = edge_of(front, INNER_EDGE), edge_of(rear, INNER_EDGE)
    top = Vec(out.rails.low, out.frames[0], out.under)
    yield _rail(out, "top-rail-left", "Top rail", out.widths.apron, top, (1.0, 1.0), ends)
    if p.rails.low:
        low = p.rails.low_rail_height
        at = Vec(out.rails.low, out.clear.low - out.lean.out_y(low), low)
        yield _rail(out, "low-rail-left", "Low rail", out.widths.low_rail, at, (0.0, 0.0), ends)


def _front_leg(out: SettingOut) -> Part:
    """Its y runs in from its outer edge, its show face looks to the other leg frame."""
    x, y, z = out.legs.low, out.frames[0], out.under
    foot = Vec(x - out.lean.out_x(0.0), y - out.lean.out_y(0.0), 0.0)
    way = Way(foot, Vec(x, y, z), Y, X, (0.0, 0.0))
    hand: Hand = "left" if out.lean.front else ""
    return leg("leg-front-left", "Leg", out.stock.frames, out.widths.leg, way, hand)


def _rear_leg(p: Plan, out: SettingOut) -> Part:
    """The front leg turned over, so that all four are one part; its mirror image if it can't be.

    A leg whose ends are sawn at a slant through its thickness has a left and a right hand.
    """
    if out.lean.front:
        front = _front_leg(out)
        f = front.frame
        origin = f.origin._replace(x=p.sizes.depth - f.origin.x)
        axes = (Vec(-v.x + 0.0, v.y, v.z) for v in (f.x, f.y, f.z))
        return replace(front, key="leg-rear-left", hand="right", frame=Frame(origin, *axes))
    x, y, z = out.legs.high, out.frames[0], out.under
    way = Way(Vec(x + out.lean.out_x(0.0), y, 0.0), Vec(x, y, z), Y.negated(), X, (0.0, 1.0))
    return leg("leg-rear-left", "Leg", out.stock.frames, out.widths.leg, way)


def _rail(
    out: SettingOut,
    key: str,
    name: str,
    width: float,
    at: Vec,
    line: tuple[float, float],
    ends: tuple[Plane, Plane],
) -> Part:
    """A rail in the plane of its frame, from leg to leg; `at` lies on the arris `line`."""
    outwards = out.lean.inwards("left").negated()
    way = Way(at, at.plus(X, out.rails.length), outwards, line=line)
    return leaning(key, name, out.stock.frames, width, way, ends)


def _aprons(out: SettingOut) -> Iterator[Part]:
    """Their show faces look outwards; the front one's grain runs to the left."""
    low = out.under - out.widths.apron
    a, b = Vec(0.0, out.clear.low, low), Vec(0.0, out.clear.high, low)
    for where, x, run, facing in (
        ("front", out.bearers.low, (b, a), X.negated()),
        ("rear", out.bearers.high, (a, b), X),
    ):
        start, end = (v._replace(x=x) for v in run)
        yield _between(out, f"apron-{where}", "Apron", out.widths.apron, start, end, facing)


def _between(
    out: SettingOut, key: str, name: str, width: float, start: Vec, end: Vec, facing: Vec
) -> Part:
    """A part on edge from leg frame to leg frame, its back face's lower arris on the two places."""
    planes = [out.lean.inner_plane("left", out.clear.low),
              out.lean.inner_plane("right", out.clear.high)]  # fmt: skip
    if start.y > end.y:
        planes.reverse()
    way = Way(start, end, facing, line=(0.0, 0.0))
    return leaning(key, name, out.stock.frames, width, way, (planes[0], planes[1]))


def _bearers(out: SettingOut) -> Iterator[Part]:
    """End bearers against the top rails, their show faces outwards; middle ones face left."""
    left, right = out.ends
    yield _bearer(out, "bearer-left", "End bearer", left)
    turned_over = Frame(
        Vec(out.bearers.high, right, out.under - out.widths.apron), X.negated(), Z, Y
    )
    yield replace(_bearer(out, "bearer-right", "End bearer", right), frame=turned_over)
    for number, y in enumerate(out.middles, 1):
        yield _bearer(out, f"bearer-middle-{number}", "Middle bearer", y)


def _bearer(out: SettingOut, key: str, name: str, left: float) -> Part:
    """A bearer whose left face, its show face, stands at `left`."""
    t, low = out.stock.frames.thickness, out.under - out.widths.apron
    return Part(
        key=key,
        name=name,
        board=out.stock.frames,
        outline=rectangle(out.bearers.length, out.widths.apron),
        frame=Frame(Vec(out.bearers.low, left + t, low), X, Z, Y.negated()),
    )


def _stretcher(p: Plan, out: SettingOut) -> Part:
    """In the middle, level with the low rails."""
    t, width = out.stock.frames.thickness, out.widths.stretcher
    low = p.rails.low_rail_height + (out.widths.low_rail - width) / 2.0
    start = Vec((p.sizes.depth + t) / 2.0, out.clear.high, low)
    end = start._replace(y=out.clear.low)
    return _between(out, "stretcher-1", "Stretcher", width, start, end, X.negated())


def _slats(p: Plan, out: SettingOut) -> Iterator[Part]:
    for number in range(1, out.count + 1):
        yield Part(
            key=f"slat-{number}",
            name=p.slat,
            board=out.stock.slats,
            outline=rectangle(p.sizes.length, out.widths.slat),
            frame=Frame(Vec(out.slat(number).high, 0.0, out.under), Y, X.negated(), Z),
        )
