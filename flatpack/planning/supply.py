"""The stock list's rows as stock for the cutting plans; sizes of the board's profile in default."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from flatpack.cutting import PanelSaw, StockLength, StockSheet
from flatpack.cutting.nest_records import Blank
from flatpack.finding import Finding
from flatpack.geometry import Outline, closed
from flatpack.geometry.shapes import rectangle
from flatpack.planning import told
from flatpack.profiles import Board, LengthRow, Rod, RodRow, Saws, SheetRow, Stock
from flatpack.wording import english_plans as words

_SAME = 0.05


def figure(value: float) -> str:
    """Length to 0.1 mm without an idle zero."""
    return f"{value:.1f}".removesuffix(".0")


def lengths_of(board: Board, width: float, stock: Stock) -> tuple[StockLength, ...]:
    """What can be bought of a planed board in one width, and what lies in the rack.

    Rows that give a length replace the lengths of the profile; a row without one prices these.
    """
    rows = _board_rows(board, width, stock)
    return tuple(_lengths(rows, board.lengths, _wide(board, width)))


def rods_of(rod: Rod, stock: Stock) -> tuple[StockLength, ...]:
    """What can be bought of a round bar, and what lies in the rack."""
    return tuple(_lengths(_rod_rows(rod, stock), rod.lengths, rod.name))


def boards_in_rack(
    board: Board, width: float, stock: Stock
) -> Iterator[tuple[LengthRow | RodRow, StockLength]]:
    """Offcuts of a planed board: rows, and what they are in the plans."""
    return _in_rack(_board_rows(board, width, stock), _wide(board, width))


def rods_in_rack(rod: Rod, stock: Stock) -> Iterator[tuple[LengthRow | RodRow, StockLength]]:
    """Offcuts of a round bar: rows, and what they are in the plans."""
    return _in_rack(_rod_rows(rod, stock), rod.name)


def _board_rows(board: Board, width: float, stock: Stock) -> list[LengthRow]:
    return [r for r in stock.boards if r.board == board.key and abs(r.width - width) < _SAME]


def _rod_rows(rod: Rod, stock: Stock) -> list[RodRow]:
    return [r for r in stock.rods if r.rod == rod.key]


def _wide(board: Board, width: float) -> str:
    return f"{board.name} {figure(width)} wide"


def _in_rack(
    rows: Sequence[LengthRow] | Sequence[RodRow], name: str
) -> Iterator[tuple[LengthRow | RodRow, StockLength]]:
    for number, row in enumerate((r for r in rows if r.length is not None and r.offcut), 1):
        yield row, _length(row, float(row.length or 0.0), words.offcut_name(name, number))


def _lengths(
    rows: Sequence[LengthRow] | Sequence[RodRow], sold: Sequence[float], name: str
) -> Iterator[StockLength]:
    yield from (length for _, length in _in_rack(rows, name))
    named = [r for r in rows if r.length is not None and not r.offcut]
    if named:
        for row in named:
            yield _length(row, float(row.length or 0.0), name)
        return
    by_metre = next((r for r in rows if r.length is None), None)
    for length in sold:
        yield _length(by_metre, length, name)


def _length(row: LengthRow | RodRow | None, length: float, name: str) -> StockLength:
    title = f"{name}, {figure(length)} long"
    if row is None:
        return StockLength(name=title, length=length)
    price = row.price
    if price is None and row.per_metre is not None:
        price = round(row.per_metre * length / 1000.0, 2)
    return StockLength(
        name=title,
        length=length,
        price=0.0 if row.offcut else price,
        available=row.available,
        defects=getattr(row, "defects", ()),
        offcut=row.offcut,
    )


def _sheet_rows(board: Board, stock: Stock) -> list[SheetRow]:
    """Rows of a board; the sizes of its profile where none is for sale."""
    rows = [r for r in stock.sheets if r.board == board.key]
    if all(r.offcut for r in rows):
        rows += [SheetRow(board=board.key, length=a, width=b) for a, b in board.sheets]
    return rows


def named_sheets(board: Board, stock: Stock) -> Iterator[tuple[str, SheetRow]]:
    """Rows of a board, each with the name that it has in the plans."""
    for number, row in enumerate(_sheet_rows(board, stock), 1):
        name = f"{board.name}, {figure(row.length)} x {figure(row.width)}"
        yield words.offcut_name(name, number) if row.offcut else name, row


def sheets_of(board: Board, stock: Stock) -> tuple[tuple[StockSheet, ...], tuple[Finding, ...]]:
    """Sheets for the panel saw, and those that don't fit it or aren't rectangles."""
    found: list[StockSheet] = []
    news: list[Finding] = []
    for name, row in named_sheets(board, stock):
        if row.outline:
            news.append(told.told("no-rectangle", "note", words.not_for_saw(name)))
        elif _too_large(row, stock.saws):
            news.append(told.told("over-saw", "warning", words.over_saw(name)))
        else:
            found.append(
                StockSheet(
                    name=name,
                    length=row.length,
                    width=row.width,
                    price=0.0 if row.offcut else row.price,
                    available=row.available,
                    offcut=row.offcut,
                    grain=board.grain,
                )
            )
    return tuple(found), tuple(news)


def _too_large(row: SheetRow, saws: Saws) -> bool:
    return (0.0 < saws.longest < row.length) or (0.0 < saws.widest < row.width)


def panel_saw(saws: Saws) -> PanelSaw:
    """The panel saw as the cutting plan takes it."""
    return PanelSaw(
        kerf=saws.kerf,
        trim=saws.trim,
        stages=saws.stages,
        narrowest=saws.narrowest,
        keep_length=saws.keep_length,
        keep_width=saws.keep_width,
    )


def blanks_of(
    board: Board, stock: Stock, bed: tuple[float, float] | None, clamps: Iterable[Outline] = ()
) -> tuple[tuple[Blank, ...], tuple[Finding, ...]]:
    """Sheets and offcuts for a machine; a sheet larger than its bed is parted on the saw first."""
    held = tuple(clamps)
    found: list[Blank] = []
    news: list[Finding] = []
    for name, row in named_sheets(board, stock):
        whole = Blank(
            name=name,
            outline=_outline(row),
            clamps=held,
            price=0.0 if row.offcut else row.price,
            available=row.available,
            offcut=row.offcut,
        )
        if bed is None or row.outline or _on_bed(row, bed):
            found.append(whole)
            continue
        sizes = parted(row, bed, stock.saws)
        said = [f"{figure(a)} x {figure(b)}" for a, b in sizes]
        news.append(told.told("over-bed", "warning", words.over_bed(name, said)))
        for number, (size, text) in enumerate(zip(sizes, said, strict=True), 1):
            piece = words.parted_name(name, number, len(sizes), text)
            found.append(replace(whole, name=piece, outline=rectangle(*size), of=name))
    return tuple(found), tuple(news)


def parted(row: SheetRow, bed: tuple[float, float], saws: Saws) -> tuple[tuple[float, float], ...]:
    """Pieces (length, width) that a sheet is sawn into, as large as the bed, then what is left."""
    lengths = _shares(row.length, bed[0], saws)
    widths = _shares(row.width, bed[1], saws)
    return tuple((a, b) for b in widths for a in lengths)


def _shares(whole: float, most: float, saws: Saws) -> list[float]:
    made: list[float] = []
    while whole >= saws.keep_width or not made:
        made.append(min(most, whole))
        whole -= made[-1] + saws.kerf
    return made


def _on_bed(row: SheetRow, bed: tuple[float, float]) -> bool:
    return row.length <= bed[0] + _SAME and row.width <= bed[1] + _SAME


def _outline(row: SheetRow) -> Outline:
    if not row.outline:
        return rectangle(row.length, row.width)
    made = closed((x, y, 0.0) for x, y in row.outline)
    return made if made.area > 0.0 else made.reversed()
