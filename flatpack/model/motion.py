"""A back that lifts: where its axis, arms and rack are, and the piece with the back at an angle.

Side view numbers are in the hinge frame: origin on the hinge axis, x towards the back's free end
when flat, y up.  The hinge frame's x, y are the piece's x, z.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from flatpack.frozen import replace
from flatpack.geometry import Frame, Point, Vec, cosine_sine
from flatpack.model.assembly import Assembly, Fastener, Motion
from flatpack.model.part import Bar, Group, Part
from flatpack.model.solid import Solid


def posed(assembly: Assembly, angle: float, rod: Point) -> Assembly:
    """The piece with its back at `angle` degrees and the rod's centre at `rod` (hinge frame).

    Raises:
        ValueError: the piece has no moving back.
    """
    motion = assembly.motion
    if motion is None:
        raise ValueError("this piece stands still")
    movers = _movers(motion, angle, rod)
    return replace(
        assembly,
        parts={k: _part(p, movers) for k, p in assembly.parts.items()},
        bars={k: _bar(b, movers) for k, b in assembly.bars.items()},
        fasteners=tuple(_fastener(f, movers) for f in assembly.fasteners),
    )


Mover = Callable[[Frame], Frame]


def _movers(motion: Motion, angle: float, rod: Point) -> dict[Group, Mover]:
    axis = motion.axis
    c, s = cosine_sine(angle)
    before, at = motion.pivot, motion.pivot
    after = Point(at.x * c - at.y * s, at.x * s + at.y * c)
    first = math.atan2(motion.folded.y - before.y, motion.folded.x - before.x)
    then = math.atan2(rod.y - after.y, rod.x - after.x)
    turn = math.degrees(then - first)
    hub = Vec(axis.x + before.x, axis.y, axis.z + before.y)
    swing = Vec(after.x - before.x, 0.0, after.y - before.y)
    slide = Vec(rod.x - motion.folded.x, 0.0, rod.y - motion.folded.y)
    return {
        "frame": lambda f: f,
        "back": lambda f: f.swung(axis, angle),
        "arm": lambda f: _shifted(f.swung(hub, turn), swing),
        "rod": lambda f: _shifted(f, slide),
    }


def _shifted(frame: Frame, by: Vec) -> Frame:
    return Frame(frame.origin.plus(by), frame.x, frame.y, frame.z)


def _part(part: Part, movers: dict[Group, Mover]) -> Part:
    return part if part.group == "frame" else replace(part, frame=movers[part.group](part.frame))


def _bar(bar: Bar, movers: dict[Group, Mover]) -> Bar:
    return replace(bar, frame=movers[bar.group](bar.frame))


def _fastener(fastener: Fastener, movers: dict[Group, Mover]) -> Fastener:
    if fastener.group == "frame" and fastener.kind != "hinge":
        return fastener
    move = movers[fastener.group]
    end = move(Frame(fastener.start)).origin
    tip = move(Frame(fastener.start.plus(fastener.direction))).origin
    return replace(
        fastener,
        start=end,
        direction=tip.minus(end),
        solids=tuple(
            _solid(s, move if s.group == "" else movers[s.group]) for s in fastener.solids
        ),
    )


def _solid(solid: Solid, move: Mover) -> Solid:
    return replace(solid, frame=move(solid.frame))
