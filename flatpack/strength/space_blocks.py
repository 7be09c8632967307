"""The equations of a frame in space by blocks of neighbouring nodes, and their elimination.

No block has more than 48 movements: for larger ones LAPACK's threads cost more than they bring.
The block with the fewest neighbours goes first.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from flatpack.strength.frames import LARGE, UnstableError
from flatpack.strength.space_records import GROUND, Member, SpaceTie

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

NODES = 8
"""Most nodes in a block."""


class Numbering:
    """Which movements are whose: six a node, member by member, and the blocks that they lie in."""

    def __init__(self, members: Sequence[Member]) -> None:
        """Number all nodes and cut each member's into blocks."""
        self.first: list[int] = []
        self.block: list[int] = []
        self.blocks: list[tuple[int, int]] = []
        count = 0
        for member in members:
            self.first.append(count)
            n = len(member.places)
            for start in range(0, n, NODES):
                size = min(NODES, n - start)
                self.block += [len(self.blocks)] * size
                self.blocks.append((6 * (count + start), 6 * (count + start + size)))
            count += n
        self.size = 6 * count

    def node(self, member: int, node: int) -> int:
        """Number of a member's node."""
        return self.first[member] + node


class Equations:
    """Stiffness by blocks."""

    def __init__(self, numbering: Numbering) -> None:
        """No stiffness yet."""
        import numpy as np

        self.numbering = numbering
        sizes = [b - a for a, b in numbering.blocks]
        self.rows: dict[int, dict[int, Floats]] = {
            i: {i: np.zeros((n, n))} for i, n in enumerate(sizes)
        }

    def add(self, one: int, two: int, stiff: Floats) -> None:
        """Add a 6 x 6 between two nodes."""
        import numpy as np

        n = self.numbering
        a, b = n.block[one], n.block[two]
        (a0, a1), (b0, b1) = n.blocks[a], n.blocks[b]
        if b not in self.rows[a]:
            self.rows[a][b] = np.zeros((a1 - a0, b1 - b0))
        i, j = 6 * one - a0, 6 * two - b0
        self.rows[a][b][i : i + 6, j : j + 6] += stiff

    def solved(self, forces: Floats) -> Floats:
        """Movements under forces, (movements, cases); the equations are used up.

        Raises:
            UnstableError: something moves without strain.
        """
        import numpy as np

        n = self.numbering
        parts = [forces[a:b] for a, b in n.blocks]
        try:
            order = self._eliminated(parts)
        except np.linalg.LinAlgError as error:
            raise UnstableError from error
        moved = np.zeros_like(forces)
        for pivot, given, own in reversed(order):
            a, b = n.blocks[pivot]
            moved[a:b] = own
            for other, share in given.items():
                c, d = n.blocks[other]
                moved[a:b] -= share @ moved[c:d]
        if not np.all(np.isfinite(moved)) or np.max(np.abs(moved), initial=0.0) > LARGE:
            raise UnstableError
        return moved

    def _eliminated(self, parts: list[Floats]) -> list[tuple[int, dict[int, Floats], Floats]]:
        import numpy as np

        order = []
        left = set(self.rows)
        while left:
            pivot = min(left, key=lambda i: (len(self.rows[i]), i))
            left.discard(pivot)
            row = self.rows[pivot]
            near = [i for i in row if i != pivot]
            sides = np.hstack([*(row[i] for i in near), parts[pivot]])
            found: Floats = np.asarray(np.linalg.solve(row[pivot], sides), dtype=np.float64)
            given: dict[int, Floats] = {}
            at = 0
            for i in near:
                given[i] = found[:, at : at + row[i].shape[1]]
                at += row[i].shape[1]
            self._reduce(pivot, given, parts, found[:, at:])
            order.append((pivot, given, found[:, at:]))
        return order

    def _reduce(
        self, pivot: int, given: dict[int, Floats], parts: list[Floats], own: Floats
    ) -> None:
        """Take the pivot out of its neighbours' rows."""
        for i in given:
            across = self.rows[i].pop(pivot)
            parts[i] = parts[i] - across @ own
            for j, share in given.items():
                if j < i:
                    continue
                row, change = self.rows[i], across @ share
                row[j] = row[j] - change if j in row else -change
                if j != i:
                    self.rows[j][i] = row[j].T


def bar_stiffness(member: Member) -> Floats:
    """Stiffness of each bar of a member in its axes, (bars, 12, 12)."""
    import numpy as np

    length = np.diff(np.array(member.places))
    s = member.stiff
    found = np.zeros((len(length), 12, 12))
    for at, value in ((0, s.ea), (3, s.gj)):
        k = value / length
        found[:, at, at] = found[:, at + 6, at + 6] = k
        found[:, at, at + 6] = found[:, at + 6, at] = -k
    # Turning about +z lifts the end along +y; turning about +y lowers it along z.
    for move, turn, sign, ei, ga in ((1, 5, 1.0, s.ei_edge, s.ga_edge),
                                     (2, 4, -1.0, s.ei_flat, s.ga_flat)):  # fmt: skip
        phi = 12.0 * ei / (ga * length**2) if ga > 0.0 else np.zeros_like(length)
        k = ei / (1.0 + phi)
        a, b = 12.0 * k / length**3, sign * 6.0 * k / length**2
        c, d = (4.0 + phi) * k / length, (2.0 - phi) * k / length
        rows = (move, turn, move + 6, turn + 6)
        table = ((a, b, -a, b), (b, c, -b, d), (-a, -b, a, -b), (b, d, -b, c))
        for i, row in zip(rows, table, strict=True):
            for j, value in zip(rows, row, strict=True):
                found[:, i, j] = value
    return found


def tie_gaps(members: Sequence[Member], ties: Sequence[SpaceTie], *, first: bool) -> Floats:
    """(ties, 6, 6): movements of a tie's node in its member's axes to those of its place."""
    import numpy as np

    found = np.zeros((len(ties), 6, 6))
    own_axes = [np.array(m.axes) for m in members]
    for i, tie in enumerate(ties):
        number, node = (tie.first, tie.first_node) if first else (tie.second, tie.second_node)
        if number == GROUND:
            continue
        own, axes = own_axes[number], np.array(tie.axes)
        x, y, z = tie.place.minus(members[number].at(node))
        # Turning by t moves the place by t x r = -[r] t, [r] the matrix of r's vector product.
        arm = np.array([[0.0, z, -y], [-z, 0.0, x], [y, -x, 0.0]])
        sign = -1.0 if first else 1.0
        found[i, :3, :3] = found[i, 3:, 3:] = sign * (axes @ own.T)
        found[i, :3, 3:] = sign * (axes @ arm @ own.T)
    return found
