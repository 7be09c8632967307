r"""Outlines of notches: one chain of lines and arcs each, hinge side to free end's side.

    ramp                          vee            half round       square
      crest                      \\      /       _         _      _       _
      -.           |  stop face   \\    /         |       |        |     |
        `.ramp     |  (may lean    \\  /           \\     /         |     |
          `._______|   over)        \\/             `---'          |_____|
              base ^ datum          ^ datum          ^ datum      datum ^

The datum lies on the floor (the lowest level): at the foot of the stop face, at the bottom of a
vee, under the centre of a half round.  Wood is on the right of travel.  All lengths mm, degrees.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import StrEnum

from flatpack.frozen import frozen
from flatpack.geometry import Point, Segment, bulge_of, chain


class Kind(StrEnum):
    """The shape of a notch."""

    RAMP = "ramp"
    VEE = "vee"
    HALF_ROUND = "half_round"
    SQUARE = "square"


@frozen
class NotchForm:
    """A notch's own sizes; `depth` from floor to crest.

    `base` is the floor's length (ramp, square), `ramp` the ramp's slope from level, `undercut`
    the stop face's lean over the rod, `near` and `far` the slopes from upright of a vee's faces
    on the hinge's side and the free end's, `radius` that of a half round.
    """

    kind: Kind
    depth: float
    base: float = 0.0
    ramp: float = 45.0
    undercut: float = 0.0
    near: float = 45.0
    far: float = 45.0
    radius: float = 0.0


@frozen(kw_only=False)
class Overlap:
    """Two notches, counted from the hinge's end, that leave `web` mm (negative: none) between."""

    first: int
    web: float


def unsound(form: NotchForm) -> tuple[str, float, float] | None:
    """The first size that draws no notch: its name, its value and the limit it breaks."""
    if form.depth <= 0.0:
        return "depth", form.depth, 0.0
    if form.kind is Kind.HALF_ROUND:
        return ("radius", form.radius, 0.0) if form.radius <= 0.0 else None
    slopes = {
        Kind.RAMP: (("ramp", form.ramp, 90.0),),
        Kind.VEE: (("near", form.near, 89.0), ("far", form.far, 89.0)),
        Kind.SQUARE: (),
    }[form.kind]
    for name, value, top in slopes:
        if not 1.0 <= value <= top:
            return name, value, 1.0 if value < 1.0 else top
    if form.kind is Kind.SQUARE and form.base <= 0.0:
        return "base", form.base, 0.0
    return _unsound_ramp(form) if form.kind is Kind.RAMP else None


def _unsound_ramp(form: NotchForm) -> tuple[str, float, float] | None:
    """The mouth between ramp and overhanging face must stay open, and so must the floor."""
    if form.base < 0.0:
        return "base", form.base, 0.0
    mouth = form.base + form.depth / math.tan(math.radians(form.ramp))
    widest = math.degrees(math.atan2(mouth, form.depth))
    if not 0.0 <= form.undercut < widest:
        return "undercut", form.undercut, 0.0 if form.undercut < 0.0 else widest
    return None


def ramp_notch(
    datum: Point, base: float, depth: float, ramp: float, undercut: float = 0.0
) -> tuple[Segment, ...]:
    """Ramp, floor and stop face; the datum is the foot of the stop face."""
    run = depth / math.tan(math.radians(ramp))
    lean = depth * math.tan(math.radians(undercut))
    x, y = datum
    return chain(
        [
            (x - base - run, y + depth, 0.0),
            (x - base, y, 0.0),
            *([(x, y, 0.0)] if base > 0.0 else []),
            (x - lean, y + depth, 0.0),
        ]
    )


def vee(datum: Point, depth: float, near: float, far: float) -> tuple[Segment, ...]:
    """Two faces meeting at the datum, sloping `near` and `far` degrees from upright."""
    x, y = datum
    left, right = (depth * math.tan(math.radians(a)) for a in (near, far))
    return chain([(x - left, y + depth, 0.0), (x, y, 0.0), (x + right, y + depth, 0.0)])


def half_round(datum: Point, depth: float, radius: float) -> tuple[Segment, ...]:
    """An arc with its lowest point at the datum; upright sides above it when deeper than radius."""
    x, y = datum
    half = math.degrees(math.acos(max(1.0 - depth / radius, 0.0)))
    reach = radius * math.sin(math.radians(half))
    top = y + min(depth, radius)
    arc = [(x - reach, top, bulge_of(2.0 * half)), (x + reach, top, 0.0)]
    if depth > radius:
        return chain([(x - radius, y + depth, 0.0), *arc, (x + radius, y + depth, 0.0)])
    return chain(arc)


def square(datum: Point, base: float, depth: float) -> tuple[Segment, ...]:
    """A floor between upright faces; the datum is the foot of the free end's face."""
    x, y = datum
    return chain([(x - base, y + depth, 0.0), (x - base, y, 0.0), (x, y, 0.0), (x, y + depth, 0.0)])


def cut(form: NotchForm, datum: Point) -> tuple[Segment, ...]:
    """The chain of one notch of this form at its datum."""
    if form.kind is Kind.RAMP:
        return ramp_notch(datum, form.base, form.depth, form.ramp, form.undercut)
    if form.kind is Kind.VEE:
        return vee(datum, form.depth, form.near, form.far)
    if form.kind is Kind.HALF_ROUND:
        return half_round(datum, form.depth, form.radius)
    return square(datum, form.base, form.depth)


def notch_width(form: NotchForm) -> float:
    """From rim to rim along x, mm."""
    chain_ = cut(form, Point(0.0, 0.0))
    return chain_[-1].end.x - chain_[0].start.x


def seat_of(form: NotchForm, rod_radius: float) -> tuple[Point, float]:
    """The loaded seat's centre from the datum, and how far the rod's centre may run round it.

    Between floor and stop face, in the corner of interior angle w, the rod stands r / tan(w / 2)
    from the corner; between a vee's faces r / sin(w / 2) along the bisector; in a round seat
    its centre runs on an arc of radius R - r about that of the seat.
    """
    r = rod_radius
    if form.kind is Kind.HALF_ROUND:
        return Point(0.0, form.radius), form.radius - r
    if form.kind is Kind.VEE:
        out = r / math.sin(math.radians(form.near + form.far) / 2.0)
        tilt = math.radians(form.far - form.near) / 2.0
        return Point(out * math.sin(tilt), out * math.cos(tilt)), 0.0
    undercut = form.undercut if form.kind is Kind.RAMP else 0.0
    return Point(-r / math.tan(math.radians(90.0 - undercut) / 2.0), r), 0.0


def play(form: NotchForm, rod_radius: float) -> float:
    """What the floor has to spare for the rod, mm; negative: the rod can't reach floor and face.

    A ramp of slope s keeps the rod r tan(s / 2) off its foot; a half round has R - r to spare; a
    vee takes a rod whose contacts lie below the rim of its shorter face.
    """
    if form.kind is Kind.HALF_ROUND:
        return form.radius - rod_radius
    if form.kind is Kind.VEE:
        reach = rod_radius / math.tan(math.radians(form.near + form.far) / 2.0)
        shorter = math.cos(math.radians(min(form.near, form.far)))
        return form.depth / shorter - reach
    slope = form.ramp if form.kind is Kind.RAMP else 90.0
    (x, _), _ = seat_of(form, rod_radius)
    return form.base + x - rod_radius * math.tan(math.radians(slope) / 2.0)


def rack_contour(
    notches: Sequence[Sequence[Segment]], start: Point, end: Point, web: float = 0.0
) -> tuple[Segment, ...] | Overlap:
    """One contour through notches given from the hinge's end, `start` and `end` being its ends.

    Straight lines join one notch's rim to the next: the crests of a bar, or the tops of blocks
    on a bearer whose top is the floor.  Overlap: the first two that leave less than `web` mm.
    """
    joined: list[Segment] = []
    here = start
    for number, notch in enumerate(notches):
        gap = notch[0].start.x - here.x
        if gap < (web if number else 0.0):
            return Overlap(number, gap)
        if notch[0].start != here:
            joined.append(Segment(here, notch[0].start))
        joined.extend(notch)
        here = notch[-1].end
    if end.x < here.x:
        return Overlap(len(notches), end.x - here.x)
    return (*joined, Segment(here, end)) if here != end else tuple(joined)
