"""Values and limits as words: for faults, for the commented file and for the schema."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from flatpack.parameters.specs import WIDEST_NUMBER, Spec
from flatpack.parameters.sums import FORMS as SUMS
from flatpack.parameters.sums import PLACE_FORMS
from flatpack.parameters.units import FORMS

_LONGEST_SHOWN = 60


def plain(value: float) -> str:
    """A number without a needless decimal point: 18, 17.6."""
    if isinstance(value, int):
        # Python refuses to write very long whole numbers out.
        digits = value.bit_length() * 30103 // 100000
        return str(value) if digits < 20 else f"a number of about {digits} digits"
    return str(int(value)) if value == value // 1 and abs(value) < 1e15 else repr(value)


def shown(raw: Any) -> str:
    """A raw TOML value as it would stand in the file, with a word for its type where it helps."""
    if raw is True or raw is False:
        return f"{str(raw).lower()} (yes or no)"
    if isinstance(raw, float):
        return repr(raw)
    if isinstance(raw, int):
        return plain(raw)
    if isinstance(raw, str):
        return quoted(raw)
    if isinstance(raw, dict):
        return "a table"
    return f"an array of {len(raw)}" if isinstance(raw, list) else f"the date or time {raw}"


def quoted(text: str) -> str:
    """Text in quotation marks, shortened, control characters made visible."""
    short = text if len(text) <= _LONGEST_SHOWN else text[: _LONGEST_SHOWN - 3] + "..."
    safe = "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in short)
    return '"' + safe.replace("\\", "\\\\").replace('"', '\\"') + '"'


def words(choices: Iterable[str], most: int = 12) -> str:
    """Choices in quotation marks with commas, cut off when there are more than `most`."""
    every = [quoted(c) for c in choices]
    rest = f" and {len(every) - most} more" if len(every) > most else ""
    return ", ".join(every[:most]) + rest


def bounds(spec: Spec) -> str:
    """The range of a number with its unit: "3 to 60 mm"; "" where there is no real limit."""
    low, high = spec.least > -WIDEST_NUMBER, spec.most < _no_limit(spec)
    unit = f" {spec.unit}" if spec.unit else ""
    if low and high:
        return f"{plain(spec.least)} to {plain(spec.most)}{unit}"
    if low:
        return f"{plain(spec.least)}{unit} or more"
    return f"{plain(spec.most)}{unit} or less" if high else spec.unit


def entries(spec: Spec) -> str:
    """How many entries an array holds: "1 to 8 entries"."""
    if spec.most_count >= 1000:
        return f"{spec.fewest} or more entries"
    if spec.fewest == spec.most_count:
        return f"{spec.fewest} entries"
    return f"{spec.fewest} to {spec.most_count} entries"


def allowed(spec: Spec) -> str:
    """What one value of this key may be, in words."""
    if spec.named:
        return "a table of entries under names of your own"
    said: str = _ALLOWED[spec.kind](spec)
    return said


def _no_limit(spec: Spec) -> float:
    return 1_000_000 if spec.kind == "count" else WIDEST_NUMBER


def _length(spec: Spec) -> str:
    return f"{bounds(spec)}; written {FORMS}"


def _board(spec: Spec) -> str:
    return 'a board\'s name, or { profile = "...", measured = 17.6 }'


_ALLOWED: dict[str, Any] = {
    "length": _length,
    "total": lambda spec: f"{bounds(spec)}; written as {SUMS}",
    "place": lambda _: PLACE_FORMS,
    "kinds": lambda spec: f"a table with {spec.pick} = one of {words(spec.kinds)}",
    "pair": lambda spec: f"two lengths, each {_length(spec)}",
    "angle": bounds,
    "number": lambda spec: bounds(spec) or "a number",
    "count": lambda spec: f"a whole number, {bounds(spec)}",
    "choice": lambda spec: words(spec.choices),
    "flag": lambda _: "true or false",
    "text": lambda spec: spec.form or f"one line of text, {spec.longest} letters at most",
    "date": lambda _: 'a day such as "2030-05-01"',
    "board": _board,
    "item": lambda spec: f"the name of one of the {spec.among.replace('-', ' ')}",
    "notes": lambda _: "a table of texts",
    "table": lambda _: "a table",
}
