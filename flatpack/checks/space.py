"""No two parts share space, with heads, nuts, hinges, wheels, bars and screw tips as solids."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from flatpack.checks.body import Body
from flatpack.checks.broad import boxes, meeting
from flatpack.checks.narrow import shared
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.geometry import Vec

STEPS = 9
"""Halvings when the depth of an overlap is sought: to 1/512 of what the boxes allow."""
FINE = 0.002
"""Difference of radius at which the search ends, mm."""


class Overlap(NamedTuple):
    """Room that two bodies share; `depth` is the diameter of the largest ball that fits in it."""

    first: Body
    second: Body
    depth: float
    place: Vec


def overlaps(some: Sequence[Body], tolerance: float) -> Iterator[Overlap]:
    """Every pair of bodies of different owners that share room deeper than the tolerance."""
    r = tolerance / 2.0
    around = boxes(some, r)
    for i, j in meeting(around, around).tolist():
        if i < j and _may_clash(some[i], some[j]):
            place = shared(some[i], some[j], r)
            if place is not None:
                yield _deepest(some[i], some[j], r, place)


def _may_clash(a: Body, b: Body) -> bool:
    return a.owner != b.owner and a.owner not in b.inside and b.owner not in a.inside


def _deepest(a: Body, b: Body, r: float, place: Vec) -> Overlap:
    fits, too_big = r, max(_most(a, b), r)
    middle = too_big - 1e-6
    for _ in range(STEPS):
        found = shared(a, b, middle)
        if found is None:
            too_big = middle
        else:
            fits, place = middle, found
        middle = (fits + too_big) / 2.0
        if too_big - fits < FINE:
            break
    return Overlap(a, b, 2.0 * fits, place)


def _most(a: Body, b: Body) -> float:
    """No ball of a greater radius fits: half the least overlap along the sides of either box."""
    around = boxes((a, b), 0.0)
    between = around.middle[1] - around.middle[0]
    sides = around.axes.reshape(-1, 3)
    reach = [abs(sides @ around.axes[n].T) @ around.half[n] for n in (0, 1)]
    over = reach[0] + reach[1] - abs(sides @ between)
    return float(min(over.min(), 2.0 * around.half.min()) / 2.0)


def check_space(setting: Setting) -> Iterator[Finding]:
    """One finding for each pair of owners, at the deepest place."""
    limit = setting.limits.overlap
    pressed = _pressed(setting)
    deepest: dict[tuple[str, str], Overlap] = {}
    for found in overlaps(setting.bodies, limit.value):
        pair = found.first.owner, found.second.owner
        if pair not in deepest or found.depth > deepest[pair].depth:
            deepest[pair] = found
    for pair, found in deepest.items():
        if found.depth > limit.value + pressed.get(frozenset(pair), 0.0):
            yield _finding(pair, found, limit.value, limit.source)


def _pressed(setting: Setting) -> dict[frozenset[str], float]:
    """How deep parts that are pressed together run into each other on each side of the joint."""
    fits = (f for f in setting.assembly.fits if f.clearance < 0.0)
    return {frozenset((f.part, f.onto)): -f.clearance / 2.0 for f in fits}


def _finding(pair: tuple[str, str], found: Overlap, limit: float, source: str) -> Finding:
    at = ", ".join(f"{n + 0.0:.1f}" for n in found.place)
    return Finding(
        "shared-space", "fault", " / ".join(pair),
        f"{found.first.name} and {found.second.name} share room, "
        f"{found.depth:.2f} deep about ({at})",
        round(found.depth, 3), limit, "mm", source,
        f"move one of them by at least {found.depth:.2f} mm",
    )  # fmt: skip
