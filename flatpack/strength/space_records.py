"""What a frame in space is made of, and what it gives back."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry import Vec

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

GROUND = -1
"""Instead of a member's number: the ground."""


class Stiffness(NamedTuple):
    """EA in N, GJ and EI in N mm2, GA' in N (0: rigid in shear).

    `flat` bends along the member's z, `edge` along its y.
    """

    ea: float
    gj: float
    ei_flat: float
    ei_edge: float
    ga_flat: float = 0.0
    ga_edge: float = 0.0


@frozen
class Member:
    """Nodes along a straight line, from `start` along axis x; `axes` are right-handed."""

    start: Vec
    axes: tuple[Vec, Vec, Vec]
    places: tuple[float, ...]
    stiff: Stiffness

    def at(self, node: int) -> Vec:
        """Where a node is."""
        return self.start.plus(self.axes[0], self.places[node])


class SpaceTie(NamedTuple):
    """Members `first` and `second` at their nodes, held together at `place`.

    `stiff` are three stiffnesses along `axes`, N/mm, and three against turning about them, N mm.
    """

    first: int
    first_node: int
    second: int
    second_node: int
    place: Vec
    axes: tuple[Vec, Vec, Vec]
    stiff: tuple[float, float, float, float, float, float]


class SpaceLoad(NamedTuple):
    """A force and a moment on a member's node, in the axes of the piece."""

    member: int
    node: int
    force: Vec
    moment: Vec = Vec(0.0, 0.0, 0.0)


class BarEnds(NamedTuple):
    """What one bar of a member passes on: pull, shears, twist, moments at its start and end.

    `flat` bends it along its z (positive: the side away from +z is pulled), `edge` along its y.
    """

    pull: float
    shear_flat: float
    shear_edge: float
    twist: float
    flat: tuple[float, float]
    edge: tuple[float, float]


@frozen
class Stood:
    """One case: movements of each member's nodes (x, y, z in its axes), its bars, and the ties.

    A tie gives the force and the moment that its first member exerts on its second, along its axes.
    """

    moved: tuple[tuple[Vec, ...], ...]
    bars: tuple[tuple[BarEnds, ...], ...]
    ties: tuple[tuple[float, ...], ...]
