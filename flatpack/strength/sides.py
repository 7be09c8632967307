"""Each side of the piece as a plane frame: rails, legs, posts and racks held by their fasteners.

A part is a row of bars along its axis, a fastener a tie between two parts' axes, stiff as EC5's
K_ser.  Feet are held up by the ground; the first one holds along the piece too, so that the others
give the least help.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry import Vec
from flatpack.model import Fastener, Part
from flatpack.strength.frames import FrameBar, NodeLoad, PlaneFrame, Solved, Tie, solve_all
from flatpack.strength.layout import Link, is_side, reach
from flatpack.strength.rules.dowels import slip_modulus
from flatpack.strength.rules.sections import Section, rectangle
from flatpack.strength.setting import Setting

GROUND = 1.0
"""A part whose lowest point lies no higher than this, mm, stands on the ground."""
SAME = 0.5
"""Places along a part closer than this, mm, are one node."""


class Force(NamedTuple):
    """A force on a side part at a place in the piece, N."""

    part: str
    place: Vec
    force: Vec


@frozen
class Side:
    """A plane frame made of parts: which nodes and bars are whose, and which tie is which."""

    parts: tuple[Part, ...]
    frame: PlaneFrame
    nodes: Mapping[str, tuple[tuple[float, int], ...]]
    bars: tuple[tuple[str, Section], ...]
    ties: tuple[tuple[Link, Fastener], ...]
    feet: tuple[tuple[str, int], ...]

    def loads(self, forces: Iterable[Force]) -> list[NodeLoad]:
        """Forces on the nearest node of their part, with their moment about it."""
        found = []
        for part, place, force in forces:
            if part not in self.nodes:
                continue
            at = _along(next(p for p in self.parts if p.key == part), place)
            node = min(self.nodes[part], key=lambda n: abs(n[0] - at))[1]
            x, z = self.frame.nodes[node]
            moment = (place.x - x) * force.z - (place.z - z) * force.x
            found.append(NodeLoad(node, force.x, force.z, moment))
        return found


def _along(part: Part, place: Vec) -> float:
    x0, _, x1, _ = part.outline.bounds
    return min(max(part.frame.local(place).x - x0, 0.0), x1 - x0)


def place_of(link: Link, fastener: Fastener, setting: Setting) -> Vec:
    """Where a fastener passes from one part into the other."""
    if fastener.bite is None:
        return fastener.start
    slope = max(abs(fastener.direction.dot(link.normal)), 0.1)
    return fastener.start.plus(fastener.direction, fastener.length - fastener.bite / slope)


def sides(setting: Setting, places: Mapping[str, Iterable[Vec]]) -> tuple[Side, ...]:
    """The frames of the piece; `places` are where each part will be loaded."""
    found = []
    for keys in _groups(setting):
        made = _Builder(setting, keys, places).made()
        if made is not None:
            found.append(made)
    return tuple(found)


def side_links(setting: Setting) -> tuple[Link, ...]:
    """Links between two parts of a side."""
    part = setting.part
    return tuple(k for k in setting.links if is_side(part(k.first)) and is_side(part(k.second)))


def _groups(setting: Setting) -> list[list[str]]:
    """Side parts that hang together; one held by a single fastener would turn, and is left out."""
    between = side_links(setting)
    held: dict[str, int] = {}
    for link in between:
        for key in (link.first, link.second):
            held[key] = held.get(key, 0) + len(link.fasteners)
    kept = [k for k, p in setting.assembly.parts.items() if is_side(p) and held.get(k, 0) >= 2]
    group = {key: key for key in kept}
    for link in between:
        if link.first in group and link.second in group:
            a, b = group[link.first], group[link.second]
            group = {key: (a if g == b else g) for key, g in group.items()}
    return [[k for k in kept if group[k] == g] for g in dict.fromkeys(group.values())]


class _Builder:
    """Collects the nodes, bars and ties of one side."""

    def __init__(
        self, setting: Setting, keys: list[str], places: Mapping[str, Iterable[Vec]]
    ) -> None:
        self.setting = setting
        self.parts = [setting.part(k) for k in keys]
        self.links = [k for k in side_links(setting) if k.first in keys and k.second in keys]
        self.places = places
        self.points: list[tuple[float, float]] = []
        self.nodes: dict[str, tuple[tuple[float, int], ...]] = {}

    def made(self) -> Side | None:
        feet = self._feet()
        if not feet or any(self.setting.stuff(p).row is None for p in self.parts):
            return None
        for part in self.parts:
            self._axis(part, feet)
        stands = [(key, self._node(key, at)) for key, at in feet]
        held = [(node, 1) for _, node in stands] + [(stands[0][1], 0)]
        bars, frame_bars = self._bars()
        ties = [(k, f, self._tie(k, f)) for k in self.links for f in k.fasteners]
        frame = PlaneFrame(
            nodes=tuple(self.points),
            bars=tuple(frame_bars),
            held=tuple(dict.fromkeys(held)),
            ties=tuple(t for _, _, t in ties),
        )
        return Side(
            parts=tuple(self.parts),
            frame=frame,
            nodes=self.nodes,
            bars=tuple(bars),
            ties=tuple((k, f) for k, f, _ in ties),
            feet=tuple(stands),
        )

    def _feet(self) -> list[tuple[str, Vec]]:
        """Places on the ground: lower ends of parts that reach it, and wheels' axles."""
        found = []
        for part in self.parts:
            low = reach(part, Vec(0.0, 0.0, 1.0))[0]
            if low <= GROUND:
                x = sum(reach(part, Vec(1.0, 0.0, 0.0))) / 2.0
                found.append((part.key, Vec(x, 0.0, low)))
        for joint in self.setting.assembly.joints:
            bar = self.setting.assembly.bars.get("axle")
            if bar is not None and bar.key in joint.parts:
                keys = [p.key for p in self.parts if p.key in joint.parts]
                found += [(key, bar.frame.origin) for key in keys]
        return sorted(found, key=lambda f: f[1].x)

    def _axis(self, part: Part, feet: list[tuple[str, Vec]]) -> None:
        marks = {0.0, part.length}
        marks |= {_along(part, v) for v in self.places.get(part.key, ())}
        marks |= {_along(part, v) for key, v in feet if key == part.key}
        for link in self.links:
            if part.key in (link.first, link.second):
                marks |= {_along(part, place_of(link, f, self.setting)) for f in link.fasteners}
        kept: list[float] = []
        for mark in sorted(marks):
            if not kept or mark - kept[-1] > SAME:
                kept.append(mark)
        x0, y0, _, y1 = part.outline.bounds
        nodes = []
        for mark in kept:
            at = part.frame.place(x0 + mark, (y0 + y1) / 2.0, part.thickness / 2.0)
            nodes.append((mark, len(self.points)))
            self.points.append((at.x, at.z))
        self.nodes[part.key] = tuple(nodes)

    def _node(self, key: str, place: Vec) -> int:
        part = self.setting.part(key)
        at = _along(part, place)
        return min(self.nodes[key], key=lambda n: abs(n[0] - at))[1]

    def _bars(self) -> tuple[list[tuple[str, Section]], list[FrameBar]]:
        owners, bars = [], []
        for part in self.parts:
            stuff = self.setting.stuff(part)
            assert stuff.row is not None
            section = rectangle(part.thickness, part.width)
            values = stuff.bent(stuff.row, part.width, False)
            e, g = values.stiffness, values.shear_stiffness
            nodes = self.nodes[part.key]
            for (_, a), (_, b) in pairwise(nodes):
                owners.append((part.key, section))
                bars.append(
                    FrameBar(a, b, e * section.area, e * section.second, g * section.shear_area)
                )
        return owners, bars

    def _tie(self, link: Link, fastener: Fastener) -> Tie:
        place = place_of(link, fastener, self.setting)
        rows = [self.setting.stuff(self.setting.part(k)).row for k in (link.first, link.second)]
        density = 1.0
        for row in rows:
            assert row is not None
            density *= row.density
        k = slip_modulus(fastener.diameter, density**0.5)
        first, second = self._node(link.first, place), self._node(link.second, place)
        return Tie(first, second, (place.x, place.z), k, k)


def solved(side: Side, cases: Iterable[Iterable[Force]]) -> tuple[Solved, ...]:
    """The side under each case.

    Raises:
        UnstableError: it is a mechanism.
    """
    return solve_all(side.frame, [(side.loads(forces), ()) for forces in cases])
