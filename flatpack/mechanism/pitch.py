"""The arm and pivot with which an even pitch of notches comes closest to the wanted angles.

Unknowns are the pivot, the folded rod's place (arm = distance from pivot to it, so the room's
end bounds it directly) and the first notch; the angles follow in closed form, and the sum of
their squared errors is made least within the room.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from flatpack.frozen import frozen, replace
from flatpack.geometry import Point
from flatpack.mechanism.design import Placed
from flatpack.mechanism.fitting import Bounds, fitted
from flatpack.mechanism.notches import cut, notch_width, seat_of
from flatpack.mechanism.plan import Fault, Plan, Problem, Remedy
from flatpack.mechanism.prop import Miss, Prop, angle_about, rod_at

_GOOD = 1e-12  # degrees squared: no second start needed


@frozen
class EvenPitch:
    """The closest arm and pivot for an even pitch: angles reached, and error to each wanted one.

    `placed` by rising angle.  With problems and no `placed`, the pitch doesn't fit.
    """

    plan: Plan
    pitch: float
    placed: tuple[Placed, ...]
    errors: tuple[float, ...]
    problems: tuple[Problem, ...] = ()


def design_even_pitch(plan: Plan, pitch: float) -> EvenPitch:
    """Arm length and pivot for notches at an even pitch, mm, closest to `plan.angles`.

    `plan.prop` is where the search starts; the pivot moves within `room.pivot_x` and `pivot_y`.
    """
    problems = _unfit(plan, pitch)
    if problems:
        return EvenPitch(plan=plan, pitch=pitch, placed=(), errors=(), problems=problems)
    best = _best(plan, pitch)
    if best is None:
        fault = Problem(fault=Fault.NO_SEAT, place=0, measured=0.0, limit=1.0, unit="stops")
        return EvenPitch(plan=plan, pitch=pitch, placed=(), errors=(), problems=(fault,))
    prop, first = _made(plan, best), best[3]
    angles = _angles(plan, prop, first, pitch)
    assert angles is not None
    seat, _ = seat_of(plan.form, prop.rod / 2.0)
    centres = [Point(first - k * pitch, plan.floor + seat.y) for k in range(len(angles))]
    return EvenPitch(
        plan=replace(plan, prop=prop, angles=tuple(angles)),
        pitch=pitch,
        placed=tuple(
            Placed(place=k, angle=a, datum=Point(c.x - seat.x, plan.floor), centre=c)
            for k, (a, c) in enumerate(zip(angles, centres, strict=True), start=1)
        ),
        errors=tuple(a - w for a, w in zip(angles, plan.angles, strict=True)),
    )


def _unfit(plan: Plan, pitch: float) -> tuple[Problem, ...]:
    """The pitch against the notches' own width, and against the room."""
    least = notch_width(plan.form) + plan.room.web
    if pitch < least:
        remedy = Remedy("pitch", least)
        return (
            Problem(
                fault=Fault.TEETH_CLOSE, place=0, measured=pitch, limit=least, remedies=(remedy,)
            ),
        )
    low, high = _first_range(plan, pitch)
    if low <= high:
        return ()
    most = pitch - (low - high) / max(len(plan.angles) - 1, 1)
    return (
        Problem(
            fault=Fault.RACK_ENDS,
            place=0,
            measured=pitch,
            limit=most,
            remedies=(Remedy("pitch", most),) if most >= least else (),
        ),
    )


def _best(plan: Plan, pitch: float) -> list[float] | None:
    """The best of a few starts: pivot (x, y), folded rod's x, first seat centre's x."""
    bounds = _bounds(plan, pitch)

    def errors(unknowns: Sequence[float]) -> list[float] | None:
        found = _angles(plan, _made(plan, unknowns), unknowns[3], pitch)
        return found and [a - w for a, w in zip(found, plan.angles, strict=True)]

    best: tuple[list[float], float] | None = None
    for start in _starts(plan, bounds):
        found = fitted(errors, start, bounds)
        if found is not None and (best is None or found[1] < best[1] * (1.0 - 1e-6)):
            best = found
        if best is not None and best[1] < _GOOD:
            break
    return best and best[0]


def _starts(plan: Plan, bounds: Bounds) -> list[list[float]]:
    """As given, and with the rod folded as far out as it may, at both ends of the pivot's range."""
    x, y = plan.prop.pivot
    drop = plan.room.folded - y
    folded = x + math.sqrt(max(plan.prop.arm**2 - drop**2, 0.0))
    (low, high), _, (_, far), _ = bounds
    starts = []
    for px, out in ((x, folded), (x, far), (low + (high - low) / 4.0, far), (high, far)):
        prop = replace(plan.prop, pivot=Point(px, y), arm=math.hypot(out - px, drop))
        seat, free = seat_of(plan.form, prop.rod / 2.0)
        short = replace(prop, arm=prop.arm - free)
        first = rod_at(short, plan.angles[0], plan.floor + seat.y)
        if not isinstance(first, Miss):
            starts.append([px, y, out, first.x])
    return starts


def _bounds(plan: Plan, pitch: float) -> Bounds:
    x, y = plan.prop.pivot
    r = plan.prop.rod / 2.0
    low, high = plan.room.x
    return (
        plan.room.pivot_x or (x, x),
        plan.room.pivot_y or (y, y),
        (low + r, high - r),
        _first_range(plan, pitch),
    )


def _first_range(plan: Plan, pitch: float) -> tuple[float, float]:
    """Where the lowest stop's seat centre may stand so that all notches lie on the rack."""
    r = plan.prop.rod / 2.0
    seat, _ = seat_of(plan.form, r)
    notch = cut(plan.form, Point(-seat.x, 0.0))
    low = max(plan.room.rack[0] - notch[0].start.x, plan.room.x[0] + r)
    high = min(plan.room.rack[1] - notch[-1].end.x, plan.room.x[1] - r)
    return low + (len(plan.angles) - 1) * pitch, high


def _made(plan: Plan, unknowns: Sequence[float]) -> Prop:
    x, y, folded, _ = unknowns
    arm = math.hypot(folded - x, plan.room.folded - y)
    return Prop(pivot=Point(x, y), arm=arm, rod=plan.prop.rod)


def _angles(plan: Plan, prop: Prop, first: float, pitch: float) -> list[float] | None:
    """The back's angle in each notch; None if one is out of reach."""
    seat, free = seat_of(plan.form, prop.rod / 2.0)
    angles: list[float] = []
    for number in range(len(plan.angles)):
        centre = Point(first - number * pitch, plan.floor + seat.y)
        angle = angle_about(prop, centre, prop.arm - free)
        if isinstance(angle, Miss):
            return None
        angles.append(angle)
    return angles
