"""Lifting and carrying: the piece's weight against the figures of the HSE's lifting filter.

The filter gives, for a load close to the body that is easily grasped with both hands, the weight
up to which the risk is low: men / women, head 10/7, shoulder 20/13, elbow 25/16, knuckle 20/13,
lower leg 10/7 kg; where hands pass through more than one zone the smallest counts.  It is no
limit of any law.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.checks.safety.asked import Asked
from flatpack.finding import Finding, Severity
from flatpack.model import Bar, Part, volume
from flatpack.strength.filled import room_for_soil
from flatpack.strength.surfaces import floor_of

FILTER = "HSE lifting and lowering filter (L23, INDG143), no legal limit"
LOW = (10.0, 7.0)
"""Lower leg, men and women, kg: a piece is gripped by its frame, below the knuckles."""
CLOSE = (20.0, 13.0)
"""Knuckle height, once it is up."""
TWO = 2


def check_lifting(asked: Asked) -> Iterator[Finding]:
    """What each of two persons lifts, how many it takes, and the end that is lifted to roll."""
    whole, centre = mass_of(asked)
    each = whole / TWO
    men, women = (math.ceil(whole / limit) for limit in LOW)
    severity: Severity = "note" if each <= LOW[1] else "warning"
    yield Finding(
        "safety-lifting", severity, asked.assembly.name,
        f"it weighs {whole:.0f} kg without hardware: two persons lift {each:.0f} kg each. Up to "
        f"{LOW[1]:g} kg for women and {LOW[0]:g} kg for men from the height of the lower leg "
        f"({CLOSE[1]:g} and {CLOSE[0]:g} kg at knuckle height) the risk is low: "
        f"{women} women or {men} men",
        round(each, 1), LOW[1], "kg", FILTER,
        "" if severity == "note" else "more hands, wheels, or carry it in its parts",
    )  # fmt: skip
    yield from _filled(asked, whole)
    wheels = [f for f in asked.assembly.fasteners if f.kind == "wheel"]
    if wheels:
        yield _rolled(asked, whole, centre, wheels[0].start.x)


def _filled(asked: Asked, empty: float) -> Iterator[Finding]:
    """What it weighs with wet soil, or with what lies in a box."""
    if asked.loads is None:
        return
    floor = floor_of(asked.assembly)
    soil = asked.loads.soil_density * 1e-9
    inside = room_for_soil(asked.assembly, floor)[0] * soil if floor is not None else 0.0
    more = inside + asked.loads.contents
    if more > 0.0:
        yield Finding(
            "safety-filled", "note", asked.assembly.name,
            f"filled it weighs about {empty + more:.0f} kg: never lift or push it so; ask whether "
            "a balcony or deck is meant for that",
            round(empty + more), None, "kg", "volume and density of the load set",
        )  # fmt: skip


def _rolled(asked: Asked, whole: float, centre: float, wheel: float) -> Finding:
    """Moments about the wheels' axle: the hands hold whole x (centre - axle) / (end - axle)."""
    places = [
        p.frame.place(x, y).x
        for p in asked.assembly.parts.values()
        for x in (p.outline.bounds[0], p.outline.bounds[2])
        for y in (p.outline.bounds[1], p.outline.bounds[3])
    ]
    end = max(places, key=lambda x: abs(x - wheel))
    held = whole * (centre - wheel) / (end - wheel)
    bad = held > CLOSE[1]
    return Finding(
        "safety-rolling", "warning" if bad else "note", asked.assembly.name,
        f"to roll it one person lifts {held:.0f} kg at the end away from the wheels; up to "
        f"{CLOSE[1]:g} kg for women and {CLOSE[0]:g} kg for men at knuckle height the risk is "
        "low. Never roll it with someone on it",
        round(held, 1), CLOSE[1], "kg", FILTER, "two persons lift the end" if bad else "",
    )  # fmt: skip


def mass_of(asked: Asked) -> tuple[float, float]:
    """Mass of boards and bars, kg, and where along the piece its middle lies, mm."""
    rows = [
        *map(_of_part, asked.assembly.parts.values()),
        *map(_of_bar, asked.assembly.bars.values()),
    ]
    whole = sum(kg for kg, _ in rows)
    return whole, sum(kg * x for kg, x in rows) / whole if whole else 0.0


def _of_part(part: Part) -> tuple[float, float]:
    x0, y0, x1, y1 = part.outline.bounds
    kg = abs(volume(part)) * part.board.density * 1e-9
    return kg, part.frame.place((x0 + x1) / 2.0, (y0 + y1) / 2.0, part.thickness / 2.0).x


def _of_bar(bar: Bar) -> tuple[float, float]:
    kg = math.pi / 4.0 * bar.stock.diameter**2 * bar.length * bar.stock.density * 1e-9
    return kg, bar.frame.place(0.0, 0.0, bar.length / 2.0).x
