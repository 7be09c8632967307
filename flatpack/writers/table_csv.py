"""Tables as CSV (RFC 4180): comma, CRLF at line ends, fields quoted only where they must be.

UTF-8 with its signature in front: without it a common spreadsheet reads "Ø" as two odd signs.  A
text that a spreadsheet would run as a formula gets an apostrophe in front; a negative number or
a lone dash is not such a text.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from flatpack.writers.numerals import short

Cell = str | float | int

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def render(rows: Iterable[Sequence[Cell]], header: Sequence[str], signature: bool = True) -> bytes:
    """The table as CSV, its header first; `signature` puts the UTF-8 signature in front.

    Raises:
        ValueError: a row is shorter or longer than the header, or a number isn't finite.
    """
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow([_cell(title) for title in header])
    for row in rows:
        if len(row) != len(header):
            raise ValueError(f"a row of {len(row)} under a header of {len(header)}: {row!r}")
        writer.writerow([_cell(value) for value in row])
    return stream.getvalue().encode("utf-8-sig" if signature else "utf-8")


def row(cells: Sequence[Cell]) -> bytes:
    """One row by itself, for a table that is written piece by piece.

    Raises:
        ValueError: a number isn't finite.
    """
    stream = io.StringIO()
    csv.writer(stream, lineterminator="\r\n").writerow([_cell(value) for value in cells])
    return stream.getvalue().encode()


def _cell(value: Cell) -> str:
    if isinstance(value, str):
        return f"'{value}" if _is_formula(value) else value
    return str(value) if isinstance(value, int) else short(value)


def _is_formula(text: str) -> bool:
    if not text.startswith(_FORMULA) or set(text) <= {"-"}:
        return False
    try:
        float(text)
    except ValueError:
        return True
    return text[0] in "\t\r"
