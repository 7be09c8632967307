"""A made-up family that has a key of every kind."""

from __future__ import annotations

from types import SimpleNamespace
from typing import TYPE_CHECKING, Any

import pytest

from flatpack import parameters as keys
from flatpack.parameters import UNSET, BoardChoice, Conflict, record

if TYPE_CHECKING:
    from collections.abc import Iterator


@record
class Boards:
    """The boards that the shelf is made of."""

    side: BoardChoice = keys.board("ply-18", does="the two sides")
    shelf: BoardChoice = keys.board("ply-12", does="the shelves")
    back: BoardChoice | None = keys.board(None, does="the back; left out: none")


@record
class Upright:
    """The uprights."""

    height: float = keys.length(900, least=300, most=2400, does="from the floor to the top")
    setback: float | None = keys.length(None, least=0, most=80, does="from the front edge")
    lean: float = keys.angle(0, least=0, most=15, does="leaning back")
    holes: tuple[float, ...] = keys.lengths((), least=5, most=2400, does="shelf pin heights")


@record
class Mark:
    """A mark that is engraved."""

    at: float = keys.length(UNSET, least=0, most=2400, does="above the floor")
    word: str = keys.text("A", longest=8, does="what is engraved")


@record
class Shelf:
    """A shelf on two uprights."""

    name: str = keys.text("Garden shelf", longest=30, does="printed on every sheet")
    issued: str | None = keys.date(None, does="day of issue")
    shelves: int | None = keys.count(None, least=1, most=12, does="number of shelves")
    style: str = keys.choice("open", ("open", "backed", "slatted"), does="what closes the back")
    knock_down: bool = keys.flag(True, does="comes apart")
    slopes: tuple[float, ...] = keys.angles((0, 2.5), most=10, most_count=3, does="of each shelf")
    load: float = keys.number(25, least=1, most=200, unit="kg", does="on each shelf")
    screw: str = keys.item("screws", "wood-4", does="screws in the shelves")
    sheet: tuple[tuple[float, float], ...] = keys.pairs((), least=1, does="sheets at hand")
    boards: Boards = keys.table(Boards)
    upright: Upright = keys.table(Upright, does="both are alike")
    marks: tuple[Mark, ...] = keys.tables(Mark, most_count=4, does="any number of them")


def check(shelf: Any) -> Iterator[Conflict]:
    if shelf.upright.setback is not None and shelf.upright.setback > shelf.upright.height / 10:
        yield Conflict(
            "upright.setback", shelf.upright.setback, "a tenth of the height at most", "too deep"
        )
    for number, mark in enumerate(shelf.marks):
        if mark.at > shelf.upright.height:
            yield Conflict(f"marks[{number}].at", mark.at, "below the top of the upright")


KNOWN = {"boards": ("ply-12", "ply-18", "pine-20"), "screws": ("wood-4", "wood-5")}


@pytest.fixture(scope="session")
def family() -> SimpleNamespace:
    return SimpleNamespace(
        Shelf=Shelf,
        Mark=Mark,
        Boards=Boards,
        Upright=Upright,
        families={"shelf": Shelf},
        known=KNOWN,
        checks={"shelf": check},
    )
