"""The moving piece seen from its left: which bodies are drawn, and where they stand.

Only the left half is drawn, the right one being its mirror image; the near side (rail, wheels,
bolt heads) lies before the rack and would hide it, so it is told apart.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

from flatpack.geometry import Outline, Point, Segment
from flatpack.mechanism.bodies import Body, Carrier
from flatpack.mechanism.convex import HOME, Pose
from flatpack.mechanism.prop import pivot_at
from flatpack.mechanism.study import Study
from flatpack.mechanism.track import Stand

Look = Literal["frame", "rack", "near", "back", "arm", "rod"]
"""How a body is drawn; `near` is what stands before the rack."""

RACKS = ("rack-", "bearer-", "block-")
"""How the keys of a rack's parts begin."""
_METAL = (" head", " shank", " washer", " washer 1", " nut")


class Seen(NamedTuple):
    """One body of the left half: its outline in its carrier's axes, and how it's drawn."""

    name: str
    carrier: Carrier
    look: Look
    outline: Outline


def seen_bodies(made: Study) -> tuple[Seen, ...]:
    """What is drawn, furthest from the reader first; bodies that look alike only once."""
    solid = [b for b in made.bodies if b.carrier is not Carrier.GROUND]
    low, high = min(b.lane[0] for b in solid), max(b.lane[1] for b in solid)
    half = [b for b in solid if b.lane[0] < (low + high) / 2.0 and not b.name.endswith(_METAL)]
    racks = [b.lane[0] for b in half if b.name.startswith(RACKS)]
    front = min(racks, default=low)
    found: dict[tuple[Carrier, Outline], Seen] = {}
    for body in sorted(half, key=lambda b: -b.lane[0]):
        for outline in body.outlines:
            look = _look(body, front)
            found.setdefault((body.carrier, outline), Seen(body.name, body.carrier, look, outline))
    return tuple(found.values())


def _look(body: Body, front: float) -> Look:
    if body.carrier is Carrier.BACK:
        return "back"
    if body.carrier is Carrier.ARM:
        return "arm"
    if body.carrier is Carrier.ROD:
        return "rod"
    if body.name.startswith(RACKS):
        return "rack"
    return "near" if body.lane[1] <= front + 1e-6 else "frame"


def placed(seen: Seen, stand: Stand) -> Outline:
    """The outline in the hinge frame at a position."""
    if seen.carrier is Carrier.ROD:
        return seen.outline.moved(*stand.rod)
    if seen.carrier is Carrier.BACK:
        return carried(seen.outline, stand.back)
    return carried(seen.outline, stand.arm if seen.carrier is Carrier.ARM else HOME)


def carried(outline: Outline, pose: Pose) -> Outline:
    """An outline turned and shifted by a pose."""
    if pose is HOME:
        return outline
    _, c, s, x, y = pose
    points = [Point(p.x * c - p.y * s + x, p.x * s + p.y * c + y) for p in outline.points]
    ends = (*points[1:], points[0])
    return Outline(tuple(map(Segment, points, ends, (g.bulge for g in outline))))


def flat(made: Study) -> Stand:
    """The position with the back flat and the rod folded."""
    return Stand(0.0, pivot_at(made.prop, 0.0), made.motion.folded)


def stands(made: Study) -> tuple[Stand, ...]:
    """Flat, then every stop by rising angle."""
    return (flat(made), *(Stand(s.angle, s.pivot, s.rod) for s in made.found.stops))
