"""What the book needs to know besides the piece."""

from __future__ import annotations

from collections.abc import Mapping

from flatpack.drawings.book.units import System
from flatpack.frozen import field, frozen
from flatpack.model import Assembly
from flatpack.profiles import Finish, Glue


@frozen
class BookSettings:
    """Units, content code, and what the piece is glued and finished with.

    `faulty` marks every page as not for cutting.  `poses` are the piece in positions of its
    motion by title, the last of them the one on the cover.  `finish` goes on every surface,
    `sealer` on end grain and in holes; None where none was chosen.
    """

    code: str = ""
    faulty: bool = False
    units: System = "mm"
    glue: Glue | None = None
    finish: Finish | None = None
    sealer: Finish | None = None
    poses: Mapping[str, Assembly] = field(default_factory=dict)
