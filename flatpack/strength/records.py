"""What strength has to say: checks with their workings, diagrams, and the report."""

from __future__ import annotations

from typing import Literal, NamedTuple

from flatpack.frozen import frozen

EC5 = "EN 1995-1-1:2004 + A1:2008"
EDITION = f"{EC5} with the recommended values (no national annex), loads' factors after EN 1990"

Kind = Literal["part", "joint", "piece"]


class Second(NamedTuple):
    """Use of capacity by another published method, beside a check that the code doesn't cover.

    It is told, never counted as a pass.
    """

    method: str
    use: float
    source: str


class Check(NamedTuple):
    """One check of a part, a joint or the whole piece under its worst load case.

    `use` is demand over capacity (more than 1: not enough), None where the check isn't done;
    `why` then says what is missing.  `formula` holds the numbers.
    """

    subject: str
    kind: Kind
    code: str
    case: str
    use: float | None
    formula: str
    clause: str
    source: str
    why: str = ""
    second: Second | None = None

    @property
    def weight(self) -> float:
        """What it is sorted by: its use, or that of the second method, or 0."""
        if self.use is not None:
            return self.use
        return 0.0 if self.second is None else self.second.use


class Diagram(NamedTuple):
    """A bent member: places along the part mm, moment N mm, deflection mm, in its worst case.

    `plane` is flat (through the thickness) or edge (across the width).
    """

    part: str
    case: str
    plane: Literal["flat", "edge"]
    places: tuple[float, ...]
    moment: tuple[float, ...]
    deflection: tuple[float, ...]


class Case(NamedTuple):
    """A load case in words."""

    key: str
    words: str


@frozen
class Report:
    """Strength of a piece: checks worst first, one a subject and code.

    `joints` are all joints of the piece, `open` those of which some check isn't done; parts
    likewise.
    """

    family: str
    name: str
    edition: str
    checks: tuple[Check, ...]
    joints: tuple[str, ...]
    parts: tuple[str, ...]
    cases: tuple[Case, ...]
    assumptions: tuple[str, ...]
    diagrams: tuple[Diagram, ...] = ()
    remedies: tuple[tuple[str, str], ...] = ()

    @property
    def open_joints(self) -> tuple[str, ...]:
        """Joints of which at least one check isn't done."""
        return self._open("joint", self.joints)

    @property
    def open_parts(self) -> tuple[str, ...]:
        """Parts of which at least one check isn't done."""
        return self._open("part", self.parts)

    def _open(self, kind: Kind, every: tuple[str, ...]) -> tuple[str, ...]:
        missing = {c.subject for c in self.checks if c.kind == kind and c.use is None}
        return tuple(key for key in every if key in missing)

    @property
    def over(self) -> tuple[Check, ...]:
        """Checks whose capacity is exceeded, worst first."""
        return tuple(c for c in self.checks if c.use is not None and c.use > 1.0)

    @property
    def headline(self) -> str:
        """One line that opens with what wasn't judged."""
        joints, parts = len(self.open_joints), len(self.open_parts)
        open_ = f"{joints} of {len(self.joints)} joints not judged"
        open_ += f", {parts} of {len(self.parts)} parts not wholly" if parts else ""
        done = [c for c in self.checks if c.use is not None]
        if not done:
            return f"{open_}; nothing could be judged"
        worst = done[0]
        over = len(self.over)
        state = f"{over} checks over capacity" if over else "what was judged is within capacity"
        told = f"{open_}; {state}; worst: {worst.subject}, {worst.code}, {worst.use:.0%}"
        return told + self._by_another_method()

    @property
    def doubted(self) -> tuple[Check, ...]:
        """Checks that the code leaves open and another method finds too weak."""
        return tuple(c for c in self.checks if c.use is None and c.weight > 1.0)

    def _by_another_method(self) -> str:
        """How many of what the code leaves open another method finds too weak."""
        second = self.doubted
        if not second:
            return ""
        worst = max(second, key=lambda c: c.weight)
        return (
            f"; {len(second)} of those not judged are over by another method, "
            f"worst {worst.subject}, {worst.weight:.0%}"
        )

    def use(self, subject: str) -> float | None:
        """Greatest use of a part or joint, None where nothing of it was judged."""
        found = [c.use for c in self.checks if c.subject == subject and c.use is not None]
        return max(found, default=None)


def worst_each(checks: list[Check]) -> tuple[Check, ...]:
    """The check with most use of each subject and code; beside it the worst that isn't done."""
    found: dict[tuple[str, str, bool], Check] = {}
    for check in checks:
        key = check.subject, check.code, check.use is None
        old = found.get(key)
        if old is None or check.weight > old.weight:
            found[key] = check
    return tuple(
        sorted(found.values(), key=lambda c: (c.use is None, -c.weight, c.subject, c.code))
    )
