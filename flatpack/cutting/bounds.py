"""Least number of sheets, from the sizes alone: dual feasible functions on both extents.

A function f on lengths is dual feasible if lengths that fit a room L together keep sum f <= f(L).
Then any set of rectangles on one sheet keeps sum f(x) g(y) <= f(L) g(W), so the sheets number at
least sum f(x) g(y) / (f(L) g(W)) over all parts; a part that may turn counts at its smaller
value.  Three families are tried, and every pair of them (Fekete and Schepers 2001; Carlier,
Clautiaux and Moukrim 2007):

    plain and cut    x; below e nothing, above L - e all of L
    stepped          floor((k + 1) x / L) / k, x itself where (k + 1) x / L is whole
    counted          2 floor(x / e) up to the middle, the mirror image of it above

All are scaled to whole numbers, so the bound is exact.  The first of the first family is the
area bound.  Kerfs are counted in the sizes, as everywhere here.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from numpy.typing import NDArray

_MOST = 120
_STEPS = 40


class Bound(NamedTuple):
    """Number of sheets that no plan can undercut, and how it was found."""

    sheets: int
    method: str


def _cuts(lengths: Sequence[int], room: int) -> list[int]:
    """Places worth trying for e: the lengths and their complements, up to half the room."""
    places = {e for n in lengths for e in (n, n + 1, room - n, room - n + 1) if 0 < e <= room // 2}
    ordered = sorted(places)
    step = max(1, -(-len(ordered) // _MOST))
    return ordered[::step] + ordered[-1:] * (step > 1)


def plain(lengths: Any, room: int, cut: int) -> Any:
    """x; nothing below `cut`, the whole room above room - cut."""
    import numpy as np

    return np.where(lengths < cut, 0, np.where(lengths > room - cut, room, lengths))


def stepped(lengths: Any, room: int, k: int) -> Any:
    """Steps: floor((k + 1) x / L) / k, in whole numbers; the room counts k L."""
    import numpy as np

    steps = (k + 1) * lengths
    return np.where(steps % room == 0, k * lengths, (steps // room) * room)


def counted(lengths: Any, room: int, cut: int) -> Any:
    """Twice the whole number of `cut` in x, mirrored above the middle."""
    import numpy as np

    below = 2 * (lengths // cut)
    above = 2 * (room // cut) - 2 * ((room - lengths) // cut)
    return np.where(2 * lengths < room, below, np.where(2 * lengths > room, above, room // cut))


def _family(lengths: Sequence[int], room: int) -> tuple[NDArray[Any], NDArray[Any], list[str]]:
    """Rows of function values for the lengths, the room's own value, the functions' names."""
    import numpy as np

    every = np.array([*lengths, room], dtype=np.int64)
    rows, names = [every], ["area"]
    for cut in _cuts(lengths, room):
        rows += [plain(every, room, cut), counted(every, room, cut)]
        names += ["cut", "counted"]
    for k in range(1, _STEPS):
        rows.append(stepped(every, room, k))
        names.append("stepped")
    table = np.unique(np.stack(rows), axis=0, return_index=True)
    values, first = table
    return values[:, :-1], values[:, -1], [names[i] for i in first]


def sheets_needed(
    sizes: Sequence[tuple[int, int]],
    counts: Sequence[int],
    turns: Sequence[tuple[bool, bool]],
    room: tuple[int, int],
) -> Bound:
    """Least number of sheets of `room` = (length, width) for the parts, all in ticks with kerf."""
    import numpy as np

    both = sorted({n for size in sizes for n in size if n <= max(room)})
    index = {n: i for i, n in enumerate(both)}
    xs, x_room, x_names = _family(both, room[0])
    ys, y_room, y_names = _family(both, room[1])
    total = np.zeros((len(xs), len(ys)), dtype=np.int64)
    for (a, b), count, (along, across) in zip(sizes, counts, turns, strict=True):
        lies = [np.outer(xs[:, index[a]], ys[:, index[b]])] if along and a <= room[0] else []
        if across and b <= room[0] and a <= room[1]:
            lies.append(np.outer(xs[:, index[b]], ys[:, index[a]]))
        total += count * (lies[0] if len(lies) == 1 else np.minimum(*lies))
    needed = -(-total // np.outer(x_room, y_room))
    row, column = np.unravel_index(int(needed.argmax()), needed.shape)
    area = "area with kerf"
    plain_area = x_names[row] == y_names[column] == "area"
    method = area if plain_area else f"dual feasible functions ({x_names[row]} x {y_names[column]})"
    return Bound(int(needed[row, column]), method)


def apart(
    sizes: Sequence[tuple[int, int]],
    counts: Sequence[int],
    turns: Sequence[tuple[bool, bool]],
    room: tuple[int, int],
) -> int:
    """Parts of which no two fit on one sheet together, found greedily: each needs its own."""
    lies = [
        [s for s, ok in (((a, b), along), ((b, a), across)) if ok]
        for (a, b), (along, across) in zip(sizes, turns, strict=True)
    ]

    def clash(one: int, other: int) -> bool:
        return all(
            a[0] + b[0] > room[0] and a[1] + b[1] > room[1] for a in lies[one] for b in lies[other]
        )

    many = range(len(sizes))
    clashes = {i: {j for j in many if clash(i, j)} for i in many}
    best = 0
    for first in many:
        group = [first]
        near = clashes[first] - {first}
        while near:
            nxt = max(near, key=lambda j: (len(clashes[j] & near) + counts[j], j))
            group.append(nxt)
            near = near & clashes[nxt] - {nxt}
        best = max(best, sum(counts[i] if i in clashes[i] else 1 for i in group))
    return best
