"""What of the timber bought ends as parts: area or length used, kept and lost."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from flatpack.planning.boards import BoardPlan
from flatpack.planning.making import Plans
from flatpack.planning.pool import Wanted
from flatpack.planning.rests import nest_rest
from flatpack.planning.sheets import NestPlan, SheetPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """Square metres (metres of a round bar) of stock used, of parts in it, of rests kept."""

    title: str
    unit: str
    stock: float
    parts: float
    kept: float

    @property
    def waste(self) -> float:
        """Percent of the stock used that is neither part nor kept."""
        return 100.0 * (1.0 - (self.parts + self.kept) / self.stock) if self.stock else 0.0


def shares(plans: Plans) -> Iterator[Share]:
    """A share a plan."""
    sizes = {p.mark: p for lot in plans.lots for p in lot.parts}
    yield from (_of_boards(plan, sizes) for plan in (*plans.boards, *plans.rods))
    yield from (_of_sheets(plan) for plan in plans.sheets)
    yield from (_of_nest(plan, plans) for plan in plans.nests)


def _of_boards(plan: BoardPlan, sizes: dict[str, Wanted]) -> Share:
    wide = plan.width or 1.0
    cut = Counter(c.mark for b in plan.plan.boards for c in b.cuts)
    parts = 0.0
    for blank in plan.blanks:
        if not blank.across:
            parts += cut[blank.mark] * blank.length * wide
            continue
        room = cut[blank.mark] * blank.across
        for mark, count in blank.parts:
            made, room = min(count, room), max(0, room - count)
            parts += made * sizes[mark].length * sizes[mark].width
    stock = sum(b.stock.length for b in plan.plan.boards) * wide
    kept = sum(high - low for b in plan.plan.boards for low, high in b.rests) * wide
    unit, per = ("m2", 1e-6) if plan.width else ("m", 1e-3)
    return Share(title=plan.title, unit=unit, stock=stock * per, parts=parts * per,
                 kept=kept * per)  # fmt: skip


def _of_sheets(plan: SheetPlan) -> Share:
    sheets = plan.plan.sheets
    return Share(
        title=plan.lot.board.name,
        unit="m2",
        stock=1e-6 * sum(s.stock.length * s.stock.width for s in sheets),
        parts=1e-6 * sum(p.length * p.width for s in sheets for p in s.parts),
        kept=1e-6 * sum(r.length * r.width for s in sheets for r in s.rests),
    )


def _of_nest(plan: NestPlan, plans: Plans) -> Share:
    sheets = plan.nest.sheets
    rests = [nest_rest(plan, sheet, plans.stock.saws) for sheet in sheets]
    return Share(
        title=plan.lot.board.name,
        unit="m2",
        stock=1e-6 * sum(abs(s.blank.outline.area) for s in sheets),
        parts=1e-6 * sum(s.density * abs(s.blank.outline.area) for s in sheets),
        kept=1e-6 * sum(r.length * r.width for r in rests if r),
    )
