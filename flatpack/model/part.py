"""A part: one piece of board with its outline, its place in the piece, and what is worked on it."""

from __future__ import annotations

from functools import cached_property
from typing import Literal, NamedTuple, Protocol, cast

from flatpack.drawings.shapes import Shape
from flatpack.frozen import frozen, replace
from flatpack.geometry import Frame, Outline, Plane, Point
from flatpack.profiles import Board, Rod

Face = Literal["show", "back"]
Hand = Literal["", "left", "right"]
Group = Literal["frame", "back", "arm", "rod"]


class Cut(NamedTuple):
    """Removed prism: `outline` in the part's axes, from `low` to `high` above the back face."""

    outline: Outline
    low: float
    high: float


class Feature(Protocol):
    """What is worked on a part, in the part's own axes; knows no file format.

    `operation` is a key of the layer table, `face` the face that it is worked from, `depth` None
    when it goes through.
    """

    @property
    def operation(self) -> str:
        """Key of the layer that this is drawn on."""

    @property
    def face(self) -> Face:
        """Face that the tool enters."""

    @property
    def depth(self) -> float | None:
        """Depth from that face, mm; None when through."""

    @property
    def at(self) -> Point:
        """Where its centre stands on the face."""

    @property
    def purpose(self) -> str:
        """What goes in it."""

    def callout(self) -> str:
        """Words beside it on a drawing."""

    def key(self) -> tuple[object, ...]:
        """Values that two equal features share, lengths to 0.001 mm."""

    def shapes(self) -> tuple[tuple[str, Shape], ...]:
        """(layer key, shape) strokes in the part's own axes, seen from the show face."""

    def cuts(self, thickness: float) -> tuple[Cut, ...]:
        """Room taken out of the part, as prisms square to its faces."""


class Slanting(Protocol):
    """A feature that takes off all that lies beyond a plane."""

    def plane(self, thickness: float) -> Plane:
        """The plane in the part's own axes."""


@frozen
class Part:
    """One piece of board.

    In the part's own axes x runs along the grain, y across it, z out of the show face, which lies
    at z = thickness; the back face lies at z = 0.  `outline` is what remains after notches and
    rounding.  `key` is unique in the piece; parts that are alike share `name`.
    """

    key: str
    name: str
    board: Board
    outline: Outline
    frame: Frame
    hand: Hand = ""
    group: Group = "frame"
    features: tuple[Feature, ...] = ()
    arris: float = 0.0
    openings: tuple[Outline, ...] = ()

    @property
    def thickness(self) -> float:
        """Measured thickness of its board, mm."""
        return self.board.thickness

    @property
    def length(self) -> float:
        """Length along the grain, mm."""
        low, _, high, _ = self.outline.bounds
        return high - low

    @property
    def width(self) -> float:
        """Width across the grain, mm."""
        _, low, _, high = self.outline.bounds
        return high - low

    @cached_property
    def planes(self) -> tuple[Plane, ...]:
        """Slanting cuts in its own axes; empty for a part that is square all round."""
        cuts = (cast(Slanting, f) for f in self.features if f.operation == "bevel")
        return tuple(cut.plane(self.thickness) for cut in cuts)

    @property
    def title(self) -> str:
        """Name with its hand."""
        return f"{self.name}, {self.hand} hand" if self.hand else self.name

    def with_features(self, features: tuple[Feature, ...]) -> Part:
        """This part with more worked on it."""
        return replace(self, features=self.features + features)

    def other_hand(self, key: str, across: float) -> Part:
        """The mirror image across the plane y = `across`: the same part in a mirrored frame."""
        hand: Hand = "right" if self.hand == "left" else "left"
        return replace(self, key=key, hand=hand, frame=self.frame.mirrored_across(across))


@frozen
class Bar:
    """A round bar cut to length (prop rod, axle, dowel); its frame's z runs along it."""

    key: str
    name: str
    stock: Rod
    length: float
    frame: Frame
    group: Group = "frame"
    fit: str = ""
