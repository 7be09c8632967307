"""Lengths written with a unit: "18 mm", "1.8 cm", "3/4 in", "1 1/2 in", "2 ft 6 in".

An inch is 25.4 mm exactly (International Yard and Pound agreement, 1959), a foot twelve of them.
Sums are kept as whole numbers over whole numbers, so that 3/4 in is exactly the float 19.05.
"""

from __future__ import annotations

import re

# Tenths of a millimetre in each unit, whole numbers so that nothing is rounded on the way.
TENTHS = {
    "mm": 10,
    "cm": 100,
    "m": 10_000,
    "in": 254,
    "inch": 254,
    "inches": 254,
    '"': 254,
    "ft": 3048,
    "foot": 3048,
    "feet": 3048,
    "'": 3048,
}
FORMS = '18, "18 mm", "1.8 cm", "3/4 in", "1 1/2 in" or "2 ft 6 in"'

# One amount and its unit.  A hyphen may stand between whole and fraction, as on drawings: 1-1/2".
_TERM = r"""\s*
    (?: (?P<whole>\d{1,9}) (?:\s+|-) (?P<top>\d{1,4})/(?P<bottom>\d{1,4})
      | (?P<over>\d{1,9})/(?P<under>\d{1,4})
      | (?P<digits>\d{1,9}) (?:\.(?P<decimals>\d{1,9}))?
      | \.(?P<bare>\d{1,9})
    ) \s* (?P<unit>mm|cm|m|inches|inch|in|"|feet|foot|ft|') \s*"""
_FEET = ("ft", "foot", "feet", "'")
_INCHES = ("in", "inch", "inches", '"')


def millimetres(written: str) -> float | None:
    """The length in mm that the text states, or None where it states none."""
    body = written.strip()
    sign = -1 if body.startswith("-") else 1
    terms = _terms(body[1:] if sign < 0 else body)
    if not terms or not _one_length([unit for _, _, unit in terms]):
        return None
    top, bottom = 0, 1
    for over, under, unit in terms:
        if under == 0:
            return None
        top, bottom = top * under + over * TENTHS[unit] * bottom, bottom * under
    return sign * top / (bottom * 10)


def _one_length(units: list[str]) -> bool:
    # Only feet followed by inches make one length of two terms.
    return len(units) == 1 or (len(units) == 2 and units[0] in _FEET and units[1] in _INCHES)


def _terms(body: str) -> list[tuple[int, int, str]]:
    # Compiled on first use (the standard library keeps it): most files hold bare numbers only.
    term = re.compile(_TERM, re.VERBOSE | re.ASCII)
    found, at = [], 0
    while at < len(body):
        match = term.match(body, at)
        if match is None:
            return []
        found.append((*_ratio(match), match["unit"]))
        at = match.end()
    return found


def _ratio(match: re.Match[str]) -> tuple[int, int]:
    if match["whole"]:
        bottom = int(match["bottom"])
        return int(match["whole"]) * bottom + int(match["top"]), bottom
    if match["over"]:
        return int(match["over"]), int(match["under"])
    decimals = match["decimals"] or match["bare"] or ""
    return int((match["digits"] or "0") + decimals), 10 ** len(decimals)
