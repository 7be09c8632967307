"""Putting a dining bench together, and what its keys may not be together.

|<------- table.length ------->|
================================   table.height
||  |<--- bench, length --->| ||
||  ======================= ||    table.height - seat.below_table
||room||               ||room||
|<------ table.clear ------>|
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from flatpack.model import Assembly, Comfort, Working
from flatpack.parameters import Conflict
from flatpack.pieces.common import slatted
from flatpack.pieces.dining_bench.parameters import DiningBench
from flatpack.pieces.family import mm
from flatpack.profiles import Profiles

SHORTEST = 350.0
"""Least length that somebody can sit on, mm (common practice, no source)."""
LOWEST, HIGHEST = 200.0, 700.0
"""Between these heights a seat can be sat on, mm; what is comfortable is a note's matter."""
UNDER_APRON = 20.0
"""Least from the seat up to the table's aprons, mm, so that it slides in (common practice)."""


def build(p: DiningBench, profiles: Profiles) -> Assembly:
    """The whole dining bench, joints made."""
    return slatted.build(_plan(p), profiles)


def conflicts(p: DiningBench, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together, each with what would do."""
    found = tuple(_with_table(p))
    yield from found
    if not found:
        yield from slatted.conflicts(_plan(p), profiles)


def length(p: DiningBench) -> float:
    """Length of the bench: as wanted, else what slides in between the table's legs."""
    return p.table.clear - 2.0 * p.seat.room if p.seat.length is None else p.seat.length


def height(p: DiningBench) -> float:
    """Ground to the seat's top."""
    return p.table.height - p.seat.below_table


def _plan(p: DiningBench) -> slatted.Plan:
    along = "table.clear" if p.seat.length is None else "seat.length"
    sizes = slatted.Sizes(
        length(p), p.seat.depth, height(p), (along, "seat.depth", "seat.below_table")
    )
    return slatted.planned(
        p, "dining-bench", sizes, slat="Seat slat", bearing="", notes=_notes(p), comfort=_comfort(p)
    )


def _comfort(p: DiningBench) -> tuple[Comfort, ...]:
    return (
        Comfort("seat height", height(p), "seat.below_table"),
        Comfort("seat depth", p.seat.depth, "seat.depth"),
        Comfort("seat to table", p.seat.below_table, "seat.below_table"),
    )


def _notes(p: DiningBench) -> tuple[Working, ...]:
    """How length and height follow from the table."""
    sums = (
        ("Bench's height", height(p), f"{mm(p.table.height)} table - {mm(p.seat.below_table)}"),
        (
            "Bench's length",
            length(p),
            f"{mm(p.table.clear)} between the table's legs - 2 x {mm(p.seat.room)} room"
            if p.seat.length is None
            else f"as wanted; {mm((p.table.clear - p.seat.length) / 2.0)} free at each end",
        ),
    )
    return tuple(Working(*row) for row in sums)


def _with_table(p: DiningBench) -> Iterator[Conflict]:
    """What keeps it from matching its table."""
    if p.table.clear >= p.table.length:
        yield Conflict(
            "table.clear",
            p.table.clear,
            f"less than the table's length, {mm(p.table.length)}",
            "the table's legs can't stand further apart than the table is long",
        )
    most = p.table.clear - 2.0 * p.seat.room
    if p.seat.length is not None and p.seat.length > most:
        yield Conflict(
            "seat.length",
            p.seat.length,
            f"at most {mm(most)}: {mm(p.table.clear)} clear less {mm(p.seat.room)} at each end",
            "the bench doesn't slide in between the table's legs",
        )
    if most < SHORTEST:
        yield Conflict(
            "table.clear",
            p.table.clear,
            f"at least {mm(SHORTEST + 2.0 * p.seat.room)}, for a bench {mm(SHORTEST)} long",
            "no bench fits between the table's legs",
        )
    yield from _heights(p)


def _heights(p: DiningBench) -> Iterator[Conflict]:
    seat = height(p)
    low, high = max(p.table.height - HIGHEST, 0.0), p.table.height - LOWEST
    if not LOWEST <= seat <= HIGHEST:
        yield Conflict(
            "seat.below_table",
            p.seat.below_table,
            f"from {mm(low)} to {mm(high)}, for a seat {mm(LOWEST)} to {mm(HIGHEST)} high",
            f"the seat comes out {mm(seat)} high",
        )
    if p.table.under is not None and seat + UNDER_APRON > p.table.under:
        yield Conflict(
            "seat.below_table",
            p.seat.below_table,
            f"at least {mm(p.table.height - p.table.under + UNDER_APRON)}, so that the seat "
            f"clears the aprons at {mm(p.table.under)}",
            "the bench doesn't slide in under the table's aprons",
        )
