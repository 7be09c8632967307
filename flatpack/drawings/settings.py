"""What the drawings need to know besides the piece."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from flatpack.model import Assembly
from flatpack.profiles import Workshop


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The workshop, the content code, and what marks the sheets.

    `faulty` writes across every drawing that it isn't for cutting.  `poses` are the piece in
    positions of its motion, by title; without any the piece is drawn as it is.  A mark is
    engraved on a show face only when `mark_show_face` is set; it is drawn there in thin line.
    """

    workshop: Workshop
    code: str = ""
    faulty: bool = False
    poses: Mapping[str, Assembly] = field(default_factory=dict)
    mark_show_face: bool = False
