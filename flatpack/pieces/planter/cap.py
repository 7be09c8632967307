"""The capping rail: four boards flat on the sides' tops, mitred or butted."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Frame, Outline, Vec, X, Y, Z, closed
from flatpack.geometry.shapes import rectangle
from flatpack.model import Part
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.setting_out import SettingOut


def cap(p: Planter, out: SettingOut) -> Iterator[Part]:
    """Long rails at front and rear, end rails between them or mitred to them."""
    over, width, z = p.cap.overhang, out.cap_width, out.box.levels.high
    mitre = p.cap.corner == "mitre"
    long, deep = p.size.length + 2.0 * over, p.size.depth + 2.0 * over
    front = Part(
        key="cap-front",
        name="Cap, long side",
        board=out.cap,
        outline=_mitred(long, width) if mitre else rectangle(long, width),
        frame=Frame(Vec(-over, p.size.length + over, z), Y.negated(), X, Z),
        arris=p.sides.edge_round,
    )
    yield front
    inset = 0.0 if mitre else width
    rear = Frame(Vec(p.size.depth + over, -over, z), Y, X.negated(), Z)
    yield replace(front, key="cap-rear", frame=rear)
    short = deep - 2.0 * inset
    left = Part(
        key="cap-left",
        name="Cap, end",
        board=out.cap,
        outline=_mitred(short, width) if mitre else rectangle(short, width),
        frame=Frame(Vec(inset - over, -over, z), X, Y, Z),
        arris=p.sides.edge_round,
    )
    yield left
    far = Vec(p.size.depth + over - inset, p.size.length + over, z)
    yield replace(left, key="cap-right", frame=Frame(far, X.negated(), Y.negated(), Z))


def _mitred(length: float, width: float) -> Outline:
    """A board whose ends are cut at 45 degrees, longest along y = 0."""
    return closed(
        ((0.0, 0.0, 0.0), (length, 0.0, 0.0), (length - width, width, 0.0), (width, width, 0.0))
    )
