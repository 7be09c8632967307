"""What is known of each stop, put together from the mechanism: one record a stop."""

from __future__ import annotations

import math
from typing import NamedTuple

from flatpack.drawings.moving.views import RACKS
from flatpack.frozen import frozen
from flatpack.geometry import Point, Vec
from flatpack.mechanism import Hold, Knock, Passed, Spread, Stop
from flatpack.mechanism.release import Release
from flatpack.mechanism.study import Study
from flatpack.model import Assembly, Part


class RackPlace(NamedTuple):
    """The rod's centre on one hand's rack: mm from its datum end and up from its datum edge."""

    hand: str
    x: float
    y: float


@frozen
class StopFacts:
    """One stop: `number` counts stops from the lowest, `notch` as on the rack's own drawing.

    `wanted` is the angle asked for and None for a notch that nobody set out; `notch` is then 0.
    """

    number: int
    notch: int
    wanted: float | None
    stop: Stop
    spread: Spread
    hold: Hold
    knock: Knock
    release: Release | None
    places: tuple[RackPlace, ...]

    @property
    def headroom(self) -> float | None:
        """Degrees to the angle at which the arm would stand upright; None: it never does."""
        return None if self.stop.limit is None else self.stop.limit - self.stop.angle


def stop_facts(assembly: Assembly, made: Study) -> tuple[StopFacts, ...]:
    """Every stop by rising angle."""
    racks = datum_racks(assembly)
    lets = {r.degrees: r for r in made.releases}
    return tuple(
        StopFacts(
            number=number,
            notch=notch_at(made, stop.rod),
            wanted=wanted_at(made, stop.rod),
            stop=stop,
            spread=spread,
            hold=hold,
            knock=knock,
            release=lets.get(stop.angle),
            places=places_on(racks, assembly, stop.rod),
        )
        for number, (stop, spread, hold, knock) in enumerate(
            zip(made.found.stops, made.spreads, made.holds, made.knocks, strict=True), 1
        )
    )


def datum_racks(assembly: Assembly) -> tuple[Part, ...]:
    """The parts whose datum end the notches are set out from: bars, or bearers of blocks."""
    parts = assembly.parts.values()
    return tuple(p for p in parts if p.key.startswith(RACKS) and not p.key.startswith("block-"))


def places_on(racks: tuple[Part, ...], assembly: Assembly, rod: Point) -> tuple[RackPlace, ...]:
    """A rod's centre (hinge frame) measured on each hand's rack."""
    motion = assembly.motion
    if motion is None:
        return ()
    at = Vec(motion.axis.x + rod.x, 0.0, motion.axis.z + rod.y)
    spots = ((p.hand, p.frame.local(at)) for p in racks)
    return tuple(RackPlace(hand, spot.x, spot.y) for hand, spot in spots)


def alike(places: tuple[RackPlace, ...]) -> bool:
    """Whether all hands have the same numbers, to 0.05 mm."""
    first = places[:1]
    return all(abs(p.x - f.x) < 0.05 and abs(p.y - f.y) < 0.05 for p in places for f in first)


def notch_at(made: Study, rod: Point) -> int:
    """Number of the notch that was set out at a rod's place, lowest angle first; 0 for none."""
    notches = made.motion.notches
    if not notches:
        return 0
    number = min(range(len(notches)), key=lambda i: math.dist(notches[i], rod))
    return number + 1 if math.dist(notches[number], rod) < made.rack.rod / 2.0 else 0


def wanted_at(made: Study, rod: Point) -> float | None:
    """The angle asked for at a rod's place, degrees."""
    number = notch_at(made, rod)
    wanted = made.motion.wanted
    return wanted[number - 1] if 0 < number <= len(wanted) else None


def passed_facts(made: Study) -> tuple[tuple[int, Passed], ...]:
    """Seats that give no stop, each with its notch's number."""
    return tuple((notch_at(made, p.rod), p) for p in made.found.passed)
