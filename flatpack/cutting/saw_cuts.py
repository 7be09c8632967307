"""From strips and columns to places in mm and to cuts in the order of the saw.

The sheet is trimmed, all its strips are cut off one after another, widest first, then each strip
is cut into columns and each column into parts.  Equal strips follow one another, so the fence
stays where it is.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Literal

from flatpack.cutting.records import StockSheet
from flatpack.cutting.saw_input import SheetReading
from flatpack.cutting.saw_records import Cut, CutSheet, Laid, Rest
from flatpack.cutting.sheet_view import Column, Layout, Strip
from flatpack.cutting.ticks import down, mm, up

Way = Literal["rip", "cross"]


class _Bench:
    """One sheet being cut: cuts and places so far.  Sizes are true ticks, kerf not included."""

    def __init__(self, reading: SheetReading, stock: StockSheet, across: bool) -> None:
        self.reading, self.stock, self.across = reading, stock, across
        self.kerf, self.trim = reading.kerf, up(reading.saw.trim)
        self.cuts: list[Cut] = []
        self.parts: list[Laid] = []
        self.rests: list[Rest] = []
        sides = down(stock.length) - 2 * self.trim, down(stock.width) - 2 * self.trim
        self.run, self.rise = sides[::-1] if across else sides

    def size(self, extent: int) -> int:
        """True ticks of an extent of the search (units, kerf included)."""
        return extent * self.reading.unit - self.kerf

    def way(self, stage: int) -> Way:
        return "cross" if (stage % 2 == 1) == self.across else "rip"

    def cut(self, stage: int, size: int, of: str, gives: str, finished: bool = False) -> None:
        self.cuts.append(
            Cut(
                number=len(self.cuts) + 1,
                stage=stage,
                way=self.way(stage),
                setting=mm(size),
                of=of,
                gives=gives,
                finished=finished,
            )
        )

    def at(self, x: int, y: int) -> tuple[float, float]:
        """Place on the sheet of a place in the view."""
        x, y = (y, x) if self.across else (x, y)
        return mm(x + self.trim), mm(y + self.trim)

    def rest(self, x: int, y: int, run: int, rise: int) -> None:
        """Note a rest if it is large enough to keep."""
        if min(run, rise) <= 0:
            return
        left, low = self.at(x, y)
        length, width = (rise, run) if self.across else (run, rise)
        saw = self.reading.saw
        if max(length, width) >= up(saw.keep_length) and min(length, width) >= up(saw.keep_width):
            self.rests.append(Rest(x=left, y=low, length=mm(length), width=mm(width)))


def cut_sheet(
    reading: SheetReading, kind: int, layout: Layout, waiting: Sequence[Counter[str]]
) -> CutSheet:
    """The sheet with places and cuts; takes marks for its parts from `waiting`."""
    bench = _Bench(reading, reading.kinds[kind], layout.across)
    _trim_edges(bench)
    strips = sorted(layout.strips, key=lambda s: (-s.y, -sum(c.x for c in s.columns), s))
    y, names = 0, []
    for number, strip in enumerate(strips, 1):
        height = bench.size(strip.y)
        name = f"strip {number}"
        if bench.rise - y > height:
            bench.cut(1, height, "sheet", name)
        else:
            name = "sheet"
        names.append((name, y))
        y += height + bench.kerf
    bench.rest(0, y, bench.run, bench.rise - y)
    for strip, (name, low) in zip(strips, names, strict=True):
        _cut_strip(bench, strip, name, low, waiting)
    return CutSheet(
        stock=bench.stock,
        parts=tuple(bench.parts),
        cuts=tuple(bench.cuts),
        rests=tuple(bench.rests),
    )


def letters(number: int) -> str:
    """Pieces of a strip by letter: a to z, then aa, ab ..."""
    first, last = divmod(number - 1, 26)
    return (letters(first) if first else "") + chr(ord("a") + last)


def _trim_edges(bench: _Bench) -> None:
    if bench.trim:
        for stage in (1, 1, 2, 2):
            way = bench.way(stage)
            number = len(bench.cuts) + 1
            bench.cuts.append(
                Cut(
                    number=number,
                    stage=0,
                    way=way,
                    setting=mm(bench.trim),
                    of="sheet",
                    gives="edge trim",
                )
            )


def _cut_strip(
    bench: _Bench, strip: Strip, name: str, low: int, waiting: Sequence[Counter[str]]
) -> None:
    columns = sorted(strip.columns, key=lambda c: (-c.x, -c.y, c))
    height = bench.size(strip.y)
    x, laid = 0, []
    for number, column in enumerate(columns, 1):
        width = bench.size(column.x)
        whole = len(column.options) == 1 and column.y == strip.y
        label = f"{name} {letters(number)}"
        laid.append((column, label, x))
        if bench.run - x > width:
            mark = _place(bench, column, x, low, waiting) if whole else label
            bench.cut(2, width, name, mark, finished=whole)
        elif whole:
            _place(bench, column, x, low, waiting)
        else:
            laid[-1] = (column, name, x)
        x += width + bench.kerf
    bench.rest(x, low, bench.run - x, height)
    for column, label, left in laid:
        if len(column.options) > 1 or column.y != strip.y:
            _cut_column(bench, column, label, (left, low), height, waiting)


def _place(
    bench: _Bench, column: Column, x: int, y: int, waiting: Sequence[Counter[str]], which: int = 0
) -> str:
    option = column.options[which]
    marks = waiting[option.part]
    mark = min(m for m, n in marks.items() if n > 0)
    marks[mark] -= 1
    run, rise = bench.size(option.x), bench.size(option.y)
    left, low = bench.at(x, y)
    length, width = (rise, run) if bench.across else (run, rise)
    key = bench.reading.keys[option.part]
    bench.parts.append(
        Laid(
            mark=mark,
            x=left,
            y=low,
            length=mm(length),
            width=mm(width),
            turned=(length, width) != (key.length, key.width),
        )
    )
    return mark


def _cut_column(
    bench: _Bench,
    column: Column,
    label: str,
    corner: tuple[int, int],
    height: int,
    waiting: Sequence[Counter[str]],
) -> None:
    x, low = corner
    y = 0
    options = sorted(range(len(column.options)), key=lambda i: (-column.options[i].y, i))
    for which in options:
        option = column.options[which]
        rise = bench.size(option.y)
        mark = _place(bench, column, x, low + y, waiting, which)
        narrow = option.x < column.x
        if height - y > rise:
            bench.cut(3, rise, label, f"{mark} untrimmed" if narrow else mark, not narrow)
        if narrow:
            of = f"{mark} untrimmed" if height - y > rise else label
            bench.cut(4, bench.size(option.x), of, mark, finished=True)
        y += rise + bench.kerf
    bench.rest(x, low + y, bench.size(column.x), height - y)
