"""Numbers as text: the shortest that reads back the same, never an exponent, never minus nought."""

from __future__ import annotations

from functools import lru_cache


@lru_cache(maxsize=8192)
def decimal(value: float) -> str:
    """At most ten decimals and always a point, as DXF real values are written: 12.5, 0.0.

    Raises:
        ValueError: the value is not a finite number.
    """
    text = repr(round(float(value), 10) + 0.0)  # adding nought turns -0.0 into 0.0
    if "e" not in text and "n" not in text:
        return text
    if "n" in text:
        raise ValueError(f"{value} can't be drawn")
    text = f"{float(text):.10f}".rstrip("0")
    return text + "0" if text.endswith(".") else text


@lru_cache(maxsize=8192)
def short(value: float) -> str:
    """At most six decimals (a millionth of a mm) and no idle point: 12.5, 0, 210.

    Raises:
        ValueError: the value is not a finite number.
    """
    text = f"{value:.6f}"
    if "n" in text:
        raise ValueError(f"{value} can't be drawn")
    text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
