"""Raw TOML values to checked ones, one function a kind; `READERS` decides.

Every function takes the raw value, its `Spec` and the names of the known profiles, and returns
the checked value or raises `NotAllowedError`; `reading` turns that into a fault with its line.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Mapping
from typing import Any, NoReturn

from flatpack.parameters import describing
from flatpack.parameters.specs import BoardChoice, Spec
from flatpack.parameters.sums import Sum, summed
from flatpack.parameters.units import millimetres

Known = Mapping[str, Collection[str]]
Reader = Callable[[Any, Spec, Known], Any]


class NotAllowedError(Exception):
    """A value that isn't allowed; never leaves this package.

    `at` is the path below the key where the fault lies, such as ("measured",).
    """

    def __init__(self, message: str, allowed: str, nearest: str = "", at: tuple[str, ...] = ()):
        """Keep the words of the fault."""
        super().__init__(message)
        self.message, self.allowed, self.nearest, self.at = message, allowed, nearest, at


_ALIKE = 0.7
"""Share of letters that a slip of the pen leaves in order: "widht" and "width" 0.8, while the
"dowels" and "wheels" of 0.67 are two words."""
_ALIKE_SHORT = 0.6
"""The same for words of up to four letters: "pge" and "peg" 0.67."""


def nearest(written: str, names: Collection[str]) -> str:
    """The name most like what was written, in quotation marks; "" where none is like it."""
    from difflib import get_close_matches

    lower = {name.lower(): name for name in sorted(names, reverse=True)}
    cutoff = _ALIKE if len(written) > 4 else _ALIKE_SHORT
    found = get_close_matches(written.lower()[:100], list(lower), n=1, cutoff=cutoff)
    return describing.quoted(lower[found[0]]) if found else ""


def _wrong_type(raw: Any, spec: Spec) -> NoReturn:
    raise NotAllowedError(f"{_TYPES[spec.kind]} is needed", describing.allowed(spec))


def _is_number(raw: Any) -> bool:
    return isinstance(raw, (int, float)) and not isinstance(raw, bool)


def _within(value: Any, spec: Spec) -> Any:
    if spec.least <= value <= spec.most:
        return value
    if value != value or value in (float("inf"), float("-inf")):
        raise NotAllowedError("not a finite number", describing.allowed(spec))
    if value < 0.0 <= spec.least:
        raise NotAllowedError("may not be negative", describing.allowed(spec))
    small = value < spec.least
    raise NotAllowedError(f"too {'small' if small else 'large'}", describing.allowed(spec))


def _number(raw: Any, spec: Spec, _: Known) -> float:
    if not _is_number(raw):
        _wrong_type(raw, spec)
    return float(_within(raw, spec))


def _length(raw: Any, spec: Spec, _: Known) -> float:
    if isinstance(raw, str):
        value = millimetres(raw)
        if value is None:
            raise NotAllowedError("not a length with a unit", describing.allowed(spec))
        return float(_within(value, spec))
    return _number(raw, spec, _)


def _total(raw: Any, spec: Spec, known: Known) -> Sum:
    """A length or the name of one; the range is judged here only where no name is in it."""
    if not isinstance(raw, str):
        return Sum(_number(raw, spec, known))
    found = summed(raw, place=spec.kind == "place")
    if found is None:
        raise NotAllowedError("neither a length nor a name of one", describing.allowed(spec))
    if found.plain is not None:
        return Sum(float(_within(found.plain, spec)))
    return found


def _pair(raw: Any, spec: Spec, known: Known) -> tuple[float, float]:
    if not isinstance(raw, list) or len(raw) != 2:
        _wrong_type(raw, spec)
    return _length(raw[0], spec, known), _length(raw[1], spec, known)


def _count(raw: Any, spec: Spec, _: Known) -> int:
    if isinstance(raw, float) and raw.is_integer():
        message = f"a whole number is needed: write {describing.plain(raw)} without a decimal point"
        raise NotAllowedError(message, describing.allowed(spec))
    if not isinstance(raw, int) or isinstance(raw, bool):
        _wrong_type(raw, spec)
    return int(_within(raw, spec))


def _flag(raw: Any, spec: Spec, _: Known) -> bool:
    if not isinstance(raw, bool):
        _wrong_type(raw, spec)
    return raw


def _text(raw: Any, spec: Spec, _: Known) -> str:
    if not isinstance(raw, str):
        _wrong_type(raw, spec)
    if len(raw) > spec.longest:
        raise NotAllowedError(f"{len(raw)} letters are too many", describing.allowed(spec))
    if not raw.isprintable():
        raise NotAllowedError(
            "line breaks and control characters can't be drawn", describing.allowed(spec)
        )
    if spec.pattern and not re.fullmatch(spec.pattern, raw):
        raise NotAllowedError("not of the right form", describing.allowed(spec))
    return raw


def _date(raw: Any, spec: Spec, _: Known) -> str:
    from datetime import date, datetime

    if isinstance(raw, date) and not isinstance(raw, datetime):
        return raw.isoformat()
    if not isinstance(raw, str):
        _wrong_type(raw, spec)
    try:
        return date.fromisoformat(raw).isoformat()
    except ValueError:
        raise NotAllowedError("no such day", describing.allowed(spec)) from None


def _choice(raw: Any, spec: Spec, _: Known) -> str:
    if not isinstance(raw, str):
        _wrong_type(raw, spec)
    if raw not in spec.choices:
        raise NotAllowedError(
            "not one of the choices", describing.allowed(spec), nearest(raw, spec.choices)
        )
    return raw


def _item(raw: Any, spec: Spec, known: Known) -> str:
    if not isinstance(raw, str):
        _wrong_type(raw, spec)
    names = known.get(spec.among)
    if names is not None and raw not in names:
        kind = spec.among.replace("-", " ")
        message = f"no such name among the {kind}"
        raise NotAllowedError(message, describing.words(sorted(names)), nearest(raw, names))
    return raw


def _board(raw: Any, spec: Spec, known: Known) -> BoardChoice:
    if isinstance(raw, str):
        return BoardChoice(_item(raw, spec, known))
    if not isinstance(raw, dict):
        _wrong_type(raw, spec)
    for key in raw:
        if key not in BoardChoice._fields:
            like = nearest(key, BoardChoice._fields)
            raise NotAllowedError(
                "unknown key", describing.words(BoardChoice._fields), like, (key,)
            )
    if "profile" not in raw:
        raise NotAllowedError("the board's profile is missing", describing.allowed(spec))
    return BoardChoice(_part(_item, raw, "profile", spec, known), _measured(raw, spec, known))


def _measured(raw: dict[str, Any], spec: Spec, known: Known) -> float | None:
    if "measured" not in raw:
        return None
    thickness: float = _part(
        _length, raw, "measured", spec._replace(kind="length", unit="mm"), known
    )
    return thickness


def _part(reader: Reader, raw: dict[str, Any], key: str, spec: Spec, known: Known) -> Any:
    try:
        return reader(raw[key], spec, known)
    except NotAllowedError as wrong:
        raise NotAllowedError(
            wrong.message, wrong.allowed, wrong.nearest, (key, *wrong.at)
        ) from None


def _notes(raw: Any, spec: Spec, known: Known) -> tuple[tuple[str, str], ...]:
    if not isinstance(raw, dict):
        _wrong_type(raw, spec)
    as_text = spec._replace(kind="text")
    return tuple((key, _part(_text, raw, key, as_text, known)) for key in raw)


_TYPES = {
    "length": "a length",
    "total": "a length",
    "place": "a place",
    "pair": "an array of two lengths",
    "angle": "a number of degrees",
    "number": "a number",
    "count": "a whole number",
    "choice": "text",
    "flag": "true or false",
    "text": "text",
    "date": "a day",
    "board": "a board",
    "item": "text",
    "notes": "a table of texts",
    "table": "a table",
}
READERS: dict[str, Reader] = {
    "length": _length,
    "total": _total,
    "place": _total,
    "pair": _pair,
    "angle": _number,
    "number": _number,
    "count": _count,
    "choice": _choice,
    "flag": _flag,
    "text": _text,
    "date": _date,
    "board": _board,
    "item": _item,
    "notes": _notes,
}
