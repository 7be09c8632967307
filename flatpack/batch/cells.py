"""Cells of a spreadsheet as values of a parameter file.

18  18.5  "18 mm"       numbers, and lengths with their unit
yes no true false       what is switched on or off
24; 38; 52              several values in one cell
(empty)                 as the base file or the built-in value has it
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from typing import Any

from flatpack.parameters import Spec

_YES = {"true": True, "yes": True, "false": False, "no": False}


def cell_value(text: str, spec: Spec) -> Any:
    """The value that a key of this kind gets from a cell; the reader judges it afterwards."""
    if spec.many:
        return [_KINDS.get(spec.kind, str)(part.strip()) for part in text.split(";")]
    return _KINDS.get(spec.kind, str)(text)


def _number(text: str) -> Any:
    for kind in (int, float):
        # Python reads digits of other scripts and 1_000 too; such a cell stays text.
        with suppress(ValueError):
            if text.isascii() and "_" not in text:
                return kind(text)
    return text


def _flag(text: str) -> Any:
    return _YES.get(text.lower(), text)


def _pair(text: str) -> Any:
    return [_number(part.strip()) for part in text.split("x")]


_KINDS: Mapping[str, Callable[[str], Any]] = {
    "length": _number,
    "total": _number,
    "angle": _number,
    "number": _number,
    "count": _number,
    "flag": _flag,
    "pair": _pair,
}


def put(values: dict[str, Any], path: str, value: Any) -> bool:
    """Set a dotted key in nested tables; False when something on the way is no table."""
    *tables, last = path.split(".")
    for name in tables:
        values = values.setdefault(name, {})
        if not isinstance(values, dict):
            return False
    values[last] = value
    return True


def copied(values: Any) -> Any:
    """Tables copied to the bottom; lists and plain values are never changed, so they are shared."""
    if isinstance(values, dict):
        return {key: copied(value) for key, value in values.items()}
    return values
