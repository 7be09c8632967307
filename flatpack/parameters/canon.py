"""A record as stable text: the design's content code is the hash of it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from flatpack.parameters.records import specs_of


def canonical(made: Any) -> str:
    """One `path = value` line a key, in the order of declaration, however the file wrote it.

    Numbers are written in the shortest form that reads back to the same float, keys left to be
    derived as `none`.  A unit in the file ("18 mm" or 18) leaves no trace.
    """
    return "".join(f"{path} = {value}\n" for path, value in _rows(made, ""))


def _rows(made: Any, prefix: str) -> Iterator[tuple[str, str]]:
    for name in specs_of(made):
        yield from _row(getattr(made, name), prefix + name)


def _row(value: Any, path: str) -> Iterator[tuple[str, str]]:
    if hasattr(value, "record_specs"):
        yield from _rows(value, f"{path}.")
    elif isinstance(value, tuple) and not hasattr(value, "_fields"):
        yield path, f"array of {len(value)}"
        for i, entry in enumerate(value):
            yield from _row(entry, f"{path}[{i}]")
    elif isinstance(value, tuple):
        for name, entry in zip(value._fields, value, strict=True):  # type: ignore[attr-defined]  # a NamedTuple
            yield from _row(entry, f"{path}.{name}")
    else:
        yield path, _scalar(value)


def _scalar(value: Any) -> str:
    if value is None:
        return "none"
    if isinstance(value, float):
        return repr(value + 0.0)  # adding 0 turns -0.0 into 0.0
    return json.dumps(value, ensure_ascii=True)
