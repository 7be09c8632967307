"""A piece to cut first, to try which fit this machine and this board really give.

  |  |   |  |   |  |   |  |   |  |      five slots: measured thickness + the fit wanted, and
--'  '---'  '---'  '---'  '---'  '--    0.1 and 0.2 mm less and more; below each its own
  -0.1    0      0.1    0.2    0.3      allowance, the number to put in the file
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain

from flatpack.features import engraved
from flatpack.geometry import Frame, Outline, Point
from flatpack.geometry.recess import recessed
from flatpack.geometry.relief import relieved
from flatpack.geometry.shapes import rectangle
from flatpack.joinery.fitting import Fitting
from flatpack.model import Part
from flatpack.profiles import Board

STEPS = (-0.2, -0.1, 0.0, 0.1, 0.2)
"""Allowances tried about the one wanted, mm."""
BETWEEN, DEEP, LETTER, MARGIN = 26.0, 30.0, 7.0, 5.0
"""Wood between slots, depth of a slot, height of the figures, room about them, mm."""
TONGUE = (90.0, 45.0)
"""Length and width of the tongue that goes into each slot, mm."""


def fit_trials(boards: Iterable[Board], fitting: Fitting) -> tuple[Part, ...]:
    """A strip with slots and a tongue for each board, in the order given, each once."""
    found = {(board.key, board.thickness): board for board in boards}
    return tuple(
        chain.from_iterable(_trial(b, n, fitting) for n, b in enumerate(found.values(), 1))
    )


def _trial(board: Board, number: int, fitting: Fitting) -> Iterator[Part]:
    pitch = board.thickness + BETWEEN
    long, wide = pitch * len(STEPS) + BETWEEN, DEEP + LETTER + 2.0 * MARGIN
    outline = rectangle(long, wide)
    words = []
    for place, step in enumerate(STEPS):
        middle = BETWEEN + board.thickness / 2.0 + place * pitch
        allowance = fitting.push + step
        outline = _slotted(outline, Point(middle, wide), board.thickness + allowance, fitting)
        text = f"{round(allowance, 2) + 0.0:g}"
        words.append(engraved(text, middle, MARGIN, LETTER, "allowance of the slot"))
    yield Part(
        key=f"fit-trial-{number}", name="Fit trial", board=board, outline=outline, frame=Frame(),
        features=tuple(words),
    )  # fmt: skip
    yield Part(
        key=f"trial-tongue-{number}", name="Trial tongue", board=board,
        outline=rectangle(*TONGUE), frame=Frame(),
    )  # fmt: skip


def _slotted(outline: Outline, mouth: Point, width: float, fitting: Fitting) -> Outline:
    made = recessed(outline, mouth, Point(0.0, -1.0), width, DEEP)
    if made is None:
        raise ValueError("the strip has no room for a slot")
    if fitting.relief is None:
        return made.outline
    radius, sided = fitting.relief
    return relieved(made.outline, radius, one_sided=sided, only=made.hollow).outline
