"""What the book needs to know besides the piece."""

from __future__ import annotations

from flatpack.drawings.book.units import System
from flatpack.drawings.settings import Settings
from flatpack.frozen import frozen
from flatpack.profiles import Finish, Glue


@frozen
class BookSettings:
    """What all drawings know, the reader's units, and what the piece is glued and finished with.

    Of the drawings' poses the last stands on the cover.  `finish` goes on every surface, `sealer`
    on end grain and in holes; None where none was chosen.
    """

    drawing: Settings
    units: System = "mm"
    glue: Glue | None = None
    finish: Finish | None = None
    sealer: Finish | None = None
