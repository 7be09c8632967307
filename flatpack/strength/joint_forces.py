"""Forces in a joint under one case: on each fastener, pressed together, pulled apart, sideways."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from flatpack.geometry import Vec
from flatpack.model import Fastener
from flatpack.strength.layout import Link
from flatpack.strength.loading import Loading


class Held(NamedTuple):
    """Force that the link's first part exerts on its second, N: on each fastener and in all."""

    link: Link
    loading: Loading
    each: tuple[tuple[Fastener, Vec], ...]

    @property
    def whole(self) -> Vec:
        """Force in all."""
        total = Vec(0.0, 0.0, 0.0)
        for _, force in self.each:
            total = total.plus(force)
        return total

    @property
    def pressed(self) -> float:
        """Force that presses the parts together, N."""
        return max(self.whole.dot(self.link.normal), 0.0)

    @property
    def pulled(self) -> float:
        """Greatest pull along a fastener's way, N."""
        return max((-f.dot(self.link.normal) for _, f in self.each), default=0.0)

    @property
    def sheared(self) -> tuple[float, Vec]:
        """Greatest force sideways on one fastener, N, and its direction times size."""
        n = self.link.normal
        found = [f.plus(n, -f.dot(n)) for _, f in self.each]
        most = max(found, key=lambda v: v.length)
        return most.length, most


def shared(link: Link, loading: Loading, force: Vec) -> Held:
    """A force shared alike by all fasteners of a link."""
    n = len(link.fasteners)
    part = Vec(force.x / n, force.y / n, force.z / n)
    return Held(link, loading, tuple((f, part) for f in link.fasteners))


def tied(loading: Loading, found: Sequence[tuple[Link, Fastener, Vec]]) -> tuple[Held, ...]:
    """Forces of a side's ties, gathered by link."""
    by: dict[tuple[str, str], list[tuple[Link, Fastener, Vec]]] = {}
    for link, fastener, force in found:
        by.setdefault((link.first, link.second), []).append((link, fastener, force))
    return tuple(
        Held(rows[0][0], loading, tuple((f, v) for _, f, v in rows)) for rows in by.values()
    )
