"""What to buy and to borrow: tools, drills, boards, bars, hardware, glue and finish."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.book import finishing
from flatpack.drawings.book.content import Block, Chapter, Para, Rows
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.figures import mm
from flatpack.drawings.tools import drill_list, tool_list
from flatpack.profiles import Finish
from flatpack.wording import book_english as words
from flatpack.wording import english

_OFF = 0.3
"""A board's thickness that is further off than this needs a new print, mm (common practice)."""

_WHOLE = 13.0
"""Wood bits thicker than this are sold by the whole mm (common practice, no source)."""


def needed(m: Matter) -> Chapter:
    """The chapter."""
    return Chapter("needed", words.CHAPTERS["needed"], tuple(_needed(m)))


def _needed(m: Matter) -> Iterator[Block]:
    tools = tool_list(m.assembly, m.parts, m.settings.drawing)
    yield Rows(words.TOOLS, english.TOOLS_HEADER, tuple(tuple(map(str, r)) for r in tools.rows))
    drills = _drills(m)
    yield drills
    odd = [float(r[1]) for r in drills.rows if float(r[1]) > _WHOLE and float(r[1]) % 1.0 > 0.05]
    if odd:
        yield Para(words.odd_bits([(mm(size), f"{int(size)}") for size in odd]))
    header = m.headed(words.BOARDS_HEADER, words.BOARDS_HEADER[1:2])
    yield Rows(words.BOARDS, header, tuple(_boards(m)), frozenset({1, 2, 3}))
    yield Para(words.MEASURE_BOARD.format(m.said(_OFF)))
    if m.bars:
        yield bars(m)
    hardware = tuple((h.item, h.size, str(h.pieces), h.use) for h in m.assembly.hardware)
    yield Rows(words.HARDWARE, english.HARDWARE_HEADER, hardware, frozenset({2}))
    yield Rows(words.STUFF, words.STUFF_HEADER, tuple(_stuff(m)))
    yield Para(words.ALSO)


def _drills(m: Matter) -> Rows:
    """Bits are sold by the millimetre, so their diameters stay in mm."""
    table = drill_list(m.assembly, m.parts, m.settings.drawing)
    header = tuple(f"{h}, mm" if h == english.DRILLS_HEADER[1] else h for h in table.header)
    rows = (tuple(mm(c) if isinstance(c, float) else str(c) for c in r) for r in table.rows)
    return Rows(words.DRILLS, header, tuple(rows), frozenset({1, 3}))


def _boards(m: Matter) -> Iterator[tuple[str, ...]]:
    for name in dict.fromkeys(g.part.board.name for g in m.parts):
        own = [g for g in m.parts if g.part.board.name == name]
        area = sum(g.part.length * g.part.width * g.count for g in own) * 1e-6
        thick = own[0].part.board.thickness
        yield name, m.size(thick), str(sum(g.count for g in own)), f"{area:.2f}"


def bars(m: Matter) -> Rows:
    """Round bars to cut."""
    rows = tuple(
        (g.mark, g.bar.name, str(g.count), m.size(g.bar.length), m.size(g.bar.stock.diameter),
         g.bar.stock.name)
        for g in m.bars
    )  # fmt: skip
    header = m.headed(words.BARS_HEADER, words.BARS_HEADER[3:5])
    return Rows(words.BARS, header, rows, frozenset({2, 3, 4}))


def _stuff(m: Matter) -> Iterator[tuple[str, ...]]:
    glue, found = m.settings.glue, finishing.areas(m.assembly)
    if glue is None:
        yield words.GLUE, words.NOT_CHOSEN, "", ""
    else:
        yield words.GLUE, glue.name, words.glue_spread(glue.spread), glue.source
    yield _coats(words.SEALER, m.settings.sealer, found.ends)
    yield _coats(words.FINISH, m.settings.finish, found.surface)


def _coats(use: str, finish: Finish | None, area: float) -> tuple[str, ...]:
    if finish is None:
        return use, words.NOT_CHOSEN, "", ""
    litres = finishing.quantity(area, finish)
    said = words.litres(f"{litres.least:.2f}", f"{litres.most:.2f}", finish.coats)
    return use, finish.name, said, finish.source
