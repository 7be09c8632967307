"""The rod under its own weight while the back turns: dragged along a chain, dropped, hanging.

The rod rests at the lowest place that it can swing down to.  It is followed from one closed-form
change to the next: over an end of its track onto the neighbour, or off a crest where the arm's
circle only grazes the track, whence it swings down to the next rest or hangs straight below.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from flatpack.geometry import Point, Segment
from flatpack.mechanism.events import (
    NEAR,
    Cross,
    aligned,
    bears,
    changes,
    crossings,
    hangs_onto,
    heading_at,
)
from flatpack.mechanism.prop import Prop, pivot_at
from flatpack.mechanism.track import Lead, Phase, Stretch, crossing

STEP = 1e-9  # degrees: changes closer than this are one


@dataclass(slots=True)
class _Walk:
    """Where the following stands; `rest` None: the arm hangs straight down."""

    prop: Prop
    chain: tuple[Segment, ...]
    towards: float  # +1 raising, -1 lowering
    until: float
    phase: Phase
    degrees: float
    rest: Cross | None
    found: list[Stretch] = field(default_factory=list)

    @property
    def pivot(self) -> Point:
        return pivot_at(self.prop, self.degrees)


def follow(
    prop: Prop,
    chain: tuple[Segment, ...],
    start: float,
    until: float,
    phase: Phase,
    place: Point | None = None,
) -> tuple[Stretch, ...]:
    """Stretches from back angle `start` to `until`, degrees.

    The rod starts at rest at `place`, or swings in from above.  The chain runs from the hinge's
    end to the free end, free side on the left.
    """
    pivot = pivot_at(prop, start)
    walk = _Walk(
        prop=prop,
        chain=chain,
        towards=1.0 if until >= start else -1.0,
        until=until,
        phase=phase,
        degrees=start,
        rest=first_rest(chain, pivot, prop.arm),
    )
    if place is not None:
        found = (_taken_up(walk, number, place) for number in range(len(chain)))
        walk.rest = next((rest for rest in found if rest is not None), walk.rest)
    while walk.towards * (until - walk.degrees) > STEP:
        if walk.rest is None:
            _hang(walk)
        else:
            _slide(walk, walk.rest)
    return tuple(walk.found)


def first_rest(
    chain: tuple[Segment, ...], pivot: Point, arm: float, below: float = math.pi
) -> Cross | None:
    """The first rest met when the rod swings down from the lean `below`, radians; None: none."""
    rests = (
        c
        for c in crossings(chain, pivot, arm)
        if 0.0 <= c.lean < below and bears(chain[c.number], c, pivot)
    )
    return max(rests, key=lambda c: c.lean, default=None)


def swing(prop: Prop, degrees: float, start: Point, end: Point, phase: Phase) -> Stretch | None:
    """The rod's swing about the standing pivot from one place to another; None when it's none."""
    pivot = pivot_at(prop, degrees)
    turn = math.remainder(
        math.atan2(end.y - pivot.y, end.x - pivot.x)
        - math.atan2(start.y - pivot.y, start.x - pivot.x),
        math.tau,
    )
    if abs(turn) * prop.arm < 1e-9:
        return None
    track = Segment(start, end, math.tan(turn / 4.0))
    return Stretch(phase=phase, prop=prop, start=degrees, end=degrees, track=track, lead=Lead.ROD)


def _slide(walk: _Walk, rest: Cross) -> None:
    """Follow the rod along its present track to the track's next change, then on from there."""
    track = walk.chain[rest.number]
    leave, rod, step = _leaves(walk, rest, track)
    _emit(walk, rest, leave, rod)
    walk.degrees = leave
    if walk.towards * (walk.until - leave) <= STEP:
        walk.rest = rest._replace(rod=rod)
        return
    number = rest.number + step
    taken = None
    if step and 0 <= number < len(walk.chain):
        taken = _taken_up(walk, number, rod)
    if taken is None:
        _drop(walk, rod)
    else:
        walk.rest = taken


def _leaves(walk: _Walk, rest: Cross, track: Segment) -> tuple[float, Point, int]:
    """Angle and place of the track's end of use; +1, -1: over its end, its start; 0: a graze."""
    prop = walk.prop
    ahead = sorted(
        (e for e in changes(prop, track) if walk.towards * (e - walk.degrees) > STEP),
        key=lambda e: walk.towards * e,
    )
    for angle in ahead:
        if walk.towards * (walk.until - angle) < 0.0:
            break
        pivot = pivot_at(prop, angle)
        rod = crossing(track, pivot, prop.arm, rest.branch)
        if math.dist(rod, track.end) < NEAR:
            return angle, track.end, 1
        if math.dist(rod, track.start) < NEAR:
            return angle, track.start, -1
        t = heading_at(track, rod)
        if abs((rod.x - pivot.x) * t.x + (rod.y - pivot.y) * t.y) < 1e-4 * prop.arm:
            return angle, rod, 0
    pivot = pivot_at(prop, walk.until)
    return walk.until, crossing(track, pivot, prop.arm, rest.branch), 0


def _taken_up(walk: _Walk, number: int, rod: Point) -> Cross | None:
    """The rest on track `number` that begins at this angle and place; None when there is none."""
    prop, track = walk.prop, walk.chain[number]
    ahead = (walk.towards * e for e in changes(prop, track))
    here = walk.towards * walk.degrees
    following = min((e for e in ahead if e > here + STEP), default=here + 1.0)
    middle = pivot_at(prop, walk.towards * (here + following) / 2.0)
    for cross in crossings(walk.chain, middle, prop.arm, range(number, number + 1)):
        began = crossing(track, walk.pivot, prop.arm, cross.branch)
        if math.dist(began, rod) < NEAR and bears(track, cross, middle):
            return cross._replace(rod=rod)
    return None


def _drop(walk: _Walk, rod: Point) -> None:
    """Swing down from a lost rest to the next one, or to hang."""
    pivot = walk.pivot
    lean = math.atan2(rod.x - pivot.x, pivot.y - rod.y)
    rest = first_rest(walk.chain, pivot, walk.prop.arm, lean - NEAR / walk.prop.arm)
    end = Point(pivot.x, pivot.y - walk.prop.arm) if rest is None else rest.rod
    stretch = swing(walk.prop, walk.degrees, rod, end, Phase.DROPPING)
    if stretch is not None:
        walk.found.append(stretch)
    walk.rest = rest


def _hang(walk: _Walk) -> None:
    """Let the arm hang until its rod meets the chain, or to the end of the travel."""
    prop = walk.prop
    hits = sorted(
        (walk.towards * angle, number)
        for number, track in enumerate(walk.chain)
        for angle in hangs_onto(prop, track)
        if walk.towards * (angle - walk.degrees) > STEP
        and walk.towards * (walk.until - angle) > STEP
    )
    start = walk.degrees
    for hit, number in hits:
        walk.degrees = walk.towards * hit
        pivot = walk.pivot
        walk.rest = _taken_up(walk, number, Point(pivot.x, pivot.y - prop.arm))
        if walk.rest is not None:
            break
    else:
        walk.degrees = walk.until
    _emit_hanging(walk, start)


def _emit_hanging(walk: _Walk, start: float) -> None:
    prop = walk.prop
    (x0, y0), (x1, y1) = pivot_at(prop, start), pivot_at(prop, walk.degrees)
    bulge = math.tan(math.radians(walk.degrees - start) / 4.0)
    track = Segment(Point(x0, y0 - prop.arm), Point(x1, y1 - prop.arm), bulge)
    walk.found.append(
        Stretch(
            phase=walk.phase,
            prop=prop,
            start=start,
            end=walk.degrees,
            track=track,
            lead=Lead.HANGING,
        )
    )


def _emit(walk: _Walk, rest: Cross, leave: float, rod: Point) -> None:
    """Stretches along one track, parted where the rod turns back on it."""
    prop, track = walk.prop, walk.chain[rest.number]
    low, high = sorted((walk.degrees, leave))
    turns = [a for a in aligned(prop, track) if low + STEP < a < high - STEP]
    angles = sorted([*turns, leave], key=lambda a: walk.towards * a)
    here, place = walk.degrees, rest.rod
    for angle in angles:
        there = (
            rod if angle == leave else crossing(track, pivot_at(prop, angle), prop.arm, rest.branch)
        )
        walk.found += _paced(walk, track, rest.branch, (here, place), (angle, there))
        here, place = angle, there


def _paced(
    walk: _Walk,
    track: Segment,
    branch: int,
    start: tuple[float, Point],
    end: tuple[float, Point],
) -> list[Stretch]:
    """One stretch led by whichever moves evenly; two when each does at one end only."""
    prop = walk.prop
    back = min(_evenness(prop, track, *here)[0] for here in (start, end))
    rod = min(_evenness(prop, track, *here)[1] for here in (start, end))
    if max(back, rod) < 1e-3 and abs(end[0] - start[0]) > 1e-3:
        angle = (start[0] + end[0]) / 2.0
        middle = (angle, crossing(track, pivot_at(prop, angle), prop.arm, branch))
        return [
            *_paced(walk, track, branch, start, middle),
            *_paced(walk, track, branch, middle, end),
        ]
    part, flipped = _part(track, start[1], end[1])
    return [
        Stretch(
            phase=walk.phase,
            prop=prop,
            start=start[0],
            end=end[0],
            track=part,
            lead=Lead.BACK if back >= rod else Lead.ROD,
            branch=1 - branch if flipped else branch,
        )
    ]


def _evenness(prop: Prop, track: Segment, degrees: float, rod: Point) -> tuple[float, float]:
    """|cosine| of the arm to its track and to the pivot's circle: 0 where that one can't lead."""
    pivot = pivot_at(prop, degrees)
    ex, ey = (rod.x - pivot.x) / prop.arm, (rod.y - pivot.y) / prop.arm
    t = heading_at(track, rod)
    rho = math.hypot(*pivot)
    return abs(ex * t.x + ey * t.y), abs(ey * pivot.x - ex * pivot.y) / rho


def _part(track: Segment, start: Point, end: Point) -> tuple[Segment, bool]:
    """The part of a track between two places; whether a straight one now runs the other way."""
    if track.bulge == 0.0:
        t = track.direction(0.0)
        return Segment(start, end), (end.x - start.x) * t.x + (end.y - start.y) * t.y < 0.0
    (cx, cy) = track.centre
    turn = math.remainder(
        math.atan2(end.y - cy, end.x - cx) - math.atan2(start.y - cy, start.x - cx), math.tau
    )
    return Segment(start, end, math.tan(turn / 4.0)), False
