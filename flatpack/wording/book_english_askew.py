"""English: where the corners of parts lie that are put on askew."""

from __future__ import annotations

from collections.abc import Sequence

DATUM, OTHER = "datum end", "other end"


def corner(x: str, past: bool, end: str, y: str, beyond: bool, edge: str) -> str:
    """A corner's place on the part beneath."""
    along = f"{x} {'past' if past else 'from'} its {end}"
    return f"{along} and {y} {'beyond' if beyond else 'from'} its {edge} edge"


def end(which: str, base: str, mark: str, datum: str, other: str) -> str:
    """Both corners of an end: that at the datum edge and the other."""
    return (
        f"measured on {base.lower()} {mark}, the corner of its {which} and datum edge lies "
        f"{datum}, the corner across it {other}"
    )


def part(name: str, mark: str, ends: Sequence[str]) -> str:
    """A part that lies askew."""
    return f"{name} {mark} lies askew: {'; '.join(ends)}. Clamp it there and measure again."
