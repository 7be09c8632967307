"""One smooth stretch of the back's travel: where back, arms and rod stand along it.

The rod's centre runs along one line or arc, the pivot along its circle about the hinge, both
without turning back.  So how far any point of the arm moves between two shares of the stretch is
known from the two tracks alone:

    a point of the arm is  p = P + a (D - P) + b J(D - P),   J a quarter turn, so it is linear in
    pivot P and rod centre D, and |dp| <= |1-a| |dP| + |a| |dD| + |b| (|dP| + |dD|)
"""

from __future__ import annotations

import math
from enum import StrEnum
from typing import NamedTuple

from flatpack.frozen import field, frozen
from flatpack.geometry import Point, Segment
from flatpack.mechanism.convex import Pose, pose
from flatpack.mechanism.prop import Miss, Prop, angles_at, circle_circle, pivot_at


class Phase(StrEnum):
    """What happens during a stretch."""

    RAISING = "raising"
    DROPPING = "dropping"
    LIFTING = "lifting"
    LOWERING = "lowering"
    SETTLING = "settling"


class Lead(StrEnum):
    """What sets the pace: the back's angle, the rod's way along its track, or a hanging arm."""

    BACK = "back"
    ROD = "rod"
    HANGING = "hanging"


class Stand(NamedTuple):
    """A position of the mechanism: back angle in degrees, pivot and rod centre (hinge frame)."""

    degrees: float
    pivot: Point
    rod: Point

    @property
    def back(self) -> Pose:
        """Placing of the back."""
        return pose(math.radians(self.degrees))

    @property
    def arm(self) -> Pose:
        """Placing of an arm: pivot, and x towards the rod."""
        return pose(self.heading, *self.pivot)

    @property
    def heading(self) -> float:
        """Direction from pivot to rod, radians."""
        return math.atan2(self.rod.y - self.pivot.y, self.rod.x - self.pivot.x)

    @property
    def fold(self) -> float:
        """Angle of the arm in the back's own axes, radians in (-pi, pi]."""
        return math.remainder(self.heading - math.radians(self.degrees), math.tau)


class Way(NamedTuple):
    """Lengths of way between two shares of a stretch: pivot and rod centre mm, back radians."""

    pivot: float
    rod: float
    back: float


@frozen
class Stretch:
    """Part of the travel from back angle `start` to `end` (degrees), share 0 to 1.

    `track` is the rod centre's way (a point when start and end agree), `branch` which of the two
    crossings of the arm's circle with it is meant.
    """

    phase: Phase
    prop: Prop
    start: float
    end: float
    track: Segment
    lead: Lead
    branch: int = 0
    seen: dict[float, Stand] = field(default_factory=dict, compare=False)

    def at(self, share: float) -> Stand:
        """Position at a share (0 to 1) of the stretch; each is worked out once."""
        found = self.seen.get(share)
        if found is None:
            found = self.seen[share] = self._at(share)
        return found

    def _at(self, share: float) -> Stand:
        if share == 0.0:
            return Stand(self.start, pivot_at(self.prop, self.start), self.track.start)
        if share == 1.0:
            return Stand(self.end, pivot_at(self.prop, self.end), self.track.end)
        if self.lead is Lead.ROD:
            return self.with_rod_at(self.track.at(share))
        degrees = self.start + (self.end - self.start) * share
        pivot = pivot_at(self.prop, degrees)
        if self.lead is Lead.HANGING:
            return Stand(degrees, pivot, Point(pivot.x, pivot.y - self.prop.arm))
        return Stand(degrees, pivot, crossing(self.track, pivot, self.prop.arm, self.branch))

    def with_rod_at(self, rod: Point) -> Stand:
        """The position of this stretch with the rod's centre at a place of its track."""
        degrees = self._degrees_at(rod)
        return Stand(degrees, pivot_at(self.prop, degrees), rod)

    def way(self, low: Stand, high: Stand) -> Way:
        """Lengths of way between two positions of this stretch."""
        back = abs(math.radians(high.degrees - low.degrees))
        chord = math.dist(low.rod, high.rod)
        if self.track.bulge != 0.0 and chord > 0.0:
            r = self.track.radius
            chord = 2.0 * r * math.asin(min(chord / (2.0 * r), 1.0))
            if abs(self.track.bulge) > 1.0:
                chord = self.track.length  # more than half a turn: the whole way, to be safe
        return Way(math.hypot(*self.prop.pivot) * back, chord, back)

    def sag(self, low: Stand, high: Stand) -> tuple[float, float]:
        """How far pivot and rod stray from the chords between two positions, mm."""
        half = abs(math.radians(high.degrees - low.degrees)) / 2.0
        pivot = math.hypot(*self.prop.pivot) * (1.0 - math.cos(half))
        if self.track.bulge == 0.0:
            return pivot, 0.0
        r = self.track.radius
        if abs(self.track.bulge) > 1.0:
            return pivot, 2.0 * r
        lean = min(math.dist(low.rod, high.rod) / (2.0 * r), 1.0)
        return pivot, r * (1.0 - math.sqrt(1.0 - lean * lean))

    def _degrees_at(self, rod: Point) -> float:
        """The angle of this stretch at which the arm reaches a rod centre."""
        if self.start == self.end:
            return self.start
        low, high = min(self.start, self.end), max(self.start, self.end)
        found = angles_at(self.prop, rod)
        if isinstance(found, Miss):  # by rounding only, where arm and pivot line up with the hinge
            return low
        degrees = min(found, key=lambda a: max(low - a, a - high))
        return min(max(degrees, low), high)


def crossing(track: Segment, pivot: Point, arm: float, branch: int) -> Point:
    """Where the arm's circle crosses the track's line or circle, on branch 0 or 1.

    On a line branch 0 comes first along it; on an arc it lies right of the line from pivot to
    the arc's centre.  At a near miss the nearest point is given.
    """
    if track.bulge != 0.0:
        return _on_circle(track, pivot, arm, branch)
    (x0, y0), (x1, y1) = track.start, track.end
    length = math.hypot(x1 - x0, y1 - y0)
    if length == 0.0:
        return track.start
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    along = (pivot.x - x0) * ux + (pivot.y - y0) * uy
    off = (pivot.x - x0) * uy - (pivot.y - y0) * ux
    half = math.sqrt(max((arm - off) * (arm + off), 0.0))
    along += half if branch else -half
    return Point(x0 + along * ux, y0 + along * uy)


def _on_circle(track: Segment, pivot: Point, arm: float, branch: int) -> Point:
    centre = track.centre
    found = circle_circle(pivot, arm, centre, track.radius)
    if not isinstance(found, Miss):
        return found[branch]
    away = math.dist(pivot, centre)
    k = (-arm if track.radius > max(arm, away) else arm) / away
    return Point(pivot.x + (centre.x - pivot.x) * k, pivot.y + (centre.y - pivot.y) * k)
