"""Tables, pages and sheets: what is written besides drawings, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from flatpack.drawings.shapes import Drawing
from flatpack.frozen import frozen

if TYPE_CHECKING:
    from flatpack.drawings.book.content import Book
    from flatpack.drawings.moving.record import MovingPage

Cell = str | float | int
Format = Literal["dxf", "svg", "csv", "html", "pdf"]


@frozen
class Table:
    """A header and rows as wide as it; lengths are numbers in mm to 0.1."""

    name: str
    title: str
    header: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


@frozen
class Page:
    """A page to print: a title, (label, value) facts, plain lines, and tables.

    `warning` stands large above all else when it isn't empty.
    """

    name: str
    title: str
    facts: tuple[tuple[str, str], ...] = ()
    lines: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    warning: str = ""


@frozen
class Booklet:
    """Drawings to print at full size, a page each; bounds are stretched to the page's size, mm."""

    name: str
    title: str
    pages: tuple[Drawing, ...]
    sizes: tuple[tuple[float, float], ...]


@frozen
class Sheet:
    """One file to write: `folder`/`name`.`format`, its purpose in words, and what it holds."""

    folder: str
    name: str
    purpose: str
    content: Drawing | Table | Page | Booklet | MovingPage | Book
    format: Format

    @property
    def path(self) -> str:
        """Path inside the output folder, with forward slashes."""
        stem = f"{self.folder}/{self.name}" if self.folder else self.name
        return f"{stem}.{self.format}"
