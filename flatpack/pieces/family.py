"""What a design family is made of, and what families share when they set out a piece."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple

from flatpack.model import Assembly, Working
from flatpack.parameters import Conflict, specs_of
from flatpack.pieces.asked_widths import note
from flatpack.profiles import Board, Profiles


class Family(NamedTuple):
    """A design family: its keys, how a piece is built from them, and which don't go together.

    `package` is the package that brings it, with its version; "" for one of flatpack's own.
    """

    key: str
    title: str
    record: Any
    build: Callable[[Any, Profiles], Assembly]
    conflicts: Callable[[Any, Profiles], Iterable[Conflict]]
    package: str = ""


class Workings:
    """Collects how each derived number came about while a piece is set out."""

    def __init__(self) -> None:
        """Start with none."""
        self.rows: list[Working] = []

    def add(self, name: str, value: float, how: str, unit: str = "mm") -> float:
        """Note a derived number with its sum in words and figures; gives the number back."""
        self.rows.append(Working(name, value, how, unit))
        return value


def sold_width(board: Board, wanted: float, owner: str = "") -> float:
    """Width that a part gets: as wanted from sheet, the nearest that is sold from planed boards.

    `owner` is the part's name in the file, where that has names.
    """
    if board.kind != "planed" or not board.widths:
        return wanted
    nearest = min(board.widths, key=lambda sold: (abs(sold - wanted), sold))
    note(board, wanted, nearest, owner)
    return nearest


def wide_enough(board: Board, least: float) -> float:
    """Least width that will do: to the next whole mm from sheet, the next sold if planed.

    The widest sold when none is enough; whoever asked then finds the conflict.
    """
    if board.kind != "planed" or not board.widths:
        return float(math.ceil(least - 1e-9))
    return min((w for w in board.widths if w >= least - 1e-9), default=max(board.widths))


def narrow_enough(board: Board, most: float) -> float:
    """Greatest width that will do: the number itself from sheet, the widest such sold if planed.

    The narrowest sold when none is narrow enough; whoever asked then finds the conflict.
    """
    if board.kind != "planed" or not board.widths:
        return most
    return max((w for w in board.widths if w <= most + 1e-9), default=min(board.widths))


def slat_count(length: float, width: float, gap: float) -> int:
    """Slats that fill a length with gaps nearest to the one wanted; at least two.

    n slats and n - 1 gaps: n = (length + gap) / (width + gap), rounded to the number whose gap
    comes nearest.
    """
    near = max(int((length + gap) / (width + gap)), 2)
    choices = [n for n in (near, near + 1) if n * width <= length]
    return min(choices, key=lambda n: (abs(even_gap(length, width, n) - gap), n), default=2)


def even_gap(length: float, width: float, count: int) -> float:
    """Gap that `count` slats leave when shared evenly over a length; negative: they don't fit."""
    return (length - count * width) / (count - 1)


def fixings_fit(p: Any, profiles: Profiles, pairs: Iterable[tuple[str, str]]) -> Iterator[Conflict]:
    """Nuts, washers and their like of another thread than their bolt; screws of another use.

    `p` is the table of fixings, `pairs` name the keys of a bolt and of what goes on it.
    """
    kinds = specs_of(type(p))
    for bolt_key, key in pairs:
        bolt = profiles.get(kinds[bolt_key].among, getattr(p, bolt_key))
        one = profiles.get(kinds[key].among, getattr(p, key))
        if one.diameter != bolt.diameter:
            allowed = f"one of M{bolt.diameter:g}, for {bolt.name}"
            yield Conflict(f"fixings.{key}", getattr(p, key), allowed, "it doesn't fit the bolt")
    for key, use in (("pocket_screw", "pocket"), ("wood_screw", "wood")):
        if key not in kinds:
            continue
        screw = profiles.screw(getattr(p, key))
        if screw.use != use:
            allowed = f"a screw with use = {use!r}".replace("'", '"')
            yield Conflict(f"fixings.{key}", getattr(p, key), allowed, f"no {use} screw")


def mm(value: float) -> str:
    """Length for a sentence: to 0.1 mm, no trailing zero."""
    return f"{value:.1f}".removesuffix(".0")
