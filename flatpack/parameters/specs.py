"""How a record's keys are declared: one `Spec` a key, made by the functions below.

Each function's name says what the TOML value is; `does` says in a sentence what the key changes.
A default of `None` makes a key optional (derived when it is left out); `UNSET` makes it needed.

    length   mm as a number, or text with a unit       angle    degrees
    count    whole number                              number   bare number
    choice   one of a few words                        flag     true or false
    text     one line of text                          date     year-month-day
    board    a board profile, perhaps as measured      item     name of any other profile
    table    a nested record                           tables   an array of records
    notes    a table of texts under any keys           pairs    an array of two lengths each

The plural forms (`lengths`, `angles`, `counts`, `numbers`, `texts`) are arrays.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple, TypeVar, cast, overload

T = TypeVar("T")


class Unset:
    """Type of `UNSET`, the default of a key that must be given."""

    def __repr__(self) -> str:
        """The name under which it is imported."""
        return "UNSET"


UNSET: Any = Unset()


class BoardChoice(NamedTuple):
    """A board named by its profile; `measured` replaces the profile's thickness, mm."""

    profile: str
    measured: float | None = None


class Spec(NamedTuple):
    """What a key may hold: its kind, default, limits and the sentence about it.

    `least` and `most` bound the value (of each entry in an array), `fewest` and `most_count` the
    number of entries, `longest` the letters of a text.  `among` names the profiles to choose from.
    A text must match the whole of `pattern`, which `form` tells in words.  With `named` the value
    is a table of such values under names of the writer's choice.  `kinds` are the records that
    the word under `pick` chooses from; `together` see `inheriting`.  A key left out of a file
    takes the default, unless `left_out` says that it "must" be there or then holds "none".  An
    array of one may be written without its brackets where it is `lone`.
    """

    kind: str
    default: Any
    does: str = ""
    unit: str = ""
    least: float = 0.0
    most: float = 0.0
    many: bool = False
    fewest: int = 0
    most_count: int = 1000
    choices: tuple[str, ...] = ()
    longest: int = 200
    among: str = ""
    record: Any = None
    example: Any = None
    pattern: str = ""
    form: str = ""
    named: bool = False
    kinds: Any = None
    pick: str = ""
    together: tuple[tuple[str, ...], ...] = ()
    left_out: str = ""
    lone: bool = False

    @property
    def optional(self) -> bool:
        """Whether the key may be left out for flatpack to derive."""
        return self.default is None

    def __call__(self, *_: object, **__: object) -> Any:
        """Explain the trap of a key that bears the name of a function below.

        Raises:
            TypeError: always.
        """
        raise TypeError(
            "in a class body a key named `length` hides the function `length`:"
            " declare with `from flatpack import parameters as keys` and `keys.length(...)`"
        )


LONGEST_LENGTH = 10_000.0
WIDEST_NUMBER = 1e9


def length(
    default: T,
    *,
    does: str,
    least: float = 0.0,
    most: float = LONGEST_LENGTH,
    example: object = None,
) -> T:
    """A length in mm: a number, or text such as "18 mm" or "3/4 in"."""
    return _as(default, Spec("length", _float(default), does, "mm", least, most, example=example))


def lengths(
    default: T,
    *,
    does: str,
    least: float = 0.0,
    most: float = LONGEST_LENGTH,
    fewest: int = 0,
    most_count: int = 1000,
    example: object = None,
) -> T:
    """An array of lengths."""
    values = _floats(default)
    spec = Spec("length", values, does, "mm", least, most, True, fewest, most_count)
    return _as(default, spec._replace(example=example))


def pairs(
    default: T,
    *,
    does: str,
    least: float = 0.0,
    most: float = LONGEST_LENGTH,
    fewest: int = 0,
    most_count: int = 1000,
) -> T:
    """An array of pairs of lengths, such as sheet sizes or screw holes."""
    return _as(default, Spec("pair", default, does, "mm", least, most, True, fewest, most_count))


def angle(
    default: T, *, does: str, least: float = 0.0, most: float = 360.0, example: object = None
) -> T:
    """An angle in degrees."""
    spec = Spec("angle", _float(default), does, "degrees", least, most, example=example)
    return _as(default, spec)


def angles(
    default: T,
    *,
    does: str,
    least: float = 0.0,
    most: float = 360.0,
    fewest: int = 0,
    most_count: int = 1000,
    example: object = None,
) -> T:
    """An array of angles in degrees."""
    values = _floats(default)
    spec = Spec("angle", values, does, "degrees", least, most, True, fewest, most_count)
    return _as(default, spec._replace(example=example))


def number(
    default: T,
    *,
    does: str,
    least: float = -WIDEST_NUMBER,
    most: float = WIDEST_NUMBER,
    unit: str = "",
    example: object = None,
) -> T:
    """A bare number; `unit` is printed with it."""
    return _as(default, Spec("number", _float(default), does, unit, least, most, example=example))


def numbers(
    default: T,
    *,
    does: str,
    least: float = -WIDEST_NUMBER,
    most: float = WIDEST_NUMBER,
    unit: str = "",
    fewest: int = 0,
    most_count: int = 1000,
) -> T:
    """An array of bare numbers."""
    values = _floats(default)
    return _as(default, Spec("number", values, does, unit, least, most, True, fewest, most_count))


def count(
    default: T, *, does: str, least: int = 0, most: int = 1_000_000, example: object = None
) -> T:
    """A whole number; 1.0 isn't one."""
    return _as(default, Spec("count", default, does, "", least, most, example=example))


def choice(default: T, choices: Sequence[str], *, does: str) -> T:
    """One of a few words."""
    return _as(default, Spec("choice", default, does, choices=tuple(choices)))


def flag(default: T, *, does: str) -> T:
    """`true` or `false`."""
    return _as(default, Spec("flag", default, does))


def text(
    default: T,
    *,
    does: str,
    longest: int = 200,
    example: object = None,
    pattern: str = "",
    form: str = "",
) -> T:
    """One line of text; `pattern` is a regular expression for all of it, `form` its meaning."""
    spec = Spec("text", default, does, longest=longest, example=example)
    return _as(default, spec._replace(pattern=pattern, form=form))


def texts(
    default: T,
    *,
    does: str,
    longest: int = 200,
    fewest: int = 0,
    most_count: int = 1000,
    lone: bool = False,
    example: object = None,
) -> T:
    """An array of texts."""
    spec = Spec("text", default, does, many=True, fewest=fewest, most_count=most_count)
    return _as(default, spec._replace(longest=longest, lone=lone, example=example))


def date(default: T, *, does: str, example: object = None) -> T:
    """A day, kept as text `2030-05-01`; in the file with or without quotation marks."""
    return _as(default, Spec("date", default, does, example=example))


@overload
def board(default: str, *, does: str) -> BoardChoice: ...
@overload
def board(default: None, *, does: str) -> BoardChoice | None: ...
def board(default: str | None, *, does: str) -> BoardChoice | None:
    """A board: `"ply-18"`, or `{ profile = "ply-18", measured = 17.6 }`; None: optional."""
    choice_made = None if default is None else BoardChoice(default)
    spec = Spec("board", choice_made, does, least=1.0, most=200.0, among="boards")
    return _as(choice_made, spec)


def item(among: str, default: T, *, does: str, example: object = None) -> T:
    """The name of a profile of the kind `among`, such as "screws" or "hinges"."""
    return _as(default, Spec("item", default, does, among=among, example=example))


def table(record: type[T], *, does: str = "") -> T:
    """A nested table; every key of it at its default when the table is left out."""
    spec = Spec("table", UNSET if _needed(record) else record(), does, record=record)
    return cast("T", spec)


def tables(
    record: type[T],
    default: tuple[T, ...] = (),
    *,
    does: str = "",
    fewest: int = 0,
    most_count: int = 1000,
) -> tuple[T, ...]:
    """An array of tables."""
    spec = Spec("table", default, does, many=True, fewest=fewest, most_count=most_count)
    return _as(default, spec._replace(record=record))


def notes(*, does: str, longest: int = 400) -> tuple[tuple[str, str], ...]:
    """A table of texts under keys of the writer's choice; kept in the order of the file."""
    return _as((), Spec("notes", (), does, longest=longest))


def _needed(record: Any) -> bool:
    return any(spec.default is UNSET for spec in record.record_specs.values())


def _as(_like: T, spec: Spec) -> T:
    # A type checker must see the value's type on the class; `record` swaps spec for value.
    return cast("T", spec)


def _float(value: Any) -> Any:
    return float(value) if isinstance(value, (int, float)) else value


def _floats(values: Any) -> Any:
    return tuple(map(float, values)) if isinstance(values, (tuple, list)) else values
