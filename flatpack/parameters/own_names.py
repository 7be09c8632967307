"""Keys whose values a file's writer names: named entries, entries of kinds, lengths by name.

total    length that may name another one          place    the same for a place
kinds    one of several records, by a word in it   named    a table of any keys by name
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from flatpack.parameters.specs import LONGEST_LENGTH, Spec


class Named(NamedTuple):
    """An entry of a table of named values."""

    name: str
    value: Any


class Chosen(NamedTuple):
    """A record that the word `kind` chose among several."""

    kind: str
    made: Any


def places(default: Any, *, does: str, example: object = None) -> Any:
    """Places, or a single one without brackets."""
    spec = place(default, does=does, example=example)
    return spec._replace(many=True, fewest=1, lone=True)


def total(
    default: Any,
    *,
    does: str,
    least: float = 0.0,
    most: float = LONGEST_LENGTH,
    example: object = None,
) -> Any:
    """A length that may name another one, plus or less a second; a `Sum`, None: optional."""
    return Spec("total", default, does, "mm", least, most, example=example)


def place(default: Any, *, does: str, example: object = None) -> Any:
    """A place along one of the piece's three ways, which may name a part's side; a `Sum`."""
    return Spec("place", default, does, "mm", -LONGEST_LENGTH, LONGEST_LENGTH, example=example)


def kinds(
    records: Mapping[str, Any], pick: str, *, does: str, default: Any = (), most_count: int = 1000
) -> Any:
    """An array of tables, each of the record that the word under its key `pick` names."""
    spec = Spec("kinds", default, does, many=True, most_count=most_count)
    return spec._replace(kinds=records, pick=pick, left_out="none")


def named(
    spec: Any,
    *,
    default: Any = (),
    together: tuple[tuple[str, ...], ...] = (),
    left_out: str = "none",
) -> Any:
    """A table of values such as `spec` declares, under names of the writer's choice."""
    return spec._replace(
        named=True, many=False, default=default, together=together, left_out=left_out
    )
