"""Widths that were asked for and aren't sold: kept while a piece is built, then told of its parts.

`widths_told` builds a piece and keeps what every `family.sold_width` is asked for meanwhile.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextvars import ContextVar
from typing import Any, NamedTuple

from flatpack.finding import Finding
from flatpack.frozen import replace
from flatpack.model import Assembly, Part
from flatpack.profiles import Board, Profiles

CODE = "width-as-sold"
_SAME = 0.05
"""Widths closer than this are one, mm."""


class Asked(NamedTuple):
    """A width asked for of a board, what is sold for it, mm, and the part's name in the file."""

    board: Board
    wanted: float
    sold: float
    owner: str


_KEPT: ContextVar[dict[Asked, None] | None] = ContextVar("asked widths", default=None)


def widths_told(
    build: Callable[[Any, Profiles], Assembly], record: Any, profiles: Profiles
) -> Assembly:
    """The piece that a family builds, with a remark for each part that isn't as wide as asked."""
    kept: dict[Asked, None] = {}
    token = _KEPT.set(kept)
    try:
        piece = build(record, profiles)
    finally:
        _KEPT.reset(token)
    told = _remarks(piece, kept)
    return replace(piece, remarks=(*piece.remarks, *told)) if told else piece


def note(board: Board, wanted: float, sold: float, owner: str) -> None:
    """Keep one, where somebody wants to know."""
    kept = _KEPT.get()
    if kept is not None:
        kept[Asked(board, wanted, sold, owner)] = None


def _remarks(assembly: Assembly, asked: dict[Asked, None]) -> tuple[Finding, ...]:
    """A note for each part name whose width isn't what was asked for."""
    found: dict[tuple[str, float], Finding] = {}
    for one in asked:
        if abs(one.wanted - one.sold) > _SAME:
            parts = tuple(_parts(assembly, one, asked))
            for part in parts:
                found.setdefault((part.name, one.wanted), _of_part(assembly, part, one))
            if not parts:
                found.setdefault((one.board.name, one.wanted), _finding(one, "", one.board.name))
    return tuple(found.values())


def _parts(assembly: Assembly, one: Asked, asked: dict[Asked, None]) -> Iterator[Part]:
    """Parts that came out so; none where others may have asked for just that width."""
    alike = [a for a in asked if (a.board, a.sold, a.owner) == (one.board, one.sold, one.owner)]
    if not one.owner and len(alike) > 1:
        return
    for key, part in assembly.parts.items():
        own = not one.owner or key == one.owner or key.startswith(f"{one.owner}-")
        if own and part.board == one.board and abs(part.width - one.sold) <= _SAME:
            yield part


def _of_part(assembly: Assembly, part: Part, one: Asked) -> Finding:
    holes = assembly.loose and bool(part.features)
    stay = "; its holes stay where they were asked for, from datum end and datum edge"
    return _finding(one, part.key, part.name, stay if holes else "")


def _finding(one: Asked, key: str, name: str, more: str = "") -> Finding:
    how = "as asked" if one.owner else "as set"
    text = f"{name}: width {one.wanted:g} {how}, {one.sold:g} is sold and used{more}"
    source = f"widths sold of {one.board.name}"
    return Finding(CODE, "note", key, text, one.sold, one.wanted, source=source)
