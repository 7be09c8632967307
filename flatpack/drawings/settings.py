"""What the drawings need to know besides the piece."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal, NamedTuple

from flatpack.frozen import field, frozen
from flatpack.mechanism.study import Study
from flatpack.model import Assembly
from flatpack.profiles import Finish, Glue, Workshop

if TYPE_CHECKING:
    from flatpack.drawings.page import Sheet
    from flatpack.drawings.templates import PrintSettings
    from flatpack.finding import Finding
    from flatpack.strength import Report


class Printed(NamedTuple):
    """Templates laid out as `asked`, and what can't be printed so."""

    asked: PrintSettings
    sheets: tuple[Sheet, ...]
    findings: tuple[Finding, ...]


class Finishing(NamedTuple):
    """What a piece is glued and finished with, and the units that its book speaks."""

    glue: Glue
    finish: Finish
    sealer: Finish
    units: Literal["mm", "inches"]


@frozen
class Settings:
    """The workshop, the content code, and what marks the sheets.

    `faulty` writes across every drawing that it isn't for cutting.  `poses` are the piece in
    positions of its motion, by title; without any the piece is drawn as it is.  A mark is
    engraved on a show face only when `mark_show_face` is set; it is drawn there in thin line.
    `study` is all about its moving back; None for a piece that stands still.  `printing` says how
    templates are printed; None: on the usual paper.  `printed` are templates of this piece that
    were laid out before; they are taken when they were asked for in the same way.  `findings` and
    `finishing` stand in the build book.  `strength` says whether it holds; None: not asked.
    """

    workshop: Workshop
    code: str = ""
    faulty: bool = False
    poses: Mapping[str, Assembly] = field(default_factory=dict)
    mark_show_face: bool = False
    study: Study | None = None
    printing: PrintSettings | None = None
    printed: Printed | None = None
    findings: tuple[Finding, ...] = ()
    finishing: Finishing | None = None
    strength: Report | None = None
