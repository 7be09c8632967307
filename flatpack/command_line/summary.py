"""What to cut and what to buy, on the terminal; the files say more."""

from __future__ import annotations

from collections.abc import Iterable

from flatpack.command_line.terminal import Terminal, table
from flatpack.drawings.page import Cell, Sheet, Table

#: Name of the list -> how many of its columns, from the left, stand on the terminal.
_SHOWN = {"cutting-list": 8, "bars": 6, "hardware": 3}


def show(sheets: Iterable[Sheet], terminal: Terminal) -> None:
    """Cutting list, round bars and hardware."""
    lists = {s.content.name: s.content for s in sheets if isinstance(s.content, Table)}
    for name, columns in _SHOWN.items():
        if name in lists:
            _show(lists[name], columns, terminal)


def _show(made: Table, columns: int, terminal: Terminal) -> None:
    terminal.say(terminal.styled(made.title, "bold"))
    rows = [[_shown(cell) for cell in row[:columns]] for row in made.rows]
    for line in table(made.header[:columns], rows):
        terminal.say(f"  {line}")
    terminal.say()


def _shown(cell: Cell) -> str:
    return f"{cell:.1f}".removesuffix(".0") if isinstance(cell, float) else str(cell)
