"""How a piece carries: which parts stand in a side, which run across, and what links them.

A *side* part's faces look across the piece (rail, leg, post, rack): it belongs to a plane frame.
A part *across* runs from side to side (slat, end rail, stretcher): a beam on the sides.
A *link* is all fasteners between the same two parts.
"""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.geometry import Vec
from flatpack.model import Assembly, Fastener, Part, is_shaped, placed_corners
from flatpack.model import volume as wood_left

STRAIGHT = 0.99
"""Cosine within which a part counts as lying along an axis."""
LEVEL = 0.9
CLOSE = 1.0
"""Faces closer than this, mm, touch."""
SKIPPED = ("hinge", "hinge screw", "wheel")


@frozen
class Link:
    """Fasteners from `first` (their head's side) into `second`; `normal` is the way they run."""

    first: str
    second: str
    fasteners: tuple[Fastener, ...]
    joints: tuple[str, ...]
    normal: Vec
    touching: bool

    def other(self, key: str) -> str:
        """The other part."""
        return self.second if key == self.first else self.first


def links(assembly: Assembly) -> tuple[Link, ...]:
    """Every pair of parts that fasteners hold together, in the order of making."""
    found: dict[tuple[str, str], list[Fastener]] = {}
    for fastener in assembly.fasteners:
        if len(fastener.passes) == 2 and fastener.kind not in SKIPPED:
            a, b = fastener.passes
            found.setdefault((b, a) if (b, a) in found else (a, b), []).append(fastener)
    mates = {frozenset(pair) for pair in assembly.mates}
    return tuple(
        Link(
            first=a,
            second=b,
            fasteners=tuple(held),
            joints=tuple(dict.fromkeys(f.joint for f in held)),
            normal=normal_of(assembly.parts[b], held[0].direction),
            touching=frozenset((a, b)) in mates,
        )
        for (a, b), held in found.items()
    )


def normal_of(part: Part, direction: Vec) -> Vec:
    """The axis of a part nearest to a fastener's way, pointing that way."""
    axis = max((part.frame.x, part.frame.y, part.frame.z), key=lambda v: abs(v.dot(direction)))
    return axis if axis.dot(direction) > 0.0 else axis.negated()


def is_side(part: Part) -> bool:
    """Whether a part's faces look across the piece."""
    return part.group == "frame" and abs(part.frame.z.y) > STRAIGHT


def is_across(part: Part) -> bool:
    """Whether a part runs from side to side."""
    return abs(part.frame.x.y) > STRAIGHT


def is_deck(part: Part) -> bool:
    """Whether a part across lies level, as a slat that is sat on."""
    return is_across(part) and abs(part.frame.z.z) > LEVEL


def is_backrest(part: Part) -> bool:
    """Whether a part across stands leaning, as a slat of a fixed back does."""
    lean = abs(part.frame.z.z)
    return is_across(part) and part.group == "frame" and 0.0 < lean < LEVEL


def reach(part: Part, direction: Vec) -> tuple[float, float]:
    """Least and greatest place of a part along a direction; of a rounded one of its box."""
    if is_shaped(part):
        places = [corner.dot(direction) for corner in placed_corners(part)]
        return min(places), max(places)
    x0, y0, x1, y1 = part.outline.bounds
    frame, t = part.frame, part.thickness
    centre = frame.place((x0 + x1) / 2.0, (y0 + y1) / 2.0, t / 2.0).dot(direction)
    half = abs(frame.x.dot(direction)) * (x1 - x0) + abs(frame.y.dot(direction)) * (y1 - y0)
    half = (half + abs(frame.z.dot(direction)) * t) / 2.0
    return centre - half, centre + half


def middle(part: Part) -> Vec:
    """Middle of a part's bounding box."""
    x0, y0, x1, y1 = part.outline.bounds
    return part.frame.place((x0 + x1) / 2.0, (y0 + y1) / 2.0, part.thickness / 2.0)


def contact(a: Part, b: Part, normal: Vec) -> tuple[float, float]:
    """Sides of the rectangle in which two parts' bounding boxes meet, in b's axes, mm."""
    axes = [v for v in (b.frame.x, b.frame.y, b.frame.z) if abs(v.dot(normal)) < 0.5]
    sides = []
    for axis in axes:
        (a0, a1), (b0, b1) = reach(a, axis), reach(b, axis)
        sides.append(max(min(a1, b1) - max(a0, b0), 0.0))
    return sides[0], sides[1]


def volume(part: Part) -> float:
    """Volume of a part as cut out, holes not taken off, mm3."""
    return wood_left(part) if part.planes else abs(part.outline.area) * part.thickness


def mass(part: Part) -> float:
    """Mass of a part, kg, by its board's mean density."""
    return volume(part) * part.board.density * 1e-9
