"""The other way round: from wanted angles to the places of the notches.

For an angle the pivot is known, and the rod stands where the arm from there meets the height of
its seat: x = P.x + sqrt(arm^2 - (P.y - height)^2).  In a round seat larger than the rod the same
holds for the seat's centre and the arm less R - r.  The contour made of these notches is then
read back by `stops`, which knows nothing of the wanted angles: that is the proof.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from flatpack.frozen import frozen, replace
from flatpack.geometry import Point, Segment
from flatpack.mechanism.notches import NotchForm, Overlap, cut, rack_contour, seat_of, unsound
from flatpack.mechanism.plan import Plan, Problem
from flatpack.mechanism.prop import Miss, Prop, angle_about, rod_at
from flatpack.mechanism.seats import Rack, laid
from flatpack.mechanism.stops import Stop, Stops, stops

NONE = Stops(stops=(), passed=())


@frozen
class Placed:
    """A notch for the wanted angle number `place` (from 1): its datum, and its seat's centre."""

    place: int
    angle: float
    datum: Point
    centre: Point


@frozen
class Design:
    """A plan worked out: notches by rising angle, and the stops that their contour gives.

    `reached` is the stop in each placed notch, None where it gives none.  `missed` are wanted
    angles that the arm is too short for, with the mm it lacks.  `rack` is None, and `overlap` may
    say why, when no contour could be drawn.
    """

    plan: Plan
    placed: tuple[Placed, ...]
    missed: tuple[tuple[float, float], ...]
    overlap: Overlap | None
    rack: Rack | None
    found: Stops
    reached: tuple[Stop | None, ...]
    problems: tuple[Problem, ...] = ()

    @property
    def errors(self) -> tuple[float | None, ...]:
        """Angle reached less angle wanted of each placed notch, degrees."""
        pairs = zip(self.placed, self.reached, strict=True)
        return tuple(None if s is None else s.angle - p.angle for p, s in pairs)


def notches_for(
    prop: Prop, angles: Sequence[float], floor: float, form: NotchForm
) -> tuple[Placed | Miss, ...]:
    """The notch for each wanted angle, in closed form, with floors at height `floor`.

    Miss: the arm is shorter than the rise at that angle, by its gap in mm.
    """
    seat, free = seat_of(form, prop.rod / 2.0)
    short = replace(prop, arm=prop.arm - free)
    placed: list[Placed | Miss] = []
    for place, angle in enumerate(angles, start=1):
        centre = rod_at(short, angle, floor + seat.y)
        if isinstance(centre, Miss):
            placed.append(centre)
        else:
            datum = Point(centre.x - seat.x, floor)
            placed.append(Placed(place=place, angle=angle, datum=datum, centre=centre))
    return tuple(placed)


def worked(plan: Plan) -> Design:
    """The plan's notches, contour and stops, without looking for faults."""
    if unsound(plan.form) is not None:
        return _blank(plan)
    results = notches_for(plan.prop, plan.angles, plan.floor, plan.form)
    placed = _given(plan) or tuple(r for r in results if isinstance(r, Placed))
    missed = tuple(
        (a, r.gap) for a, r in zip(plan.angles, results, strict=True) if isinstance(r, Miss)
    )
    contour = contour_of(plan, placed)
    overlap = contour if isinstance(contour, Overlap) else None
    rack = None if isinstance(contour, Overlap) or not placed else laid(contour, plan.prop.rod)
    found = NONE if rack is None else stops(plan.prop, rack)
    return Design(
        plan=plan,
        placed=placed,
        missed=missed,
        overlap=overlap,
        rack=rack,
        found=found,
        reached=_reached(placed, found, plan.prop.rod),
    )


def _given(plan: Plan) -> tuple[Placed, ...]:
    """The notches of a rack that is given, with the angle wanted of each."""
    seat, _ = seat_of(plan.form, plan.prop.rod / 2.0)
    return tuple(
        Placed(
            place=k,
            angle=a,
            datum=Point(x, plan.floor),
            centre=Point(x + seat.x, plan.floor + seat.y),
        )
        for k, (a, x) in enumerate(zip(plan.angles, plan.notches or (), strict=False), start=1)
    )


def _blank(plan: Plan) -> Design:
    """No notches: their form can't be drawn."""
    return Design(plan=plan, placed=(), missed=(), overlap=None, rack=None, found=NONE, reached=())


def contour_of(plan: Plan, placed: Sequence[Placed]) -> tuple[Segment, ...] | Overlap:
    """The rack's contour through the placed notches, from end to end of the rack."""
    ordered = sorted(placed, key=lambda p: p.datum.x)
    crest = plan.floor + plan.form.depth
    low, high = plan.room.rack
    cuts = [cut(plan.form, p.datum) for p in ordered]
    return rack_contour(cuts, Point(low, crest), Point(high, crest), plan.room.web)


def angle_of(prop: Prop, datum_x: float, floor: float, form: NotchForm) -> float | Miss:
    """The back's angle with the rod loaded in a notch of this form at `datum_x`, degrees."""
    seat, free = seat_of(form, prop.rod / 2.0)
    return angle_about(prop, Point(datum_x + seat.x, floor + seat.y), prop.arm - free)


def _reached(placed: Sequence[Placed], found: Stops, rod: float) -> tuple[Stop | None, ...]:
    """The stop in each notch: the nearest within a rod's diameter of where the rod should be."""
    reached: list[Stop | None] = []
    for notch in placed:
        near = [s for s in found.stops if math.dist(s.rod, notch.centre) < rod]
        reached.append(min(near, key=lambda s: math.dist(s.rod, notch.centre), default=None))
    return tuple(reached)
