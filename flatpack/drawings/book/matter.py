"""What every chapter is made from: the piece, its marks, findings, and the settings."""

from __future__ import annotations

from typing import NamedTuple

from flatpack.drawings.book.settings import BookSettings
from flatpack.drawings.book.units import INCH, said, sixteenths, size
from flatpack.drawings.figures import mm
from flatpack.drawings.marks import BarGroup, PartGroup, bar_groups, groups
from flatpack.finding import Finding
from flatpack.mechanism.study import Study
from flatpack.model import Assembly
from flatpack.wording import book_english as words


class Matter(NamedTuple):
    """The piece with its distinct parts and bars; `study` is None when nothing moves."""

    assembly: Assembly
    study: Study | None
    findings: tuple[Finding, ...]
    settings: BookSettings
    parts: tuple[PartGroup, ...]
    bars: tuple[BarGroup, ...]

    @property
    def marks(self) -> dict[str, tuple[str, ...]]:
        """Keys of parts and bars by mark."""
        parts = {group.mark: group.keys for group in self.parts}
        return parts | {group.mark: group.keys for group in self.bars}

    @property
    def mark_of(self) -> dict[str, str]:
        """Mark of every part and bar by its key."""
        return {key: mark for mark, keys in self.marks.items() for key in keys}

    @property
    def by_shape(self) -> bool:
        """True for a piece that holds by the shape of its parts, without any hardware."""
        return bool(self.assembly.fits) and not self.assembly.fasteners

    def size(self, value: float) -> str:
        """A length for a table."""
        return size(value, self.settings.units)

    def exact(self, value: float) -> str:
        """A length for a sum: to 0.1 mm, or inches as a decimal."""
        return mm(value) if self.settings.units == "mm" else f"{value / INCH:.3f}"

    def rough(self, value: float) -> str:
        """A length to know a part by: to 0.1 mm, or to the nearest sixteenth."""
        return mm(value) if self.settings.units == "mm" else sixteenths(value)

    def said(self, value: float) -> str:
        """A length for a sentence."""
        return said(value, self.settings.units)

    def name_of(self, key: str) -> str:
        """Name of a part or bar."""
        assembly = self.assembly
        return assembly.parts[key].name if key in assembly.parts else assembly.bars[key].name

    def headed(self, header: tuple[str, ...], lengths: tuple[str, ...]) -> tuple[str, ...]:
        """A table's header with the unit behind each column that holds lengths."""
        unit = words.UNIT[self.settings.units]
        return tuple(f"{name}, {unit}" if name in lengths else name for name in header)


def matter(
    assembly: Assembly, study: Study | None, findings: tuple[Finding, ...], settings: BookSettings
) -> Matter:
    """The piece made ready for the chapters."""
    return Matter(assembly, study, findings, settings, groups(assembly), bar_groups(assembly))
