"""Tipping and sliding of the whole piece, by plain statics."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from flatpack.geometry import Vec, X, Y, Z
from flatpack.strength.layout import middle, reach
from flatpack.strength.loading import Slats, back_of
from flatpack.strength.raised import Raised
from flatpack.strength.records import Check
from flatpack.strength.setting import Setting
from flatpack.strength.sides import GROUND

STATICS = "statics of a rigid body"


class Feet(NamedTuple):
    """The rectangle about all places where the piece touches the ground, mm."""

    low: float
    high: float
    left: float
    right: float


class Push(NamedTuple):
    """A force, N, at a place in the piece."""

    place: Vec
    force: Vec


def feet(setting: Setting) -> Feet | None:
    """The ground that the piece stands on."""
    xs: list[float] = []
    ys: list[float] = []
    for part in setting.assembly.parts.values():
        if reach(part, Z)[0] <= GROUND:
            xs += reach(part, X)
            ys += reach(part, Y)
    for fastener in setting.assembly.fasteners:
        if fastener.kind == "wheel":
            xs.append(fastener.start.x)
            ys += [fastener.start.y, fastener.start.plus(fastener.direction, fastener.length).y]
    return Feet(min(xs), max(xs), min(ys), max(ys)) if xs else None


def tipping(ground: Feet, pushes: Iterable[Push]) -> tuple[float, float, str]:
    """Holding and tipping moment, N mm, about the edge over which the piece is nearest to tip."""
    given = tuple(pushes)
    worst = (1.0, 0.0, "")
    for name, axis, edge, sign in (
        ("foot side", X, ground.low, 1.0),
        ("head side", X, ground.high, -1.0),
        ("left side", Y, ground.left, 1.0),
        ("right side", Y, ground.right, -1.0),
    ):
        holding = tip = 0.0
        for place, force in given:
            inside = sign * (place.dot(axis) - edge)
            moment = -force.z * inside + sign * force.dot(axis) * place.z
            holding, tip = holding + max(moment, 0.0), tip + max(-moment, 0.0)
        if tip * worst[0] > worst[1] * holding:
            worst = (holding, tip, name)
    return worst


def checks_of(setting: Setting, deck: Slats, lifted: Iterable[Raised]) -> Iterator[Check]:
    """Tipping with someone on each end and with the back up; sliding under a push."""
    ground = feet(setting)
    if ground is None:
        why = "nothing of it touches the ground"
        yield Check("piece", "piece", "tipping", "every case", None, "", "", STATICS, why)
        return
    weight, centre = setting.weight
    own = Push(centre, Vec(0.0, 0.0, -weight))
    for words, pushes, slides in _cases(setting, deck, lifted):
        holding, tip, edge = tipping(ground, (own, *pushes))
        margin = setting.loads.tip_margin
        use = margin * tip / holding if holding > 0.0 else float("inf")
        formula = f"{margin:g} x tipping {tip / 1e3:.0f} / holding {holding / 1e3:.0f} N m"
        formula += f" about the {edge}" if edge else ""
        yield Check("piece", "piece", "tipping", words, use, formula, "", STATICS)
        down = weight - sum(p.force.z for p in pushes)
        side = (sum(p.force.x for p in pushes) ** 2 + sum(p.force.y for p in pushes) ** 2) ** 0.5
        if slides and side > 0.0 and down > 0.0:
            grip = setting.loads.friction * down
            formula = f"H {side:.0f} / friction {setting.loads.friction:g} x {down:.0f} N"
            yield Check("piece", "piece", "sliding", words, side / grip, formula, "", STATICS)


def _cases(
    setting: Setting, deck: Slats, lifted: Iterable[Raised]
) -> Iterator[tuple[str, list[Push], bool]]:
    """Each case in words, its pushes, and whether they can push the piece along.

    Who lies on the piece with the feet up leans on its back and holds on by the slats: both forces
    are the piece's own.  Whose feet stand on the ground can push it away.
    """
    loads, person = setting.loads, setting.person
    (low, high), (left, right) = deck.span, deck.across
    top = reach(deck.parts[0], Z)[1]
    x, y, in_ = (low + high) / 2.0, (left + right) / 2.0, loads.spot_size / 2.0
    down = Vec(0.0, 0.0, -loads.end_share * person)
    for words, at in (
        ("someone sits on the very foot end, or front", (low + in_, y)),
        ("someone sits on the very head end, or rear", (high - in_, y)),
        ("someone sits on the very left", (x, left + in_)),
        ("someone sits on the very right", (x, right - in_)),
    ):
        yield words, [Push(Vec(at[0], at[1], top), down)], True
    away = Vec(loads.sway_share * person, 0.0, -person)
    yield "a person in the middle pushes along", [Push(Vec(x, y, top), away)], True
    back = back_of(setting)
    if back is not None:
        yield "a person sits and leans back", _against(setting, back, Vec(x, y, top)), True
    for r in lifted:
        yield r.loading.case.words, _leaning(r, x, y, top), False


def _against(setting: Setting, back: Slats, sits: Vec) -> list[Push]:
    """A person on the middle of the seat, and the share that pushes square into a fixed back."""
    part, loads = back.parts[0], setting.loads
    out, low = part.frame.z, back.span[0]
    size = loads.back_share * setting.person
    foot = middle(part)
    at = foot.plus(back.way, low + loads.back_height - foot.dot(back.way))
    push = Vec(-out.x * size, 0.0, -out.z * size)
    return [Push(Vec(at.x, sits.y, at.z), push), Push(sits, Vec(0.0, 0.0, -setting.person))]


def _leaning(r: Raised, x: float, y: float, top: float) -> list[Push]:
    """The leaning load at its place on the raised back; the rest of the person sits."""
    force = r.push / r.loading.factor
    line = r.in_back(1.0, 0.0)
    c, s = line.x, -line.z
    height = r.setting.loads.back_height
    at = Vec(r.motion.axis.x + height * c, y, r.motion.axis.z + height * s)
    push = Vec(force * s, 0.0, -force * c) if r.square else Vec(0.0, 0.0, -force)
    rest = Vec(0.0, 0.0, -(1.0 - r.setting.loads.back_share) * r.setting.person)
    return [Push(at, push), Push(Vec(x, y, top), rest)]
