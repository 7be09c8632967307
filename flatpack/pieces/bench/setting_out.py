"""Setting out a bench: every number that follows from the keys, with the sum that gave it.

Side view, front left; x towards the rear, y along the bench from its left end, z up.

                       /  /  post leans back by the rake, lapped inside the rear leg
       slats ====== = / =/
       | leg | rail  |leg|     lanes along y at each leg frame, outside in:
       |     |=======|   |     (arm's post) | leg frame | post, cleat

Each leg frame stands in one plane; posts and cleats lie against its inner face.
"""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.pieces.bench.parameters import Bench
from flatpack.pieces.bench.stock import Stock
from flatpack.pieces.family import Workings, even_gap, mm, slat_count, sold_width

POST_ROOM = 4.0
"""From the rearmost seat slat to the posts, mm, for draining (common practice, no source)."""


@frozen
class Widths:
    """Widths of the parts as cut or as sold, mm."""

    leg: float
    seat_rail: float
    low_rail: float
    stretcher: float
    seat_slat: float
    back_slat: float
    post: float
    arm_post: float
    arm: float


@frozen
class Rows:
    """Slats of seat and back: count, gap, where the first stands, mm."""

    count: int
    gap: float
    first: float


@frozen
class PostLine:
    """The back posts' middle line: x at the seat's underside, and its slope."""

    x: float
    z: float
    rake: float

    def at(self, z: float) -> float:
        """X of the middle line at a height."""
        return self.x + (z - self.z) * math.tan(math.radians(self.rake))


@frozen
class SettingOut:
    """All of it."""

    stock: Stock
    widths: Widths
    under_seat: float
    frames: tuple[float, ...]
    seat: Rows
    back: Rows
    post: PostLine


def set_out(p: Bench, stock: Stock, notes: Workings) -> SettingOut:
    """Derived dimensions of a bench."""
    widths = _widths(p, stock)
    slat = stock.slats.thickness
    under = notes.add(
        "Slats' underside above ground",
        p.size.height - slat,
        f"{mm(p.size.height)} height - {mm(slat)} slat",
    )
    post = _post(p, widths, under)
    return SettingOut(
        stock=stock,
        widths=widths,
        under_seat=under,
        frames=_frames(p, stock, notes),
        seat=_seat(p, stock, widths, post, notes),
        back=_back(p, stock, widths, notes),
        post=post,
    )


def _widths(p: Bench, stock: Stock) -> Widths:
    return Widths(
        leg=sold_width(stock.frames, p.frames.leg_width),
        seat_rail=sold_width(stock.frames, p.frames.seat_rail),
        low_rail=sold_width(stock.frames, p.frames.low_rail),
        stretcher=sold_width(stock.frames, p.frames.stretcher),
        seat_slat=sold_width(stock.slats, p.seat.slat_width),
        back_slat=sold_width(stock.slats, p.back.slat_width),
        post=sold_width(stock.frames, p.back.post_width),
        arm_post=sold_width(stock.frames, p.arms.post_width),
        arm=sold_width(stock.arms, p.arms.width),
    )


def _frames(p: Bench, stock: Stock, notes: Workings) -> tuple[float, ...]:
    """Places of the leg frames' left faces along the bench."""
    t = stock.frames.thickness
    clear = p.size.length - t
    least = math.ceil(clear / (p.frames.longest_span + t))
    count = p.frames.count or max(2, least + 1)
    step = clear / (count - 1)
    notes.add(
        "Leg frames",
        count,
        f"({mm(p.size.length)} - {mm(t)}) / {count - 1} = {mm(step)} from frame to frame, "
        f"{mm(step - t)} clear, at most {mm(p.frames.longest_span)}",
        "",
    )
    return tuple(step * i for i in range(count))


def _post(p: Bench, widths: Widths, under: float) -> PostLine:
    middle = p.size.depth - widths.leg / 2.0
    half = p.back.lap / 2.0
    slope = math.tan(math.radians(p.back.rake))
    return PostLine(x=middle + half * slope, z=under, rake=p.back.rake)


def _seat(p: Bench, stock: Stock, widths: Widths, post: PostLine, notes: Workings) -> Rows:
    end = p.size.depth
    if p.back.use:
        half = widths.post / 2.0 / math.cos(math.radians(p.back.rake))
        end = notes.add(
            "Rear edge of the seat from the front legs",
            min(post.at(post.z) - half - POST_ROOM, p.size.depth),
            f"post's front edge at the slats' underside {mm(post.at(post.z) - half)} - "
            f"{mm(POST_ROOM)} to drain",
        )
    covered = end + p.seat.overhang
    wanted = stock.slats.thickness if p.seat.gap is None else p.seat.gap
    count = p.seat.count or slat_count(covered, widths.seat_slat, wanted)
    gap = notes.add(
        "Gap between seat slats",
        even_gap(covered, widths.seat_slat, count),
        f"({mm(covered)} - {count} x {mm(widths.seat_slat)} slats) / {count - 1} gaps",
    )
    return Rows(count=count, gap=gap, first=-p.seat.overhang)


def _back(p: Bench, stock: Stock, widths: Widths, notes: Workings) -> Rows:
    """Slats along the posts, measured from the seat's top along their slope."""
    if not p.back.use:
        return Rows(count=0, gap=0.0, first=0.0)
    along = p.back.height / math.cos(math.radians(p.back.rake))
    covered = along - p.back.clear
    wanted = stock.slats.thickness if p.back.gap is None else p.back.gap
    count = p.back.count or slat_count(covered, widths.back_slat, wanted)
    if count == 1:
        return Rows(count=1, gap=0.0, first=along - widths.back_slat)
    gap = notes.add(
        "Gap between back slats",
        even_gap(covered, widths.back_slat, count),
        f"({mm(covered)} along the posts - {count} x {mm(widths.back_slat)} slats) "
        f"/ {count - 1} gaps",
    )
    return Rows(count=count, gap=gap, first=p.back.clear)
