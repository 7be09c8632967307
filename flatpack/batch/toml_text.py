"""Plain values, as the standard reader gives them, as TOML text again."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

_BARE = re.compile(r"[A-Za-z0-9_-]+")


def toml_text(values: Mapping[str, Any]) -> str:
    """A TOML text that reads back to exactly these values, in their order."""
    return "".join(_lines(values, ()))


def _lines(values: Mapping[str, Any], path: tuple[str, ...]) -> Iterator[str]:
    for key, value in values.items():
        if not isinstance(value, dict):
            yield f"{_key(key)} = {inline(value)}\n"
    for key, value in values.items():
        if isinstance(value, dict):
            below = (*path, key)
            yield f"\n[{'.'.join(map(_key, below))}]\n"
            yield from _lines(value, below)


def inline(value: Any) -> str:
    """One value as it stands behind the equals sign."""
    for kind, written in _WRITTEN.items():
        if isinstance(value, kind):
            return written(value)
    return str(value.isoformat())  # a day or a time of day, the only others that TOML has


def _list(values: list[Any]) -> str:
    return f"[{', '.join(map(inline, values))}]"


def _table(values: dict[str, Any]) -> str:
    rows = ", ".join(f"{_key(k)} = {inline(v)}" for k, v in values.items())
    return f"{{ {rows} }}" if rows else "{}"


def _real(value: float) -> str:
    if math.isfinite(value):
        return repr(value)
    return "nan" if math.isnan(value) else "inf" if value > 0.0 else "-inf"


def _key(name: str) -> str:
    return name if _BARE.fullmatch(name) else _quoted(name)


def _quoted(text: str) -> str:
    # JSON's escapes are TOML's as well, but for DEL, which TOML wants escaped.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


_WRITTEN: Mapping[type, Callable[[Any], str]] = {
    bool: lambda value: "true" if value else "false",  # before int, which it also is
    str: _quoted,
    float: _real,
    int: str,
    list: _list,
    dict: _table,
}
