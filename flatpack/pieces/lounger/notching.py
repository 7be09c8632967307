"""Where the notches go: for the angles wanted, at an even pitch, or as cut already."""

from __future__ import annotations

import math

from flatpack.geometry import Point
from flatpack.mechanism.as_made import AsMade, resolve
from flatpack.mechanism.notches import NotchForm, seat_of
from flatpack.mechanism.pitch import EvenPitch, design_even_pitch
from flatpack.mechanism.plan import Plan, Room
from flatpack.mechanism.prop import Prop, pivot_at
from flatpack.pieces.common.propping import Levels, Set
from flatpack.pieces.family import Workings, mm
from flatpack.pieces.lounger.parameters import Lounger

SETTLED = 6
"""Steps until a slack of a millimetre or less is shared out; each gains two digits or more."""
LEAST_WEB = 6.0
"""Wood left between two notches at their crests, mm (common practice, no source)."""
LEAST_PIVOT = 40.0
"""Nearest that a pivot may stand to the hinge axis, mm (common practice, no source)."""


def _plan(p: Lounger, prop: Prop, form: NotchForm, levels: Levels, limit: float) -> Plan:
    """The prop as a plan; `limit` is the greatest x of the folded rod's centre."""
    rod = prop.rod / 2.0
    rest = (levels.top if p.rack.kind == "bar" else levels.floor) + rod
    inside = (0.0, limit + rod)
    return Plan(
        prop=prop,
        angles=p.back.angles,
        floor=levels.floor,
        form=form,
        room=Room(
            x=inside,
            y=(levels.bottom, levels.pivot),
            rack=inside,
            folded=rest,
            web=LEAST_WEB,
            pivot_x=(LEAST_PIVOT, limit),
            pivot_y=(levels.pivot, levels.pivot),
        ),
        lean=p.arms.least_lean,
    )


def even_rack(
    p: Lounger, prop: Prop, form: NotchForm, levels: Levels, limit: float, notes: Workings
) -> EvenPitch:
    """Arm and pivot with which notches at the even pitch asked for come closest to the angles."""
    assert p.rack.pitch is not None
    found = design_even_pitch(_plan(p, prop, form, levels, limit), p.rack.pitch)
    told = ", ".join(
        f"{mm(a)}° ({e:+.1f})" for a, e in zip(found.plan.angles, found.errors, strict=False)
    )
    if found.placed:
        how = f"closest to the angles wanted with notches every {mm(p.rack.pitch)}: {told}"
        notes.add("Arm, pivot to rod", found.plan.prop.arm, how)
        notes.add("Arm's pivot from the hinge axis", found.plan.prop.pivot.x, how)
    return found


def solved_for_cut_racks(
    p: Lounger, prop: Prop, form: NotchForm, levels: Levels, limit: float, notes: Workings
) -> Prop:
    """The arm, or else the pivot, that brings racks cut already closest to the wanted angles."""
    spot = seat_of(form, prop.rod / 2.0)[0]
    plan = _plan(p, prop, form, levels, limit)
    made = AsMade(
        pivot_x=p.as_made.pivot,
        arm=p.as_made.arm,
        notches=tuple(c.x - spot.x for c in _cut_centres(p, prop, form, levels.floor)),
    )
    found = resolve(plan, made)
    for key, value in found.solved:
        name = "Arm, pivot to rod" if key == "arm" else "Arm's pivot from the hinge axis"
        told = ", ".join("none" if a is None else f"{a:.1f}°" for a in found.angles)
        if isinstance(value, float):
            notes.add(name, value, f"solved for the racks as cut: they then give {told}")
    return found.prop


def notches_cut_already(
    p: Lounger, prop: Prop, form: NotchForm, floor: float, notes: Workings
) -> Set:
    """Seats and datums of notches cut already; the angles then follow from them."""
    spot, slack = seat_of(form, prop.rod / 2.0)
    for number, x in enumerate(p.as_made.notches, 1):
        notes.add(f"Notch {number}, rod's centre from the hinge axis", x, "as made")
    centres = _cut_centres(p, prop, form, floor)
    seats = []
    for centre, angle in zip(centres, p.back.angles, strict=True):
        u = _thrust(prop, angle, centre)
        seats.append(Point(centre.x + slack * u.x, centre.y + slack * u.y))
    return tuple(seats), tuple(Point(c.x - spot.x, floor) for c in centres)


def _cut_centres(p: Lounger, prop: Prop, form: NotchForm, floor: float) -> tuple[Point, ...]:
    """Where the rod's centre would be without slack, for rods measured as they lie when loaded."""
    spot, slack = seat_of(form, prop.rod / 2.0)
    centres = []
    for x, angle in zip(p.as_made.notches, p.back.angles, strict=True):
        centre = Point(x, floor + spot.y)
        for _ in range(SETTLED):
            centre = Point(x - slack * _thrust(prop, angle, centre).x, centre.y)
        centres.append(centre)
    return tuple(centres)


def _thrust(prop: Prop, angle: float, centre: Point) -> Point:
    """Unit vector along the arm from the pivot, the back at an angle, to a place of the rod."""
    pivot = pivot_at(prop, angle)
    away = math.dist(pivot, centre)
    return Point((centre.x - pivot.x) / away, (centre.y - pivot.y) / away)
