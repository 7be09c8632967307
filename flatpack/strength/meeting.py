"""Where parts of a piece meet: fasteners, wood let into wood, hinges, parts lying on others, feet.

What meets is told from fasteners and joints and from the parts' places, never from their names.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import combinations, pairwise
from typing import Literal

from flatpack.geometry import Vec, X, Y, Z
from flatpack.model import Assembly, Fastener, Part
from flatpack.strength.layout import SKIPPED, Link, normal_of, reach

GROUND_LEVEL = 1.0
"""A part whose lowest point lies no higher than this, mm, stands on the ground."""
WIDE_FOOT = 100.0
"""A foot longer than this, mm, stands on both its ends."""
LYING = 0.6
"""Faces no further apart than this, mm, lie on one another."""
LEAST_LAP = 5.0
"""Parts that lap by less than this, mm, aren't held by lying on one another."""
DEEP = 1.0
"""Boxes that share more than this each way, mm, are let into one another."""
Axes = tuple[Vec, Vec, Vec]


def space_links(assembly: Assembly) -> tuple[Link, ...]:
    """All fasteners between two parts that follow one another on them, by pair of parts."""
    found: dict[tuple[str, str], list[Fastener]] = {}
    for fastener in assembly.fasteners:
        passed = [k for k in fastener.passes if k in assembly.parts]
        if fastener.kind in SKIPPED:
            continue
        for a, b in pairwise(passed):
            found.setdefault((b, a) if (b, a) in found else (a, b), []).append(fastener)
    mates = {frozenset(pair) for pair in assembly.mates}
    return tuple(
        Link(
            first=a, second=b, fasteners=tuple(held),
            joints=tuple(dict.fromkeys(f.joint for f in held)),
            normal=normal_of(assembly.parts[b], held[0].direction),
            touching=frozenset((a, b)) in mates,
        )
        for (a, b), held in found.items()
    )  # fmt: skip


def mouth(part: Part, fastener: Fastener) -> Vec:
    """Where a fastener leaves a part's bounding box on its way to the tip."""
    at, way = part.frame.local(fastener.start), part.frame.local_direction(fastener.direction)
    x0, y0, x1, y1 = part.outline.bounds
    leaves = [
        ((high if w > 0.0 else low) - p) / w
        for p, w, low, high in zip(at, way, (x0, y0, 0.0), (x1, y1, part.thickness), strict=True)
        if abs(w) > 1e-6
    ]
    far = min((d for d in leaves if d > 0.0), default=0.0)
    return fastener.start.plus(fastener.direction, min(far, fastener.length))


Kind = Literal["let in", "glued", "hinge"]


def let_in(
    assembly: Assembly, linked: Collection[frozenset[str]]
) -> Iterator[tuple[Kind, str, str, str, Vec, Axes]]:
    """Joints whose parts no screw or bolt holds: kind, joint, both parts, place, axes.

    A hinge turns freely about the third axis.
    """
    by_joint: dict[str, list[Fastener]] = {}
    for fastener in assembly.fasteners:
        by_joint.setdefault(fastener.joint, []).append(fastener)
    for joint in assembly.joints:
        keys = [k for k in joint.parts if k in assembly.parts]
        hinge = next((f for f in by_joint.get(joint.key, ()) if f.kind == "hinge"), None)
        if hinge is None and joint.key in by_joint:
            continue
        for a, b in pairwise(keys):
            if frozenset((a, b)) in linked:
                continue
            if hinge is not None:
                place = hinge.start.plus(hinge.direction, hinge.length / 2.0)
                yield "hinge", joint.key, a, b, place, _about(hinge.direction)
                continue
            place, shared = shared_box(assembly.parts[a], assembly.parts[b])
            kind: Kind = "let in" if min(shared) > DEEP else "glued"
            yield kind, joint.key, a, b, place, (X, Y, Z)


def _about(axis: Vec) -> Axes:
    one = axis.cross(X if abs(axis.x) < 0.9 else Y).unit()
    return one, axis.cross(one), axis


def shared_box(a: Part, b: Part) -> tuple[Vec, tuple[float, float, float]]:
    """Middle of what two parts' boxes share along x, y, z, and how much (negative: a gap)."""
    middle, size = [], []
    for way in (X, Y, Z):
        (a0, a1), (b0, b1) = reach(a, way), reach(b, way)
        low, high = max(a0, b0), min(a1, b1)
        middle.append((low + high) / 2.0)
        size.append(high - low)
    return Vec(*middle), (size[0], size[1], size[2])


def square(part: Part) -> bool:
    """Whether a part's sides lie along the piece's axes."""
    return all(max(map(abs, v)) > 0.9999 for v in (part.frame.x, part.frame.y, part.frame.z))


def lying_on(
    assembly: Assembly, linked: Collection[frozenset[str]]
) -> Iterator[tuple[str, str, Vec, tuple[float, float]]]:
    """Parts that lie on another with nothing that fastens them: lower, upper, place, lap."""
    parts = [p for p in assembly.parts.values() if square(p)]
    for one, two in combinations(parts, 2):
        if frozenset((one.key, two.key)) in linked:
            continue
        low, high = (one, two) if reach(one, Z)[1] <= reach(two, Z)[1] else (two, one)
        if abs(reach(high, Z)[0] - reach(low, Z)[1]) > LYING:
            continue
        place, (dx, dy, _) = shared_box(low, high)
        if dx > LEAST_LAP and dy > LEAST_LAP:
            yield low.key, high.key, place, (dx, dy)


def feet_of(part: Part) -> tuple[Vec, ...]:
    """Where a part stands on the ground: the middle of its foot, or both ends of a long one."""
    points = [
        part.frame.place(p.x, p.y, z) for p in part.outline.points for z in (0.0, part.thickness)
    ]
    low = min(p.z for p in points)
    if low > GROUND_LEVEL:
        return ()
    down = [p for p in points if p.z < low + 0.5]
    first = min(down, key=lambda p: (p.x + p.y, p.x))
    last = max(down, key=lambda p: (p.x + p.y, p.x))
    across = (max(p.x for p in down) + min(p.x for p in down)) / 2.0
    deep = (max(p.y for p in down) + min(p.y for p in down)) / 2.0
    if last.minus(first).length <= WIDE_FOOT:
        return (Vec(across, deep, low),)
    if abs(last.x - first.x) >= abs(last.y - first.y):
        return Vec(first.x, deep, low), Vec(last.x, deep, low)
    return Vec(across, first.y, low), Vec(across, last.y, low)
