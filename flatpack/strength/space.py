"""A frame in space by the direct stiffness method: straight members, and ties between them.

A member keeps its own axes (x along it, y and z square to it), in which its nodes move and turn;
a tie holds two members together, or one to the ground, at a place beside their nodes:

    member a ---node ....arm.... place ....arm.... node--- member b    force = stiffness x gap

Bars bend and shear both ways (Timoshenko), stretch and twist; their end stiffnesses are those of
`frames`, in each plane.  Forces N, lengths mm, moments N mm, turns in radians.

What only lies on something can't pull.  A tie of stiffness D and movements B d is let go without
solving all again (Sherman, Morrison, Woodbury), from Z = K^-1 B^T, the movements that unit forces
in it make:

    d' = d + Z y,    (D^-1 - B Z) y = B d
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from flatpack.geometry import Vec
from flatpack.strength.space_blocks import Equations, Numbering, bar_stiffness, tie_gaps
from flatpack.strength.space_records import (
    GROUND,
    BarEnds,
    Member,
    SpaceLoad,
    SpaceTie,
    Stiffness,
    Stood,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = [
    "GROUND", "BarEnds", "Member", "SpaceLoad", "SpaceTie", "Stiffness", "Stood", "stand",
]  # fmt: skip

LOOSENED = (2, 3, 4)
"""Of a tie that is let go: its third axis, and turning about its first two."""
PULL = 1.0
"""A contact that would have to pull by more than this, N, is let go."""
ROUNDS = 6
"""How often contacts are let go before what is left counts as held."""
SOUND = 1e-5
"""Stiffness that is left where a contact is let go, over its own; less is a mechanism."""


def stand(
    members: Sequence[Member],
    ties: Sequence[SpaceTie],
    cases: Sequence[Sequence[SpaceLoad]],
    contacts: Sequence[int] = (),
) -> tuple[Stood, ...]:
    """Movements and forces under each case; `contacts` are ties that press along their third axis.

    Of a contact, the first member may only push the second along that axis (the ground: the
    member may only push down on it); where it would have to pull it is let go.

    Raises:
        UnstableError: something moves without strain.
    """
    return _Frame(members, ties, contacts).stood(cases)


class _Frame:
    """Everything that the cases of one frame share."""

    def __init__(
        self, members: Sequence[Member], ties: Sequence[SpaceTie], contacts: Sequence[int]
    ) -> None:
        import numpy as np

        self.members, self.ties, self.contacts = members, ties, list(contacts)
        self.numbers = Numbering(members)
        self.own = [bar_stiffness(m) for m in members]
        self.one = tie_gaps(members, ties, first=True)
        self.two = tie_gaps(members, ties, first=False)
        self.stiff = np.array([t.stiff for t in ties]).reshape(-1, 6)

    def stood(self, cases: Sequence[Sequence[SpaceLoad]]) -> tuple[Stood, ...]:
        import numpy as np

        units = self._units()
        forces = np.hstack([self._forces(cases), units])
        moved = self._equations().solved(forces)
        cut = len(cases)
        moved, units_moved = moved[:, :cut], moved[:, cut:]
        gone = self._let_go(moved, units, units_moved)
        bars = [self._bars(i, moved) for i in range(len(self.members))]
        held = self._tie_forces(moved)
        for case, some in enumerate(gone):
            held[some, :, case] = 0.0
        return tuple(self._read(moved, bars, held, case) for case in range(cut))

    def _nodes(self, tie: SpaceTie) -> tuple[int, int]:
        """Numbers of a tie's nodes; -1 for the ground."""
        first = self.numbers.node(tie.first, tie.first_node)
        if tie.second == GROUND:
            return first, -1
        return first, self.numbers.node(tie.second, tie.second_node)

    def _equations(self) -> Equations:
        made = Equations(self.numbers)
        for number, bars in enumerate(self.own):
            first = self.numbers.first[number]
            for i, bar in enumerate(bars):
                a, b = first + i, first + i + 1
                made.add(a, a, bar[:6, :6])
                made.add(b, b, bar[6:, 6:])
                made.add(a, b, bar[:6, 6:])
                made.add(b, a, bar[6:, :6])
        for tie, one, two, k in zip(self.ties, self.one, self.two, self.stiff, strict=True):
            a, b = self._nodes(tie)
            made.add(a, a, one.T @ (k[:, None] * one))
            if b >= 0:
                made.add(b, b, two.T @ (k[:, None] * two))
                across = one.T @ (k[:, None] * two)
                made.add(a, b, across)
                made.add(b, a, across.T)
        return made

    def _forces(self, cases: Sequence[Sequence[SpaceLoad]]) -> Floats:
        import numpy as np

        found = np.zeros((self.numbers.size, len(cases)))
        for column, loads in enumerate(cases):
            for load in loads:
                axes = np.array(self.members[load.member].axes)
                row = 6 * self.numbers.node(load.member, load.node)
                found[row : row + 3, column] += axes @ np.array(load.force)
                found[row + 3 : row + 6, column] += axes @ np.array(load.moment)
        return found

    def _units(self) -> Floats:
        """B^T of all contacts, (movements, 3 contacts)."""
        import numpy as np

        found = np.zeros((self.numbers.size, 3 * len(self.contacts)))
        for i, tie in enumerate(self.contacts):
            a, b = self._nodes(self.ties[tie])
            columns = slice(3 * i, 3 * i + 3)
            found[6 * a : 6 * a + 6, columns] = self.one[tie][list(LOOSENED)].T
            if b >= 0:
                found[6 * b : 6 * b + 6, columns] += self.two[tie][list(LOOSENED)].T
        return found

    def _let_go(self, moved: Floats, units: Floats, made: Floats) -> list[list[int]]:
        """Let go what would pull, case by case, in `moved`; the ties let go in each."""
        import numpy as np

        if not self.contacts:
            return [[] for _ in range(moved.shape[1])]
        give = 1.0 / self.stiff[self.contacts][:, list(LOOSENED)].reshape(-1)
        flexible = units.T @ made
        gone = []
        for case in range(moved.shape[1]):
            gap = units.T @ moved[:, case]
            loose = np.zeros(len(self.contacts), dtype=bool)
            now = gap
            for _ in range(ROUNDS):
                more = loose | self._pulling(now)
                if np.array_equal(more, loose):
                    break
                rows = np.flatnonzero(np.repeat(more, 3))
                system = np.diag(give[rows]) - flexible[np.ix_(rows, rows)]
                scale = 1.0 / np.sqrt(give[rows])
                if not _sound(system * scale[:, None] * scale):
                    break  # nothing would hold it then: what was found before stays
                y = np.linalg.solve(system, gap[rows])
                loose, now = more, gap + flexible[:, rows] @ y
                moved_now = moved[:, case] + made[:, rows] @ y
            if loose.any():
                moved[:, case] = moved_now
            gone.append([self.contacts[i] for i in np.flatnonzero(loose)])
        return gone

    def _pulling(self, gap: Floats) -> NDArray[np.bool_]:
        import numpy as np

        force = -self.stiff[self.contacts][:, 2] * gap[::3]
        ground = np.array([self.ties[i].second == GROUND for i in self.contacts])
        pulls: NDArray[np.bool_] = np.where(ground, force > PULL, force < -PULL)
        return pulls

    def _bars(self, number: int, moved: Floats) -> Floats:
        """End forces of a member's bars, (bars, 12, cases)."""
        import numpy as np

        start = 6 * self.numbers.first[number]
        count = len(self.own[number])
        ends = [moved[start + 6 * i : start + 6 * i + 12] for i in range(count)]
        return self.own[number] @ np.stack(ends)

    def _tie_forces(self, moved: Floats) -> Floats:
        """What each tie's first member exerts on its second along its axes, (ties, 6, cases)."""
        import numpy as np

        found = np.zeros((len(self.ties), 6, moved.shape[1]))
        for i, tie in enumerate(self.ties):
            a, b = self._nodes(tie)
            gap = self.one[i] @ moved[6 * a : 6 * a + 6]
            if b >= 0:
                gap = gap + self.two[i] @ moved[6 * b : 6 * b + 6]
            found[i] = -self.stiff[i][:, None] * gap
        return found

    def _read(self, moved: Floats, bars: list[Floats], held: Floats, case: int) -> Stood:
        every = moved[:, case].reshape(-1, 6)[:, :3].tolist()
        n = self.numbers
        return Stood(
            moved=tuple(
                tuple(Vec(*row) for row in every[first : first + len(m.places)])
                for first, m in zip(n.first, self.members, strict=True)
            ),
            bars=tuple(tuple(_ends(f) for f in some[:, :, case].tolist()) for some in bars),
            ties=tuple(tuple(f) for f in held[:, :, case].tolist()),
        )


def _sound(system: Floats) -> bool:
    """If every eigenvalue is over `SOUND`; finding factors tells it sooner than finding them."""
    import numpy as np

    try:
        np.linalg.cholesky(system - SOUND * np.eye(len(system)))
    except np.linalg.LinAlgError:
        return False
    return True


def _ends(f: Sequence[float]) -> BarEnds:
    return BarEnds(
        pull=f[6], shear_flat=f[2], shear_edge=f[1], twist=f[9],
        flat=(f[4], -f[10]), edge=(-f[5], f[11]),
    )  # fmt: skip
