r"""Two pairs of legs crossed on a pivot, held open by a seat that hooks over their top bars.

Side view, open; the long legs lean to the rear, the short ones to the front, each by half the
angle between them; all places are relative to the pivot P:

            seat _______________________
       B  o |____________________ __| o  A        A, B: middles of the top bars
           \                        /             long leg: `low` below P, `long` above it
             \                    /               short leg: `low` below P, `short` above it
                  \          /                    the seat's two slots keep A and B `apart`, level
                        P                         with `step` = long - short: A stands higher
                  /          \
             /                    \
       -------------------------------- ground

With a lean of f and A at the height z:  low + long = z / cos f,  apart = (long + short) sin f,
spread on the ground = 2 low sin f, pivot's height = low cos f.  Folded, all legs lie on one line
and A's bar has to pass the short legs' tops.  (Plane geometry.)
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.model import Folding

NARROW, WIDE = 7.0, 18.0
"""Risk gap for fingers during movement, mm: EN 581-1 as described by a test institute."""
FINE = 1e-9


class Crossed(NamedTuple):
    """Legs set out: lean in degrees; the rest mm."""

    lean: float
    low: float
    long: float
    short: float
    pivot: float
    spread: float
    apart: float


@frozen
class Scissor:
    """What moves when it folds.

    `half` is half the legs' width, `end` the radius of the short legs' round tops, `bar` that of
    the top bars; the long legs' low rail lies on their front edges, its end nearer the pivot
    `rail` below it; `slot` is how deep the middle of each bar lies above its slot's mouth,
    front one first.
    """

    legs: Crossed
    half: float
    end: float
    bar: float
    rail: float
    slot: tuple[float, float]


class Pull(NamedTuple):
    """What the seat holds: pull between the bars, N; loads on front and rear bar, N."""

    tie: float
    front: float
    rear: float


class Pinch(NamedTuple):
    """A gap that closes through the risk range between two angles of the legs, degrees."""

    first: str
    second: str
    start: float
    end: float
    least: float


def scissor_of(f: Folding) -> Scissor:
    """The mechanism of a folding piece."""
    lean = f.angle / 2.0
    a = math.radians(lean)
    legs = Crossed(
        lean=lean,
        low=f.low,
        long=f.long,
        short=f.short,
        pivot=f.low * math.cos(a),
        spread=2.0 * f.low * math.sin(a),
        apart=f.apart,
    )
    return Scissor(legs=legs, half=f.half, end=f.end, bar=f.bar, rail=f.rail, slot=f.slot)


def crossed(high: float, lean: float, apart: float, step: float) -> Crossed:
    """Legs from the rear bar's height, the lean, the bars' distance and the step; closed form.

    Raises:
        ValueError: the lean isn't between 0 and 90 degrees.
    """
    if not 0.0 < lean < 90.0:
        raise ValueError("crossed legs lean between 0 and 90 degrees")
    f = math.radians(lean)
    long = (apart / math.sin(f) + step) / 2.0
    low = high / math.cos(f) - long
    return Crossed(
        lean=lean,
        low=low,
        long=long,
        short=long - step,
        pivot=low * math.cos(f),
        spread=2.0 * low * math.sin(f),
        apart=apart,
    )


def reach(legs: Crossed) -> float:
    """Straight distance from bar to bar that the seat's slots keep, mm."""
    return math.hypot(legs.apart, (legs.long - legs.short) * math.cos(math.radians(legs.lean)))


def opening(legs: Crossed, bars: float) -> float | None:
    """Angle between the legs, degrees, that a distance between the bars stops them at.

    bars^2 = long^2 + short^2 - 2 long short cos(angle), the cosine rule; None where no triangle
    has these sides.
    """
    cosine = (legs.long**2 + legs.short**2 - bars**2) / (2.0 * legs.long * legs.short)
    return math.degrees(math.acos(cosine)) if -1.0 <= cosine <= 1.0 else None


def bar_gap(s: Scissor, angle: float) -> float:
    """From the long legs' top bar to the short legs, at an angle between the legs."""
    a = math.radians(angle)
    along, aside = s.legs.long * math.cos(a), s.legs.long * math.sin(a)
    beyond = along - s.legs.short
    if beyond > 0.0:
        return math.hypot(beyond, aside) - s.end - s.bar
    return aside - s.half - s.bar


def rail_gap(s: Scissor, angle: float) -> float:
    """From the low rail's nearer arris to the short legs' front edge.

    In the long leg's axes the arris lies `rail` down and `half` in front; the short leg's front
    edge turns about P: rail sin a - half (1 - cos a) in front of it.  0 when folded: the rail
    is what stops the legs in line.
    """
    a = math.radians(angle)
    return s.rail * math.sin(a) - s.half * (1.0 - math.cos(a))


def pinches(s: Scissor) -> tuple[Pinch, ...]:
    """Gaps of 7 to 18 mm on the way from open to folded, each with where it begins and ends."""
    found = []
    full = 2.0 * s.legs.lean
    gaps: tuple[tuple[str, Callable[[Scissor, float], float]], ...] = (
        ("rear top bar", bar_gap),
        ("low rail", rail_gap),
    )
    for name, gap in gaps:
        least = gap(s, 0.0)
        if least < WIDE < gap(s, full):
            start = _angle_of(s, gap, WIDE, full)
            end = _angle_of(s, gap, NARROW, full) if least < NARROW else 0.0
            found.append(Pinch(name, "inner legs", start, end, least))
    return tuple(found)


def _angle_of(
    s: Scissor, gap: Callable[[Scissor, float], float], wanted: float, high: float
) -> float:
    """Largest-side angle at which a gap that grows with the angle has a value; by halving."""
    low = 0.0
    while high - low > FINE:
        middle = (low + high) / 2.0
        low, high = (middle, high) if gap(s, middle) < wanted else (low, middle)
    return high


def pull(legs: Crossed, weight: float, share: float) -> Pull:
    """Pull in the seat under a weight, feet without friction, which is the worst.

    `share` of the distance from the front to the rear bar is where it stands.  With the ground's
    reactions R under the feet and the loads V on the bars, moments of the long leg about P:
    tie x long cos f = V rear x long sin f + R front x low sin f.  Negative on a bar: the seat
    lifts off it.
    """
    f = math.radians(legs.lean)
    rear, front = weight * share, weight * (1.0 - share)
    # Place of the load from P towards the rear; feet stand low sin f to either side.
    place = legs.long * math.sin(f) - (1.0 - share) * legs.apart
    on_front = weight * (0.5 - place / (2.0 * legs.low * math.sin(f)))
    # The bars stand at two heights, so the pull turns the seat: more on the rear bar.
    turned = (legs.long - legs.short) * math.cos(f) / legs.apart
    moment = (rear * legs.long + on_front * legs.low) * math.sin(f)
    tie = moment / (legs.long * (math.cos(f) - turned * math.sin(f)))
    return Pull(tie=tie, front=front - tie * turned, rear=rear + tie * turned)


def hold(s: Scissor, load: Pull) -> float:
    """Degrees by which the pull stays inside what the slots' walls can take; negative: it slips.

    A bar whose middle lies inside its slot presses square on the upright wall, 90 degrees to
    spare at most.  One that stands out touches the slot's corner, whose normal rises by
    asin(out / radius): the pull then lifts the seat unless the load on that bar keeps it down.
    """
    spare = []
    for deep, down in zip(s.slot, (load.front, load.rear), strict=True):
        resultant = math.degrees(math.atan2(down, load.tie))
        if deep >= 0.0:
            spare.append(resultant)
            continue
        out = min(-deep / s.bar, 1.0)
        spare.append(resultant - math.degrees(math.asin(out)))
    return min(spare)


def standing(s: Scissor) -> float:
    """Over both feet, which are cut level: the axes' spread and half a foot at either end, mm."""
    return s.legs.spread + 2.0 * s.half / math.cos(math.radians(s.legs.lean))


def tip_reach(s: Scissor, edge: float, inside: float) -> float:
    """How far a load `inside` from the seat's edge stands within the feet's outer ends, mm.

    `edge` is the seat's edge, from P; negative: it tips the stool.
    """
    return standing(s) / 2.0 - (edge - inside)
