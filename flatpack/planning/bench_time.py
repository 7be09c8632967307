"""Bench time: counts of operations times the rates of the stock list."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.operations import distinct_features
from flatpack.model import saw_cuts
from flatpack.planning.boards import BoardPlan
from flatpack.planning.buying import Amounts
from flatpack.planning.making import Plans
from flatpack.wording import english_plans as words

_HOLES = frozenset(
    {"drill-through", "drill-blind", "counterbore", "countersink", "hidden-edge", "slot"}
)


class Task(NamedTuple):
    """Operations of one kind: how many, minutes each."""

    what: str
    number: float
    unit: str
    each: float

    @property
    def minutes(self) -> float:
        """Minutes for all."""
        return self.number * self.each


def tasks(plans: Plans, amounts: Amounts) -> Iterator[Task]:
    """One row a kind of work; sheets sawn by the merchant or cut by the shop aren't bench work."""
    rates = plans.stock.rates
    slanting = tuple(_slanting(plans))
    settings = _settings(plans.boards) + len({setting for setting, _ in slanting})
    yield Task(words.TASKS["settings"], settings, "", rates.setting)
    cuts = _cuts((*plans.boards, *plans.rods)) + sum(number for _, number in slanting)
    yield Task(words.TASKS["cuts"], cuts, "", rates.saw_cut)
    if plans.shop is None:
        yield Task(words.TASKS["curves"], _curves(plans), "m", rates.curve)
    holes, pockets = _holes(plans)
    yield Task(words.TASKS["holes"], holes, "", rates.hole)
    yield Task(words.TASKS["pockets"], pockets, "", rates.pocket)
    screws, bolts, joints = _fixings(plans)
    yield Task(words.TASKS["screws"], screws, "", rates.screw)
    yield Task(words.TASKS["bolts"], bolts, "", rates.bolt)
    yield Task(words.TASKS["joints"], joints, "", rates.joint)
    yield Task(words.TASKS["sanding"], amounts.surface, "m2", rates.sanding)
    yield Task(words.TASKS["coats"], amounts.coated, "m2", rates.coat)


def _settings(boards: tuple[BoardPlan, ...]) -> int:
    """A stop for each length of each width, and a fence for each width that is ripped."""
    return sum(
        len({round(b.length, 2) for b in plan.blanks})
        + len({b.rip for b in plan.blanks if b.across})
        for plan in boards
    )


def _cuts(boards: tuple[BoardPlan, ...]) -> int:
    """Every part's far end, the near end of every board, and the rips."""
    cross = sum(len(b.cuts) + 1 for plan in boards for b in plan.plan.boards)
    return cross + sum(b.count * b.across for plan in boards for b in plan.blanks)


def _slanting(plans: Plans) -> Iterator[tuple[tuple[float, float], int]]:
    """Setting of the saw for each cut that isn't square, as its scales are read, and how many."""
    for lot in plans.lots:
        for wanted in lot.parts:
            for table, blade in (cut.setting for cut in saw_cuts(wanted.group.part)):
                yield (round(table, 1), round(blade, 1)), wanted.count


def _curves(plans: Plans) -> float:
    """Metres of outline that no straight cut of the saw makes: arcs and inner corners."""
    total = 0.0
    for lot in plans.lots:
        for wanted in lot.parts:
            part = wanted.group.part
            x0, y0, x1, y1 = part.outline.bounds
            sawn = {(cut.start, cut.end) for cut in saw_cuts(part)}
            straight = sum(
                s.length for s in part.outline
                if (s.start, s.end) in sawn or (not s.bulge and any(
                    abs(a - edge) < 1e-6 and abs(b - edge) < 1e-6
                    for a, b, edge in ((s.start.x, s.end.x, x0), (s.start.x, s.end.x, x1),
                                       (s.start.y, s.end.y, y0), (s.start.y, s.end.y, y1))
                ))
            )  # fmt: skip
            shaped = part.outline.length - straight + sum(o.length for o in part.openings)
            total += shaped * wanted.count
    return total / 1000.0


def _holes(plans: Plans) -> tuple[int, int]:
    holes = pockets = 0
    for lot in plans.lots:
        for wanted in lot.parts:
            for feature in distinct_features(wanted.group):
                pockets += wanted.count * (feature.operation == "pocket-hole")
                drilled = plans.shop is None or lot.board.kind == "planed"
                holes += wanted.count * (drilled and feature.operation in _HOLES)
    return holes, pockets


def _fixings(plans: Plans) -> tuple[int, int, int]:
    screws = bolts = joints = 0
    for piece in plans.pieces:
        kinds = [f.kind for f in piece.assembly.fasteners]
        screws += piece.count * sum("screw" in kind for kind in kinds)
        bolts += piece.count * sum("screw" not in kind for kind in kinds)
        joints += piece.count * len(piece.assembly.joints)
    return screws, bolts, joints
