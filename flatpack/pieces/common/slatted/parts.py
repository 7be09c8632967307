"""Parts of a slatted top on two leg frames: legs, rails, aprons, bearers, stretcher, slats."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.geometry.shapes import rectangle
from flatpack.model import Part
from flatpack.pieces.common.slatted.plan import Plan
from flatpack.pieces.common.slatted.setting_out import SettingOut


def parts(p: Plan, out: SettingOut) -> Iterator[Part]:
    """Every part: the left leg frame, the right one, then what runs between them."""
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
    axes = (Vec(-v.x, -v.y, v.z) for v in (f.x, f.y, f.z))
    return replace(part, key=other_end(part.key), frame=Frame(origin, *axes))


def other_end(key: str) -> str:
    """What a part of the left leg frame is called when it is turned half round."""
    for a, b in (("-front-", "-rear-"), ("-rear-", "-front-")):
        if a in key:
            key = key.replace(a, b)
            break
    return key.removesuffix("left") + "right"


def _left(p: Plan, out: SettingOut) -> Iterator[Part]:
    """Legs and rails of the left leg frame.

    A leg's y runs in from its outer edge, so that all four are one part.
    """
    y = out.frames[0]
    t, width = out.stock.frames.thickness, out.widths.leg
    for where, frame in (
        ("front", Frame(Vec(out.legs.low, y, 0.0), Z, X, Y)),
        ("rear", Frame(Vec(out.legs.high, y + t, 0.0), Z, X.negated(), Y.negated())),
    ):
        yield Part(
            key=f"leg-{where}-left",
            name="Leg",
            board=out.stock.frames,
            outline=rectangle(out.under, width),
            frame=frame,
        )
    yield _rail(out, "top-rail-left", "Top rail", out.widths.apron, out.under - out.widths.apron)
    if p.rails.low:
        yield _rail(out, "low-rail-left", "Low rail", out.widths.low_rail, p.rails.low_rail_height)


def _rail(out: SettingOut, key: str, name: str, width: float, low: float) -> Part:
    inner = out.frames[0] + out.stock.frames.thickness
    return Part(
        key=key,
        name=name,
        board=out.stock.frames,
        outline=rectangle(out.rails.length, width),
        frame=Frame(Vec(out.rails.low, inner, low), X, Z, Y.negated()),
    )


def _aprons(out: SettingOut) -> Iterator[Part]:
    """Their show faces look outwards."""
    low = out.under - out.widths.apron
    outline = rectangle(out.clear.length, out.widths.apron)
    for where, frame in (
        ("front", Frame(Vec(out.bearers.low, out.clear.high, low), Y.negated(), Z, X.negated())),
        ("rear", Frame(Vec(out.bearers.high, out.clear.low, low), Y, Z, X)),
    ):
        yield Part(
            key=f"apron-{where}",
            name="Apron",
            board=out.stock.frames,
            outline=outline,
            frame=frame,
        )


def _bearers(out: SettingOut) -> Iterator[Part]:
    """End bearers against the top rails, their show faces outwards; middle ones face left."""
    t = out.stock.frames.thickness
    first, last = out.clear.low, out.clear.high
    yield _bearer(out, "bearer-left", "End bearer", first)
    rear = Frame(Vec(out.bearers.high, last - t, out.under - out.widths.apron), X.negated(), Z, Y)
    yield replace(_bearer(out, "bearer-right", "End bearer", first), frame=rear)
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
    rear = (p.sizes.depth + t) / 2.0
    return Part(
        key="stretcher-1",
        name="Stretcher",
        board=out.stock.frames,
        outline=rectangle(out.clear.length, width),
        frame=Frame(Vec(rear, out.clear.high, low), Y.negated(), Z, X.negated()),
    )


def _slats(p: Plan, out: SettingOut) -> Iterator[Part]:
    for number in range(1, out.count + 1):
        yield Part(
            key=f"slat-{number}",
            name=p.slat,
            board=out.stock.slats,
            outline=rectangle(p.sizes.length, out.widths.slat),
            frame=Frame(Vec(out.slat(number).high, 0.0, out.under), Y, X.negated(), Z),
            arris=p.top.edge_round,
        )
