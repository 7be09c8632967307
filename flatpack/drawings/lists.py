"""Lists for the merchant and the bench: cutting, bars, hardware, jig, spacers, workings."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.figures import mm, shown
from flatpack.drawings.holes import csv_rows
from flatpack.drawings.marks import PartGroup, bar_groups
from flatpack.drawings.operations import distinct_features
from flatpack.drawings.page import Table
from flatpack.drawings.settings import Settings
from flatpack.model import Assembly, Feature, Part, is_shaped
from flatpack.wording import english as words
from flatpack.wording import english_saw as saw

SAME = 0.05
"""Widths nearer to one another than this are one width, mm."""

Found = tuple[PartGroup, ...]
Rows = tuple[tuple[str | float | int, ...], ...]


def made(name: str, header: tuple[str, ...], rows: Rows) -> Table:
    """A table with its title."""
    return Table(name=name, title=words.TITLES[name], header=header, rows=rows)


def pair_note(group: PartGroup, found: Found) -> str:
    """That a part has another hand, and whether as many are made of it."""
    other = {"-L": "-R", "-R": "-L"}.get(group.mark[-2:], "")
    twin = next((g for g in found if other and g.mark == group.mark[:-2] + other), None)
    if twin is None or twin.count != group.count:
        return words.MIND_HAND
    return words.PAIR if group.count == 1 else words.PAIRS.format(group.count)


def cutting_list(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """Finished sizes; the outline's rounding and notches are cut from these."""
    rows = tuple(
        (
            g.mark, g.part.name, words.HANDS[g.part.hand], g.count, shown(g.part.length),
            shown(g.part.width), shown(g.part.thickness), g.part.board.name,
            words.GRAIN_LENGTHWISE if g.part.board.grain else words.GRAIN_FREE,
            _ripped_from(g.part), "; ".join(_cutting_notes(g, found)),
        )
        for g in found
    )  # fmt: skip
    return made("cutting-list", words.CUTTING_HEADER, rows)


def _cutting_notes(group: PartGroup, found: Found) -> Iterator[str]:
    if group.part.hand:
        yield pair_note(group, found)
    if is_shaped(group.part):
        yield saw.LONG_POINTS


def _bought(part: Part) -> float | None:
    """Width of the planed board that a part comes from; None for a sheet, or where none will do."""
    board = part.board
    if board.kind != "planed":
        return None
    return min((w for w in board.widths if w > part.width - SAME), default=None)


def _ripped_from(part: Part) -> str | float:
    """The width sold that a narrower part is ripped from; empty where it is sold as wide."""
    width = _bought(part)
    return "" if width is None or width - part.width < SAME else shown(width)


def timber_list(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """What the parts add up to, by board and by width as sold; how to order it is another plan."""
    alike: dict[tuple[str, float, float], list[PartGroup]] = {}
    for group in found:
        board = group.part.board
        key = board.name, shown(group.part.thickness), _bought(group.part) or 0.0
        alike.setdefault(key, []).append(group)
    rows = tuple(_timber(*key, same) for key, same in sorted(alike.items()))
    return made("timber", words.TIMBER_HEADER, rows)


def _timber(
    board: str, thickness: float, sold: float, same: list[PartGroup]
) -> tuple[str | float | int, ...]:
    length = sum(g.count * g.part.length for g in same) / 1000.0
    area = sum(g.count * g.part.length * g.part.width for g in same) / 1e6
    planed = same[0].part.board.kind == "planed"
    width = words.FROM_SHEET if not planed else shown(sold) if sold else words.TOO_WIDE
    note = words.NET_BOARDS if planed else words.NET_SHEETS
    count, longest = sum(g.count for g in same), max(g.part.length for g in same)
    return (
        board, thickness, width, count, shown(longest), round(length, 2), round(area, 3), note,
    )  # fmt: skip


def with_code(table: Table, assembly: Assembly, settings: Settings) -> Table:
    """The table with piece and content code in columns of their own, last in every row.

    A row of its own would get into a spreadsheet's sums and filters.
    """
    rows = tuple((*row, assembly.name, settings.code) for row in table.rows)
    return Table(name=table.name, title=table.title,
                 header=(*table.header, *words.CODE_COLUMNS), rows=rows)  # fmt: skip


def bar_list(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """Round bars to cut."""
    rows = tuple(
        (g.mark, g.bar.name, g.count, shown(g.bar.length), g.bar.stock.diameter,
         g.bar.stock.name, g.bar.fit)
        for g in bar_groups(assembly)
    )  # fmt: skip
    return made("bars", words.BARS_HEADER, rows)


def hardware_list(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """What to buy."""
    rows = tuple((h.item, h.size, h.pieces, h.use) for h in assembly.hardware)
    return made("hardware", words.HARDWARE_HEADER, rows)


def jig_settings(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """How to set the pocket-hole jig: one row a part and setting."""
    counts: dict[tuple[str, ...], int] = {}
    for group in found:
        for f in distinct_features(group):
            if f.operation == "pocket-hole":
                row = (group.mark, group.part.name, group.part.board.name, *_setting(f))
                counts[row] = counts.get(row, 0) + group.count
    rows: Rows = tuple((*row, count) for row, count in counts.items())
    return made("jig-settings", words.JIG_HEADER, rows)


def _setting(feature: Feature) -> tuple[str, ...]:
    """What a pocket hole says of its jig, drill and screw."""
    slope, drill, pilot = (
        float(getattr(feature, name, 0.0)) for name in ("slope", "diameter", "pilot")
    )
    collar, screw = (str(getattr(feature, name, "")) for name in ("collar", "screw"))
    return collar, f"{slope:g}°", f"Ø{mm(drill)}", f"Ø{mm(pilot)}", screw


def spacer_list(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """Gap spacers and stop blocks."""
    rows = tuple(
        (s.name, s.pieces, shown(s.length), shown(s.width), s.use) for s in assembly.spacers
    )
    return made("spacers", words.SPACERS_HEADER, rows)


def workings(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """Each derived dimension with the sum that gave it."""
    rows = tuple((w.name, shown(w.value), w.unit, w.sum) for w in assembly.workings)
    return made("workings", words.WORKINGS_HEADER, rows)


def hole_list(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """Every hole of every part."""
    return made("holes", words.HOLE_ROWS_HEADER, csv_rows(found))
