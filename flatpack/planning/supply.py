"""The stock list's rows as stock for the cutting plans; sizes of the board's profile in default."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

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
    rows = [r for r in stock.boards if r.board == board.key and abs(r.width - width) < _SAME]
    return tuple(_lengths(rows, board.lengths, f"{board.name} {figure(width)} wide"))


def rods_of(rod: Rod, stock: Stock) -> tuple[StockLength, ...]:
    """What can be bought of a round bar, and what lies in the rack."""
    rows = [r for r in stock.rods if r.rod == rod.key]
    return tuple(_lengths(rows, rod.lengths, rod.name))


def _lengths(
    rows: Sequence[LengthRow] | Sequence[RodRow], sold: Sequence[float], name: str
) -> Iterator[StockLength]:
    named = [r for r in rows if r.length is not None and not r.offcut]
    for number, row in enumerate((r for r in rows if r.length is not None and r.offcut), 1):
        yield _length(row, float(row.length or 0.0), words.offcut_name(name, number))
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


def _sheet_name(board: Board, row: SheetRow, number: int) -> str:
    name = f"{board.name}, {figure(row.length)} x {figure(row.width)}"
    return words.offcut_name(name, number) if row.offcut else name


def sheets_of(board: Board, stock: Stock) -> tuple[tuple[StockSheet, ...], tuple[Finding, ...]]:
    """Sheets for the panel saw, and those that don't fit it or aren't rectangles."""
    found: list[StockSheet] = []
    news: list[Finding] = []
    for number, row in enumerate(_sheet_rows(board, stock), 1):
        name = _sheet_name(board, row, number)
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
    """Sheets and offcuts for a machine; a sheet larger than its bed is cut down to it first."""
    held = tuple(clamps)
    found: list[Blank] = []
    news: list[Finding] = []
    for number, row in enumerate(_sheet_rows(board, stock), 1):
        name, outline = _sheet_name(board, row, number), _outline(row)
        if bed is not None and not row.outline and not _on_bed(row, bed):
            size = min(row.length, bed[0]), min(row.width, bed[1])
            news.append(_over_bed(name, size))
            name, outline = words.cut_down_name(name, *map(figure, size)), rectangle(*size)
        found.append(
            Blank(
                name=name,
                outline=outline,
                clamps=held,
                price=0.0 if row.offcut else row.price,
                available=row.available,
                offcut=row.offcut,
            )
        )
    return tuple(found), tuple(news)


def _on_bed(row: SheetRow, bed: tuple[float, float]) -> bool:
    return row.length <= bed[0] + _SAME and row.width <= bed[1] + _SAME


def _over_bed(name: str, size: tuple[float, float]) -> Finding:
    return told.told("over-bed", "warning", words.over_bed(name, *map(figure, size)))


def _outline(row: SheetRow) -> Outline:
    if not row.outline:
        return rectangle(row.length, row.width)
    made = closed((x, y, 0.0) for x, y in row.outline)
    return made if made.area > 0.0 else made.reversed()
