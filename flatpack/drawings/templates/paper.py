"""Paper sizes by name: ISO 216, the inch sizes of ANSI/ASME Y14.1 and US offices, rolls."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

_INCH = 25.4
ROLL_LONGEST = 5000.0
"""Longest page on a roll, mm: a PDF page may be 14400 points, 5080 mm, long (ISO 32000-1 C.2)."""


class Paper(NamedTuple):
    """A paper: short and long side in mm; a roll has its width as short side and no long one."""

    name: str
    short: float
    long: float

    @property
    def roll(self) -> bool:
        """True for a roll, whose pages are as long as they need to be."""
        return self.long == 0.0


PAPERS: tuple[Paper, ...] = (
    Paper("A4", 210.0, 297.0),
    Paper("Letter", 8.5 * _INCH, 11.0 * _INCH),
    Paper("Legal", 8.5 * _INCH, 14.0 * _INCH),
    Paper("A3", 297.0, 420.0),
    Paper("Tabloid", 11.0 * _INCH, 17.0 * _INCH),
    Paper("A2", 420.0, 594.0),
    Paper("A1", 594.0, 841.0),
    Paper("A0", 841.0, 1189.0),
)
"""Sheets by area, smallest first."""

_INCHES = frozenset({"Letter", "Legal", "Tabloid"})


def paper_named(text: str) -> Paper:
    """The paper called so, in capitals or small letters; "roll:610" is a roll 610 mm wide.

    Raises:
        ValueError: there is no such paper; the message lists those that there are.
    """
    wanted = text.strip().lower()
    for paper in PAPERS:
        if paper.name.lower() == wanted:
            return paper
    if (found := re.fullmatch(r"roll:(\d+(?:\.\d+)?)", wanted)) and float(found[1]) > 0.0:
        return Paper(f"roll:{float(found[1]):g}", float(found[1]), 0.0)
    known = ", ".join(paper.name for paper in PAPERS)
    raise ValueError(f"no paper {text!r}; there are {known} and roll:WIDTH with a width in mm")


def larger(paper: Paper) -> Iterator[Paper]:
    """Papers to try next: the same kind (metric, inch, roll) first, then any larger sheet."""
    if paper.roll:
        for width in (297.0, 420.0, 610.0, 914.0, 1067.0, 1524.0):
            if width > paper.short:
                yield Paper(f"roll:{width:g}", width, 0.0)
        return
    inches = paper.name in _INCHES
    bigger = [p for p in PAPERS if p.short * p.long > paper.short * paper.long]
    yield from sorted(bigger, key=lambda p: (p.name in _INCHES) != inches)
