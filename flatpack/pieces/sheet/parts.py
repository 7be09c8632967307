"""Parts of a stool or table from sheet, before their joints are cut."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Frame, Outline, Vec, X, Y, Z
from flatpack.geometry.shapes import disc, filleted, rectangle, rounded_rectangle
from flatpack.model import Part
from flatpack.pieces.sheet.parameters import Sheet
from flatpack.pieces.sheet.setting_out import Leg, SettingOut, worth


def parts(p: Sheet, out: SettingOut) -> Iterator[Part]:
    """Legs or sides, stretchers, top; wedges come with their joints."""
    for part in _parts(p, out):
        yield replace(part, arris=p.top.edge_round)


def _parts(p: Sheet, out: SettingOut) -> Iterator[Part]:
    if out.crossed:
        yield from _crossed(out)
    else:
        yield from _sides(out)
        yield from _stretchers(out)
    yield _top(p, out)


def panel(leg: Leg) -> Outline:
    """A panel on two feet: x up from the ground, its middle at half its greatest width.

       floor/2             ,----.
    .---' foot '.-arch---.'      |     anticlockwise from the foot at y = 0
    """
    half, wide, foot = max(leg.top, leg.floor) / 2.0, leg.floor / 2.0, leg.floor / 2.0 - leg.foot
    edge = leg.corner
    corners = (
        (0.0, -wide, edge), (leg.tall, -leg.top / 2.0, 0.0), (leg.tall, leg.top / 2.0, 0.0),
        (0.0, wide, edge), (0.0, foot, edge), (leg.arch, foot, leg.rounding),
        (leg.arch, -foot, leg.rounding), (0.0, -foot, edge),
    )  # fmt: skip
    return filleted(tuple((x, y + half, r) for x, y, r in corners))


def _crossed(out: SettingOut) -> Iterator[Part]:
    t, half = out.legs.thickness / 2.0, max(out.leg.top, out.leg.floor) / 2.0
    low, high = out.middle - half, out.middle - t
    lower = Frame(Vec(low, high, 0.0), Z, X, Y)
    upper = Frame(Vec(out.middle + t, low, 0.0), Z, Y, X.negated())
    for key, frame in (("leg-lower", lower), ("leg-upper", upper)):
        yield Part(key=key, name="Leg", board=out.legs, outline=panel(out.leg), frame=frame)


def _sides(out: SettingOut) -> Iterator[Part]:
    """Their show faces look outwards."""
    half, t = max(out.leg.top, out.leg.floor) / 2.0, out.legs.thickness
    left, right = out.faces
    frames = (
        ("left", Frame(Vec(out.middle + half, left + t, 0.0), Z, X.negated(), Y.negated())),
        ("right", Frame(Vec(out.middle - half, right - t, 0.0), Z, X, Y)),
    )
    for key, frame in frames:
        yield Part(
            key=f"side-{key}", name="Side", board=out.legs, outline=panel(out.leg), frame=frame
        )


def _stretchers(out: SettingOut) -> Iterator[Part]:
    """On edge from side to side, show face to the front."""
    s, t = out.stretchers, out.legs.thickness
    for number, x in enumerate(s.places, 1):
        start = Vec(x + t / 2.0, out.faces[1] - t, s.low)
        yield Part(
            key=f"stretcher-{number}",
            name="Stretcher",
            board=out.legs,
            outline=rectangle(s.length, s.width),
            frame=Frame(start, Y.negated(), Z, X.negated()),
        )


def _top(p: Sheet, out: SettingOut) -> Part:
    size = p.size
    if out.crossed:
        half = size.length / 2.0
        outline, frame = disc(half, half, half), Frame(Vec(0.0, 0.0, out.under), X, Y, Z)
    else:
        corner = worth(min(p.top.corner, size.depth / 2.0 - 1.0, size.length / 2.0 - 1.0))
        outline = rounded_rectangle(size.length, size.depth, corner)
        frame = Frame(Vec(size.depth, 0.0, out.under), Y, X.negated(), Z)
    return Part(key="top", name="Top", board=out.top, outline=outline, frame=frame)
