"""Independent check of a cross-cut plan: nothing here is shared with the search."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from flatpack.cutting.crosscut import CrossPlan, CutBoard
from flatpack.cutting.records import CrossSaw, Piece, StockLength

_TINY = 1e-6


def faults(
    plan: CrossPlan, pieces: Sequence[Piece], stock: Sequence[StockLength], saw: CrossSaw
) -> list[str]:
    """Everything that is wrong with the plan, in words; empty when it can be cut as it says."""
    found = [f for n, b in enumerate(plan.boards, 1) for f in _board_faults(n, b, pieces, saw)]
    return [*found, *_count_faults(plan, pieces), *_stock_faults(plan, stock)]


def _board_faults(
    number: int, board: CutBoard, pieces: Sequence[Piece], saw: CrossSaw
) -> Iterator[str]:
    length = {p.mark: p.length for p in pieces}
    spans = sorted((c.start, c.end, c.mark) for c in board.cuts)
    for start, end, mark in spans:
        if mark not in length or abs(end - start - length[mark]) > 0.011:
            yield f"board {number}: {mark} is cut {end - start} long"
        if start < saw.trim - _TINY or end > board.stock.length - saw.trim + _TINY:
            yield f"board {number}: {mark} reaches into the end trim"
        for low, high in board.stock.defects:
            if start < high - _TINY and end > low + _TINY:
                yield f"board {number}: {mark} holds the defect at {low}"
    for (_, end, one), (start, _, other) in pairwise(spans):
        if start - end < saw.kerf - _TINY:
            yield f"board {number}: no room for the cut between {one} and {other}"
    for low, high in board.rests:
        if any(
            start < high + saw.kerf - _TINY and end > low - saw.kerf + _TINY
            for start, end, _ in spans
        ):
            yield f"board {number}: the rest from {low} is not free"


def _count_faults(plan: CrossPlan, pieces: Sequence[Piece]) -> Iterator[str]:
    made = Counter(c.mark for b in plan.boards for c in b.cuts)
    made.update(dict(plan.missing))
    wanted: Counter[str] = Counter()
    for piece in pieces:
        wanted[piece.mark] += piece.count
    for mark in sorted(set(made) | set(wanted)):
        if made[mark] != wanted[mark]:
            yield f"{mark}: {made[mark]} in the plan, {wanted[mark]} wanted"


def _stock_faults(plan: CrossPlan, stock: Sequence[StockLength]) -> Iterator[str]:
    used = Counter(b.stock for b in plan.boards)
    for kind, count in used.items():
        if kind not in stock:
            yield f"{kind.name} is not in the stock"
        elif kind.available is not None and count > kind.available:
            yield f"{count} of {kind.name} used, {kind.available} in stock"
