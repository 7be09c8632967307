r"""Setting out a low chair: every number that follows from the keys, with the sum that gave it.

Side view, front left; x towards the rear, y across from the left, z up.

        arm ____________________      / / posts lean back by the back's angle less a right
           |  |                /     / /  angle, plus the seat's slope
           |  |               /     / /
     S --- |==|== seat ______/     / /    S: front upper corner of the rail
           |  |    rail   \_/ ---____/     e: down the seat to the rear, n: square to it, up
           |__|                \_____|     the rail's lower edge meets the ground at the foot

The rails' front end is square down to the apron's lower edge and plumb from there, flush with the
legs.  Lanes across, outside in: front leg | rail | post; the right side mirrors the left one.
"""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.geometry import Vec, cosine_sine
from flatpack.pieces.family import Workings, even_gap, mm, slat_count, sold_width
from flatpack.pieces.low_chair.fan import SHORTEST as SHORTEST_SLAT
from flatpack.pieces.low_chair.fan import Fan, Ray, Tops, angles, apex_of, gap_of, ray_to, tops
from flatpack.pieces.low_chair.parameters import LowChair
from flatpack.pieces.low_chair.stock import Stock

BACK_ROOM = 4.0
"""From the rearmost seat slat to the back slats, mm, for draining (common practice, no source)."""
SIDE_ROOM = 1.5
"""From seat slats and cross rail to what they lie between, each end, mm, for finish and play."""


@frozen
class Widths:
    """Widths of the parts as cut or as sold, mm."""

    rail: float
    apron: float
    leg: float
    seat_slat: float
    back_slat: float
    cross: float
    post: float


@frozen
class Lines:
    """Side view: corner S of the rail, its directions e and n, the back's place and directions.

    `back` is where the back slats' front meets the seat's top, `up` runs along the back,
    `forward` looks out of it.  `slope` and `lean` (from upright) are in degrees.
    """

    corner: Vec
    along: Vec
    normal: Vec
    back: Vec
    up: Vec
    forward: Vec
    slope: float
    lean: float

    def on_rail(self, along: float, above: float, y: float = 0.0) -> Vec:
        """Place `along` the rail's upper edge from S and `above` it."""
        return self.corner.plus(self.along, along).plus(self.normal, above).plus(Vec(0, 1, 0), y)

    def on_back(self, v: float, behind: float, y: float = 0.0) -> Vec:
        """Place v up the back slats' front plane and `behind` it."""
        return self.back.plus(self.up, v).plus(self.forward, -behind).plus(Vec(0, 1, 0), y)


@frozen
class Foot:
    """The rail on the ground, in its own axes: where the foot begins and where the rail ends."""

    start: float
    end: float
    bearing: float

    @property
    def rise(self) -> float:
        """How much of the rail's width the foot's cut takes off at its end (per tan of slope)."""
        return self.end - self.start


@frozen
class Seat:
    """Seat slats: count, gap, length covered, and where the front slat ends on the rails."""

    count: int
    gap: float
    covered: float
    front_end: float


@frozen
class SettingOut:
    """All of it; `clear` is the room between the rails' inner faces."""

    stock: Stock
    widths: Widths
    lines: Lines
    foot: Foot
    seat: Seat
    fan: Fan
    tops: Tops
    clear: float
    arm_top: float


def set_out(p: LowChair, stock: Stock, notes: Workings) -> SettingOut:
    """Derived dimensions of a low chair."""
    widths = _widths(p, stock)
    lines = _lines(p, stock, notes)
    fan, line = _fan(p, widths, notes)
    return SettingOut(
        stock=stock,
        widths=widths,
        lines=lines,
        foot=_foot(p, widths, lines, notes),
        seat=_seat(p, stock, widths, lines, notes),
        fan=fan,
        tops=line,
        clear=notes.add(
            "Between the rails",
            p.size.width - 4.0 * stock.frames.thickness,
            f"{mm(p.size.width)} width - 2 legs and 2 rails of {mm(stock.frames.thickness)}",
        ),
        arm_top=notes.add(
            "Arm's top above ground",
            p.size.height + p.arms.height,
            f"{mm(p.size.height)} seat + {mm(p.arms.height)}",
        ),
    )


def _widths(p: LowChair, stock: Stock) -> Widths:
    return Widths(
        rail=sold_width(stock.frames, p.rails.width),
        apron=sold_width(stock.frames, p.rails.apron),
        leg=sold_width(stock.frames, p.rails.leg_width),
        seat_slat=sold_width(stock.slats, p.seat.slat_width),
        back_slat=sold_width(stock.slats, p.back.slat_width),
        cross=sold_width(stock.frames, p.back.rail_width),
        post=sold_width(stock.frames, p.back.post_width),
    )


def _lines(p: LowChair, stock: Stock, notes: Workings) -> Lines:
    c, s = cosine_sine(p.seat.slope)
    t, over = stock.slats.thickness, p.seat.overhang
    high = notes.add(
        "Rails' front corner above ground",
        p.size.height - t * c - over * s,
        f"{mm(p.size.height)} - {mm(t)} slat x cos {p.seat.slope:g}° - {mm(over)} overhang "
        f"x sin {p.seat.slope:g}°",
    )
    inset = sold_width(stock.frames, p.rails.apron) * s
    corner, along, normal = Vec(inset, 0.0, high), Vec(c, 0.0, -s), Vec(s, 0.0, c)
    lean = notes.add(
        "Back leans from upright",
        p.back.angle - 90.0 + p.seat.slope,
        f"{p.back.angle:g}° to the seat - 90° + {p.seat.slope:g}° slope",
        "degrees",
    )
    c, s = cosine_sine(lean)
    return Lines(
        corner=corner,
        along=along,
        normal=normal,
        back=corner.plus(along, p.seat.depth - over).plus(normal, t),
        up=Vec(s, 0.0, c),
        forward=Vec(-c, 0.0, s),
        slope=p.seat.slope,
        lean=lean,
    )


def _foot(p: LowChair, widths: Widths, lines: Lines, notes: Workings) -> Foot:
    """The rail's lower edge meets the ground where z = corner - width cos - x sin is 0."""
    c, s = cosine_sine(p.seat.slope)
    start = (lines.corner.z - widths.rail * c) / s
    place = notes.add(
        "Rails' foot begins, from the front legs",
        lines.corner.x + start * c - widths.rail * s,
        f"{mm(lines.corner.x)} + {mm(lines.corner.z)} / tan {p.seat.slope:g}° - "
        f"{mm(widths.rail)} rail / sin {p.seat.slope:g}°",
    )
    bearing = notes.add(
        "Rails' foot on the ground",
        p.size.depth - place,
        f"{mm(p.size.depth)} depth - {mm(place)}",
    )
    return Foot(start=start, end=start + bearing * c, bearing=bearing)


def _seat(p: LowChair, stock: Stock, widths: Widths, lines: Lines, notes: Workings) -> Seat:
    """Slats from the overhang to the back slats, which lean away from the seat by angle - 90."""
    t, beyond = stock.slats.thickness, math.tan(math.radians(p.back.angle - 90.0))
    covered = notes.add(
        "Seat slats cover",
        p.seat.depth - t * beyond - BACK_ROOM,
        f"{mm(p.seat.depth)} - {mm(t)} x tan {p.back.angle - 90.0:g}° - {mm(BACK_ROOM)} to drain",
    )
    wanted = t / 2.0 if p.seat.gap is None else p.seat.gap
    count = p.seat.count or slat_count(covered, widths.seat_slat, wanted)
    gap = notes.add(
        "Gap between seat slats",
        even_gap(covered, widths.seat_slat, count),
        f"({mm(covered)} - {count} x {mm(widths.seat_slat)} slats) / {count - 1} gaps",
    )
    return Seat(count=count, gap=gap, covered=covered, front_end=widths.seat_slat - p.seat.overhang)


def _fan(p: LowChair, widths: Widths, notes: Workings) -> tuple[Fan, Tops]:
    b, over_all, spread = widths.back_slat, p.back.bottom_width, p.back.fan
    count = p.back.count or _count(p, b)
    apex = notes.add(
        "Back slats' axes meet below their lower ends",
        apex_of(over_all, b, spread),
        f"({mm(over_all)} / 2 - {mm(b)} / 2 x cos {spread / 2:g}°) / sin {spread / 2:g}°",
    )
    step = notes.add(
        "Back slats differ by",
        spread / (count - 1),
        f"{spread:g}° / {count - 1}",
        "degrees",
    )
    gap = notes.add(
        "Gap between back slats, lower ends",
        gap_of(count, over_all, b, spread),
        f"2 x {mm(apex)} x sin {step / 2:.3f}° - {mm(b)} x cos {step / 2:.3f}°",
    )
    long = p.back.height + p.back.below
    growth = 0.0 if p.back.top_width is None else (p.back.top_width - b) / long
    line = tops(p.back.profile, p.back.height, p.back.crown, (-p.back.below - apex, spread / 2.0))
    rays = tuple(
        Ray(a, max(ray_to(line, -p.back.below - apex, a) - apex, SHORTEST_SLAT))
        for a in angles(count, spread)
    )
    fan = Fan(apex=apex, low=-p.back.below, width=b, growth=growth, gap=gap, step=step, rays=rays)
    _note_fan(fan, line, notes)
    return fan, line


def _count(p: LowChair, width: float) -> int:
    """Most slats whose lower ends keep the least gap; two at least."""
    count = 2
    while gap_of(count + 1, p.back.bottom_width, width, p.back.fan) >= p.back.least_gap:
        count += 1
    return count


def _note_fan(fan: Fan, line: Tops, notes: Workings) -> None:
    shorter = fan.rays[0].length
    notes.add(
        "Gap between back slats, upper ends",
        fan.gap_at(shorter),
        f"2 x ({mm(fan.apex)} + {mm(shorter)}) x sin {fan.step / 2:.3f}° - "
        f"{mm(fan.width_at(shorter))} x cos {fan.step / 2:.3f}°",
    )
    if line.radius:
        notes.add(
            "Arc over the back slats' tops, radius",
            line.radius,
            f"outermost tops {mm(line.reach)} from the middle, {mm(line.high - line.rim)} lower",
        )
        notes.add(
            "Arc over the back slats' tops, length",
            line.arc_length,
            f"2 x {mm(line.radius)} x arcsin({mm(line.reach)} / {mm(line.radius)})",
        )
    for number, ray in enumerate(fan.rays, 1):
        if ray.angle < 0.0 or number * 2 == len(fan.rays) + 1:
            notes.add(
                f"Back slat {number} leans in the back's plane",
                abs(ray.angle),
                f"{len(fan.rays) - 2 * number + 1} x {fan.step / 2:.3f}°",
                "degrees",
            )
