"""What the checks of safety are given, and the published limits that they hold a piece to."""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from flatpack.checks.limits import PRACTICE, Limit
from flatpack.frozen import frozen
from flatpack.geometry import Vec
from flatpack.mechanism.study import Study
from flatpack.model import Assembly, Part
from flatpack.profiles import LoadSet, Profiles
from flatpack.strength import Report
from flatpack.strength.surfaces import Surface, arm_parts, back_parts, top_of

EN581 = "EN 581-1 (outdoor furniture, general safety)"
FINGER_LOW = Limit(
    7.0, f"{EN581}, edition of 2006 as described by two test houses: probes of 7 and 12 mm"
)
FINGER_HIGH = Limit(12.0, FINGER_LOW.source)
FINGER_DEEP = Limit(10.0, FINGER_LOW.source)
NEAR_SKIN = Limit(
    120.0, f"{EN581}, edition of 2017, 5.1: underside of the seat within 120 mm of its edge"
)
NEAR_KNEES = Limit(
    500.0, f"{EN581} as a German description of it has it: below a table within 500 mm of its edge"
)
ROUNDED = Limit(2.0, f"{NEAR_SKIN.source}; the radius: {PRACTICE}, the standard gives none")
WETTER = Limit(8.0, PRACTICE, "% moisture")
"""From the moisture at which it was made to that of a wet autumn."""
DRIER = Limit(4.0, PRACTICE, "% moisture")
"""The same to a dry summer."""
BOLTS_APART = Limit(1.5, PRACTICE)
"""Movement across the grain between two fasteners that wood and holes take without splitting."""


class RoundBody(NamedTuple):
    """A round body: where its axis starts and which way it runs, length and diameter, mm."""

    start: Vec
    way: Vec
    length: float
    diameter: float

    def fills(self, place: Vec, aside: float) -> bool:
        """Whether a place lies in its length, no further than `aside` from its axis."""
        off = place.minus(self.start)
        along = off.dot(self.way)
        near = off.plus(self.way, -along).length <= aside
        return near and -aside <= along <= self.length + aside


@frozen(kw_only=False)
class Asked:
    """The piece with its back flat, its study and profiles, its strength, and its loads if any."""

    assembly: Assembly
    study: Study | None
    profiles: Profiles
    report: Report
    loads: LoadSet | None = None

    @property
    def use(self) -> str:
        """What the piece is for: sit, table, soil or lid; empty when nobody wrote its loads."""
        return self.loads.use if self.loads is not None else ""

    @cached_property
    def top(self) -> Surface | None:
        """The seat, table's top, lid or rim."""
        return top_of(self.assembly)

    @cached_property
    def seat(self) -> tuple[Part, ...]:
        """Level parts that are sat on or laid, in order across their widths."""
        return () if self.top is None else _in_order(self.top.parts)

    @cached_property
    def backrest(self) -> tuple[Part, ...]:
        """Boards of a fixed back, in order across their widths."""
        return () if self.top is None else _in_order(back_parts(self.assembly, self.top))

    @cached_property
    def arm_rests(self) -> tuple[Part, ...]:
        """Level boards well above the seat, at its sides."""
        return () if self.top is None else arm_parts(self.assembly, self.top)

    @cached_property
    def round_bodies(self) -> tuple[RoundBody, ...]:
        """Every bar, fastener and solid of a fastener."""
        bars, fasteners = self.assembly.bars.values(), self.assembly.fasteners
        solids = (s for f in fasteners for s in f.solids)
        return (
            *(RoundBody(b.frame.origin, b.frame.z, b.length, b.stock.diameter) for b in bars),
            *(RoundBody(f.start, f.direction, f.length, f.diameter) for f in fasteners),
            *(
                RoundBody(
                    s.frame.place(0.0, 0.0, s.low),
                    s.frame.z,
                    s.high - s.low,
                    _wide(s.outline.bounds),
                )
                for s in solids
            ),
        )


def _wide(bounds: tuple[float, float, float, float]) -> float:
    return min(bounds[2] - bounds[0], bounds[3] - bounds[1])


def _in_order(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Parts along the width of the first one."""
    if not parts:
        return ()
    way = parts[0].frame.y
    return tuple(sorted(parts, key=lambda p: (round(_middle(p).dot(way), 6), p.key)))


def _middle(part: Part) -> Vec:
    x0, y0, x1, y1 = part.outline.bounds
    return part.frame.place((x0 + x1) / 2.0, (y0 + y1) / 2.0, part.thickness / 2.0)
