"""What stands along a member: edges of parts that cross it, pocket holes, joints."""

from __future__ import annotations

from typing import NamedTuple

from flatpack.drawings.faces import datum_on_left, worked_faces
from flatpack.drawings.marks import PartGroup, marks_by_key
from flatpack.drawings.templates.window_spots import along_edge
from flatpack.geometry import Vec
from flatpack.model import Assembly, Face, Part, placed_corners

_LEAST = 3
_APART = 150.0
"""A member with fewer things along it than one each so many mm is marked out by tape alone."""


class Crossing(NamedTuple):
    """A part that meets the member from `low` to `high`, mm from the datum end, with its mark.

    `over` is how far it reaches past an end of the member, mm.  `datum` is 1 when its own datum
    end is at `high`, -1 when at `low`, 0 when it doesn't lie along the member.
    """

    low: float
    high: float
    mark: str
    over: float = 0.0
    datum: int = 0


class Along(NamedTuple):
    """Everything along a member, from its datum end, mm.

    `far` says that its pocket holes stand along the edge opposite the datum edge; `gap` is from
    that edge to the middle of their ovals.
    """

    length: float
    crossings: tuple[Crossing, ...]
    pockets: tuple[float, ...]
    far: bool = False
    gap: float = 0.0


class StickEdge(NamedTuple):
    """Members that one edge of a stick is for: their marks and the face that looks at you."""

    marks: tuple[str, ...]
    face: Face
    left: bool


class Stick(NamedTuple):
    """A story stick: one edge for members whose datum end is at the left, one for the others."""

    name: str
    along: Along
    edges: tuple[StickEdge, ...]


def sticks(assembly: Assembly, found: tuple[PartGroup, ...]) -> tuple[Stick, ...]:
    """Sticks of a piece; members that are marked alike share one, hands on opposite edges."""
    marks = marks_by_key(found)
    alike: dict[tuple[str, Along], dict[bool, StickEdge]] = {}
    for group in found:
        part = group.part
        along = things_along(assembly, part, marks)
        if not _wanted(part, along):
            continue
        face = worked_faces(part)[0]
        left = datum_on_left(part, face)
        edges = alike.setdefault((part.name, along), {})
        known = edges.get(left, StickEdge((), face, left))
        edges[left] = known._replace(marks=(*known.marks, group.mark))
    return tuple(
        Stick(name, along, tuple(edges[left] for left in (True, False) if left in edges))
        for (name, along), edges in alike.items()
    )


def _wanted(part: Part, along: Along) -> bool:
    things = len(along.crossings) + len(along.pockets)
    return bool(along.pockets) or things >= max(_LEAST, part.length / _APART)


def things_along(assembly: Assembly, part: Part, marks: dict[str, str]) -> Along:
    """Crossings and pocket holes of a part, to 0.01 mm so that mirror images compare equal."""
    x0 = part.outline.bounds[0]
    found = set()
    for pair in assembly.mates:
        other = pair[1] if pair[0] == part.key else pair[0] if pair[1] == part.key else ""
        if other in assembly.parts:
            first, last = (v - x0 for v in _shadow(part, assembly.parts[other]))
            low, high = max(first, 0.0), min(last, part.length)
            if high > low and high - low < part.length - 1.0:
                mark = marks[other].rsplit("-", 1)[0]
                over = round(max(low - first, last - high), 2) + 0.0
                datum = _datum(part, assembly.parts[other])
                found.add(Crossing(round(low, 2) + 0.0, round(high, 2), mark, over, datum))
    pockets = {round(f.at.x - x0, 2) + 0.0 for f in part.features if along_edge(f)}
    far, gap = _edge(part)
    return Along(round(part.length, 2), tuple(sorted(found)), tuple(sorted(pockets)), far, gap)


def _datum(part: Part, other: Part) -> int:
    """At which end of its crossing another part that lies along the member has its datum end."""
    along = other.frame.x.dot(part.frame.x)
    return 0 if abs(along) < 0.99 else -1 if along > 0.0 else 1


def _edge(part: Part) -> tuple[bool, float]:
    """Whether the pocket holes stand along the far edge, and how far from it their middles are."""
    _, y0, _, y1 = part.outline.bounds
    ys = [f.at.y for f in part.features if along_edge(f)]
    if not ys:
        return False, 0.0
    far = ys[0] > (y0 + y1) / 2.0
    return far, round(y1 - ys[0] if far else ys[0] - y0, 2)


def _shadow(part: Part, other: Part) -> tuple[float, float]:
    """Least and greatest of another part along this one's grain, in this part's axes."""
    along = [_along(part, corner) for corner in placed_corners(other)]
    return min(along), max(along)


def _along(part: Part, place: Vec) -> float:
    return part.frame.local(place).x
