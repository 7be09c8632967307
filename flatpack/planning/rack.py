"""Offcuts that a plan was given and left in the rack, as rows of a stock list."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from flatpack.planning.making import Plans
from flatpack.planning.supply import boards_in_rack, named_sheets, rods_in_rack
from flatpack.profiles import LengthRow, RodRow, SheetRow, Stock

Row = LengthRow | RodRow | SheetRow


def rack_rows(plans: Plans) -> Iterator[str]:
    """A row for every offcut of the stock list that isn't used up, with how many are left."""
    used = _used(plans)
    names = {id(row): name for row, name in _named(plans)}
    for kind, rows in _offcuts(plans.stock):
        for row in rows:
            left = (1 if row.available is None else row.available) - used[names.get(id(row), "")]
            if left > 0:
                yield _row(kind, row, left)


def _offcuts(stock: Stock) -> Iterator[tuple[str, list[Row]]]:
    yield "boards", [r for r in stock.boards if r.offcut and r.length is not None]
    yield "rods", [r for r in stock.rods if r.offcut and r.length is not None]
    yield "sheets", [r for r in stock.sheets if r.offcut]


def _used(plans: Plans) -> Counter[str]:
    """How many of each offcut the plans take, by name."""
    used = Counter(b.stock.name for p in (*plans.boards, *plans.rods) for b in p.plan.boards)
    used.update(s.stock.name for p in plans.sheets for s in p.plan.sheets)
    for nested in plans.nests:
        pieces = Counter(s.blank for s in nested.nest.sheets)
        for blank, count in pieces.items():
            sheet = blank.of or blank.name
            used[sheet] = max(used[sheet], count)
    return used


def _named(plans: Plans) -> Iterator[tuple[Row, str]]:
    """The rows that the plans could take from, and the names that they have there."""
    stock = plans.stock
    for plan in plans.boards:
        if plan.board is not None:
            in_rack = boards_in_rack(plan.board, plan.width, stock)
            yield from ((row, length.name) for row, length in in_rack)
    for bar in {
        b.stock.key: b.stock for p in plans.pieces for b in p.assembly.bars.values()
    }.values():
        yield from ((row, length.name) for row, length in rods_in_rack(bar, stock))
    for lot in plans.lots:
        yield from ((row, name) for name, row in named_sheets(lot.board, stock))


def _row(kind: str, row: Row, left: int) -> str:
    fields: dict[str, object] = {
        "board": getattr(row, "board", None),
        "rod": getattr(row, "rod", None),
    }
    fields |= {"width": getattr(row, "width", None)} if kind == "boards" else {}
    fields |= {"length": row.length}
    fields |= {"width": getattr(row, "width", None)} if kind == "sheets" else {}
    fields |= {"available": left if left > 1 else None}
    fields |= {name: getattr(row, name, ()) or None for name in ("defects", "outline")}
    return table_row(kind, **{name: v for name, v in fields.items() if v is not None})


def table_row(kind: str, **fields: object) -> str:
    """A table of a stock file, lengths rounded down: a rest is never longer than it says."""
    lines = [f"{name} = {_value(value)}" for name, value in fields.items()]
    return "\n".join([f"\n[[{kind}]]", *lines, "offcut = true"])


def _value(value: object) -> str:
    if isinstance(value, str):
        return f'"{value}"'
    if isinstance(value, tuple):
        return "[" + ", ".join(map(_value, value)) + "]"
    if isinstance(value, float):
        return f"{int(value * 10.0 + 1e-6) / 10.0:.1f}".removesuffix(".0")
    return str(value)
