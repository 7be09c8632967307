"""What to measure at a step: its outside, its diagonals, and derived dimensions."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.drawings.book.matter import Matter
from flatpack.drawings.book.steps import BuildStep
from flatpack.geometry import Vec
from flatpack.model import Bar, Part, placed_corners
from flatpack.wording import book_english_steps as words

_CORNER = 0.5
"""A part's corner nearer than this to the outside corner makes that corner, mm."""


def measures(m: Matter, step: BuildStep) -> Iterator[tuple[str, str, str]]:
    """Rows: what to measure, what it must be, how it comes about."""
    yield from _outside(m, step)
    starts = step.measures
    yield from _packers(m, step)
    for working in m.assembly.workings:
        if working.name.startswith(starts) and starts:
            yield _reached(working.name, step), m.said(working.value), working.sum
    yield from _bars(m, step)


def _reached(name: str, step: BuildStep) -> str:
    """A derived dimension's name; the back has no rail yet, but its slats end level with it."""
    return name.replace("the rail's outer face", "the slats' ends") if not step.old else name


def _packers(m: Matter, step: BuildStep) -> Iterator[tuple[str, str, str]]:
    """How far the faces that carry the hinges lie from the foot end."""
    ends = [v.x for part in m.assembly.parts.values() for v in placed_corners(part)]
    new = [m.assembly.parts[k] for k in step.new if k.startswith("packer")]
    if new:
        marks = ", ".join(dict.fromkeys(m.mark_of[part.key] for part in new))
        face = max(v.x for part in new for v in placed_corners(part))
        yield words.PACKER_FACE.format(f"{new[0].name} {marks}"), m.said(face - min(ends)), ""


def _outside(m: Matter, step: BuildStep) -> Iterator[tuple[str, str, str]]:
    """Size and diagonals of each rectangle that new parts make; equal ones once."""
    if step.old:
        return
    sizes = (_rectangle(parts) for parts in _tied(m, step))
    for a, b in dict.fromkeys(pair for pair in sizes if pair):
        yield words.OUTSIDE, f"{m.said(a)} by {m.said(b)}", ""
        how = words.DIAGONALS_SUM.format(m.exact(a), m.exact(b))
        yield words.DIAGONALS, m.said(math.hypot(a, b)), how


def _tied(m: Matter, step: BuildStep) -> Iterator[list[Part]]:
    """The parts of a step as the groups that its joints tie together."""
    left = [set(joint.parts) for joint in step.joints]
    while left:
        whole = left.pop(0)
        while near := [group for group in left if group & whole]:
            whole = whole.union(*near)
            left = [group for group in left if not group & whole]
        yield [m.assembly.parts[k] for k in step.new if k in whole and k in m.assembly.parts]


def _rectangle(parts: list[Part]) -> tuple[float, float] | None:
    """Longer and shorter side of the rectangle whose corners parts make, seen square on."""
    corners = [v for part in parts for v in _box_corners(part)]
    if not corners:
        return None
    reach = [(min(axis), max(axis)) for axis in zip(*corners, strict=True)]
    sizes = [high - low for low, high in reach]
    i, j = sorted(range(3), key=lambda axis: -sizes[axis])[:2]
    made = all(
        any(abs(v[i] - a) < _CORNER and abs(v[j] - b) < _CORNER for v in corners)
        for a in reach[i]
        for b in reach[j]
    )
    return (round(sizes[i], 3), round(sizes[j], 3)) if made else None


def _box_corners(part: Part) -> tuple[Vec, ...]:
    """The eight corners of the box round a part: a rounded corner counts as where it would be."""
    x0, y0, x1, y1 = part.outline.bounds
    heights = (0.0, part.thickness)
    return tuple(part.frame.place(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in heights)


def _bars(m: Matter, step: BuildStep) -> Iterator[tuple[str, str, str]]:
    """How far a new bar stands out beyond the parts that hold it."""
    for joint in step.joints:
        bar = m.assembly.bars.get(joint.parts[0])
        holders = [m.assembly.parts[k] for k in joint.parts[1:] if k in m.assembly.parts]
        if bar is None or not holders or bar.key not in step.new:
            continue
        low, _ = _between(bar, holders)
        held = ", ".join(dict.fromkeys(m.mark_of[h.key] for h in holders))
        said = words.STANDS_OUT.format(f"{bar.name} {m.mark_of[bar.key]}", held)
        yield said, m.said(low), ""


def _between(bar: Bar, holders: list[Part]) -> tuple[float, float]:
    """Where the holders begin and end along a bar, mm from its start."""
    reach = [
        v.minus(bar.frame.origin).dot(bar.frame.z) for part in holders for v in placed_corners(part)
    ]
    return min(reach), max(reach)
