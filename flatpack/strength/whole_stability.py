"""Tipping about any line between two feet, and sliding, of a piece looked at as one frame."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from flatpack.geometry import Vec
from flatpack.mechanism.prop import Prop
from flatpack.mechanism.seats import laid
from flatpack.mechanism.stops import stops
from flatpack.model import Motion, posed
from flatpack.strength.layout import reach
from flatpack.strength.meeting import GROUND_LEVEL
from flatpack.strength.records import Check
from flatpack.strength.setting import Setting
from flatpack.strength.stability import STATICS
from flatpack.strength.use_cases import Use


class Spot(NamedTuple):
    """A place on the ground, mm."""

    x: float
    y: float


def ground(setting: Setting) -> tuple[Spot, ...]:
    """The outline, anticlockwise, round all that touches the ground."""
    spots = set()
    for part in setting.assembly.parts.values():
        if reach(part, Vec(0.0, 0.0, 1.0))[0] > GROUND_LEVEL:
            continue
        for p in part.outline.points:
            for z in (0.0, part.thickness):
                at = part.frame.place(p.x, p.y, z)
                if at.z <= GROUND_LEVEL:
                    spots.add(Spot(round(at.x, 3), round(at.y, 3)))
    for f in setting.assembly.fasteners:
        if f.kind == "wheel":
            for end in (f.start, f.start.plus(f.direction, f.length)):
                spots.add(Spot(round(f.start.x, 3), round(end.y, 3)))
    return hull(sorted(spots))


def hull(spots: Sequence[Spot]) -> tuple[Spot, ...]:
    """Convex hull of sorted spots, anticlockwise (Andrew's monotone chain)."""
    if len(spots) < 3:
        return tuple(spots)

    def half(some: Sequence[Spot]) -> list[Spot]:
        kept: list[Spot] = []
        for spot in some:
            while len(kept) > 1 and _turn(kept[-2], kept[-1], spot) <= 0.0:
                kept.pop()
            kept.append(spot)
        return kept

    return (*half(spots)[:-1], *half(spots[::-1])[:-1])


def _turn(a: Spot, b: Spot, c: Spot) -> float:
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)


class Moments(NamedTuple):
    """Holding and tipping moment, N mm, about the line over which a piece is nearest to tip."""

    holding: float
    tipping: float
    side: str


def worst_edge(outline: Sequence[Spot], forces: Sequence[tuple[Vec, Vec]]) -> Moments:
    """The nearest to tipping under (place, force) pairs, by the outline's edges."""
    worst = Moments(1.0, 0.0, "")
    for a, b in pairwise((*outline, outline[0])):
        length = math.hypot(b.x - a.x, b.y - a.y)
        # Left of a -> b is inside; `out` points away from it.
        out = Vec((b.y - a.y) / length, (a.x - b.x) / length, 0.0)
        holding = tipping = 0.0
        for place, force in forces:
            inside = -(Vec(place.x - a.x, place.y - a.y, 0.0).dot(out))
            moment = -force.z * inside - force.dot(out) * place.z
            holding, tipping = holding + max(moment, 0.0), tipping + max(-moment, 0.0)
        if tipping * worst.holding > worst.tipping * holding:
            worst = Moments(holding, tipping, _side(out))
    return worst


def _side(out: Vec) -> str:
    names = (("front", -out.x), ("rear", out.x), ("left", -out.y), ("right", out.y))
    return " ".join(name for name, share in names if share > 0.4)


def checks_of(setting: Setting, cases: Sequence[Use]) -> Iterator[Check]:
    """Tipping in every case that may tip, sliding where a push comes from beside the piece."""
    yield from open_lid(setting)
    outline = ground(setting)
    if len(outline) < 3:
        why = "it touches the ground in no three places that make a triangle"
        yield Check("piece", "piece", "tipping", "every case", None, "", "", STATICS, why)
        return
    weight, centre = setting.weight
    own = (centre, Vec(0.0, 0.0, -weight))
    for use in cases:
        if not use.tips and not use.slides:
            continue
        shares = [1.0 / use.loading.factor] * len(use.pushes)
        forces = [
            (p.place, Vec(*(s * v for v in p.force)))
            for p, s in zip(use.pushes, shares, strict=True)
        ]
        words = use.loading.case.words
        if use.tips:
            yield _tipping(setting, outline, [own, *forces], words)
        if use.slides:
            yield _sliding(setting, weight, [f for _, f in forces], words)


def open_lid(setting: Setting) -> Iterator[Check]:
    """Tipping with the lid at its highest stop and its free edge pulled on, the box empty."""
    motion, loads = setting.assembly.motion, setting.loads
    if loads.use != "lid" or not isinstance(motion, Motion):
        return
    words = f"lid open, its edge pulled back with {loads.lid_pull:g} N"
    prop = Prop(pivot=motion.pivot, arm=motion.arm, rod=motion.rod)
    found = stops(prop, laid(motion.contour, motion.rod)).stops
    outline = ground(setting)
    if not found or len(outline) < 3:
        why = "the lid finds no stop" if outline else "nothing of it touches the ground"
        yield Check("piece", "piece", "tipping, lid open", words, None, "", "", STATICS, why)
        return
    up = posed(setting.assembly, found[-1].angle, found[-1].rod)
    weight, centre = Setting(up, setting.profiles, loads, setting.grades).weight
    lid = [p for p in up.parts.values() if p.group == "back"]
    edge = max(
        (p.frame.place(at.x, at.y) for p in lid for at in p.outline.points),
        key=lambda v: (v.x - motion.axis.x) ** 2 + (v.z - motion.axis.z) ** 2,
    )
    pull = Vec(-loads.lid_pull, 0.0, 0.0)
    forces = [(centre, Vec(0.0, 0.0, -weight)), (edge, pull)]
    yield _tipping(setting, outline, forces, words)._replace(code="tipping, lid open")


def _tipping(
    setting: Setting, outline: Sequence[Spot], forces: Sequence[tuple[Vec, Vec]], words: str
) -> Check:
    holding, tip, side = worst_edge(outline, forces)
    margin = setting.loads.tip_margin
    use = margin * tip / holding if holding > 0.0 else math.inf
    formula = f"{margin:g} x tipping {tip / 1e3:.0f} / holding {holding / 1e3:.0f} N m"
    formula += f" about the {side} feet" if side else ""
    return Check("piece", "piece", "tipping", words, use, formula, "", STATICS)


def _sliding(setting: Setting, weight: float, forces: Sequence[Vec], words: str) -> Check:
    down = weight - sum(f.z for f in forces)
    aside = math.hypot(sum(f.x for f in forces), sum(f.y for f in forces))
    friction = setting.loads.friction
    formula = f"H {aside:.0f} / friction {friction:g} x {down:.0f} N"
    use = aside / (friction * down) if down > 0.0 and friction > 0.0 else math.inf
    return Check("piece", "piece", "sliding", words, use, formula, "", STATICS)
