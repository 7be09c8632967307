"""Lengths of a maker's own file: numbers, measures, and measures of parts and boards.

    430   "seat-height"   "rail.length"   "slats.thickness"   "rail.pockets"   "piece.width"

`pockets` is how far in from an edge the jig's pockets reach in a part's or board's thickness.
"""

from __future__ import annotations

import math
from typing import Any

from flatpack.parameters import Sum, specs_of, words
from flatpack.parameters.describing import bounds
from flatpack.pieces.composed.faults import Faults
from flatpack.pieces.composed.part_records import BAR
from flatpack.pieces.family import sold_width
from flatpack.profiles import Board, PocketJig, Profiles

Chosen = Any
OF_BOARDS = ("thickness", "pockets")
OF_PARTS = ("length", "width", *OF_BOARDS)
PIECE = "piece"


class Lengths:
    """The file's lengths; parts' own come from `extent`, which the layout adds."""

    def __init__(self, record: Any, profiles: Profiles, faults: Faults) -> None:
        """Look up boards and jig; note names that are used twice."""
        self.record, self.profiles, self.faults = record, profiles, faults
        self.measures: dict[str, Sum] = dict(record.measures)
        self.parts: dict[str, Chosen] = dict(record.parts)
        self.boards: dict[str, Board] = {n: profiles.board(b) for n, b in record.boards}
        self.jig: PocketJig = profiles.pocket_jig(record.fixings.jig)
        for name in self.parts:
            if name in self.boards:
                faults.note(f"parts.{name}", name, "a name that no board has", "named twice")
            if name == PIECE:
                faults.note(f"parts.{name}", name, "another name", "this name is the whole piece's")

    def length(self, said: Sum, key: str) -> float:
        """A length in mm.

        Raises:
            StuckError: it can't be worked out.
        """
        if said.at is not None:
            raise self.faults.stop(
                key, said, "a length", "a height is named, but no place is asked for"
            )
        whole = self.term(said.first, key, said)
        return whole + said.sign * self.term(said.second, key, said) if said.sign else whole

    def term(self, term: float | str, key: str, said: Sum) -> float:
        """One term of a sum, mm."""
        if not isinstance(term, str):
            return term
        owner, dot, what = term.partition(".")
        return self._of(owner, what, key, said) if dot else self.measure(owner, key)

    def measure(self, name: str, key: str) -> float:
        """A named measure, mm."""
        if name not in self.measures:
            raise self.faults.unknown(key, name, self.measures, "no such measure")
        own = f"measures.{name}"
        return self.faults.once(
            ("measure", name), name, (key, name), lambda: self.length(self.measures[name], own)
        )

    def board_of(self, name: str) -> Board:
        """The board that a part is made of."""
        made = self.parts[name].made
        asked = made.board or (next(iter(self.boards)) if len(self.boards) == 1 else "")
        if not asked:
            raise self.faults.stop(
                f"parts.{name}.board", None, words(self.boards), "missing: there are several boards"
            )
        if asked not in self.boards:
            raise self.faults.unknown(f"parts.{name}.board", asked, self.boards, "no such board")
        return self.boards[asked]

    def extent(self, name: str, axis: int) -> float:
        """A part's length, width or thickness, mm.

        Raises:
            NotImplementedError: always: the layout knows.
        """
        raise NotImplementedError

    def pockets(self, thickness: float) -> float:
        """How far in from an edge pockets reach: to the far end of the drill's ellipse."""
        slope = math.radians(self.jig.angle)
        return thickness / 2.0 / math.tan(slope) + self.jig.drill / 2.0 / math.sin(slope)

    def _of(self, owner: str, what: str, key: str, said: Sum) -> float:
        """A measure of a part, a board or the piece."""
        if owner == PIECE and what in ("width", "depth") and hasattr(self.record, "size"):
            return float(getattr(self.record.size, what))
        if owner not in self.parts and owner not in self.boards:
            known = (*self.parts, *self.boards, PIECE)
            raise self.faults.unknown(key, owner, known, "no such part or board")
        known = OF_PARTS if owner in self.parts else OF_BOARDS
        if what not in known:
            some = [f"{owner}.{one}" for one in known]
            raise self.faults.unknown(key, f"{owner}.{what}", some, "no such measure of it")
        own = owner in self.boards
        thickness = self.boards[owner].thickness if own else self.extent(owner, 2)
        if what in OF_BOARDS:
            return thickness if what == "thickness" else self.pockets(thickness)
        return self.extent(owner, OF_PARTS.index(what))

    def given(self, name: str, field: str) -> float | None:
        """A length of a part as its file states it, within its range; None where it doesn't."""
        made = self.parts[name].made
        said = getattr(made, field)
        if said is None:
            return None
        key = f"parts.{name}.{field}"
        value: float = self.faults.once(
            ("given", key), f"{name}.{field}", (key, said),
            lambda: self.ranged(specs_of(made)[field], said, key),
        )  # fmt: skip
        if field == "width" and self.parts[name].kind != BAR:
            return sold_width(self.board_of(name), value, name)
        return value

    def ranged(self, spec: Any, said: Sum, key: str) -> float:
        """A length, refused outside its key's range."""
        value = self.length(said, key)
        if not spec.least - 1e-9 <= value <= spec.most + 1e-9:
            text = f"comes to {value:.1f} mm, too {'small' if value < spec.least else 'large'}"
            raise self.faults.stop(key, said, bounds(spec), text)
        return value
