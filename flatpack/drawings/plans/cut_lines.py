"""Where each cut of a saw plan runs: the list of cuts carried out on the sheet.

The fence lies at the low side of a piece, so what a cut gives is its low part; the rest keeps its
name and moves on by the setting and the width of the cut.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from flatpack.cutting import Cut, CutSheet, PanelSaw
from flatpack.drawings.boxes import Box
from flatpack.wording import english_plan_pages as words


class CutLine(NamedTuple):
    """A cut, its middle line on the sheet (x0, y0, x1, y1), and the box of what it gives."""

    cut: Cut
    line: Box
    gives: Box


def cut_lines(sheet: CutSheet, saw: PanelSaw) -> Iterator[CutLine]:
    """Every cut of the sheet in order; x along the sheet, y across, from the datum corner."""
    return iter(_carried_out(sheet, saw)[0])


def left_over(sheet: CutSheet, saw: PanelSaw) -> dict[str, str]:
    """Pieces that are parts once all is cut, without a cut of their own: name -> mark.

    The last part of a strip is what remains of it.
    """
    lines, boxes = _carried_out(sheet, saw)
    cut_free = Counter((line.cut.gives, _rounded(line.gives)) for line in lines
                       if line.cut.finished)  # fmt: skip
    waiting = Counter((p.mark, _rounded((p.x, p.y, p.x + p.length, p.y + p.width)))
                      for p in sheet.parts) - cut_free  # fmt: skip
    marks = {box: mark for mark, box in sorted(waiting)}
    ends = {name: marks.get(_rounded(box), "") for name, box in boxes.items()}
    ready = {line.cut.gives for line in lines if line.cut.finished}
    return {name: mark for name, mark in ends.items() if mark and name not in ready}


def _rounded(box: Box) -> tuple[float, ...]:
    return tuple(round(v, 1) + 0.0 for v in box)


def _carried_out(sheet: CutSheet, saw: PanelSaw) -> tuple[list[CutLine], dict[str, Box]]:
    """Every cut with its line, and the box of every named piece in the end."""
    boxes: dict[str, Box] = {"sheet": (0.0, 0.0, sheet.stock.length, sheet.stock.width)}
    made: list[CutLine] = []
    trimmed: set[str] = set()
    for cut in sheet.cuts:
        x0, y0, x1, y1 = boxes[cut.of]
        far = cut.stage == 0 and cut.way in trimmed
        if cut.way == "rip":
            at = y1 - cut.setting if far else y0 + cut.setting
            gives = (x0, at, x1, y1) if far else (x0, y0, x1, at)
        else:
            at = x1 - cut.setting if far else x0 + cut.setting
            gives = (at, y0, x1, y1) if far else (x0, y0, at, y1)
        # A trim's setting holds the cut already.
        lost = 0.0 if cut.stage == 0 else saw.kerf
        boxes[cut.of] = _rest((x0, y0, x1, y1), cut.way == "rip", at, lost, far)
        boxes[cut.gives] = gives
        if cut.stage == 0:
            trimmed.add(cut.way)
        middle = at + lost / 2.0
        line = (x0, middle, x1, middle) if cut.way == "rip" else (middle, y0, middle, y1)
        made.append(CutLine(cut, line, gives))
    return made, boxes


def _rest(box: Box, rip: bool, at: float, lost: float, far: bool) -> Box:
    x0, y0, x1, y1 = box
    if far:
        return (x0, y0, x1, at) if rip else (x0, y0, at, y1)
    return (x0, at + lost, x1, y1) if rip else (at + lost, y0, x1, y1)


class Row(NamedTuple):
    """Like cuts one after another: first and last number, the first of them, what they give.

    `gives` also says when a piece, or what remains of one, is a part.
    """

    first: int
    last: int
    cut: Cut
    gives: str


def rows(sheet: CutSheet, saw: PanelSaw) -> tuple[Row, ...]:
    """Cuts with the same fence, piece and result in one row."""
    made: list[Row] = []
    for cut in sheet.cuts:
        if made and _alike(made[-1].cut, cut):
            made[-1] = made[-1]._replace(last=cut.number)
        else:
            made.append(Row(cut.number, cut.number, cut, ""))
    ends = left_over(sheet, saw)
    last = {row.cut.of: row.first for row in made}
    return tuple(row._replace(gives=_told(row, ends, last)) for row in made)


def _told(row: Row, ends: Mapping[str, str], last: Mapping[str, int]) -> str:
    cut = row.cut
    if cut.stage == 0:
        return words.TRIMMED[cut.way]
    gives = words.is_part(cut.gives, ends[cut.gives]) if (
        cut.gives in ends and cut.gives not in last) else cut.gives  # fmt: skip
    if cut.of in ends and last[cut.of] == row.first:
        return words.rest_is_part(gives, ends[cut.of])
    return gives


def _alike(a: Cut, b: Cut) -> bool:
    return (a.stage, a.way, a.setting, a.of, a.gives) == (b.stage, b.way, b.setting, b.of, b.gives)
