"""What the drawings need to know besides the piece."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from flatpack.frozen import field, frozen
from flatpack.mechanism.study import Study
from flatpack.model import Assembly
from flatpack.profiles import Workshop

if TYPE_CHECKING:
    from flatpack.drawings.templates import PrintSettings


@frozen
class Settings:
    """The workshop, the content code, and what marks the sheets.

    `faulty` writes across every drawing that it isn't for cutting.  `poses` are the piece in
    positions of its motion, by title; without any the piece is drawn as it is.  A mark is
    engraved on a show face only when `mark_show_face` is set; it is drawn there in thin line.
    `study` is all about its moving back; None for a piece that stands still.  `printing` says how
    templates are printed; None: on the usual paper.
    """

    workshop: Workshop
    code: str = ""
    faulty: bool = False
    poses: Mapping[str, Assembly] = field(default_factory=dict)
    mark_show_face: bool = False
    study: Study | None = None
    printing: PrintSettings | None = None
