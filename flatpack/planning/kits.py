"""Hardware in bags by the step at which it is needed, and spares."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from flatpack.model import Assembly
from flatpack.planning.making import Plans
from flatpack.planning.pool import Counted
from flatpack.profiles import Rates
from flatpack.wording import english_plans as words

Item = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """What one step of one piece takes: (item, size) with its count, for a single copy."""

    piece: int
    name: str
    step: int
    title: str
    items: tuple[tuple[Item, int], ...]


def bags(pieces: tuple[Counted, ...]) -> Iterator[Bag]:
    """The bags of each piece in the order of its steps; what belongs to no step comes last."""
    for number, piece in enumerate(pieces, 1):
        yield from _bags(number, piece.assembly)


def _bags(number: int, assembly: Assembly) -> Iterator[Bag]:
    total: Counter[Item] = Counter()
    for hardware in assembly.hardware:
        total[hardware.item, hardware.size] += hardware.pieces
    for place, step in enumerate(assembly.steps, 1):
        inside: Counter[Item] = Counter()
        for fastener in assembly.fasteners:
            if fastener.step == step.key:
                for hardware in fastener.hardware:
                    inside[hardware.item, hardware.size] += hardware.pieces
        total -= inside
        if inside:
            yield Bag(piece=number, name=assembly.name, step=place, title=step.title,
                      items=tuple(sorted(inside.items())))  # fmt: skip
    if total:
        yield Bag(piece=number, name=assembly.name, step=0, title=words.NO_STEP,
                  items=tuple(sorted(total.items())))  # fmt: skip


def spares(count: int, rates: Rates) -> int:
    """Spare pieces to a count: the percentage rounded up, never below the least."""
    return max(rates.spare_least, math.ceil(count * rates.spare_percent / 100.0 - 1e-9))


def with_spares(plans: Plans) -> dict[Item, tuple[int, int]]:
    """Item and size -> how many the pieces take, and spares; by name."""
    total: Counter[Item] = Counter()
    for piece in plans.pieces:
        for hardware in piece.assembly.hardware:
            total[hardware.item, hardware.size] += hardware.pieces * piece.count
    return {
        key: (n, spares(n, plans.stock.rates) if _small(key) else 0)
        for key, n in sorted(total.items())
    }


def _small(key: Item) -> bool:
    """Small things get lost; hinges and wheels don't."""
    return not any(word in key[0].lower() for word in ("hinge", "wheel"))
