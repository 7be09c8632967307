"""Halving: two boards let into each other, crossing at right angles, each slotted half way.

      upper |  |  slides down            lap: where both boards stand on the crossing line
,-----.     |  |                         lower's slot is open at the top, upper's below;
|lower|_____|  |                         they meet at `share` of the lap from below
|     :slot :  |
`-----'-----'--'                         slot = other board's measured thickness + fit
"""

from __future__ import annotations

from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry import Vec
from flatpack.geometry.recess import span_at
from flatpack.joinery.fitting import Fitting, flat, flat_way
from flatpack.model import Assembly, Fit, Machining, Part, Recess, Working

SQUARE = 1e-9


class Lap(NamedTuple):
    """Heights above a place on the crossing line, mm: each board's own, and where slots meet."""

    lower: tuple[float, float]
    upper: tuple[float, float]
    meet: float


@frozen
class Halving:
    """`upper` slides along `direction` over `lower`, which stands."""

    key: str
    step: str
    lower: str
    upper: str
    direction: Vec
    fitting: Fitting
    share: float = 0.5
    kind: str = "halving"

    @property
    def parts(self) -> tuple[str, ...]:
        """The part that stands, then the one that slides on."""
        return (self.lower, self.upper)

    def words(self) -> str:
        """How it is made."""
        return "halving, pushed together by hand until the slots' floors meet"

    def machine(self, assembly: Assembly) -> Machining:
        """A slot in each part, as wide as the other one's measured thickness and the fit.

        Raises:
            ValueError: the boards don't cross square, or don't stand along the direction (a bug).
        """
        lower, upper = assembly.parts[self.lower], assembly.parts[self.upper]
        up = self.direction.negated()
        at = crossing(lower, upper, up)
        lap = self._lap(lower, upper, at, up)
        fit = self.fitting.push
        fits = tuple(
            Fit(self.key, self.upper, self.lower, self.direction, (way,), fit, tongues=self.parts)
            for way in (lower.frame.z, upper.frame.z)
        )
        if lap is None:
            return Machining(fits=fits)
        recesses = (
            (self.lower, self._slot(lower, upper, at.plus(up, lap.lower[1]), self.direction,
                                    lap.lower[1] - lap.meet)),
            (self.upper, self._slot(upper, lower, at.plus(up, lap.upper[0]), up,
                                    lap.meet - lap.upper[0])),
        )  # fmt: skip
        mates = ((self.lower, self.upper),)
        return Machining(
            recesses=recesses, fits=fits, mates=mates, workings=tuple(self._workings(lower, upper))
        )

    def _lap(self, lower: Part, upper: Part, at: Vec, up: Vec) -> Lap | None:
        spans = [span_at(p.outline, flat(p, at), flat_way(p, up)) for p in (lower, upper)]
        below, above = spans
        if below is None or above is None:
            return None
        low, high = max(below[0], above[0]), min(below[1], above[1])
        return Lap(below, above, low + self.share * (high - low)) if high > low else None

    def _slot(self, part: Part, other: Part, mouth: Vec, inward: Vec, depth: float) -> Recess:
        width = other.thickness + self.fitting.push
        return Recess(flat(part, mouth), flat_way(part, inward), width, depth, self.fitting.relief)

    def _workings(self, lower: Part, upper: Part) -> tuple[Working, ...]:
        return tuple(
            Working(
                f"Halving slot in {part.key.replace('-', ' ')}",
                other.thickness + self.fitting.push,
                f"{other.thickness:g} {other.name.lower()} as measured "
                f"{'+' if self.fitting.push >= 0.0 else '-'} {abs(self.fitting.push):g} fit",
            )
            for part, other in ((lower, upper), (upper, lower))
        )


def crossing(a: Part, b: Part, up: Vec) -> Vec:
    """A place on the line in which the middle planes of two boards cross.

    Raises:
        ValueError: they don't cross at right angles, or the line doesn't run along `up` (a bug).
    """
    n, m = a.frame.z, b.frame.z
    if abs(n.dot(m)) > SQUARE or abs(n.cross(m).cross(up).length) > SQUARE:
        raise ValueError(f"{a.key} and {b.key} don't cross square about the way they slide")
    to_a = a.frame.place(0.0, 0.0, a.thickness / 2.0).dot(n)
    to_b = b.frame.place(0.0, 0.0, b.thickness / 2.0).dot(m)
    return Vec(0.0, 0.0, 0.0).plus(n, to_a).plus(m, to_b)
