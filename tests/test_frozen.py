"""`@frozen` against the standard dataclass of the same declaration, method by method."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from functools import cached_property
from typing import Any

import pytest

from flatpack.frozen import field, frozen, replace


@frozen
class Board:
    """By keyword."""

    name: str
    thick: float = 18.0
    notes: list[str] = field(default_factory=list)
    seen: dict[str, int] = field(default_factory=dict, compare=False)

    @cached_property
    def half(self) -> float:
        """Worked out once."""
        return self.thick / 2.0


@frozen(kw_only=False)
class Spot:
    """By place."""

    x: float
    y: float
    z: float = 0.0


@dataclasses.dataclass(frozen=True)
class Twin:
    """The standard library's."""

    x: float
    y: float
    z: float = 0.0


@frozen(kw_only=False)
class Even:
    """Checked after it is filled, with a value worked out."""

    number: int
    half: int = field(init=False, compare=False)

    def __post_init__(self) -> None:
        """Refuse odd numbers."""
        if self.number % 2:
            raise ValueError("odd")
        object.__setattr__(self, "half", self.number // 2)


@frozen(kw_only=False, eq=False)
class Own:
    """Equals itself alone."""

    x: float = 0.0


@pytest.mark.parametrize(
    ("places", "names"),
    [((1, 2), {}), ((1,), {"y": 2}), ((), {"x": 1, "y": 2}), ((1, 2, 3), {}), ((1, 2), {"z": 3})],
)
def test_made_as_the_standard_one(places: tuple[Any, ...], names: dict[str, Any]) -> None:
    made, twin = Spot(*places, **names), Twin(*places, **names)
    assert dataclasses.asdict(made) == dataclasses.asdict(twin)
    assert repr(made) == repr(twin).replace("Twin", "Spot")
    assert made == Spot(*places, **names)
    assert hash(made) == hash(twin)
    assert Spot.__match_args__ == Twin.__match_args__


@pytest.mark.parametrize(
    ("places", "names"),
    [((), {}), ((1,), {}), ((1, 2, 3, 4), {}), ((1, 2), {"x": 3}), ((1, 2), {"w": 3})],
)
def test_refused_as_the_standard_one_refuses(places: Any, names: dict[str, Any]) -> None:
    cls: Any
    for cls in (Spot, Twin):
        with pytest.raises(TypeError):
            cls(*places, **names)


def test_by_keyword_alone() -> None:
    with pytest.raises(TypeError):
        Board("oak")  # type: ignore[call-arg]  # the point of this test
    with pytest.raises(TypeError, match="needs name"):
        Board(thick=2.0)  # type: ignore[call-arg]  # the point of this test


def test_values_never_change() -> None:
    made = Board(name="oak")
    with pytest.raises(AttributeError, match="frozen"):
        made.name = "ash"  # type: ignore[misc]  # the point of this test
    with pytest.raises(AttributeError, match="frozen"):
        del made.name
    with pytest.raises(AttributeError):
        made.other = 1  # type: ignore[attr-defined]  # the point of this test


def test_factories_and_values_not_compared() -> None:
    one, other = Board(name="oak"), Board(name="oak", seen={"a": 1})
    assert one.notes is not other.notes
    assert one == other
    assert one.half == 9.0
    assert one == other, "what is worked out once isn't compared"
    assert one != Board(name="ash")
    other_kind: object = Spot(1, 2)
    assert one != other_kind
    assert "seen" not in repr(other)


@pytest.mark.parametrize("with_", [replace, dataclasses.replace])
def test_replaced(with_: Any) -> None:
    made = Board(name="oak", thick=20.0)
    assert made.half == 10.0
    changed = with_(made, thick=30.0)
    assert (changed.name, changed.thick, changed.half) == ("oak", 30.0, 15.0)
    assert changed.seen is made.seen
    assert with_(Even(4), number=8).half == 4
    with pytest.raises(TypeError):
        with_(made, width=3.0)


def test_checked_after_filling() -> None:
    assert Even(6).half == 3
    with pytest.raises(ValueError, match="odd"):
        Even(7)


def test_equal_to_itself_alone() -> None:
    one = Own(1.0)
    assert one == one
    assert one != Own(1.0)
    assert len({one, Own(1.0)}) == 2


@pytest.mark.parametrize("made", [Board(name="oak", notes=["a"]), Spot(1, 2), Even(4)], ids=repr)
def test_copied_and_pickled(made: Any) -> None:
    for other in (copy.copy(made), copy.deepcopy(made), pickle.loads(pickle.dumps(made))):
        assert other == made
        assert type(other) is type(made)


def test_known_to_the_standard_library() -> None:
    standard = {f.name: (f.default, f.init, f.compare) for f in dataclasses.fields(Twin)}
    assert {f.name: (f.default, f.init, f.compare) for f in dataclasses.fields(Spot)} == standard
    assert dataclasses.is_dataclass(Board)
