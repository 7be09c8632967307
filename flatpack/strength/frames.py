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

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from flatpack.frozen import frozen

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


@frozen
class PlaneFrame:
    """Nodes (x, z), bars, ties, and what is held: (node, 0 for x, 1 for z, 2 for turning)."""

    nodes: tuple[tuple[float, float], ...]
    bars: tuple[FrameBar, ...]
    held: tuple[tuple[int, int], ...]
    ties: tuple[Tie, ...] = ()


class BarForces(NamedTuple):
    """At a bar's start and end: pull N, shear N, moment N mm (positive: the right side is pulled).

    Right is to the right of the way from start to end, so a level bar drawn left to right that
    sags has a positive moment.
    """

    pull: float
    shear: tuple[float, float]
    moment: tuple[float, float]


@frozen
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
    bars = _Bars(frame)
    stiff = np.zeros((size, size))
    np.add.at(stiff, (bars.rows[:, :, None], bars.rows[:, None, :]), bars.whole)
    ties = [(_rows(t.first, t.second), *_tie(frame, t)) for t in frame.ties]
    for rows, reach, k in ties:
        stiff[rows[:, None], rows] += reach.T @ k @ reach
    forces = np.zeros((size, len(cases)))
    ends = [bars.spread(spread) for _, spread in cases]
    for column, (loads, _) in enumerate(cases):
        np.add.at(forces[:, column], bars.rows, (ends[column][:, None] @ bars.turn)[:, 0])
        for load in loads:
            forces[3 * load.node : 3 * load.node + 3, column] += (load.fx, load.fz, load.moment)
    fixed = np.array([3 * node + way for node, way in frame.held], dtype=int)
    loose = np.ones(size, dtype=bool)
    loose[fixed] = False
    moved = np.zeros((size, len(cases)))
    moved[loose] = _solution(stiff[loose][:, loose], forces[loose])
    held = stiff[fixed] @ moved - forces[fixed]
    return tuple(
        _read(frame, bars, ties, moved[:, i], held[:, i], ends[i]) for i in range(len(cases))
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


def _rows(first: int, second: int) -> Any:
    import numpy as np

    return np.array([3 * node + way for node in (first, second) for way in range(3)])


class _Bars:
    """All bars at once: `rows` of their movements, `own` stiffness in their axes, `whole` in x, z.

    Arrays of one bar a row; `turn` leads from the frame's axes to a bar's own.
    """

    def __init__(self, frame: PlaneFrame) -> None:
        import numpy as np

        nodes = np.array(frame.nodes)
        given = np.array(frame.bars, dtype=float).reshape(-1, 5)
        start, end = given[:, 0].astype(int), given[:, 1].astype(int)
        step = nodes[end] - nodes[start]
        self.length = np.hypot(step[:, 0], step[:, 1])
        ways = np.arange(3)
        self.rows = np.hstack([3 * start[:, None] + ways, 3 * end[:, None] + ways])
        self.turn = np.zeros((len(given), 6, 6))
        c, s = step[:, 0] / self.length, step[:, 1] / self.length
        for at in (0, 3):
            self.turn[:, at, at], self.turn[:, at, at + 1] = c, s
            self.turn[:, at + 1, at], self.turn[:, at + 1, at + 1] = -s, c
            self.turn[:, at + 2, at + 2] = 1.0
        self.own = _stiffness(given[:, 2], given[:, 3], given[:, 4], self.length)
        self.whole = self.turn.transpose(0, 2, 1) @ self.own @ self.turn

    def spread(self, loads: Sequence[Spread]) -> Floats:
        """Forces of uniform loads on the nodes, in the bars' axes."""
        import numpy as np

        found = np.zeros((len(self.length), 6))
        for bar, load in loads:
            length = float(self.length[bar])
            half, end = load * length / 2.0, load * length**2 / 12.0
            found[bar] += (0.0, half, end, 0.0, half, -end)
        return found


def _stiffness(ea: Floats, ei: Floats, ga: Floats, length: Floats) -> Floats:
    import numpy as np

    stiff = ga > 0.0
    phi = np.where(stiff, 12.0 * ei / (np.where(stiff, ga, 1.0) * length**2), 0.0)
    n, k = ea / length, ei / (1.0 + phi)
    a, b = 12.0 * k / length**3, 6.0 * k / length**2
    c, d = (4.0 + phi) * k / length, (2.0 - phi) * k / length
    o = np.zeros_like(n)
    rows = [
        [n, o, o, -n, o, o],
        [o, a, b, o, -a, b],
        [o, b, c, o, -b, d],
        [-n, o, o, n, o, o],
        [o, -a, -b, o, a, -b],
        [o, b, d, o, -b, c],
    ]
    return np.array(rows).transpose(2, 0, 1)


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


def _read(
    frame: PlaneFrame, bars: _Bars, ties: Sequence[Any], moved: Floats, held: Floats, ends: Floats
) -> Solved:  # fmt: skip
    own = (bars.turn @ moved[bars.rows][:, :, None])[:, :, 0]
    forces = (bars.own @ own[:, :, None])[:, :, 0] - ends
    return Solved(
        moved=tuple((x, z, turn) for x, z, turn in moved.reshape(-1, 3).tolist()),
        bars=tuple(
            BarForces(pull, (v0, -v1), (-m0, m1)) for _, v0, m0, pull, v1, m1 in forces.tolist()
        ),
        ties=tuple(tuple((k @ (reach @ moved[rows])).tolist()) for rows, reach, k in ties),
        reactions=dict(zip(frame.held, held.tolist(), strict=True)),
    )
