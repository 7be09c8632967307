"""What a panel says above its drawing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from flatpack.drawings.figures import mm
from flatpack.drawings.part_view import hidden_count, slanting_lines
from flatpack.drawings.templates.window_spots import along_edge
from flatpack.wording import english_templates as words

if TYPE_CHECKING:
    from flatpack.drawings.templates.panel import Panel
    from flatpack.drawings.templates.windows import Window

Texts = list[tuple[str, float, bool]]


def heading(panel: Panel) -> Texts:
    """First words, beside the map: (text, height, bold)."""
    part, window = panel.window.part, panel.window
    said = words.marks_heading(
        [g.mark for g in panel.groups], part.name, [g.part.hand for g in panel.groups]
    )
    size = mm(part.length), mm(part.width), mm(part.thickness)
    return [
        (said, 3.5, True),
        (words.lay_on(window.face, window.left), 2.5, True),
        (words.stock(sum(g.count for g in panel.groups), size), 2.5, False),
    ]


def sentences(panel: Panel) -> Texts:
    """Words above the drawing, as wide as it."""
    return [(" ".join(_sentences(panel)), 2.5, False)]


def _sentences(panel: Panel) -> Iterator[str]:
    window, tile = panel.window, panel.shown[0].tile
    yield from _in_piece(panel)
    if tile.sheets > 1:
        yield words.tile(*tile.place)
    yield from _slanting(window)
    hidden = hidden_count(window.part, window.face)
    if not window.first:
        yield words.SECOND_FACE
    elif hidden:
        yield words.under_here(hidden, "back" if window.face == "show" else "show")
    yield from _pockets(window)
    yield words.other_hand(", ".join(panel.others)) if panel.others else words.NOT_HANDED


def _in_piece(panel: Panel) -> Iterator[str]:
    """Where the datum end and the face look, of all parts at once where they agree."""
    face = panel.window.face
    said = {
        g.mark: words.place(panel.told.ends[g.mark], panel.told.looks.get((g.mark, face), ""))
        for g in panel.groups
    }
    for text in filter(None, dict.fromkeys(said.values())):
        whose = [mark for mark, own in said.items() if own == text]
        yield text if len(set(said.values())) == 1 else f"{', '.join(whose)}: {text}"


def _slanting(window: Window) -> Iterator[str]:
    """Cuts that aren't square, with a stop like the other sentences."""
    yield from (f"{line[0].upper()}{line[1:]}." for line in slanting_lines(window.part))


def _pockets(window: Window) -> Iterator[str]:
    """How far the pocket holes stand from their edge, which the stick doesn't say."""
    part = window.part
    y0 = part.outline.bounds[1]
    edge = [f for f in part.features if along_edge(f) and f.face == window.face]
    for far in (False, True):
        gaps = {mm(part.width - f.at.y + y0 if far else f.at.y - y0) for f in edge
                if (f.at.y - y0 > part.width / 2.0) is far}  # fmt: skip
        if gaps:
            yield words.pockets_from_edge(", ".join(sorted(gaps)), far)
