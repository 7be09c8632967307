"""What the checks of one piece bring together before the report is made."""

from __future__ import annotations

from dataclasses import dataclass, field

from flatpack.strength.loading import Loading
from flatpack.strength.records import Case, Check, Diagram
from flatpack.strength.sides import Force


@dataclass
class Gathered:
    """Checks, diagrams with the use that they belong to, forces on the sides, cases, notes."""

    checks: list[Check] = field(default_factory=list)
    diagrams: list[tuple[float, Diagram]] = field(default_factory=list)
    sides: list[tuple[Loading, tuple[Force, ...]]] = field(default_factory=list)
    cases: list[Case] = field(default_factory=list)
    notes: tuple[str, ...] = ()
