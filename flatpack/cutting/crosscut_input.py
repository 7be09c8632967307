"""The cross-cut plan's input as whole numbers: clear lengths of boards, sizes, prices."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from flatpack.cutting.patterns import Bin, Job
from flatpack.cutting.records import CrossSaw, Piece, StockLength, Trouble
from flatpack.cutting.ticks import PER_MM, common, down, up

_CENTS = 100


class Kind(NamedTuple):
    """A kind of board and the clear lengths in it, in ticks from its first end."""

    stock: StockLength
    clear: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """The input made ready: job for the search (None = nothing to cut) and the way back."""

    pieces: tuple[Piece, ...]
    saw: CrossSaw
    kerf: int
    unit: int
    lengths: tuple[int, ...]
    kinds: tuple[Kind, ...]
    job: Job | None
    per_unit: float
    troubles: tuple[Trouble, ...]

    def waiting(self) -> Iterator[Counter[str]]:
        """For each length, how many parts of each mark want it."""
        for length in self.lengths:
            yield Counter(
                {p.mark: p.count for p in self.pieces if up(p.length) == length and p.count > 0}
            )


def clear_lengths(stock: StockLength, saw: CrossSaw) -> tuple[tuple[int, int], ...]:
    """The lengths of a board between its trimmed ends and its defects, in ticks.

    A defect narrower than the saw's cut is widened to it: the cut that takes it out does so.
    """
    kerf = up(saw.kerf)
    start, last = up(saw.trim), down(stock.length) - up(saw.trim)
    clear = []
    for low, high in sorted(stock.defects):
        first, end = down(low), up(high)
        spare = max(0, kerf - (end - first) + 1) // 2
        if first - spare > start:
            clear.append((start, min(first - spare, last)))
        start = max(start, end + spare)
    if last > start:
        clear.append((start, last))
    return tuple(c for c in clear if c[1] > c[0])


def read(pieces: Sequence[Piece], stock: Sequence[StockLength], saw: CrossSaw) -> Reading:
    """Turn the input into whole numbers; what can't be cut becomes a trouble."""
    kinds = tuple(Kind(s, clear_lengths(s, saw)) for s in _ordered(stock))
    kinds = tuple(k for k in kinds if k.clear and k.stock.available != 0)
    longest = max((b - a for k in kinds for a, b in k.clear), default=0)
    fits = [p for p in pieces if p.count > 0 and 0 < up(p.length) <= longest]
    kerf = up(saw.kerf)
    lengths = tuple(sorted({up(p.length) for p in fits}, reverse=True))
    unit = common(length + kerf for length in lengths)
    prices, per_unit = _prices(kinds)
    job = _job(fits, lengths, kerf, unit, kinds, prices) if lengths else None
    return Reading(
        pieces=tuple(pieces),
        saw=saw,
        kerf=kerf,
        unit=unit,
        lengths=lengths,
        kinds=kinds,
        job=job,
        per_unit=per_unit,
        troubles=_troubles(pieces, kinds, longest, saw),
    )


def _ordered(stock: Sequence[StockLength]) -> list[StockLength]:
    return sorted(stock, key=lambda s: (not s.offcut, s.length, s.price or 0.0, s.name))


def _prices(kinds: tuple[Kind, ...]) -> tuple[list[int], float]:
    """Whole prices; board length in mm stands in where any price is missing.

    An offcut that is already paid for costs nothing.
    """
    if any(k.stock.price is None and not k.stock.offcut for k in kinds):
        return [0 if k.stock.offcut else round(k.stock.length) for k in kinds], 1.0
    return [round((k.stock.price or 0.0) * _CENTS) for k in kinds], float(_CENTS)


def _job(
    fits: Sequence[Piece],
    lengths: tuple[int, ...],
    kerf: int,
    unit: int,
    kinds: tuple[Kind, ...],
    prices: list[int],
) -> Job:
    wanted: Counter[int] = Counter()
    for piece in fits:
        wanted[up(piece.length)] += piece.count
    bins = tuple(
        Bin(
            tuple((b - a + kerf) // unit for a, b in kind.clear),
            price,
            _limit(kind.stock),
        )
        for kind, price in zip(kinds, prices, strict=True)
    )
    sizes = tuple((length + kerf) // unit for length in lengths)
    return Job(sizes=sizes, demand=tuple(wanted[n] for n in lengths), bins=bins)


def _limit(stock: StockLength) -> int | None:
    return 1 if stock.available is None and stock.offcut else stock.available


def _troubles(
    pieces: Sequence[Piece], kinds: tuple[Kind, ...], longest: int, saw: CrossSaw
) -> tuple[Trouble, ...]:
    found = []
    name = max(kinds, key=lambda k: max(b - a for a, b in k.clear)).stock.name if kinds else ""
    for piece in pieces:
        if up(piece.length) > longest or piece.length <= 0:
            found.append(
                Trouble(
                    code="part-too-long",
                    mark=piece.mark,
                    stock=name,
                    text=f"part {piece.mark} fits no board",
                    measured=piece.length,
                    limit=longest / PER_MM,
                )
            )
        elif piece.length < saw.kerf:
            found.append(
                Trouble(
                    code="part-thinner-than-kerf",
                    mark=piece.mark,
                    text=f"part {piece.mark} is shorter than the saw's cut is wide",
                    measured=piece.length,
                    limit=saw.kerf,
                    blocks=False,
                )
            )
    for kind in kinds:
        if kind.stock.price is None and not kind.stock.offcut:
            found.append(
                Trouble(
                    code="no-price",
                    stock=kind.stock.name,
                    text=f"no price for {kind.stock.name}: the plan uses the least length instead",
                    blocks=False,
                )
            )
    return tuple(found)
