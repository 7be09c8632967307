"""`summary.csv` and the overview, written row by row from the ledger and the variants' folders."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any

from flatpack.batch.building import PICTURE
from flatpack.batch.folder import BatchFolder
from flatpack.batch.ledger import Entry, Ledger
from flatpack.batch.names import SUMMARY
from flatpack.batch.row import COLUMNS, MONEY
from flatpack.drawings.page import Cell
from flatpack.wording import english_batch as words
from flatpack.writers import table_csv
from flatpack.writers.numerals import short
from flatpack.writers.overview_html import Line, Overview, head, line, tail

PAGE = 500
"""Variants on one page of the overview: more make a browser slow."""


def report(
    ledger: Ledger, folder: BatchFolder, money: bool
) -> Iterator[tuple[str, Iterable[bytes]]]:
    """Name and content of each file; `money` adds price and waste.

    Raises:
        OSError: a picture can't be read.
    """
    yield SUMMARY, _summary(ledger, folder, money)
    counts = ledger.counts()
    pages = max(1, -(-sum(counts.values()) // PAGE))
    entries = iter(ledger)
    for number in range(1, pages + 1):
        some = islice(entries, PAGE)
        yield _file(number), _page(number, pages, counts, _lines(some, folder, money), money)


def _file(number: int) -> str:
    return "overview.html" if number == 1 else f"overview-{number}.html"


def _columns(money: bool) -> tuple[tuple[str, str], ...]:
    return (*COLUMNS, *MONEY) if money else COLUMNS


def _summary(ledger: Ledger, folder: BatchFolder, money: bool) -> Iterator[bytes]:
    heads = [title for _, title in _columns(money)]
    yield table_csv.render((), [words.NAME, words.STATE, *heads, words.PROBLEM, words.PLACE])
    for entry in ledger:
        row = _row(entry, folder)
        cells = [_plain(row.get(key, "")) for key, _ in _columns(money)]
        every = [entry.name, words.STATES[entry.state], *cells, _problem(entry), entry.place]
        yield table_csv.row(every)


def _row(entry: Entry, folder: BatchFolder) -> dict[str, Any]:
    """The columns of a variant that has a folder of this run; empty where nothing was built."""
    if not entry.own or entry.state in ("failed", "stopped"):
        return {}
    card = folder.card(entry.name)
    return card["row"] if card is not None else {}


def _problem(entry: Entry) -> str:
    """Faults stand among the findings already."""
    return "" if entry.state == "faults" else entry.problem


def _plain(value: Any) -> Cell:
    if isinstance(value, list):
        return "; ".join(map(short, value))
    return value if isinstance(value, str | int | float) else ""


def _lines(entries: Iterable[Entry], folder: BatchFolder, money: bool) -> Iterator[Line]:
    for entry in entries:
        row = _row(entry, folder)
        cells = tuple(_plain(row.get(key, "")) for key, _ in _columns(money))
        picture = folder.path / entry.name / PICTURE
        yield Line(
            name=entry.name,
            link=f"{entry.name}/" if entry.own and row else "",
            state=words.STATES[entry.state],
            bad=entry.state != "made",
            cells=cells,
            problem=_problem(entry),
            picture=picture.read_text(encoding="utf-8") if row else "",
        )


def _page(
    number: int, pages: int, counts: dict[str, int], lines: Iterable[Line], money: bool
) -> Iterator[bytes]:
    heads = [title for _, title in _columns(money)]
    about = Overview(
        title=words.TITLE if pages == 1 else f"{words.TITLE}, {words.page(number, pages)}",
        lines=(words.counted(counts), words.SIZES, words.CAUTION),
        header=(words.PICTURE, words.NAME, words.STATE, *heads, words.PROBLEM),
        sort=words.SORT,
        pages=tuple((words.page(n, pages), _file(n)) for n in range(1, pages + 1) if pages > 1),
    )
    yield head(about)
    for one in lines:
        yield line(one)
    yield tail()
