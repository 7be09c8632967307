"""What is wanted of every variant alike."""

from __future__ import annotations

from typing import NamedTuple


class Choices(NamedTuple):
    """Kinds of sheet, how templates are printed, whether faults keep a variant from being drawn.

    `stock` names the stock list that timber is planned with; "" for no plan.
    """

    only: tuple[str, ...]
    paper: str = "A4"
    margin: float = 5.0
    despite_faults: bool = False
    stock: str = ""


class Setup(NamedTuple):
    """All that a worker needs besides its variants; sent with each chunk of them.

    `folder` is where the worker itself writes; "" when it is to send the files back.
    """

    choices: Choices
    texts: dict[str, str]
    program: str
    folder: str = ""
    where: str = ""
    """Name of the folder in messages, as the maker gave it."""


class Task(NamedTuple):
    """One variant for a worker: its number in the table, folder name, text and place."""

    number: int
    name: str
    text: str
    place: str
    written: bool = False
    problem: str = ""


class Result(NamedTuple):
    """What became of a task; `files` only when they are sent back.

    `state` is *made*, *faults* (drawn or not, as chosen), *refused* (values that aren't allowed)
    or *failed* (couldn't be written, or a bug); `problem` says why.
    """

    number: int
    name: str
    state: str
    problem: str = ""
    files: dict[str, bytes] | None = None
    unwritten: bool = False
