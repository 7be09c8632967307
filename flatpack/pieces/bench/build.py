"""Putting a bench together, and what its keys may not be together."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from flatpack.joinery import machine
from flatpack.model import Assembly, Comfort, Cutting
from flatpack.parameters import Conflict
from flatpack.pieces.bench.joints import joints, steps
from flatpack.pieces.bench.parameters import Bench
from flatpack.pieces.bench.parts import parts as _parts
from flatpack.pieces.bench.parts import seat_end
from flatpack.pieces.bench.setting_out import SettingOut, set_out
from flatpack.pieces.bench.stock import stock_for
from flatpack.pieces.family import Workings, fixings_fit, mm
from flatpack.profiles import Profiles


def build(p: Bench, profiles: Profiles) -> Assembly:
    """The whole bench, joints made."""
    notes = Workings()
    out = set_out(p, stock_for(p, profiles), notes)
    parts = {part.key: part for part in _parts(p, out)}
    return machine(
        Assembly(
            family="bench",
            name=p.name,
            date=p.date or "",
            parts=parts,
            joints=tuple(joints(p, out, parts)),
            steps=steps(p),
            workings=tuple(notes.rows),
            spacers=_spacers(out),
            comfort=tuple(_comfort(p, out)),
        )
    )


def _comfort(p: Bench, out: SettingOut) -> Iterator[Comfort]:
    yield Comfort("seat height", p.size.height, "size.height")
    front = -p.seat.overhang
    if not p.back.use:
        yield Comfort("seat depth", seat_end(out) - front, "size.depth")
        return
    # To the back slats' front, where the posts pass the seat's top.
    c = math.cos(math.radians(p.back.rake))
    lean = out.widths.post / 2.0 / c + out.stock.slats.thickness / c
    yield Comfort("seat depth", out.post.at(p.size.height) - lean - front, "size.depth")
    yield Comfort("back angle", 90.0 + p.back.rake, "back.rake")
    if p.arms.use:
        yield Comfort("arm height", p.arms.height, "arms.height")


def _spacers(out: SettingOut) -> tuple[Cutting, ...]:
    rows = (
        Cutting("Gap spacer, seat", out.widths.seat_slat, out.seat.gap, 2, "between seat slats"),
        Cutting("Gap spacer, back", out.widths.back_slat, out.back.gap, 2, "between back slats"),
    )
    return tuple(row for row in rows if row.width > 0.0)


def conflicts(p: Bench, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together, each with what would do."""
    out = set_out(p, stock_for(p, profiles), Workings())
    yield from _slats(p, out)
    yield from _frame(p, out)
    yield from _back(p, out)
    yield from fixings_fit(p.fixings, profiles, _threads(p))


def _threads(p: Bench) -> tuple[tuple[str, str], ...]:
    """Keys of each bolt and of what goes on it, where this bench has them."""
    through = (("bolt", "nut"), ("bolt", "washer")) if p.back.use else ()
    if p.construction != "knock-down":
        return through
    return (*through, ("knock_down_bolt", "barrel_nut"), ("knock_down_bolt", "insert"))


def _slats(p: Bench, out: SettingOut) -> Iterator[Conflict]:
    for key, rows, width in (
        ("seat.count", out.seat, out.widths.seat_slat),
        ("back.count", out.back, out.widths.back_slat),
    ):
        if rows.count > 1 and rows.gap < 0.0:
            room = rows.count * width + (rows.count - 1) * rows.gap
            yield Conflict(
                key,
                rows.count,
                f"at most {max(int(room / width), 1)}: {mm(room)} for slats {mm(width)} wide",
                "more slats than fit",
            )


def _frame(p: Bench, out: SettingOut) -> Iterator[Conflict]:
    span = p.size.depth - 2.0 * out.widths.leg
    if span < 110.0:
        yield Conflict(
            "frames.leg_width",
            p.frames.leg_width,
            f"at most {mm((p.size.depth - 110.0) / 2.0)}: the rails between the legs need 110",
            "the legs leave no room for rails between them",
        )
    top = out.under_seat - out.widths.seat_rail
    if p.frames.low_rail_height + out.widths.low_rail > top:
        yield Conflict(
            "frames.low_rail_height",
            p.frames.low_rail_height,
            f"at most {mm(top - out.widths.low_rail)}, under the seat rail at {mm(top)}",
            "the low rail meets the seat rail",
        )


def _back(p: Bench, out: SettingOut) -> Iterator[Conflict]:
    if p.arms.use and not p.back.use:
        yield Conflict("arms.use", p.arms.use, "false, or back.use = true", "arm rests need a back")
    if p.back.use and p.back.lap > out.under_seat - 20.0:
        yield Conflict(
            "back.lap",
            p.back.lap,
            f"at most {mm(out.under_seat - 20.0)}, 20 above the ground",
            "the posts reach the ground",
        )
    least = 2.0 * out.stock.frames.thickness
    if p.arms.use and out.widths.arm < least:
        yield Conflict(
            "arms.width",
            p.arms.width,
            f"at least {mm(least)}, to lie on the arm's post and meet the back post",
            "the arm is narrower than what it rests on",
        )
