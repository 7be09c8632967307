"""True shapes on sheets: what is nested, on what, and the layout that comes out."""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from flatpack.cutting.bounds import Bound
from flatpack.cutting.records import Trouble
from flatpack.geometry.outline import Outline

ShapeGrain = Literal["free", "along", "half turns"]

TURNS: dict[ShapeGrain, tuple[float, ...]] = {
    "along": (0.0,),
    "half turns": (0.0, 180.0),
    "free": (0.0, 90.0, 180.0, 270.0),
}
"""Anticlockwise turns in degrees that each kind of grain allows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A part of any outline, wanted `count` times; `openings` go right through it.

    Parts of lower `priority` are placed first, so that they come from the first sheets.
    """

    mark: str
    outline: Outline
    openings: tuple[Outline, ...] = ()
    count: int = 1
    grain: ShapeGrain = "along"
    priority: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """A sheet or an offcut of any outline; no part may lie on a clamp, spacing kept to it.

    A sheet too large for the machine is parted first: `of` names it, each of its pieces is a
    blank, and `price` and `available` are the whole sheet's.
    """

    name: str
    outline: Outline
    clamps: tuple[Outline, ...] = ()
    price: float | None = None
    available: int | None = None
    offcut: bool = False
    of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spaces:
    """Distances that the shop keeps, mm: between parts (cutter and margin), and to the edge."""

    between: float
    edge: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A part on its sheet: its outline turned anticlockwise by `turn` degrees, then moved."""

    mark: str
    turn: float
    x: float
    y: float


@dataclass(frozen=True, slots=True, kw_only=True)
class NestedSheet:
    """One sheet of a nest, and the share of its area that the parts take."""

    blank: Blank
    parts: tuple[Placed, ...]
    density: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Nest:
    """A nest with a bound on the number of new sheets; `key` is the code of its input.

    `repeatable` is False when a clock had a part in it: keep `stored(nest)` with the job then,
    and give it to the next run, which uses it as long as the input is the same.
    """

    sheets: tuple[NestedSheet, ...]
    new_sheets: int
    bound: Bound
    missing: tuple[tuple[str, int], ...]
    troubles: tuple[Trouble, ...]
    key: str
    steps: int
    repeatable: bool


def sheets_taken(blanks: Iterable[Blank]) -> Counter[tuple[str, float | None]]:
    """New sheets behind the blanks, by name and price: one gives each of its pieces once."""
    taken: Counter[tuple[str, float | None]] = Counter()
    for blank, count in Counter(b for b in blanks if not b.offcut).items():
        sheet = blank.of or blank.name, blank.price
        taken[sheet] = max(taken[sheet], count)
    return taken


def key_of(shapes: Sequence[Shape], blanks: Sequence[Blank], spaces: Spaces) -> str:
    """Code of everything that a layout depends on."""
    text = repr((sorted(map(repr, shapes)), sorted(map(repr, blanks)), spaces))
    return hashlib.sha256(text.encode()).hexdigest()[:24]


def stored(nest: Nest) -> str:
    """The layout as text to keep with the job (JSON, one sheet a line)."""
    sheets = [
        {"blank": s.blank.name, "parts": [[p.mark, p.turn, p.x, p.y] for p in s.parts]}
        for s in nest.sheets
    ]
    lines = ",\n".join(json.dumps(s, ensure_ascii=False) for s in sheets)
    return f'{{"key": {json.dumps(nest.key)}, "sheets": [\n{lines}\n]}}\n'


def layout_in(text: str, key: str, blanks: Sequence[Blank]) -> list[NestedSheet] | None:
    """The sheets of a stored layout; None when it belongs to another input or can't be read."""
    try:
        data = json.loads(text)
        if data["key"] != key:
            return None
        named = {b.name: b for b in blanks}
        return [
            NestedSheet(
                blank=named[s["blank"]],
                parts=tuple(
                    Placed(mark=str(m), turn=float(t), x=float(x), y=float(y))
                    for m, t, x, y in s["parts"]
                ),
                density=0.0,
            )
            for s in data["sheets"]
        ]
    except (KeyError, TypeError, ValueError):
        return None
