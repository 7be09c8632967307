"""JSON for programs: keys in order, two spaces of indent, numbers to a millionth, UTF-8."""

from __future__ import annotations

from collections.abc import Mapping, Sequence


def render(value: object) -> bytes:
    """The value as JSON: mappings, sequences, text, numbers, booleans and None.

    Raises:
        ValueError: a number isn't finite.
        TypeError: something that JSON has no form for.
    """
    import json

    text = json.dumps(_steady(value), sort_keys=True, indent=2, ensure_ascii=False, allow_nan=False)
    return (text + "\n").encode("utf-8")


def _steady(value: object) -> object:
    if isinstance(value, float):
        return round(value, 6) + 0.0  # adding nought turns -0.0 into 0.0
    if isinstance(value, Mapping):
        return {str(key): _steady(item) for key, item in value.items()}
    if isinstance(value, Sequence) and not isinstance(value, str | bytes):
        return [_steady(item) for item in value]
    return value
