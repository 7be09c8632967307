"""The table of stops: whole for the CSV file and the page, short for the sheet."""

from __future__ import annotations

import math

from flatpack.drawings.figures import mm, shown
from flatpack.drawings.moving.facts import RackPlace, StopFacts, alike, passed_facts
from flatpack.drawings.page import Cell, Table
from flatpack.mechanism.study import Study
from flatpack.wording import english_moving as words

SHORT_COLUMNS = (10.0, 12.0, 17.0, 13.0, 25.0, 11.0, 15.0, 22.0, 13.0, 18.0, 15.0, 25.0)
"""Widths of the sheet's table, mm."""


def degrees(value: float) -> str:
    """Angle to 0.1 degree: 33.0."""
    return f"{value + 0.0:.1f}"


def stops_table(made: Study, facts: tuple[StopFacts, ...]) -> Table:
    """A row a stop, then a row for each notch that gives none."""
    motion = made.motion
    return Table(
        name="stops",
        title=words.stops_title(mm(motion.push), mm(motion.push_along), motion.panel),
        header=words.STOPS_HEADER,
        rows=(*(_row(made, f) for f in facts), *_passed_rows(made)),
    )


def _row(made: Study, f: StopFacts) -> tuple[Cell, ...]:
    headroom, wanted = f.headroom, f.wanted
    return (
        f.number,
        f.notch or "",
        "" if wanted is None else _angle(wanted),
        *map(_angle, (f.stop.angle, f.spread.low, f.spread.high, f.stop.lean)),
        words.NEVER if headroom is None else _angle(headroom),
        *_on_racks(f.places),
        shown(f.hold.arm),
        shown(made.motion.push),
        shown(made.motion.push_along),
        _angle(f.hold.margin),
        _angle(f.spread.margin),
        _angle(f.hold.friction) if math.isfinite(f.hold.friction) else words.NEVER,
        _angle(f.knock.drop),
        _angle(f.knock.next_angle),
        words.YES if f.knock.captured else words.NO,
        "",
    )


def _on_racks(places: tuple[RackPlace, ...]) -> tuple[Cell, ...]:
    by_hand = {p.hand: p for p in places}
    return tuple(
        cell
        for hand in ("left", "right")
        for cell in (
            (shown(by_hand[hand].x), shown(by_hand[hand].y)) if hand in by_hand else ("", "")
        )
    )


def _passed_rows(made: Study) -> tuple[tuple[Cell, ...], ...]:
    blank = ("",) * (len(words.STOPS_HEADER) - 3)
    return tuple(
        ("", number or "", *blank, words.passed(str(p.reason), f"{p.amount:.1f}"))
        for number, p in passed_facts(made)
    )


def short_table(made: Study, facts: tuple[StopFacts, ...]) -> Table:
    """The sheet's table as it stands on the page."""
    motion = made.motion
    header = tuple(words.joined(*pair) for pair in zip(*words.SHORT_HEADER, strict=True))
    title = words.stops_title(mm(motion.push), mm(motion.push_along), motion.panel)
    return Table(name="stops", title=title, header=header, rows=tuple(short_rows(facts)))


def table_notes(made: Study) -> tuple[str, ...]:
    """What the table's columns mean, and every notch that gives no stop with the reason."""
    none = (
        words.no_stop(number, str(p.reason), f"{p.amount:.1f}") for number, p in passed_facts(made)
    )
    return (words.as_made(mm(made.motion.tolerance)), *none)


def short_rows(facts: tuple[StopFacts, ...]) -> list[tuple[str, ...]]:
    """Rows of the sheet's table; x and y on both racks where they differ."""
    return [_short(f) for f in facts]


def _short(f: StopFacts) -> tuple[str, ...]:
    places = f.places[:1] if alike(f.places) else f.places
    return (
        str(f.number),
        str(f.notch or "-"),
        "-" if f.wanted is None else f"{f.wanted:g}",
        degrees(f.stop.angle),
        f"{degrees(f.spread.low)} .. {degrees(f.spread.high)}",
        degrees(f.stop.lean),
        "-" if f.headroom is None else degrees(f.headroom),
        " / ".join(mm(p.x) for p in places) or "-",
        " / ".join(mm(p.y) for p in places) or "-",
        f"{f.hold.arm:.0f}",
        degrees(f.hold.margin),
        f"{degrees(f.knock.drop)}, {degrees(f.knock.next_angle)}",
    )


def _angle(value: float) -> float:
    return round(value, 2) + 0.0
