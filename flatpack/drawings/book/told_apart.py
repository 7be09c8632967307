"""Which of several bases of one mark a place is measured from, and how it is told apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from flatpack.drawings.book.sight import middle
from flatpack.drawings.book.steps import BuildStep
from flatpack.geometry import Vec
from flatpack.model import Assembly

_SAME = 0.5
"""Parts whose middles are nearer than this along an axis lie level there, mm."""


class Row(NamedTuple):
    """A part on a base: how far along it, mm, and all else that says how it lies."""

    part: str
    base: str
    along: float
    rest: tuple[object, ...]


def told_apart(
    rows: Sequence[Row], assembly: Assembly, step: BuildStep, mark_of: Mapping[str, str]
) -> Iterator[tuple[Row, str]]:
    """The rows to say, each with where its base lies among all of its mark: "x-", ..., or "".

    Bases of one mark on which a part lies the same way need no telling apart.
    """
    found: dict[tuple[str, str], list[Row]] = {}
    lies: dict[tuple[str, str], set[tuple[object, ...]]] = {}
    for row in rows:
        found.setdefault((row.part, mark_of[row.base]), []).append(row)
        lies.setdefault((mark_of[row.part], mark_of[row.base]), set()).add(row.rest)
    for (part, mark), same in found.items():
        alike = [k for k in (*step.old, *step.new) if mark_of[k] == mark and k in assembly.parts]
        ends = tuple(_ends({key: middle(assembly.parts[key]) for key in alike}))
        if len({(round(row.along, 1), row.rest) for row in same}) > 1:
            yield next(
                ((row, where) for where, key in ends for row in same if row.base == key),
                (same[0], ""),
            )
            continue
        apart = len(lies[mark_of[part], mark]) > 1
        where_of = {key: where for where, key in reversed(ends)} if apart else {}
        yield from ((row, where_of.get(row.base, "")) for row in same)


def _ends(middles: Mapping[str, Vec]) -> Iterator[tuple[str, str]]:
    """Parts that alone lie furthest out along an axis, the one along which they spread first."""
    if len(middles) < 2:
        return
    spread = [max(axis) - min(axis) for axis in zip(*middles.values(), strict=True)]
    for axis in sorted(range(3), key=lambda axis: -spread[axis]):
        for sign, name in ((1.0, "-"), (-1.0, "+")):
            order = sorted(middles, key=lambda key: sign * middles[key][axis])
            first, second = (middles[key][axis] for key in order[:2])
            if abs(second - first) > _SAME:
                yield f"{'xyz'[axis]}{name}", order[0]
