"""What to buy: boards, sheets, bars, hardware in packs, glue, finish, with prices where known."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from flatpack.cutting.nest_records import sheets_taken
from flatpack.finding import in_order
from flatpack.planning.boards import BoardPlan
from flatpack.planning.kits import with_spares
from flatpack.planning.making import Plans
from flatpack.planning.told import told
from flatpack.profiles import TinRow
from flatpack.wording import english_plans as words


@dataclass(frozen=True, slots=True, kw_only=True)
class Purchase:
    """One row: how much is needed, in what it is sold, how many of these, price of one."""

    kind: str
    item: str
    size: str
    needed: str
    sold: str
    count: int
    price: float | None

    @property
    def total(self) -> float | None:
        """Price of all; None when the price of one isn't known."""
        return None if self.price is None else round(self.count * self.price, 2)


class Wet(NamedTuple):
    """Glue in grams or finish in litres: its kind, key and name, and how much is needed."""

    kind: str
    key: str
    name: str
    needed: float
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """Areas of the finished pieces and of all coats on them, m2; glue and finish that they take."""

    surface: float
    glued: float
    coated: float
    wets: tuple[Wet, ...]


def purchases(plans: Plans, wets: Iterable[Wet]) -> Iterator[Purchase]:
    """Every row, in the order of the merchant's counter."""
    for kind, every in ((words.BOARD, plans.boards), (words.ROD, plans.rods)):
        for plan in every:
            yield from _lengths(kind, plan)
    yield from _sheets(plans)
    yield from _saw_cuts(plans)
    yield from _hardware(plans)
    for wet in wets:
        if wet.needed > 0.0:
            yield _tin(wet, [t for t in plans.stock.tins if getattr(t, wet.kind) == wet.key])


def with_open_prices(plans: Plans, rows: Iterable[Purchase]) -> Plans:
    """The plans with a finding for what else has no price; timber has its own findings."""
    timber = (words.BOARD, words.ROD, words.SHEET)
    names = [r.item for r in rows if r.total is None and r.kind not in timber]
    every = tuple(dict.fromkeys(names))
    if not every:
        return plans
    text = words.unpriced_goods(words_of(every))
    more = told("no-price", "not done", text, "", words.PRICE_IT)
    return replace(plans, findings=in_order([*plans.findings, more]))


def words_of(names: Sequence[str], most: int = 3) -> str:
    """Some names, and how many more."""
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return ", ".join(names[:most]) + more


def _lengths(kind: str, plan: BoardPlan) -> Iterator[Purchase]:
    bought = Counter(b.stock for b in plan.plan.boards if not b.stock.offcut)
    for stock in sorted(bought, key=lambda s: (s.length, s.name)):
        yield Purchase(
            kind=kind,
            item=plan.title,
            size=words.long(f"{stock.length:.1f}".removesuffix(".0")),
            needed=str(bought[stock]),
            sold=words.EACH,
            count=bought[stock],
            price=stock.price,
        )


def _sheets(plans: Plans) -> Iterator[Purchase]:
    for title, bought in _bought_sheets(plans):
        for (name, price), count in sorted(bought.items(), key=lambda row: row[0][0]):
            size = name.removeprefix(f"{title}, ")
            yield Purchase(kind=words.SHEET, item=title, size=size, needed=str(count),
                           sold=words.EACH, count=count, price=price)  # fmt: skip


def _bought_sheets(plans: Plans) -> Iterator[tuple[str, Counter[tuple[str, float | None]]]]:
    for plan in plans.sheets:
        new = (s.stock for s in plan.plan.sheets if not s.stock.offcut)
        yield plan.lot.board.name, Counter((s.name, s.price) for s in new)
    for nested in plans.nests:
        yield nested.lot.board.name, sheets_taken(s.blank for s in nested.nest.sheets)


def paid_cuts(plans: Plans) -> int:
    """Cuts on the merchant's panel saw beyond those that are free."""
    cuts = sum(plan.plan.cut_count for plan in plans.sheets)
    return max(0, cuts - plans.stock.saws.free_cuts)


def _saw_cuts(plans: Plans) -> Iterator[Purchase]:
    paid = paid_cuts(plans)
    if paid and plans.stock.saws.per_cut is not None:
        free = plans.stock.saws.free_cuts
        yield Purchase(kind=words.SAWING, item=words.PAID_CUTS, size=words.free_cuts(free),
                       needed=str(paid), sold=words.EACH, count=paid,
                       price=plans.stock.saws.per_cut)  # fmt: skip


def _hardware(plans: Plans) -> Iterator[Purchase]:
    for (item, size), (needed, spare) in with_spares(plans).items():
        pack = next((p for p in plans.stock.packs if p.item == item and p.size == size), None)
        pack = pack or next((p for p in plans.stock.packs if p.item == item and not p.size), None)
        pieces = pack.pieces if pack else 1
        yield Purchase(
            kind=words.HARDWARE,
            item=item,
            size=size,
            needed=words.and_spares(needed, spare),
            sold=words.pack(pieces) if pieces > 1 else words.EACH,
            count=math.ceil((needed + spare) / pieces),
            price=pack.price if pack else None,
        )


def _tin(wet: Wet, tins: Iterable[TinRow]) -> Purchase:
    """The tins that hold enough for the least money, or the fewest; one row without any."""
    kind = words.GLUE if wet.kind == "glue" else words.FINISH
    needed, key, unit = wet.needed, wet.name, wet.unit
    amount = f"{needed:.2f} {unit}" if unit == "l" else f"{math.ceil(needed)} {unit}"
    rows = sorted(
        tins,
        key=lambda t: (t.price is None, math.ceil(needed / t.holds) * (t.price or 1.0), t.holds),
    )
    if not rows:
        return Purchase(kind=kind, item=key, size="", needed=amount, sold="", count=1, price=None)
    best = rows[0]
    return Purchase(kind=kind, item=key, size="", needed=amount, sold=f"{best.holds:g} {unit}",
                    count=math.ceil(needed / best.holds), price=best.price)  # fmt: skip


def cost(rows: Iterable[Purchase]) -> tuple[float, int]:
    """Sum of the rows with a price, and how many rows have none."""
    every = tuple(rows)
    known = [r.total for r in every if r.total is not None]
    return round(sum(known), 2), len(every) - len(known)
