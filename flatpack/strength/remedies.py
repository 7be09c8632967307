"""The cheapest change that mends an overload, found by building the piece anew with it.

What a change costs is reckoned by the wood, bars and fasteners that it adds, in litres of wood:
steel bars count COST_OF_STEEL times their volume, fasteners COST_OF_FASTENER each (assumed prices;
only their order matters).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import combinations
from typing import Any, NamedTuple

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
LIKELY, MOST_PAIRS = 3, 8
"""Single changes that lessen an overload most, of which two are tried together; pairs in all."""
LESSENS = 0.98
"""Less than this share of what it was counts as lessened."""

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

    A change works when that check comes within capacity and no check that was within goes over;
    where none does, the likeliest ones are tried two at a time.
    `same` goes to `report` unchanged (loads, grades).
    """
    # What the code judges comes before what only a second method does.
    ranked = sorted(first.checks, key=lambda c: (c.use is None, -c.weight))
    wanted = [c for c in ranked if c.weight > 1.0]
    if not wanted:
        return first
    trials = _Trials(first, assembly, rebuild, lambda made: report(made, record, profiles, **same))
    for change in changes(record, assembly, profiles) if tried is None else tried:
        trials.take(change)
    found = [(f"{c.subject} {c.code}", trials.remedy(c)) for c in _kinds(wanted)[:MOST]]
    return replace(first, remedies=tuple(found))


class _Outcome(NamedTuple):
    cost: float
    change: Change
    then: Report


class _Trials:
    """What became of the piece with each change, and with two together where one isn't enough."""

    def __init__(
        self, first: Report, before: Assembly, rebuild: Rebuild, judge: Callable[[Assembly], Report]
    ) -> None:
        self.first, self.before, self.rebuild, self.judge = first, before, rebuild, judge
        self.singles: list[_Outcome] = []
        self.pairs: dict[str, _Outcome | None] = {}

    def take(self, change: Change) -> None:
        """Try a single change."""
        made = self._tried(change)
        if made is not None:
            self.singles.append(made)

    def remedy(self, check: Check) -> str:
        """The cheapest change that mends a check; else how near the best came."""
        nearest = sorted(self.singles, key=lambda o: (_use(o.then, check), o.cost, o.change.words))
        better = [o for o in nearest if _use(o.then, check) < check.weight * LESSENS]
        made = self._cheapest(self.singles, check)
        made = made or self._cheapest(self._together(better[:LIKELY]), check)
        if made is not None:
            use = _use(made.then, check)
            return f"tried: {made.change.words} brings it to {use:.0%}, {_price(made.cost)}"
        words = f"none of {len(self.singles)} single changes tried mends it"
        if better:
            use = _use(better[0].then, check)
            words += f"; {better[0].change.words} brings it to {use:.0%}"
            words += " but puts something else over" if use <= 1.0 else ""
        return words

    def _cheapest(self, outcomes: Iterable[_Outcome], check: Check) -> _Outcome | None:
        mended = [o for o in outcomes if _mends(self.first, o.then, check)]
        return min(mended, key=lambda o: (o.cost, o.change.words), default=None)

    def _together(self, likely: list[_Outcome]) -> Iterator[_Outcome]:
        for one, two in combinations(likely, 2):
            keys = [key for key, _ in (*one.change.values, *two.change.values)]
            words = " with ".join(sorted((one.change.words, two.change.words)))
            if len(set(keys)) < len(keys):
                continue
            if words not in self.pairs:
                if len(self.pairs) >= MOST_PAIRS:
                    continue
                change = Change((*one.change.values, *two.change.values), words)
                self.pairs[words] = self._tried(change)
            made = self.pairs[words]
            if made is not None:
                yield made

    def _tried(self, change: Change) -> _Outcome | None:
        made = self.rebuild(dict(change.values))
        if made is None:
            return None
        return _Outcome(_cost(self.before, made), change, self.judge(made))


def _price(cost: float) -> str:
    """Cost of a change in words."""
    if cost < 0.0:
        return f"saving as much as {-cost:.1f} l of wood"
    return f"costing as much as {cost:.1f} l of wood"


def _kinds(checks: list[Check]) -> list[Check]:
    """One check of each code, case and use: mending it mends its like."""
    worst: dict[object, Check] = {}
    for check in sorted(checks, key=lambda c: -c.weight):
        worst.setdefault((check.subject, check.code), check)
    seen: dict[object, Check] = {}
    for check in checks:
        if worst[check.subject, check.code] is check:
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
