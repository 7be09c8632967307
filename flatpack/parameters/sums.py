"""Lengths that may name another one: "seat-height", "rail.length less 18 mm", "leg.top plus 3".

    TERM                          18   "18 mm"   "seat-height"   "slat.thickness"
    TERM plus TERM, TERM less TERM      one length added or taken away, and no more
    TERM at HEIGHT [plus, less]         places only: where a sloping side stands at a height

Names are looked up by whoever reads them; here they are only told from lengths.  A sum of three
is made by giving the sum of two a name, which then has its line among the workings.
"""

from __future__ import annotations

from typing import NamedTuple

from flatpack.parameters.units import millimetres

NAME = r"[a-z][a-z0-9-]*"
"""A name of the file's own."""
FORMS = (
    'a length, or a name such as "seat-height" or "slat.thickness", with one length or name added '
    'or taken away: "seat-height less 18 mm", "rail.length plus 3"'
)
PLACE_FORMS = (
    'a length, or a name such as "leg.top", "piece.middle" or "post.front at seat-height", with '
    'one length or name added or taken away: "leg.top less 18 mm"'
)

Term = float | str


class Sum(NamedTuple):
    """`first` at the height `at`, with `second` added (`sign` 1) or taken away (-1); mm or names.

    `at` is None where no height is named, `sign` 0 where there is no second term.
    """

    first: Term
    sign: int = 0
    second: Term = 0.0
    at: Term | None = None

    @property
    def plain(self) -> float | None:
        """The length in mm when no name is in it."""
        if self.at is not None or isinstance(self.first, str) or isinstance(self.second, str):
            return None
        return self.first + self.sign * self.second

    def names(self) -> tuple[str, ...]:
        """The names in it, in the order of the text."""
        return tuple(t for t in (self.first, self.at, self.second) if isinstance(t, str))

    def written(self) -> str:
        """As it would stand in a file, without quotation marks."""
        word = {0: "", 1: f" plus {_term(self.second)}", -1: f" less {_term(self.second)}"}
        at = "" if self.at is None else f" at {_term(self.at)}"
        return f"{_term(self.first)}{at}{word[self.sign]}"


def summed(text: str, *, place: bool) -> Sum | None:
    """What the text states; None where it isn't of one of the forms (`at` is for places alone)."""
    head, word, tail = _parted(text)
    first, _, height = head.partition(" at ")
    if " at " in head and not place:
        return None
    one = _read(first)
    two = _read(tail) if word else 0.0
    at = _read(height) if " at " in head else None
    if one is None or two is None or (" at " in head and at is None):
        return None
    return Sum(one, {"": 0, "plus": 1, "less": -1}[word], two, at)


def _parted(text: str) -> tuple[str, str, str]:
    for word in ("plus", "less"):
        head, found, tail = text.partition(f" {word} ")
        if found:
            return head, word, tail
    return text, "", ""


def _read(text: str) -> Term | None:
    """A name, a length with its unit, or a bare number of mm."""
    import re

    text = text.strip()
    if re.fullmatch(rf"{NAME}(\.{NAME})?", text):
        return text
    if re.fullmatch(r"-?\d{1,6}(\.\d{1,9})?", text, re.ASCII):
        return float(text)
    return millimetres(text)


def _term(term: Term) -> str:
    return term if isinstance(term, str) else f"{term:.12g}"
