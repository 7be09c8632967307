"""Which way a face of a part looks in the finished piece, so that nobody works the wrong one."""

from __future__ import annotations

from flatpack.drawings.marks import PartGroup
from flatpack.geometry import Vec
from flatpack.model import Assembly, Face, Part
from flatpack.wording import english_facing as words
from flatpack.wording import english_fits as trials

_SQUARE = 0.9
"""Least cosine at which a face looks along an axis of the piece."""
_ASIDE = 0.3
"""A part nearer to the middle than this share of the way to the side is on neither side of it."""


def facing(assembly: Assembly, group: PartGroup, face: Face) -> str:
    """Words for where the face looks, true of all parts of the group; "" where there are none.

    Loose parts look nowhere: there is no piece.

    A part at one side is said to face inwards or outwards, which both hands share; one across the
    piece faces an end, or inwards where its like at the other end faces the other way.  A part in
    the middle faces the side where the parts of one hand stand: left is the lower y.
    """
    if group.part.key not in assembly.parts:
        return trials.NOT_IN_PIECE
    if assembly.loose:
        return ""
    parts = [assembly.parts[key] for key in group.keys]
    normals = [_normal(part, face) for part in parts]
    axis = next((i for i in (2, 1, 0) if all(abs(n[i]) > _SQUARE for n in normals)), None)
    if axis is None:
        return ""
    ways = {n[axis] > 0.0 for n in normals}
    if axis == 2:
        return words.UP_OR_DOWN[ways.pop()] if len(ways) == 1 else ""
    if axis == 0 and len(ways) == 1:
        return words.towards(words.ENDS[assembly.bearing][ways.pop()])
    return _inwards(assembly, parts, normals, axis)


def _inwards(assembly: Assembly, parts: list[Part], normals: list[Vec], axis: int) -> str:
    spans = [_span(p, axis) for p in assembly.parts.values()]
    low, high = min(s[0] for s in spans), max(s[1] for s in spans)
    asides = [sum(_span(p, axis)) - (low + high) for p in parts]
    inwards = {aside * n[axis] < 0.0 for aside, n in zip(asides, normals, strict=True)}
    if any(abs(aside) < _ASIDE * (high - low) for aside in asides):
        ways = {n[axis] > 0.0 for n in normals}
        return words.SIDES[ways.pop()] if axis == 1 and len(ways) == 1 else ""
    return words.IN_OR_OUT[inwards.pop()] if len(inwards) == 1 else ""


def _normal(part: Part, face: Face) -> Vec:
    return part.frame.z if face == "show" else part.frame.z.negated()


def _span(part: Part, axis: int) -> tuple[float, float]:
    """Ends of the box round a part along an axis of the piece, without making its corners."""
    x0, y0, x1, y1 = part.outline.bounds
    frame = part.frame
    along, across, deep = frame.x[axis], frame.y[axis], frame.z[axis] * part.thickness
    xs, ys, zs = (along * x0, along * x1), (across * y0, across * y1), (0.0, deep)
    return (
        frame.origin[axis] + min(xs) + min(ys) + min(zs),
        frame.origin[axis] + max(xs) + max(ys) + max(zs),
    )
