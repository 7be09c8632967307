"""The cheapest change that mends an overload, found by building the piece anew with it.

What a change costs is reckoned by the wood, bars and fasteners that it adds, in litres of wood:
steel bars count COST_OF_STEEL times their volume, fasteners COST_OF_FASTENER each (assumed prices;
only their order matters).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from flatpack.frozen import replace
from flatpack.model import Assembly
from flatpack.profiles import Profiles
from flatpack.strength.layout import volume
from flatpack.strength.records import Check, Report
from flatpack.strength.reporting import report
from flatpack.strength.trying import Change, changes

COST_OF_STEEL = 10.0
COST_OF_FASTENER = 0.03
MOST = 16
"""Overloads that remedies are sought for, the worst ones."""

Rebuild = Callable[[Mapping[str, Any]], Assembly | None]
"""Builds the piece with some keys of its parameter file changed; None: they don't go together."""


def with_remedies(
    first: Report,
    record: Any,
    assembly: Assembly,
    profiles: Profiles,
    rebuild: Rebuild,
    *,
    tried: Iterable[Change] | None = None,
    **same: Any,
) -> Report:
    """The report with the cheapest working change for each of its worst overloads.

    A change works when that check comes within capacity and no check that was within goes over.
    `same` goes to `report` unchanged (loads, grades).
    """
    # What the code judges comes before what only a second method does.
    ranked = sorted(first.checks, key=lambda c: (c.use is None, -c.weight))
    wanted = [c for c in ranked if c.weight > 1.0]
    if not wanted:
        return first
    outcomes = []
    for change in changes(record, assembly, profiles) if tried is None else tried:
        made = rebuild(dict(change.values))
        if made is not None:
            outcomes.append((_cost(assembly, made), change, report(made, record, profiles, **same)))
    outcomes.sort(key=lambda o: (o[0], o[1].words))
    found = []
    for check in _kinds(wanted)[:MOST]:
        for cost, change, then in outcomes:
            if _mends(first, then, check):
                words = f"tried: {change.words} brings it to {_use(then, check):.0%}"
                words += f", costing as much as {cost:.1f} l of wood"
                found.append((f"{check.subject} {check.code}", words))
                break
        else:
            words = f"none of {len(outcomes)} single changes tried mends it"
            found.append((f"{check.subject} {check.code}", words))
    return replace(first, remedies=tuple(found))


def _kinds(checks: list[Check]) -> list[Check]:
    """One check of each code, case and use: mending it mends its like."""
    seen: dict[object, Check] = {}
    for check in checks:
        seen.setdefault((check.code, check.case, f"{check.weight:.2f}"), check)
    return list(seen.values())


def _cost(before: Assembly, after: Assembly) -> float:
    """Cost of a change in litres of wood, mm3 times 1e-6."""
    screws = len(after.fasteners) - len(before.fasteners)
    return (_stuff(after) - _stuff(before)) * 1e-6 + COST_OF_FASTENER * screws


def _stuff(assembly: Assembly) -> float:
    wood = sum(map(volume, assembly.parts.values()))
    for bar in assembly.bars.values():
        worth = COST_OF_STEEL if "steel" in bar.stock.material else 1.0
        wood += worth * math.pi / 4.0 * bar.stock.diameter**2 * bar.length
    return wood


def _use(then: Report, check: Check) -> float:
    weights = [c.weight for c in then.checks if (c.subject, c.code) == (check.subject, check.code)]
    return max(weights, default=0.0)


def _mends(first: Report, then: Report, check: Check) -> bool:
    if _use(then, check) > 1.0:
        return False
    over = {(c.code, c.kind) for c in first.checks if c.weight > 1.0}
    return all((c.code, c.kind) in over for c in then.checks if c.weight > 1.0)
