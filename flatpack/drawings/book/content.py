"""What a build book holds, as data: chapters of plain blocks that any writer can lay out."""

from __future__ import annotations

from flatpack.drawings.shapes import Drawing
from flatpack.frozen import frozen


@frozen(kw_only=False)
class Para:
    """A paragraph."""

    text: str


@frozen(kw_only=False)
class Caution:
    """A sentence about what can hurt; set apart from the rest."""

    text: str


@frozen(kw_only=False)
class Subtitle:
    """A heading inside a chapter; `page` starts it on a page of its own where there are pages."""

    text: str
    page: bool = False


@frozen(kw_only=False)
class Items:
    """A list: numbered when the order matters, with boxes to tick when `ticked`."""

    items: tuple[str, ...]
    numbered: bool = False
    ticked: bool = False


@frozen(kw_only=False)
class Rows:
    """A table; `numbers` are the columns (counted from 0) that hold figures."""

    caption: str
    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: frozenset[int] = frozenset()


@frozen(kw_only=False)
class Figure:
    """A picture, what stands under it, and what it shows in words for who can't see it."""

    drawing: Drawing
    caption: str
    alt: str


Block = Para | Caution | Subtitle | Items | Rows | Figure


@frozen(kw_only=False)
class Chapter:
    """A chapter; `key` is unique in the book."""

    key: str
    title: str
    blocks: tuple[Block, ...]


@frozen
class Book:
    """A whole book; `warning` stands on every page when it isn't empty.

    `facts` are (label, value) pairs under the title; `foot` is the line at the foot of a page.
    """

    name: str
    title: str
    language: str
    facts: tuple[tuple[str, str], ...]
    foot: str
    warning: str
    contents: str
    chapters: tuple[Chapter, ...]
