"""What a step must say of single parts: which way teeth look, where arms and hinge leaves lie."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Protocol

from flatpack.drawings.book.lie import way
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.book.sight import middle, reach
from flatpack.drawings.book.steps import JointGroup
from flatpack.geometry import Point, Vec, X
from flatpack.model import Part, passage
from flatpack.profiles import Hinge, Wheel
from flatpack.wording import book_english_details as words
from flatpack.wording import book_english_steps as said

_LEVEL = 0.5
"""An edge that rises less than this is level, mm."""
_SQUARE = 0.999
_SHORT = 100.0
"""A part with a tooth is a block when it is shorter than this, mm; a bar's notches are many."""


class Leaf(Protocol):
    """A hinge's leaf: the part that it lies on, and the way out of that part's face."""

    @property
    def part(self) -> str:
        """Key of the part."""

    @property
    def out(self) -> Vec:
        """Out of the face that it lies on."""


def toothed(part: Part) -> bool:
    """True for a tooth block: short, with one edge that slopes."""
    return part.length < _SHORT and bool(_slopes(part))


def _slopes(part: Part) -> list[tuple[Point, Point]]:
    """Straight edges that run neither along nor across the grain, longest first."""
    edges = ((s.start, s.end) for s in part.outline.segments if not s.bulge)
    askew = [(a, b) for a, b in edges if min(abs(a.x - b.x), abs(a.y - b.y)) > _LEVEL]
    return sorted(askew, key=lambda e: -abs(e[0].x - e[1].x))


def teeth(m: Matter, parts: Iterable[Part]) -> Iterator[str]:
    """Which way the ramps of tooth blocks run down."""
    wedges = {fit.part for fit in m.assembly.fits if fit.slope}
    blocks = [part for part in parts if toothed(part) and part.key not in wedges]
    ways = {way(_down(part)) for part in blocks}
    if len(ways) == 1:
        names = said.WAYS[m.assembly.bearing]
        marks = ", ".join(dict.fromkeys(m.mark_of[part.key] for part in blocks))
        ramp = ways.pop()
        yield words.teeth(marks, names[ramp], names[_opposite(ramp)])


def _down(part: Part) -> Vec:
    """The way along the piece in which the ramp, the longest slope, runs down."""
    a, b = (part.frame.place(p.x, p.y) for p in _slopes(part)[0])
    low, high = (a, b) if a.z < b.z else (b, a)
    fall = low.minus(high)
    return Vec(fall.x, fall.y, 0.0)


def _opposite(name: str) -> str:
    return name[0] + ("-" if name.endswith("+") else "+")


def where(m: Matter, group: JointGroup) -> str:
    """What to mind at joints of a kind: sides, holes, leaves, sizes; "" when there is nothing."""
    ours = [j for j in m.assembly.joints if j.parts in group.parts]
    for joint in ours:
        if hasattr(joint, "hinge") and hasattr(joint, "leaves"):
            return _leaves(m, joint.hinge, joint.leaves)
        if hasattr(joint, "wheel") and hasattr(joint, "inner"):
            wheel: Wheel = joint.wheel
            sizes = (wheel.diameter, wheel.hub_width, wheel.bore, joint.inner)
            return words.wheel(*map(m.said, sizes))
    return _turning(m, group)


def _leaves(m: Matter, h: Hinge, leaves: Iterable[Leaf]) -> str:
    """On which faces a hinge's leaves lie, and what the design takes for its sizes."""
    names = said.WAYS[m.assembly.bearing]
    lie = (
        words.leaf(names[way(leaf.out)], m.name_of(leaf.part).lower(), m.mark_of[leaf.part])
        for leaf in leaves
    )
    sizes = (h.leaf_length, h.leaf_width, h.leaf_thickness, h.axis_offset)
    return words.hinge(tuple(lie), *map(m.said, sizes))


def _turning(m: Matter, group: JointGroup) -> str:
    """Where parts that turn lie, and which of their holes goes on the pivot."""
    pairs = [keys for keys in group.parts if all(k in m.assembly.parts for k in keys[:2])]
    if group.kind != "turning bolt" or not pairs:
        return ""
    low, high = reach(m.assembly)
    centre = low.plus(high.minus(low), 0.5)
    held = [(m.assembly.parts[keys[0]], m.assembly.parts[keys[1]]) for keys in pairs]
    sides = {_outside(part, base, centre) for part, base in held}
    ends = {_hole(m, keys[0], keys[1]) for keys in pairs}
    side = words.OUTSIDE if sides == {True} else words.INSIDE if sides == {False} else ""
    end = words.HOLE_AT.get(ends.pop(), "") if len(ends) == 1 else ""
    return f"{side}{end}"


def _outside(part: Part, base: Part, centre: Vec) -> bool:
    """True when a part lies further from the piece's middle plane than its base."""
    return abs(middle(part).y - centre.y) > abs(middle(base).y - centre.y)


def _hole(m: Matter, key: str, base: str) -> str:
    """The end of a part, "datum" or "far", nearer to the bolt that ties it to its base."""
    part = m.assembly.parts[key]
    low, _, high, _ = part.outline.bounds
    bolts = (f for f in m.assembly.fasteners if key in f.passes and base in f.passes)
    places = [part.frame.local(f.start).x for f in bolts]
    if not places:
        return ""
    return "datum" if places[0] < (low + high) / 2.0 else "far"


def glued_ends(m: Matter) -> tuple[str, ...]:
    """Marks of parts whose end grain is glued to the face of another."""
    found: dict[str, None] = {}
    for joint in m.assembly.joints:
        parts = [m.assembly.parts[k] for k in joint.parts if k in m.assembly.parts]
        if len(parts) == 2 and getattr(joint, "glue", False):
            for part, base in (parts, parts[::-1]):
                if _ends_on(part, base):
                    found[m.mark_of[part.key]] = None
    return tuple(found)


def _ends_on(part: Part, base: Part) -> bool:
    """True when an end of a part, sawn as it may be, lies on a face of its base."""
    low, y0, high, y1 = part.outline.bounds
    bx0, by0, bx1, by1 = base.outline.bounds
    middle = Vec((low + high) / 2.0, (y0 + y1) / 2.0, part.thickness / 2.0)
    found = passage(part, middle, X)
    ends = ((found.enter, found.entered), (found.leave, found.left))
    middles = (
        part.frame.place(*middle.plus(X, along))
        for along, plane in ends
        if abs(part.frame.turn(plane.out).dot(base.frame.z)) > _SQUARE
    )
    return any(
        abs(at.z - face) < _LEVEL and bx0 < at.x < bx1 and by0 < at.y < by1
        for at in map(base.frame.local, middles)
        for face in (0.0, base.thickness)
    )
