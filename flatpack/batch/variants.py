"""What a table of variants yields, whatever it is written in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, Protocol


class Variant(NamedTuple):
    """One variant: the name of its folder, its whole parameter file, and where it came from.

    `place` says for messages where it stands, such as "sizes.csv:12".  `written` is true when the
    text is the maker's own file, so that its line numbers mean something.  `problem` says why a
    row is no variant; it has no text then.
    """

    name: str
    text: str
    place: str
    written: bool = False
    problem: str = ""


class Variants(Protocol):
    """A source of variants that can be gone through as often as wanted."""

    def __iter__(self) -> Iterator[Variant]:
        """The variants in the table's order."""

    def count(self) -> int:
        """How many there are; made without keeping them."""
