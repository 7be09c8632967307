"""Bolts right through: coach bolts with a square neck, washers, lock nut; fixed or as a pivot.

    head | neck part | (washer) | further parts | washer | nut | tail
         |<-------------- grip, with washers ---------->|

Length = grip with washers + nut + two threads, rounded up to a length that is sold; the thread
must begin before the nut does: length - thread length <= grip with washers.
"""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.geometry import Vec
from flatpack.joinery.axis import bore, span
from flatpack.joinery.uses import use_of
from flatpack.model import (
    Assembly,
    Driver,
    Fastener,
    Feature,
    Hardware,
    Machining,
    Solid,
    Working,
    cylinder,
)
from flatpack.profiles import CoachBolt, Nut, Washer

THREADS_PAST_NUT = 2.0


@frozen
class BoltThrough:
    """A coach bolt through `through` (head side first) on the axis `place`, `direction`.

    `turning` names the parts that must turn on it: they get the pivot's fit.  A washer lies
    between parts wherever `between` is set, and always under the nut.
    """

    key: str
    step: str
    through: tuple[str, ...]
    place: Vec
    direction: Vec
    bolt: CoachBolt
    nut: Nut
    washer: Washer
    turning: tuple[str, ...] = ()
    pivot_play: float = 0.5
    between: bool = False
    use: str = ""
    group: str = "frame"

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts, head side first."""
        return self.through

    def words(self) -> str:
        """How it is made."""
        kind = "turning" if self.turning else "fixed"
        return f"{self.bolt.name}, {kind}, washer and {self.nut.name.lower()}"

    def machine(self, assembly: Assembly) -> Machining:
        """A hole in every part, and the bolt with its nut and washers."""
        features: list[tuple[str, Feature]] = [
            (key, self._hole(assembly, key)) for key in self.through
        ]
        first, last = self._ends(assembly)
        washers = 1 + (len(self.through) - 1 if self.between else 0)
        grip = last - first + self.washer.thickness
        length = self.length(grip)
        mates = () if self.between else tuple(zip(self.through, self.through[1:], strict=False))
        need = grip + self.nut.height + THREADS_PAST_NUT * self.bolt.pitch
        working = Working(
            f"{self.bolt.name} length, {self.use or self.key}",
            length,
            f"{last - first:.1f} through wood and washers between + {self.washer.thickness:g} "
            f"washer + {self.nut.height:g} nut + {THREADS_PAST_NUT:g} x {self.bolt.pitch:g} thread "
            f"= {need:.1f}, next length sold",
        )
        bolt = self._fastener(assembly, first, last, length, washers)
        return Machining(tuple(features), (bolt,), mates, workings=(working,))

    def length(self, grip: float) -> float:
        """Next sold length at or above grip + nut + two threads; the longest if none is enough."""
        need = grip + self.nut.height + THREADS_PAST_NUT * self.bolt.pitch
        return min((n for n in self.bolt.lengths if n >= need), default=max(self.bolt.lengths))

    def thread_reaches(self, grip: float, length: float) -> bool:
        """True when the thread begins no later than the nut."""
        return length - self.bolt.thread_length(length) <= grip + 1e-9

    def _ends(self, assembly: Assembly) -> tuple[float, float]:
        first = span(assembly.parts[self.through[0]], self.place, self.direction)[0]
        last = span(assembly.parts[self.through[-1]], self.place, self.direction)[1]
        return first, last

    def _hole(self, assembly: Assembly, key: str) -> Feature:
        turning = key in self.turning
        diameter = self.bolt.diameter + self.pivot_play if turning else self.bolt.hole_wood
        return bore(
            assembly.parts[key],
            self.place,
            self.direction,
            diameter=diameter,
            depth=None,
            fit="pivot in wood" if turning else "bolt in wood",
            purpose=f"{self.bolt.name}, {self.use}" if self.use else self.bolt.name,
        )

    def _fastener(
        self, assembly: Assembly, first: float, last: float, length: float, washers: int
    ) -> Fastener:
        d, name = self.direction, self.key
        head = self.place.plus(d, first)
        out = self.place.plus(d, last)
        nut_at = out.plus(d, self.washer.thickness)
        size = f"M{self.bolt.diameter:g} x {length:g}"
        thread = f"M{self.bolt.diameter:g}"
        use = use_of(assembly, self.through, self.use)
        return Fastener(
            key=name,
            kind="coach bolt",
            item=self.bolt.name,
            size=size,
            start=head,
            direction=d,
            length=length,
            diameter=self.bolt.diameter,
            passes=self.through,
            inside=(),
            solids=(
                cylinder(
                    f"{name} head",
                    head.plus(d, -self.bolt.head_height),
                    d,
                    self.bolt.head_diameter / 2.0,
                    self.bolt.head_height,
                ),
                cylinder(f"{name} shank", head, d, self.bolt.diameter / 2.0, length),
                *self._washers(assembly, name),
                cylinder(f"{name} washer", out, d, self.washer.outer / 2.0, self.washer.thickness),
                cylinder(f"{name} nut", nut_at, d, self.nut.across_corners / 2.0, self.nut.height),
            ),
            drivers=(
                Driver(nut_at, d, self.nut.across_corners / 2.0 + 3.0, self.nut.height + 40.0),
            ),
            hardware=(
                Hardware(self.bolt.name, size, 1, use),
                Hardware(self.nut.name, thread, 1, use),
                Hardware(self.washer.name, thread, washers, use),
            ),
            step=self.step,
            group="back" if self.group == "back" else "frame",
            joint=self.key,
        )

    def _washers(self, assembly: Assembly, name: str) -> tuple[Solid, ...]:
        if not self.between:
            return ()
        return tuple(
            cylinder(
                f"{name} washer {number}",
                self.place.plus(
                    self.direction, span(assembly.parts[key], self.place, self.direction)[1]
                ),
                self.direction,
                self.washer.outer / 2.0,
                self.washer.thickness,
            )
            for number, key in enumerate(self.through[:-1], 1)
        )
