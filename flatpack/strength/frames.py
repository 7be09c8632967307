"""A plane frame by the direct stiffness method: bars, and ties between them, solved with numpy.

Axes x and z in the frame's plane; each node moves along x and z and turns anticlockwise seen with
x to the right and z up.  Forces N, lengths mm, moments N mm, turns in radians.

Bars bend and shear (Timoshenko): with phi = 12 EI / (GA L^2) the end stiffnesses are
12 EI / (L^3 (1+phi)), 6 EI / (L^2 (1+phi)), (4+phi) EI / (L (1+phi)), (2-phi) EI / (L (1+phi));
phi = 0 is the slender beam.  (Przemieniecki, Theory of Matrix Structural Analysis, ch. 5.)

A tie holds two nodes together at a place beside both, as a bolt holds two parts:

    node a ----arm---- place ----arm---- node b      force = stiffness x gap at the place
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

LARGE = 1e7
"""Movement, mm or radians, beyond which a frame counts as a mechanism."""

SMALL = 48
"""Up to this many movements a system is solved by LAPACK, which uses one thread for it."""
PIVOT = 1e-11
"""Least pivot of a system scaled to a unit diagonal; less is a mechanism."""


class UnstableError(Exception):
    """The frame moves without being strained: it is a mechanism."""


class FrameBar(NamedTuple):
    """A straight bar from node `start` to node `end`: EA in N, EI in N mm2, GA' in N (0: rigid)."""

    start: int
    end: int
    ea: float
    ei: float
    ga: float = 0.0


class Tie(NamedTuple):
    """Two nodes held together at `place`; stiffness N/mm along x, along z, N mm against turning."""

    first: int
    second: int
    place: tuple[float, float]
    kx: float
    kz: float
    turn: float = 0.0


class NodeLoad(NamedTuple):
    """A force and a moment on a node."""

    node: int
    fx: float = 0.0
    fz: float = 0.0
    moment: float = 0.0


class Spread(NamedTuple):
    """A uniform load square to a bar, N/mm, positive to the left of the way start to end."""

    bar: int
    load: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneFrame:
    """Nodes (x, z), bars, ties, and what is held: (node, 0 for x, 1 for z, 2 for turning)."""

    nodes: tuple[tuple[float, float], ...]
    bars: tuple[FrameBar, ...]
    held: tuple[tuple[int, int], ...]
    ties: tuple[Tie, ...] = field(default=())


class BarForces(NamedTuple):
    """At a bar's start and end: pull N, shear N, moment N mm (positive: the right side is pulled).

    Right is to the right of the way from start to end, so a level bar drawn left to right that
    sags has a positive moment.
    """

    pull: float
    shear: tuple[float, float]
    moment: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """Movements of the nodes (x, z, turn), forces in bars and ties, reactions on what is held."""

    moved: tuple[tuple[float, float, float], ...]
    bars: tuple[BarForces, ...]
    ties: tuple[tuple[float, float, float], ...]
    reactions: dict[tuple[int, int], float]


Case = tuple[Sequence[NodeLoad], Sequence[Spread]]


def solve(frame: PlaneFrame, loads: Sequence[NodeLoad], spread: Sequence[Spread] = ()) -> Solved:
    """Movements and forces under one set of loads.

    Raises:
        UnstableError: the frame is a mechanism.
    """
    return solve_all(frame, ((loads, spread),))[0]


def solve_all(frame: PlaneFrame, cases: Sequence[Case]) -> tuple[Solved, ...]:
    """Movements and forces under each of several sets of loads; the frame is taken apart once.

    Raises:
        UnstableError: the frame is a mechanism.
    """
    import numpy as np

    size = 3 * len(frame.nodes)
    stiff = np.zeros((size, size))
    bars = [_Member(frame, bar) for bar in frame.bars]
    for member in bars:
        stiff[np.ix_(member.rows, member.rows)] += member.whole
    ties = [(_rows(t.first, t.second), *_tie(frame, t)) for t in frame.ties]
    for rows, reach, k in ties:
        stiff[np.ix_(rows, rows)] += reach.T @ k @ reach
    forces = np.zeros((size, len(cases)))
    for column, (loads, spread) in enumerate(cases):
        _load(forces[:, column], bars, loads, spread)
    fixed = np.array([3 * node + way for node, way in frame.held], dtype=int)
    free = np.setdiff1d(np.arange(size), fixed)
    moved = np.zeros((size, len(cases)))
    moved[free] = _solution(stiff[np.ix_(free, free)], forces[free])
    held = stiff[fixed] @ moved - forces[fixed]
    return tuple(
        _read(frame, bars, ties, moved[:, i], held[:, i], cases[i][1]) for i in range(len(cases))
    )


def _solution(stiff: Floats, forces: Floats) -> Floats:
    import numpy as np

    diagonal = np.diagonal(stiff)
    if not np.all(diagonal > 0.0):
        raise UnstableError
    # A unit diagonal keeps turns in radians and movements in mm on one scale.
    scale = 1.0 / np.sqrt(diagonal)
    found = _eliminated(stiff * scale[:, None] * scale, forces * scale[:, None])
    found = found * scale[:, None]
    if not np.all(np.isfinite(found)) or np.max(np.abs(found), initial=0.0) > LARGE:
        raise UnstableError
    return found


def _eliminated(a: Floats, b: Floats) -> Floats:
    """Solution of a symmetric positive system by elimination, `a` and `b` used up.

    Small systems go to LAPACK.  For larger ones its threads cost more than they bring, on a busy
    machine a hundred times more; here each step is one product of a column and a row.
    """
    import numpy as np

    size = len(a)
    if size <= SMALL:
        try:
            return np.asarray(np.linalg.solve(a, b), dtype=np.float64)
        except np.linalg.LinAlgError as error:
            raise UnstableError from error
    for k in range(size - 1):
        pivot = a[k, k]
        if pivot < PIVOT:
            raise UnstableError
        rows = np.flatnonzero(a[k + 1 :, k]) + k + 1
        share = a[rows, k] / pivot
        a[rows, k + 1 :] -= share[:, None] * a[k, k + 1 :]
        b[rows] -= share[:, None] * b[k]
    for k in range(size - 1, -1, -1):
        b[k] = (b[k] - (a[k, k + 1 :, None] * b[k + 1 :]).sum(axis=0)) / a[k, k]
    return b


def _rows(first: int, second: int) -> list[int]:
    return [3 * node + way for node in (first, second) for way in range(3)]


class _Member:
    """One bar with its stiffness in its own axes and in the frame's."""

    def __init__(self, frame: PlaneFrame, bar: FrameBar) -> None:
        import numpy as np

        (x0, z0), (x1, z1) = frame.nodes[bar.start], frame.nodes[bar.end]
        self.length = math.hypot(x1 - x0, z1 - z0)
        c, s = (x1 - x0) / self.length, (z1 - z0) / self.length
        self.rows = _rows(bar.start, bar.end)
        turn = np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])
        self.turn = np.zeros((6, 6))
        self.turn[:3, :3] = self.turn[3:, 3:] = turn
        self.own = np.array(_stiffness(bar, self.length))
        self.whole = self.turn.T @ self.own @ self.turn

    def spread(self, load: float) -> list[float]:
        """Forces of a uniform load on the nodes, in the bar's axes."""
        half, end = load * self.length / 2.0, load * self.length**2 / 12.0
        return [0.0, half, end, 0.0, half, -end]


def _stiffness(bar: FrameBar, length: float) -> list[list[float]]:
    n = bar.ea / length
    phi = 12.0 * bar.ei / (bar.ga * length**2) if bar.ga > 0.0 else 0.0
    k = bar.ei / (1.0 + phi)
    a, b = 12.0 * k / length**3, 6.0 * k / length**2
    c, d = (4.0 + phi) * k / length, (2.0 - phi) * k / length
    return [
        [n, 0.0, 0.0, -n, 0.0, 0.0],
        [0.0, a, b, 0.0, -a, b],
        [0.0, b, c, 0.0, -b, d],
        [-n, 0.0, 0.0, n, 0.0, 0.0],
        [0.0, -a, -b, 0.0, a, -b],
        [0.0, b, d, 0.0, -b, c],
    ]


def _tie(frame: PlaneFrame, tie: Tie) -> tuple[Any, Any]:
    """Matrix from both nodes' movements to the gap at the place, and the tie's stiffness."""
    import numpy as np

    (xa, za), (xb, zb) = frame.nodes[tie.first], frame.nodes[tie.second]
    px, pz = tie.place
    reach = np.array(
        [
            [-1.0, 0.0, pz - za, 1.0, 0.0, -(pz - zb)],
            [0.0, -1.0, -(px - xa), 0.0, 1.0, px - xb],
            [0.0, 0.0, -1.0, 0.0, 0.0, 1.0],
        ]
    )
    return reach, np.diag([tie.kx, tie.kz, tie.turn])


def _load(
    forces: Floats, bars: Sequence[_Member], loads: Sequence[NodeLoad], spread: Sequence[Spread]
) -> None:
    for load in loads:
        forces[3 * load.node : 3 * load.node + 3] += (load.fx, load.fz, load.moment)
    for bar, load_on in spread:
        member = bars[bar]
        forces[member.rows] += member.turn.T @ member.spread(load_on)


def _read(
    frame: PlaneFrame, bars: Sequence[_Member], ties: Sequence[Any], moved: Floats, held: Floats,
    spread: Sequence[Spread],
) -> Solved:  # fmt: skip
    on = dict.fromkeys(range(len(bars)), 0.0)
    for bar, load in spread:
        on[bar] += load
    return Solved(
        moved=tuple((x, z, turn) for x, z, turn in moved.reshape(-1, 3).tolist()),
        bars=tuple(_forces(member, moved, on[i]) for i, member in enumerate(bars)),
        ties=tuple(tuple((k @ (reach @ moved[rows])).tolist()) for rows, reach, k in ties),
        reactions=dict(zip(frame.held, held.tolist(), strict=True)),
    )


def _forces(member: _Member, moved: Floats, load: float) -> BarForces:
    end = (member.own @ (member.turn @ moved[member.rows])).tolist()
    if load:
        end = [f - p for f, p in zip(end, member.spread(load), strict=True)]
    return BarForces(end[3], (end[1], -end[4]), (-end[2], end[5]))
