"""Parts that stand still: rails, end rails, hinge rail and packers, legs, fixed slats."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Frame, Outline, Vec, X, Y, Z, closed
from flatpack.geometry.shapes import rectangle
from flatpack.model import Part
from flatpack.pieces.lounger.parameters import Lounger
from flatpack.pieces.lounger.setting_out import SettingOut

PACKER_MARGIN = 13.0
"""Packer left beyond a hinge leaf on each side, and twice below it, mm (common practice)."""


def frame_parts(p: Lounger, out: SettingOut) -> Iterator[Part]:
    """All parts of the frame, left before right, foot before head."""
    yield from _side_rails(p, out)
    yield from _cross_rails(p, out)
    yield from _packers(p, out)
    yield from fixed_slats(p, out)
    yield from _legs(p, out)


def _side_rails(p: Lounger, out: SettingOut) -> Iterator[Part]:
    t = out.stock.frame.thickness
    left = Part(
        key="rail-left",
        name="Side rail",
        board=out.stock.frame,
        outline=rectangle(p.size.length, out.widths.rail),
        frame=Frame(Vec(0.0, t, out.heights.under_rail), X, Z, Y.negated()),
        hand="left",
    )
    yield left
    yield left.other_hand("rail-right", p.size.width / 2.0)


def _cross_rails(p: Lounger, out: SettingOut) -> Iterator[Part]:
    t, width = out.stock.frame.thickness, p.size.width
    low = out.heights.under_slats - out.widths.cross
    shape = rectangle(width - 2.0 * t, out.widths.cross)
    foot = Frame(Vec(t, width - t, low), Y.negated(), Z, X.negated())
    head = Frame(Vec(p.size.length - t, t, low), Y, Z, X)
    hinge = Frame(Vec(packer_face(out) - 2.0 * t, t, low), Y, Z, X)
    for key, name, frame in (
        ("end-rail-foot", "End rail", foot),
        ("end-rail-head", "End rail", head),
        ("hinge-rail", "Hinge rail", hinge),
    ):
        yield Part(key=key, name=name, board=out.stock.frame, outline=shape, frame=frame)


def packer_face(out: SettingOut) -> float:
    """X of the face that carries the hinges' fixed leaves."""
    return out.deck.hinge_x - out.stock.hinge.axis_offset


def hinge_places(p: Lounger) -> tuple[float, float]:
    """Middles of the two hinges across the width."""
    return p.size.width * p.hinge.inset, p.size.width * (1.0 - p.hinge.inset)


def packer_size(out: SettingOut) -> tuple[float, float]:
    """Length across the piece and height of a packer."""
    hinge = out.stock.hinge
    return hinge.leaf_length + 2.0 * PACKER_MARGIN, hinge.leaf_width + 2.0 * PACKER_MARGIN


def _packers(p: Lounger, out: SettingOut) -> Iterator[Part]:
    length, height = packer_size(out)
    x, z = packer_face(out) - out.stock.frame.thickness, out.heights.under_slats - height
    for hand, middle in zip(("left", "right"), hinge_places(p), strict=True):
        yield Part(
            key=f"packer-{hand}",
            name="Hinge packer",
            board=out.stock.frame,
            outline=rectangle(length, height),
            frame=Frame(Vec(x, middle - length / 2.0, z), Y, Z, X),
        )


def slat(p: Lounger, out: SettingOut, key: str, name: str, x: float) -> Part:
    """A slat across the piece whose foot-side edge stands at x."""
    width = out.widths.slat
    frame = Frame(Vec(x + width, 0.0, out.heights.under_slats), Y, X.negated(), Z)
    return Part(
        key=key,
        name=name,
        board=out.stock.slats,
        outline=rectangle(p.size.width, width),
        frame=frame,
        arris=p.slats.edge_round,
    )


def fixed_slats(p: Lounger, out: SettingOut) -> Iterator[Part]:
    """Slats of the deck, from the foot end."""
    pitch = out.widths.slat + out.deck.deck_gap
    for i in range(out.deck.deck_count):
        yield slat(p, out, f"slat-{i + 1}", "Fixed slat", i * pitch)


def _legs(p: Lounger, out: SettingOut) -> Iterator[Part]:
    t, width = out.stock.frame.thickness, out.widths.leg
    top = out.heights.under_slats
    yield from _pair_of_legs(p, out, "leg-foot", "Leg", t, 0.0, rectangle(top, width))
    x = p.size.length - t - width
    if out.stock.wheel is None:
        yield from _pair_of_legs(p, out, "leg-head", "Leg", x, 0.0, rectangle(top, width))
        return
    low = out.stock.wheel.diameter / 2.0 - width / 2.0
    shape = _round_foot(top - low, width)
    yield from _pair_of_legs(p, out, "leg-head", "Wheel leg", x, low, shape)


def _round_foot(length: float, width: float) -> Outline:
    """Leg along x whose lower end is a half circle about the axle."""
    r = width / 2.0
    return closed(((r, 0.0, 0.0), (length, 0.0, 0.0), (length, width, 0.0), (r, width, 1.0)))


def _pair_of_legs(
    p: Lounger, out: SettingOut, key: str, name: str, x: float, low: float, shape: Outline
) -> Iterator[Part]:
    t, board = out.stock.frame.thickness, out.stock.frame
    left = Frame(Vec(x, t, low), Z, X, Y)
    right = Frame(Vec(x + out.widths.leg, p.size.width - t, low), Z, X.negated(), Y.negated())
    for hand, frame in (("left", left), ("right", right)):
        yield Part(key=f"{key}-{hand}", name=name, board=board, outline=shape, frame=frame)
