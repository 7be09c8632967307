"""The gallery as data: sections of entries, each with pictures, a few lines and a table of keys."""

from __future__ import annotations

from flatpack.drawings.page import Table
from flatpack.drawings.shapes import Drawing
from flatpack.frozen import frozen


@frozen(kw_only=False)
class Picture:
    """A picture with its caption; `file` is the name under which it also stands by itself."""

    file: str
    drawing: Drawing
    caption: tuple[str, ...] = ()


@frozen(kw_only=False)
class Entry:
    """One family or shape: its word, what it is, how to begin, pictures, keys.

    `written` is how it stands in a parameter file.
    """

    word: str
    title: str
    line: str = ""
    pictures: tuple[Picture, ...] = ()
    keys: Table | None = None
    written: str = ""


@frozen(kw_only=False)
class Section:
    """Entries under one heading."""

    title: str
    lines: tuple[str, ...]
    entries: tuple[Entry, ...]


@frozen(kw_only=False)
class Gallery:
    """All of it."""

    title: str
    lines: tuple[str, ...]
    sections: tuple[Section, ...]
