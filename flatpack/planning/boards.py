"""Cross-cut plans of planed boards and round bars; narrow parts are ripped from one blank.

sold width W   |== w ==|k|== w ==|k|== w ==|      n = (W + k) / (w + k), rounded down
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from flatpack.cutting import (
    CrossPlan,
    CrossSaw,
    Effort,
    Piece,
    StockLength,
    Trouble,
    plan_crosscuts,
)
from flatpack.finding import Finding
from flatpack.planning import told
from flatpack.planning.pool import Lot, RodLot, Wanted
from flatpack.planning.supply import lengths_of, rods_of
from flatpack.profiles import Board, Saws, Stock
from flatpack.wording import english_plans as words

_SAME = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """A length cut off a board; ripped into `across` parts of width `rip` where `across` > 0.

    `parts` are the marks that come from all blanks of this kind, with their counts.
    """

    mark: str
    length: float
    count: int
    parts: tuple[tuple[str, int], ...]
    across: int = 0
    rip: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPlan:
    """The cross-cut plan of one planed width, or of one round bar (`board` None, `width` 0)."""

    name: str
    title: str
    board: Board | None
    width: float
    blanks: tuple[Blank, ...]
    stock: tuple[StockLength, ...]
    saw: CrossSaw
    plan: CrossPlan

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """What the plan was made for."""
        return pieces_of(self.blanks)


def pieces_of(blanks: Sequence[Blank]) -> tuple[Piece, ...]:
    """Blanks as the plan takes them."""
    return tuple(Piece(mark=b.mark, length=b.length, count=b.count) for b in blanks)


def cross_saw(saws: Saws) -> CrossSaw:
    """The cross-cut saw as the plan takes it."""
    return CrossSaw(kerf=saws.cross_kerf, trim=saws.end_trim, keep=saws.keep_length)


def sold_width(board: Board, width: float) -> float | None:
    """Narrowest width sold that the part comes out of; None when it is wider than all."""
    return min((w for w in board.widths if w >= width - _SAME), default=None)


def board_plans(
    lot: Lot, stock: Stock, effort: Effort
) -> tuple[tuple[BoardPlan, ...], tuple[Finding, ...]]:
    """A plan a width, widest first, and what couldn't be planned."""
    by_width: dict[float, list[Wanted]] = {}
    found: list[Finding] = []
    for part in lot.parts:
        width = sold_width(lot.board, part.width)
        if width is None:
            widest = max(lot.board.widths)
            trouble = Trouble(
                code="part-too-wide",
                mark=part.mark,
                stock=lot.board.name,
                text=words.too_wide(part.mark, lot.board.name),
                measured=part.width,
                limit=widest,
            )
            found.append(told.finding(trouble))
        else:
            by_width.setdefault(width, []).append(part)
    plans = []
    for width in sorted(by_width, reverse=True):
        made = _board_plan(lot, width, by_width[width], stock, effort)
        plans.append(made)
        found += told.findings(made.plan.troubles)
    return tuple(plans), tuple(found)


def _board_plan(
    lot: Lot, width: float, parts: Sequence[Wanted], stock: Stock, effort: Effort
) -> BoardPlan:
    blanks = blanks_of(parts, width, stock.saws.kerf)
    lengths, saw = lengths_of(lot.board, width, stock), cross_saw(stock.saws)
    wide = f"{width:.1f}".removesuffix(".0")
    return BoardPlan(
        name=f"{lot.name}-{wide}",
        title=words.planed_title(lot.board.name, wide),
        board=lot.board,
        width=width,
        blanks=blanks,
        stock=lengths,
        saw=saw,
        plan=plan_crosscuts(pieces_of(blanks), lengths, saw, effort),
    )


def blanks_of(parts: Sequence[Wanted], width: float, kerf: float) -> tuple[Blank, ...]:
    """Full widths as they are; narrower ones of one size share blanks, as many as lie abreast."""
    blanks = [
        Blank(mark=p.mark, length=p.length, count=p.count, parts=((p.mark, p.count),))
        for p in parts
        if p.width >= width - _SAME
    ]
    narrow: dict[tuple[float, float], list[Wanted]] = {}
    for part in parts:
        if part.width < width - _SAME:
            narrow.setdefault((round(part.length, 2), round(part.width, 2)), []).append(part)
    for (length, rip), alike in narrow.items():
        across = math.floor((width + kerf + 1e-9) / (rip + kerf)) or 1
        total = sum(p.count for p in alike)
        blanks.append(
            Blank(
                mark="+".join(p.mark for p in alike),
                length=length,
                count=math.ceil(total / across),
                parts=tuple((p.mark, p.count) for p in alike),
                across=across,
                rip=rip,
            )
        )
    return tuple(blanks)


def rod_plan(lot: RodLot, stock: Stock, effort: Effort) -> BoardPlan:
    """The plan of one round bar."""
    blanks = tuple(
        Blank(mark=b.mark, length=b.bar.length, count=b.count, parts=((b.mark, b.count),))
        for b in lot.bars
    )
    # A bar's ends come square: only the cut itself is taken off.
    saw = CrossSaw(kerf=stock.saws.cross_kerf, trim=0.0, keep=stock.saws.keep_length)
    lengths = rods_of(lot.rod, stock)
    return BoardPlan(
        name=lot.rod.key,
        title=lot.rod.name,
        board=None,
        width=0.0,
        blanks=blanks,
        stock=lengths,
        saw=saw,
        plan=plan_crosscuts(pieces_of(blanks), lengths, saw, effort),
    )
