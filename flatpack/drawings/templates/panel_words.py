"""What a panel says above its drawing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from flatpack.drawings.figures import mm
from flatpack.drawings.part_view import hidden_count
from flatpack.wording import english_templates as words

if TYPE_CHECKING:
    from flatpack.drawings.templates.panel import Panel

Texts = list[tuple[str, float, bool]]


def texts(panel: Panel) -> Texts:
    """Words above the drawing: (text, height, bold)."""
    part, window = panel.window.part, panel.window
    heading = words.marks_heading(
        [g.mark for g in panel.groups], part.name, [g.part.hand for g in panel.groups]
    )
    return [
        (heading, 3.5, True),
        (words.lay_on(window.face, window.left), 2.5, True),
        *((line, 2.5, False) for line in _sentences(panel)),
    ]


def _sentences(panel: Panel) -> Iterator[str]:
    window, tile = panel.window, panel.shown[0].tile
    yield words.LINE_UP
    if tile.sheets > 1:
        yield words.tile(*tile.place)
    hidden = hidden_count(window.part, window.face)
    if not window.first:
        yield words.SECOND_FACE
    elif hidden:
        yield words.under_here(hidden, "back" if window.face == "show" else "show")
    count = sum(g.count for g in panel.groups)
    stock = words.stock(count, mm(window.part.thickness), panel.piece, panel.code)
    if panel.others:
        yield words.other_hand(", ".join(panel.others))
        yield stock
    else:
        yield f"{words.NOT_HANDED} {stock}"
