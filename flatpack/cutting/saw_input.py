"""The saw plan's input as whole numbers: kinds of sheet, sizes with kerf, ways to turn."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from flatpack.cutting.records import PanelSaw, Piece, StockSheet, Trouble
from flatpack.cutting.sheet_view import Mode
from flatpack.cutting.ticks import common, down, up

Size = tuple[int, int]


class Key(NamedTuple):
    """Parts that are the same to the saw: size in ticks, and whether each way round is allowed."""

    length: int
    width: int
    along: bool
    across: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetJob:
    """What the search needs: sizes and rooms in `unit` ticks with one kerf each."""

    sizes: tuple[Size, ...]
    turns: tuple[tuple[bool, bool], ...]
    demand: tuple[int, ...]
    rooms: tuple[Size, ...]
    prices: tuple[int, ...]
    limits: tuple[int | None, ...]
    offcuts: tuple[bool, ...]
    mode: Mode


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetReading:
    """The input made ready, and the way back from numbers to marks and sheets."""

    pieces: tuple[Piece, ...]
    saw: PanelSaw
    keys: tuple[Key, ...]
    kinds: tuple[StockSheet, ...]
    unit: int
    kerf: int
    job: SheetJob | None
    priced: bool
    troubles: tuple[Trouble, ...]

    def waiting(self) -> Iterator[Counter[str]]:
        """For each key, how many parts of each mark want it."""
        for key in self.keys:
            yield Counter({p.mark: p.count for p in self.pieces if key_of(p) == key})


def key_of(piece: Piece) -> Key:
    """The saw's view of a part on a sheet with grain."""
    return Key(up(piece.length), up(piece.width), piece.grain != "across", piece.grain != "along")


def mode_of(saw: PanelSaw) -> Mode:
    """How parts may lie in a strip, from the stages that the saw is given."""
    if saw.stages <= 2:
        return "single" if saw.recut else "level"
    return "recut" if saw.recut else "stack"


def read_sheets(
    pieces: Sequence[Piece], stock: Sequence[StockSheet], saw: PanelSaw
) -> SheetReading:
    """Turn the input into whole numbers; what can't be cut becomes a trouble."""
    kinds = tuple(
        sorted(
            (s for s in stock if s.available != 0 and min(_room(s, saw)) > 0),
            key=lambda s: (not s.offcut, s.length * s.width, s.price or 0.0, s.name),
        )
    )
    fits = [p for p in pieces if p.count > 0 and any(_fits(p, s, saw) for s in kinds)]
    keys = tuple(sorted({key_of(p) for p in fits}, reverse=True))
    kerf = up(saw.kerf)
    unit = common(n + kerf for key in keys for n in (key.length, key.width))
    priced = all(s.price is not None for s in kinds if not s.offcut)
    return SheetReading(
        pieces=tuple(pieces),
        saw=saw,
        keys=keys,
        kinds=kinds,
        unit=unit,
        kerf=kerf,
        job=_job(fits, keys, kinds, saw, unit) if keys else None,
        priced=priced,
        troubles=tuple(_troubles(pieces, kinds, fits, saw)),
    )


def _room(stock: StockSheet, saw: PanelSaw) -> Size:
    return down(stock.length) - 2 * up(saw.trim), down(stock.width) - 2 * up(saw.trim)


def _fits(piece: Piece, stock: StockSheet, saw: PanelSaw) -> bool:
    length, width = _room(stock, saw)
    key = key_of(piece)
    if min(key.length, key.width) <= 0:
        return False
    along = (key.along or not stock.grain) and key.length <= length and key.width <= width
    across = (key.across or not stock.grain) and key.width <= length and key.length <= width
    return along or across


def _job(
    fits: Sequence[Piece],
    keys: tuple[Key, ...],
    kinds: tuple[StockSheet, ...],
    saw: PanelSaw,
    unit: int,
) -> SheetJob:
    kerf = up(saw.kerf)
    wanted: Counter[Key] = Counter()
    for piece in fits:
        wanted[key_of(piece)] += piece.count
    free = not any(s.grain for s in kinds)
    rooms = tuple(
        ((a + kerf) // unit, (b + kerf) // unit) for a, b in (_room(s, saw) for s in kinds)
    )
    return SheetJob(
        sizes=tuple(((k.length + kerf) // unit, (k.width + kerf) // unit) for k in keys),
        turns=tuple((True, True) if free else (k.along, k.across) for k in keys),
        demand=tuple(wanted[k] for k in keys),
        rooms=rooms,
        prices=tuple(0 if s.offcut else round((s.price or 0.0) * 100) for s in kinds),
        limits=tuple(1 if s.offcut and s.available is None else s.available for s in kinds),
        offcuts=tuple(s.offcut for s in kinds),
        mode=mode_of(saw),
    )


def _troubles(
    pieces: Sequence[Piece],
    kinds: Sequence[StockSheet],
    fits: Sequence[Piece],
    saw: PanelSaw,
) -> Iterator[Trouble]:
    largest = max(kinds, key=lambda s: s.length * s.width).name if kinds else ""
    for piece in pieces:
        if piece.count > 0 and piece not in fits:
            yield _misfit(piece, kinds, saw, largest)
        elif min(piece.length, piece.width) < saw.kerf:
            yield Trouble(
                code="part-thinner-than-kerf",
                mark=piece.mark,
                text=f"part {piece.mark} is narrower than the saw's cut",
                measured=min(piece.length, piece.width),
                limit=saw.kerf,
                blocks=False,
            )
        elif min(piece.length, piece.width) < saw.narrowest:
            yield Trouble(
                code="strip-too-narrow",
                mark=piece.mark,
                text=f"part {piece.mark} is narrower than the saw can hold",
                measured=min(piece.length, piece.width),
                limit=saw.narrowest,
                blocks=False,
            )
    for kind in kinds:
        if kind.price is None and not kind.offcut:
            yield Trouble(
                code="no-price",
                stock=kind.name,
                text=f"no price for {kind.name}: the plan counts sheets only",
                blocks=False,
            )


def _misfit(piece: Piece, kinds: Sequence[StockSheet], saw: PanelSaw, largest: str) -> Trouble:
    turned = Piece(mark=piece.mark, length=piece.length, width=piece.width, grain="free")
    if any(_fits(turned, s, saw) for s in kinds):
        code, text = "grain-not-met", f"part {piece.mark} fits only with its grain turned"
    else:
        code, text = "part-too-large", f"part {piece.mark} is larger than any sheet"
    return Trouble(code=code, mark=piece.mark, stock=largest, text=text, measured=piece.length)
