"""Numbers as drawings and lists show them."""

from __future__ import annotations


def mm(value: float) -> str:
    """Length to 0.1 mm, without an idle zero: 12, 12.5."""
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def shown(value: float) -> float:
    """The number to 0.1 mm, as it stands in tables."""
    return round(value, 1) + 0.0
