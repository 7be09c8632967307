"""How templates are to be printed, and the room that this leaves on a page.

    +--------------------------------- paper
    |  . . . . . . . . . . . . . . .   margin: no printer reaches it
    |  . +-------------------------+   border
    |  . | ruler strip             |
    |  . |  +-------------------+  |
    |  . |  |      content      |  |   frame
    |  . |  +-------------------+  |
    |  . | notes and title         |
    |  . +-------------------------+

A printer that draws 0.5 % short is given pages drawn 0.5 % long: pages are laid out in the mm that
will be on the paper, and the writer stretches them to the size of the file's page.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.drawings.templates.paper import Paper
from flatpack.frozen import frozen

STRIP = 8.0
"""Width of the strips for the rulers, mm."""
NOTES = 8.0
"""Height of the two lines of notes, mm."""
TITLE = 16.0
"""Height of the title strip, mm."""
_GAP = 2.0


@frozen
class PrintSettings:
    """How to print.

    `paper` is a name of `paper_named`; `margin` is what the printer can't reach and `border` stays
    blank inside it, mm.  `printed` are the measured lengths of the rulers of a page printed
    without it, along the short side and along the long side (on a roll: across, along).
    `code` is the design's content code.
    """

    paper: str = "A4"
    margin: float = 5.0
    border: float = 5.0
    printed: tuple[float, float] | None = None
    code: str = ""
    faulty: bool = False


class Stretch(NamedTuple):
    """What the file's lengths are multiplied by, along the paper's short and long side."""

    short: float = 1.0
    long: float = 1.0


AS_IT_IS = Stretch()


class Area(NamedTuple):
    """A page: `file` is its size in the file; all else is in mm as they will be on the paper."""

    file: tuple[float, float]
    width: float
    height: float
    frame: Box
    landscape: bool

    @property
    def content(self) -> Box:
        """Room for drawings: the frame less rulers, notes and title."""
        x0, y0, x1, y1 = self.frame
        low = y0 + TITLE + NOTES + _GAP
        return x0 + STRIP + _GAP, low, x1 - _GAP, y1 - STRIP - _GAP

    @property
    def room(self) -> tuple[float, float]:
        """Width and height of the content."""
        x0, y0, x1, y1 = self.content
        return x1 - x0, y1 - y0

    @property
    def rulers(self) -> tuple[float, float]:
        """The longest rulers that fit across and up the frame, whole centimetres, mm."""
        x0, y0, x1, y1 = self.frame
        low = y0 + TITLE + NOTES
        return _centimetres(x1 - x0 - 2.0), _centimetres(y1 - STRIP - low - 2.0)


def _centimetres(length: float) -> float:
    return max(math.floor(length / 10.0 + 1e-9) * 10.0, 0.0)


def page_area(
    paper: Paper,
    settings: PrintSettings,
    landscape: bool,
    length: float = 0.0,
    stretch: Stretch = AS_IT_IS,
) -> Area:
    """The page of a paper, upright or on its side; a roll's page is `length` long and lies."""
    short, long = paper.short, paper.long or length
    across, up = (long, short) if landscape else (short, long)
    sx, sy = (stretch.long, stretch.short) if landscape else (stretch.short, stretch.long)
    off = settings.margin + settings.border
    frame = (off / sx, off / sy, (across - off) / sx, (up - off) / sy)
    return Area((across, up), across / sx, up / sy, frame, landscape)


def correction(area: Area, printed: tuple[float, float] | None) -> Stretch:
    """Stretch that makes the next print true, from an uncorrected page and what it measured."""
    if printed is None:
        return AS_IT_IS
    across, up = area.rulers
    short, long = (up, across) if area.landscape else (across, up)
    factors = (n / m if m > 0.0 else math.inf for n, m in zip((short, long), printed, strict=True))
    return Stretch(*factors)
