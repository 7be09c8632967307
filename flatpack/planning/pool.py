"""Parts of several pieces, each counted, gathered by board.

The marks of a piece are its own letters; with more than one piece its number stands in front:
1A-L, 2A-L.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from flatpack.drawings.marks import PartGroup, bar_groups, groups, trial_groups
from flatpack.model import Assembly, Bar
from flatpack.profiles import Board, Finish, Glue, Rod


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """A piece that is made `count` times; `code` is its content code.

    `sealer` goes on end grain before the finish goes on every surface; None where none is used.
    """

    assembly: Assembly
    count: int = 1
    code: str = ""
    glue: Glue | None = None
    finish: Finish | None = None
    sealer: Finish | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Like parts of one piece, `count` in all; `piece` is the piece's number from 1.

    A `trial` is cut once to try a fit, and goes with no piece.
    """

    mark: str
    group: PartGroup
    count: int
    piece: int
    trial: bool = False

    @property
    def length(self) -> float:
        """Length of the blank along the grain, mm."""
        return self.group.part.length

    @property
    def width(self) -> float:
        """Width of the blank, mm."""
        return self.group.part.width


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """All parts that come from one board of one thickness; `name` is unique among the lots."""

    name: str
    board: Board
    parts: tuple[Wanted, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedBar:
    """Like round bars."""

    mark: str
    bar: Bar
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class RodLot:
    """All bars of one rod."""

    rod: Rod
    bars: tuple[WantedBar, ...]


def prefix(pieces: Sequence[Counted], number: int) -> str:
    """What stands before a mark: the piece's number where there are several."""
    return str(number) if len(pieces) > 1 else ""


def pool(pieces: Sequence[Counted]) -> tuple[Lot, ...]:
    """The parts by board and measured thickness, in the order in which they come up."""
    lots: dict[tuple[str, str], list[Wanted]] = {}
    boards: dict[tuple[str, str], Board] = {}
    for number, piece in enumerate(pieces, 1):
        trials = trial_groups(piece.assembly)
        for group in (*groups(piece.assembly), *trials):
            board = group.part.board
            key = (board.key, f"{board.thickness:.1f}".removesuffix(".0"))
            boards.setdefault(key, board)
            lots.setdefault(key, []).append(
                Wanted(
                    mark=prefix(pieces, number) + group.mark,
                    group=group,
                    count=1 if group in trials else group.count * piece.count,
                    piece=number,
                    trial=group in trials,
                )
            )
    named = [key for key, _ in lots]
    return tuple(
        Lot(
            name=key if named.count(key) == 1 else f"{key}-{thickness}",
            board=boards[key, thickness],
            parts=tuple(parts),
        )
        for (key, thickness), parts in lots.items()
    )


def bar_lots(pieces: Sequence[Counted]) -> tuple[RodLot, ...]:
    """The round bars by rod."""
    lots: dict[str, list[WantedBar]] = {}
    rods: dict[str, Rod] = {}
    for number, piece in enumerate(pieces, 1):
        for group in bar_groups(piece.assembly):
            rods[group.bar.stock.key] = group.bar.stock
            mark = prefix(pieces, number) + group.mark
            made = WantedBar(mark=mark, bar=group.bar, count=group.count * piece.count)
            lots.setdefault(group.bar.stock.key, []).append(made)
    return tuple(RodLot(rod=rods[key], bars=tuple(bars)) for key, bars in lots.items())
