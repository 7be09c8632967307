"""Measures that a body feels, against published ranges: advice, never a fault.

Bodies differ and so do purposes; a child's stool is rightly outside.  Each range is of adults.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.model import Comfort, ComfortKind

_LEGS = "popliteal height, British aged 19 to 65, with 2010 ADA Standards 903.5"
_ADA_TABLE = "2010 ADA Standards 902.3"
_ADVICE = "trade guides (weak)"


class Range(NamedTuple):
    """From `low` to `high`, mm or degrees; what is felt below and above; where it comes from."""

    low: float
    high: float
    below: str
    above: str
    source: str
    unit: str = "mm"


RANGES: Mapping[ComfortKind, Range] = {
    # 355: lower leg of a small woman (5th percentile); 430 to 485 is asked of public benches.
    "seat height": Range(355.0, 485.0, "low: hard to get up from", "high: feet may dangle", _LEGS),
    # About 400 for benches; 510 to 610 only where somebody slides over from a wheelchair.
    "seat depth": Range(375.0, 510.0, "short for the thighs", "deep: it presses behind the knees",
                        f"{_ADVICE}: 400 +-25; 2010 ADA Standards 903.3: from 510"),
    "seat slope": Range(0.0, 8.0, "sloping forwards", "steep: hard to get up from",
                        f"{_ADVICE}: 5 to 8", "degrees"),
    "back angle": Range(95.0, 120.0, "upright", "laid back: for lounging",
                        f"{_ADVICE}: 95 to 105 for a bench, 120 for lounging", "degrees"),
    # Elbow rest height, women's 5th to men's 95th percentile.
    "arm height": Range(185.0, 295.0, "low: elbows don't reach it", "high: it lifts the shoulders",
                        "sitting elbow height, Pheasant, Bodyspace (from memory)"),
    "table height": Range(710.0, 865.0, "low", "high for sitting at", _ADA_TABLE),
    # Lower leg of a man (440, 50th percentile) and his thigh (185, 95th percentile).
    "knee room": Range(625.0, 900.0, "low for a big man's thighs; a wheelchair wants 685", "",
                       "Pheasant, Bodyspace (thigh from memory); 2010 ADA Standards 306.3"),
    "knee depth": Range(485.0, 5000.0, "short for outstretched knees", "",
                        "1991 ADA Standards 4.32.3"),
    # A table of 735 goes with seats of 430 to 440.
    "seat to table": Range(250.0, 305.0, "little: no room for thighs", "much: shoulders lift",
                           f"{_ADVICE}: 10 to 12 in"),
}  # fmt: skip


def check_comfort(setting: Setting) -> Iterator[Finding]:
    """A note for each measure outside its range."""
    for one in setting.assembly.comfort:
        known = RANGES[one.what]
        if not known.low - 1e-9 <= one.value <= known.high + 1e-9:
            yield _note(one, known)


def _note(one: Comfort, known: Range) -> Finding:
    low = one.value < known.low
    limit = known.low if low else known.high
    unit = "degrees" if known.unit == "degrees" else "mm"
    return Finding(
        "comfort", "note", one.key,
        f"{one.what} {one.value:.0f} {unit} is {known.below if low else known.above}",
        round(one.value, 1), limit, known.unit, known.source,
        f"change {one.key} so that it comes {'to at least' if low else 'down to'} {limit:g} {unit}",
    )  # fmt: skip
