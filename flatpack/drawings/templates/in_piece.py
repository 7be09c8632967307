"""How a part sits in the piece: where its datum end points, which holes meet which."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from flatpack.drawings.faces import worked_faces
from flatpack.drawings.facing import facing
from flatpack.drawings.figures import mm
from flatpack.drawings.holes import Spot, spots
from flatpack.drawings.marks import PartGroup, marks_by_key
from flatpack.frozen import frozen
from flatpack.model import Assembly, Bearing, Face, Part
from flatpack.wording import english_facing
from flatpack.wording import english_templates as words

_ALONG = 0.9
"""Least cosine at which a part runs along an axis of the piece."""
_SAME = 0.3
"""Holes of two parts on one axis to within this meet, mm."""


@frozen
class InPiece:
    """What every panel may say of its parts in the piece.

    `ends` says by mark where the datum end points, `looks` by mark and face where a face looks,
    `meets` by mark and hole number which hole of another part lies on the same axis.
    """

    ends: Mapping[str, str]
    looks: Mapping[tuple[str, Face], str]
    meets: Mapping[tuple[str, int], str]


def in_piece(assembly: Assembly, found: tuple[PartGroup, ...]) -> InPiece:
    """All of it, worked out once."""
    looks = {
        (group.mark, face): facing(assembly, group, face)
        for group in found
        for face in worked_faces(group.part)
    }
    ends = {group.mark: _end(assembly, group) for group in found}
    return InPiece(ends=ends, looks=looks, meets=_meets(assembly, found))


def _end(assembly: Assembly, group: PartGroup) -> str:
    """Where the datum end points; "" where the parts of the group don't agree, or are loose."""
    if assembly.loose:
        return ""
    ways = {_way(assembly.bearing, assembly.parts[key]) for key in group.keys}
    return ways.pop() if len(ways) == 1 else ""


def _way(bearing: Bearing, part: Part) -> str:
    """Away from the part's own x axis; x runs to the head or rear, y to the right, z upwards."""
    x = part.frame.x
    axis = next((i for i in range(3) if abs(x[i]) > _ALONG), None)
    if axis is None:
        return ""
    ends = english_facing.ENDS[bearing]
    return words.DATUM_WAYS[axis][x[axis] < 0.0].format(ends[x[axis] < 0.0])


def _meets(assembly: Assembly, found: tuple[PartGroup, ...]) -> dict[tuple[str, int], str]:
    """Holes on the same axis in parts that touch, as 'A-L hole 31'."""
    marks = marks_by_key(found)
    numbered = {g.mark: _drilled(g.part) for g in found}
    seen: dict[tuple[str, int], dict[str, None]] = {}
    for a, b in assembly.mates:
        if a in marks and b in marks:
            one, two = numbered[marks[a]], numbered[marks[b]]
            for p, q in _pairs(assembly.parts[a], one, assembly.parts[b], two):
                off = p.y != q.y and abs(p.y - q.y) < 3.0
                there = words.meets_hole(marks[b], q.number, mm(q.y) if off else "")
                here = words.meets_hole(marks[a], p.number, mm(p.y) if off else "")
                seen.setdefault((marks[a], p.number), {})[there] = None
                seen.setdefault((marks[b], q.number), {})[here] = None
    return {key: ", ".join(said) for key, said in seen.items() if len(said) <= 2}


def _drilled(part: Part) -> tuple[Spot, ...]:
    return tuple(s for s in spots(part) if any(f.operation[:6] == "drill-" for f in s.features))


def _pairs(
    a: Part, one: tuple[Spot, ...], b: Part, two: tuple[Spot, ...]
) -> Iterator[tuple[Spot, Spot]]:
    """Spots of both parts on one axis, their faces being parallel."""
    if abs(a.frame.z.dot(b.frame.z)) < 0.9999:
        return
    x0, y0, _, _ = a.outline.bounds
    low = b.outline.bounds
    for q in two:
        at = a.frame.local(b.frame.place(q.x + low[0], q.y + low[1]))
        for p in one:
            if abs(at.x - x0 - p.x) < _SAME and abs(at.y - y0 - p.y) < _SAME:
                yield p, q
